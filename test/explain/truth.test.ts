import { describe, expect, it } from 'vitest'
import type { Fact, Reason } from '../../src/explain/argument/facts.js'
import { explainStep } from '../../src/explain/explain-step.js'
import { openCount } from '../../src/grid/board/ask.js'
import type { Candidate } from '../../src/grid/board.js'
import { layoutOf } from '../../src/grid/layout.js'
import { exclude } from '../../src/logic/exclude.js'
import { findSteps } from '../../src/logic/find.js'
import { solve } from '../../src/logic/solve.js'
import type { ChainNode, FoundStep } from '../../src/logic/step.js'
import { randomPuzzle } from '../support/random-boards.js'

/**
 * Nothing that is said about a step may be false: every fact and every reason of many steps is held against the
 * solution. The puzzles come from these seeds.
 */
const CHAINS = /chain|continuous|^als-|^w-wing|kite|skyscraper|turbot|remote/

const SEEDS = Array.from({ length: 24 }, (_, i) => 2000 + i)

/** What a solution says about the words. */
function checker(step: FoundStep, solution: ArrayLike<number>) {
  const { geometry } = step.before
  const layout = layoutOf(geometry)
  const isTrue = ({ cell, digit }: Candidate) => solution[cell] === digit
  const holds = ({ digit, cells }: ChainNode) => cells.some((cell) => solution[cell] === digit)
  const oneOf = (nodes: readonly ChainNode[]) => expect(nodes.some(holds)).toBe(true)

  function fact(said: Fact): void {
    switch (said.kind) {
      case 'last-cell':
      case 'only-candidate':
      case 'only-place':
        expect(isTrue(said)).toBe(true)
        return
      case 'confined':
        oneOf([{ digit: said.digit, cells: said.cells }])
        return
      case 'naked-subset':
      case 'hidden-subset':
        expect(said.cells.map((cell) => solution[cell]).sort()).toEqual([...said.digits].sort())
        return
      case 'fish':
      case 'fish-fins':
        return
      case 'pincer':
        if (said.when.includes(solution[said.pivot]!)) expect(solution[said.cell]).toBe(said.gives)
        return
      case 'pivot':
      case 'stem':
        expect(said.digits).toContain(solution[said.cell])
        return
      case 'wing-count':
        for (const digit of said.once)
          expect(said.cells.filter((cell) => solution[cell] === digit).length).toBeLessThanOrEqual(1)
        return
      case 'one-of':
        oneOf(said.nodes)
        return
      case 'chain-walk': {
        // Links that need a false candidate to be true say nothing about the solution.
        if (said.given.length > 0) return
        let before = { node: said.start, value: said.startsTrue }
        for (const { node, becomes } of said.moves) {
          if (holds(before.node) === before.value) expect(holds(node)).toBe(becomes)
          before = { node, value: becomes }
        }
        return
      }
      case 'self-contradiction':
        expect(holds(said.node)).toBe(!said.supposed)
        return
      case 'cluster':
        expect(said.one.every(isTrue) !== said.other.every(isTrue)).toBe(true)
        expect(said.one.some(isTrue) !== said.other.some(isTrue)).toBe(true)
        return
      case 'colour-clash':
      case 'colour-bridge':
        expect(said.pair.every(isTrue)).toBe(false)
        return
      case 'join': {
        if (step.pattern.shape !== 'sets') throw new Error('a join without sets')
        const [a, b] = said.between.map((i) => step.pattern.shape === 'sets' && step.pattern.sets[i]!.cells)
        const has = (cells: readonly number[] | false | undefined) =>
          cells !== false && cells?.some((cell) => solution[cell] === said.digit)
        expect(has(a) && has(b)).not.toBe(true)
        return
      }
      case 'petal': {
        if (solution[said.stem] !== said.digit || step.pattern.shape !== 'sets') return
        const { cells } = step.pattern.sets[said.index]!
        for (const digit of said.keeps) oneOf([{ digit, cells }])
        return
      }
      case 'not-together':
        for (const way of said.ways) expect(way.every(isTrue)).toBe(false)
        return
      case 'exocet-targets': {
        const digits = (cells: readonly number[]) => cells.map((cell) => solution[cell]).sort()
        expect(digits(said.targets)).toEqual(digits(said.base))
        return
      }
      case 'exocet-base':
        for (const cell of said.base) expect(said.digits).toContain(solution[cell])
        return
      case 'sector-count': {
        const sectors = said.houses.flatMap(({ house, digits }) => digits.map((digit) => ({ house, digit })))
        expect(sectors).toHaveLength(said.cells.length)
        for (const { house, digit } of sectors)
          oneOf([{ digit, cells: said.cells.filter((cell) => layout.positionIn(house, cell) >= 0) }])
        return
      }
      case 'extras':
        expect(said.extras.some(isTrue)).toBe(true)
        return
      case 'split':
      case 'premise':
        if (said.premise.kind === 'cell') expect(said.premise.digits).toContain(solution[said.premise.cell])
        else oneOf([said.premise])
        return
      case 'placed':
        expect(said.placements.every(isTrue)).toBe(true)
        return
      case 'removed':
        expect(said.removals.some(isTrue)).toBe(false)
        return
      case 'end-excluded':
        for (const candidate of said.given)
          for (const cell of said.node.cells)
            expect(exclude(geometry, { cell, digit: said.node.digit }, candidate)).toBe(true)
        return
      case 'loop':
      case 'colour-outseen':
      case 'set':
      case 'exchange':
      case 'assumes-one-solution':
      case 'branch':
      case 'cannot-all-hold':
      case 'exocet-lines':
      case 'goes-with-none':
        return
      default:
        said satisfies never
    }
  }

  function reason(effect: 'placed' | 'removed', subject: Candidate, why: Reason): void {
    const excluded = (candidate: Candidate) => expect(exclude(geometry, candidate, subject)).toBe(true)
    switch (why.kind) {
      case 'taken-elsewhere':
      case 'kept-by-some-set':
        oneOf([why])
        for (const cell of why.cells) excluded({ cell, digit: why.digit })
        return
      case 'set-keeps':
        oneOf([why])
        return
      case 'used-in-house':
        oneOf([why])
        expect(why.cells).not.toContain(subject.cell)
        return
      case 'digits-used':
        expect(why.digits).toContain(subject.digit)
        expect(why.cells).not.toContain(subject.cell)
        return
      case 'cell-reserved':
        expect(why.cells).toContain(subject.cell)
        expect(why.digits).not.toContain(subject.digit)
        return
      case 'covered':
        expect(layout.positionIn(why.cover, subject.cell)).toBeGreaterThanOrEqual(0)
        for (const fin of why.fins) excluded({ cell: fin, digit: subject.digit })
        return
      case 'excluded-by-each':
        oneOf(why.nodes)
        for (const { digit, cells } of why.nodes) for (const cell of cells) excluded({ cell, digit })
        return
      case 'chain-denies':
        expect(isTrue(subject)).toBe(false)
        for (const cell of why.end.cells) excluded({ cell, digit: why.end.digit })
        return
      case 'kept-here':
        expect(isTrue(subject)).toBe(true)
        expect(why.digit).toBe(subject.digit)
        for (const cells of why.sets) expect(cells).toContain(subject.cell)
        return
      case 'sees-both-colours':
        expect(isTrue(why.one) || isTrue(why.other)).toBe(true)
        excluded(why.one)
        excluded(why.other)
        return
      case 'goes-with-none':
      case 'not-in-pair':
      case 'chain-returns':
      case 'leads-nowhere':
      case 'leaves-exchange':
      case 'premises-fail':
      case 'false-colour':
      case 'in-every-case':
      case 'supposition-fails':
      case 'only-choice':
        expect(isTrue(subject)).toBe(effect === 'placed')
        return
      default:
        why satisfies never
    }
  }
  return { fact, reason }
}

