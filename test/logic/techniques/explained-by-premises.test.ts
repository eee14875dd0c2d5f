import { describe, expect, it } from 'vitest'
import type { Board, Candidate } from '../../../src/grid/board.js'
import { layoutOf } from '../../../src/grid/layout.js'
import { techniqueNamed, techniquesUpTo } from '../../../src/logic/catalogue.js'
import { exclude } from '../../../src/logic/proof/exclude.js'
import type { ChainLink, ChainNode, Premise, Step } from '../../../src/logic/steps/step.js'
import { allSteps, stuckBoards } from '../../support/random-boards.js'
import { said } from '../../support/said.js'

/** Shapes whose strong links, sets and cells each stand for premises. */
const SHAPES: readonly string[] = ['chain', 'colouring', 'sets', 'wing', 'premises']

/** Techniques of other shapes whose search for every instance takes long. */
const SLOW = /mutant|franken|multi-sector|exclusion|set-stem/

function nameOf(premise: Premise): string {
  return premise.kind === 'cell' ? `cell ${premise.cell}` : `${premise.digit} in house ${premise.house}`
}

function placeOf({ by, from }: ChainLink): string[] {
  switch (by.kind) {
    case 'cell':
      return [`cell ${by.cell}`]
    case 'house':
      return [`${from.digit} in house ${by.house}`]
    case 'set':
      return by.cells.map((cell) => `cell ${cell}`)
    case 'premises':
      return ['no place']
  }
}

/** What a pattern shows that a premise must stand for. */
function shown({ pattern, premises, removals }: Step): string[] {
  const cells = (of: readonly number[]) => of.map((cell) => `cell ${cell}`)
  switch (pattern.shape) {
    case 'chain':
    case 'colouring':
      return pattern.links.filter(({ kind }) => kind === 'strong').flatMap(placeOf)
    case 'sets':
      return cells([
        ...pattern.sets.flatMap((set) => set.cells),
        ...(pattern.stem === undefined ? [] : [pattern.stem]),
      ])
    case 'wing':
      return cells([pattern.pivot, ...pattern.pincers])
    case 'exclusion': {
      // the cell of a candidate that goes with none is named for its sake, and no premise unless others need it
      const own = removals.length > 0 && removals.every(({ cell }) => cell === removals[0]!.cell)
      const filled = own ? pattern.cells.filter((cell) => cell !== removals[0]!.cell) : pattern.cells
      return cells([...filled, ...pattern.excluded.flatMap(({ by }) => by)])
    }
    case 'premises':
      return premises.map(nameOf)
    default:
      throw new Error(`${pattern.shape} is not among these shapes`)
  }
}

const candidatesOf = ({ digit, cells }: ChainNode): Candidate[] => cells.map((cell) => ({ cell, digit }))

/** The candidates that a strong link's cell, house or set has, and the fins are not. */
function choicesOf(board: Board, { by, from, fins = [] }: ChainLink): Candidate[] {
  const { candidates, geometry } = board
  const digits = Array.from({ length: geometry.order }, (_, i) => i + 1)
  const inCells = (cells: readonly number[], of: readonly number[]) =>
    cells.flatMap((cell) =>
      of.filter((d) => candidates[cell]! & (1 << (d - 1))).map((digit) => ({ cell, digit })),
    )
  const all =
    by.kind === 'cell'
      ? inCells([by.cell], digits)
      : by.kind === 'set'
        ? inCells(by.cells, digits)
        : by.kind === 'house'
          ? inCells(layoutOf(geometry).houses[by.house]!.cells, [from.digit])
          : []
  return all.filter(({ cell, digit }) => !fins.some((fin) => fin.cell === cell && fin.digit === digit))
}

const keys = (candidates: readonly Candidate[]) =>
  candidates.map(({ cell, digit }) => `${cell}.${digit}`).sort()

