import { isFinned } from '../../src/explain/argument/argue-chains.js'
import type { Fact, Made } from '../../src/explain/argument/facts.js'
import type { Reason } from '../../src/explain/argument/reason.js'
import { areIn } from '../../src/explain/argument/sight.js'
import { explainStep } from '../../src/explain/explain-step.js'
import { hasCandidate } from '../../src/grid/board/ask.js'
import type { Candidate } from '../../src/grid/board.js'
import { digitsOf } from '../../src/grid/digits.js'
import { exclude } from '../../src/logic/proof/exclude.js'
import type { ChainNode, FoundStep } from '../../src/logic/steps/step.js'
import { expect } from './expect.js'

/**
 * What is said about a step and is not so in the solution: every fact and every reason, each with what was found. None
 * of them may be there.
 */
export function untruths(step: FoundStep, solution: ArrayLike<number>): string[] {
  const { facts, reasons } = explainStep(step)
  const { fact, reason } = checker(step, solution)
  const wrong: string[] = []
  const attempt = (name: string, check: () => void) => {
    try {
      check()
    } catch (error) {
      wrong.push(`${name}: ${String(error)}`)
    }
  }
  for (const said of facts) attempt(said.kind, () => fact(said))
  for (const why of reasons) attempt(why.reason.kind, () => reason(why.effect, why, why.reason))
  return wrong
}