function checkStep(step: FoundStep, solution: ArrayLike<number>): void {
  const { facts, reasons, sentences } = explainStep(step)
  const { fact, reason } = checker(step, solution)
  try {
    facts.forEach(fact)
    for (const why of reasons) reason(why.effect, why, why.reason)
    expect(reasons).toHaveLength(step.placements.length + step.removals.length)
    for (const sentence of [...sentences, ...reasons.map((why) => why.sentence)]) {
      expect(sentence).toMatch(/^[A-Zr0-9].*\.$/)
      expect(sentence).not.toMatch(/undefined|NaN|\[object|\. \.|,,|: \./)
    }
  } catch (error) {
    throw new Error(`${step.technique}: ${sentences.join(' ')}\n${String(error)}`)
  }
}

describe('what is said about steps is true', () => {
  it.each(SEEDS)('on every step of the path of puzzle %i', (seed) => {
    const puzzle = randomPuzzle(seed)
    const path = solve(puzzle)
    expect(path.status).toBe('solved')
    for (const step of path.steps) checkStep(step, path.board.digits)
  })

  // Rarer patterns, each after the easy steps of a puzzle that has it.
  it.each([
    ['junior-exocet', 343],
    ['multi-sector-locked-set', 14],
    ['aligned-triple-exclusion', 1],
    ['death-blossom-with-set-stem', 1],
  ] as const)('on every %s of puzzle %i', (technique, seed) => {
    const puzzle = randomPuzzle(seed)
    const { board } = solve(puzzle, { preset: 'mark' })
    const steps = findSteps(board, { techniques: [technique] })
    expect(steps.length).toBeGreaterThan(0)
    for (const step of steps) checkStep(step, solve(puzzle).board.digits)
  })

  it('on every step that can be found half way', () => {
    const kinds = new Set<string>()
    for (const seed of SEEDS.slice(0, 12)) {
      const puzzle = randomPuzzle(seed)
      const { board } = solve(puzzle, { preset: 'mark' })
      if (openCount(board) === 0) continue
      const solution = solve(puzzle).board.digits
      for (const step of findSteps(board, { preset: 'chain' })) {
        kinds.add(step.technique)
        checkStep(step, solution)
        // what is told as a chain gives its reason as a chain, not as any premises would
        if (!CHAINS.test(step.technique) || step.pattern.shape === 'premises') continue
        const said = explainStep(step).reasons.map(({ reason }) => reason.kind)
        expect(said.filter((kind) => kind === 'premises-fail' || kind === 'leads-nowhere')).toEqual([])
      }
    }
    expect(kinds.size).toBeGreaterThan(12)
  })
})