/** Holds each link of a chain against the board, and the ends against the conclusion. */
function checkChain(board: Board, step: Step, links: readonly ChainLink[]): void {
  const { geometry } = board
  const sees = (candidate: Candidate, node: ChainNode) =>
    candidatesOf(node).every((other) => exclude(geometry, candidate, other))
  links.forEach((link, i) => {
    expect(link.kind).toBe(i % 2 === 0 ? 'strong' : 'weak')
    if (i > 0) expect(link.from).toEqual(links[i - 1]!.to)
    if (link.kind === 'weak') {
      for (const candidate of candidatesOf(link.from)) expect(sees(candidate, link.to)).toBe(true)
      return
    }
    const choices = choicesOf(board, link)
    const ends = [...candidatesOf(link.from), ...candidatesOf(link.to)]
    if (link.by.kind === 'set') {
      const { cells } = link.by
      expect(new Set(choices.map(({ digit }) => digit)).size).toBe(cells.length + 1)
      const ofEnds = choices.filter(({ digit }) => digit === link.from.digit || digit === link.to.digit)
      expect(keys(ends)).toEqual(keys(ofEnds))
    } else expect(keys(ends)).toEqual(keys(choices))
    for (const fin of link.fins ?? [])
      for (const removal of step.removals) expect(exclude(geometry, fin, removal)).toBe(true)
  })
  const [first, last] = [links[0]!.from, links[links.length - 1]!.to]
  for (const removal of step.removals) expect(sees(removal, first) && sees(removal, last)).toBe(true)
  for (const placement of step.placements)
    for (const end of [first, last]) expect(candidatesOf(end)).toEqual([placement])
}

describe('what a step shows', () => {
  it('is what its premises say, no more and no less, and its chain is an argument', () => {
    const seen = new Map<string, number>()
    const count = (what: string) => seen.set(what, (seen.get(what) ?? 0) + 1)
    for (const { board, puzzle } of stuckBoards(12, techniquesUpTo('mark'), { seed: 3100 })) {
      for (const technique of techniquesUpTo('chain').filter(({ name }) => !SLOW.test(name))) {
        for (const step of allSteps(board, technique)) {
          if (!SHAPES.includes(step.pattern.shape)) continue
          const where = `${technique.name} ${said(step)} on ${puzzle.givens.join('')}`
          expect([...new Set(shown(step))].sort(), where).toEqual(step.premises.map(nameOf).sort())
          count(`${technique.name} as ${step.pattern.shape}`)
          if (technique.name === 'continuous-loop')
            expect(step.pattern, where).toMatchObject({ shape: 'chain', loop: true })
          if (step.pattern.shape !== 'chain' || step.pattern.loop || technique.name === 'remote-pairs')
            continue
          checkChain(board, step, step.pattern.links)
          if (step.pattern.links.some(({ fins }) => fins)) count(`${technique.name} with fins`)
          const strong = step.pattern.links.filter(({ kind }) => kind === 'strong').flatMap(placeOf)
          if (new Set(strong).size < strong.length) count('a place twice')
        }
      }
    }
    // Boards on which these never occur would prove nothing.
    for (const common of [
      'als-chain as sets',
      'als-chain as chain',
      'als-chain with fins',
      'finned-chain with fins',
      'continuous-loop as chain',
    ])
      expect(seen.get(common) ?? 0, common).toBeGreaterThan(5)
    expect(seen.get('a place twice') ?? 0).toBeGreaterThan(5)
    expect(seen.get('finned-chain as premises') ?? 0).toBeGreaterThan(0)
  }, 120_000)

  it('is so for excluded pairs and triples, and for blossoms on sets of cells', () => {
    const names = ['aligned-pair-exclusion', 'aligned-triple-exclusion', 'death-blossom-with-set-stem']
    const techniques = names.map(techniqueNamed)
    const seen = new Map<string, number>()
    for (const { board, puzzle } of stuckBoards(15, techniquesUpTo('pattern'), { seed: 3300 })) {
      for (const technique of techniques) {
        for (const step of allSteps(board, technique)) {
          const where = `${technique.name} ${said(step)} on ${puzzle.givens.join('')}`
          expect([...new Set(shown(step))].sort(), where).toEqual(step.premises.map(nameOf).sort())
          if (step.pattern.shape === 'exclusion')
            seen.set(technique.name, (seen.get(technique.name) ?? 0) + 1)
        }
      }
    }
    for (const name of names) expect(seen.get(name) ?? 0, name).toBeGreaterThan(20)
  }, 60_000)
})