/** What a solution says about the words. */
function checker(step: FoundStep, solution: ArrayLike<number>) {
  const { geometry } = step.before
  const isTrue = ({ cell, digit }: Candidate) => solution[cell] === digit
  const holds = ({ digit, cells }: ChainNode) => cells.some((cell) => solution[cell] === digit)
  const oneOf = (nodes: readonly ChainNode[]) => expect(nodes.some(holds)).toBe(true)
  const sets = () => {
    if (step.pattern.shape !== 'sets') throw new Error('sets of a step without any')
    return step.pattern.sets
  }
  // Links that need a false candidate to be true say nothing about the solution.
  const isFree = !(step.pattern.shape === 'chain' && isFinned(step.pattern.links))
  let before: { readonly node: ChainNode; readonly value: boolean } | undefined
  /** What the chain came to last, if it is so, makes this so, too. */
  const follow = (node: ChainNode, becomes: boolean) => {
    if (isFree && before && holds(before.node) === before.value) expect(holds(node)).toBe(becomes)
    before = { node, value: becomes }
  }
  const made = (next: Made | undefined, moved: boolean) => {
    if (next) follow(next.node, true)
    else if (!moved) expect(before!.value).toBe(true)
  }

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
        expect(said.base).toHaveLength(said.cover.length)
        return
      case 'pincer':
        if (said.when.includes(solution[said.pivot]!)) expect(solution[said.cell]).toBe(said.gives)
        if (said.house !== undefined) expect(areIn(geometry, said.house, [said.pivot, said.cell])).toBe(true)
        return
      case 'pivot':
      case 'stem':
        expect(said.digits).toContain(solution[said.cell])
        return
      case 'pivot-itself':
        expect(hasCandidate(step.before, said.pivot, said.digit)).toBe(true)
        return
      case 'wing-count':
        for (const digit of said.once)
          expect(said.cells.filter((cell) => solution[cell] === digit).length).toBeLessThanOrEqual(1)
        oneOf([{ digit: said.digit, cells: said.cells }])
        return
      case 'alike':
        for (const cell of said.cells)
          expect(digitsOf(step.before.candidates[cell]!)).toEqual([...said.digits])
        return
      case 'bridge': {
        oneOf(said.ways.map(({ places }) => ({ digit: said.digit, cells: places })))
        for (const { places, cell } of said.ways)
          if (holds({ digit: said.digit, cells: places })) expect(solution[cell]).toBe(said.gives)
        return
      }
      case 'take-turns':
        said.cells.forEach((cell, i) => {
          expect(said.digits).toContain(solution[cell])
          if (i > 0) expect(solution[cell]).not.toBe(solution[said.cells[i - 1]!])
        })
        return
      case 'joined':
        for (const { far, near } of said.pairs) oneOf([{ digit: said.digit, cells: [...far, ...near] }])
        expect(
          areIn(
            geometry,
            said.joint,
            said.pairs.flatMap(({ near }) => near),
          ),
        ).toBe(true)
        return
      case 'chain-start':
        before = { node: said.node, value: said.value }
        made(said.made, false)
        return
      case 'chain-move':
        follow(said.off, false)
        made(said.made, true)
        return
      case 'cluster':
        expect(said.one.every(isTrue) !== said.other.every(isTrue)).toBe(true)
        expect(said.one.some(isTrue) !== said.other.some(isTrue)).toBe(true)
        return
      case 'colour-clash':
      case 'colour-bridge':
        expect(said.pair.every(isTrue)).toBe(false)
        return
      case 'sets':
        for (const { cells, digits } of said.sets) {
          expect(digits).toHaveLength(cells.length + 1)
          for (const cell of cells) expect(digits).toContain(solution[cell])
        }
        return
      case 'set-needs': {
        const { cells } = sets()[said.index]!
        const has = (digit: number, own: readonly number[]) => holds({ digit, cells: own })
        if (said.from !== undefined)
          expect(has(said.lacks, cells) && has(said.lacks, sets()[said.from]!.cells)).toBe(false)
        if (!has(said.lacks, cells)) expect(has(said.needs, cells)).toBe(true)
        return
      }
      case 'set-ring':
        for (const { digit, between } of said.joins)
          expect(between.filter((index) => holds({ digit, cells: sets()[index]!.cells }))).toHaveLength(1)
        return
      case 'crossing-count': {
        const cells = [...said.crossing, ...said.sides.flatMap((side) => side.cells)]
        const all = [...said.once, ...said.twice, ...said.twice].sort()
        expect(cells.map((cell) => solution[cell]).sort()).toEqual(all)
        for (const side of said.sides)
          expect(areIn(geometry, side.house, [...said.crossing, ...side.cells])).toBe(true)
        return
      }
      case 'petal':
        if (solution[said.stem] !== said.digit) return
        for (const digit of said.keeps) oneOf([{ digit, cells: said.set.cells }])
        return
      case 'extras':
        expect(said.extras.some(isTrue)).toBe(true)
        return
      case 'extras-subset':
        expect(said.others.length + 1).toBe(said.digits.length)
        return
      case 'takes':
        // with one of the candidates supposed, which are false, nothing of this need be so
        for (const { out } of said.ways) expect(out.length).toBeGreaterThan(0)
        return
      case 'exocet-targets': {
        const digits = (cells: readonly number[]) => cells.map((cell) => solution[cell]).sort()
        expect(digits(said.targets)).toEqual(digits(said.base))
        return
      }
      case 'exocet-base':
        for (const cell of said.base) expect(said.digits).toContain(solution[cell])
        return
      case 'exocet-lines':
        expect(said.across.length).toBeLessThan(said.lines.length)
        return
      case 'sector-count': {
        const sectors = said.houses.flatMap(({ house, digits }) => digits.map((digit) => ({ house, digit })))
        expect(sectors).toHaveLength(said.cells.length)
        for (const { house, digit } of sectors)
          oneOf([{ digit, cells: said.cells.filter((cell) => areIn(geometry, house, [cell])) }])
        return
      }
      case 'split':
      case 'premise':
        if (said.premise.kind === 'cell') expect(said.premise.digits).toContain(solution[said.premise.cell])
        else oneOf([said.premise])
        return
      case 'branch':
        if (typeof said.end === 'object' && 'by' in said.end)
          for (const removal of said.end.removed)
            expect(said.end.by.some((candidate) => exclude(geometry, candidate, removal))).toBe(true)
        return
      case 'conclusion':
        for (const candidate of said.candidates) expect(isTrue(candidate)).toBe(said.effect === 'placed')
        return
      case 'suppose':
      case 'chain-given':
        expect((said.kind === 'suppose' ? said.candidates : said.given).some(isTrue)).toBe(false)
        return
      case 'suppose-not':
        expect(isTrue(said.candidate)).toBe(true)
        return
      case 'watch':
        expect(said.candidates.some(isTrue)).toBe(false)
        return
      case 'follows':
        expect(said.forced.length).toBeGreaterThan(1)
        return
      case 'loop':
      case 'colour-outseen':
      case 'exchange':
      case 'assumes-one-solution':
      case 'cannot-all-hold':
      case 'pairs-fail':
      case 'starved':
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
      case 'set-keeps':
        oneOf([why])
        for (const cell of why.cells) excluded({ cell, digit: why.digit })
        return
      case 'used-in-houses':
        expect(why.houses.some((house) => areIn(geometry, house, [subject.cell]))).toBe(true)
        expect(isTrue(subject)).toBe(false)
        return
      case 'ends-differ':
        expect(why.cells.map((cell) => solution[cell]).sort()).toEqual([...why.digits].sort())
        for (const cell of why.cells) excluded({ cell, digit: subject.digit })
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
        for (const cover of why.covers) expect(areIn(geometry, cover, [subject.cell])).toBe(true)
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
      case 'starves':
      case 'every-way-fails':
      case 'only-extra':
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
