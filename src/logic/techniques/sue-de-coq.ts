import type { Board, Candidate } from '../../grid/board.js'
import { type DigitSet, digitCount, digitsOf } from '../../grid/digits.js'
import type { House } from '../../grid/geometry.js'
import { candidatesSeenByAll, factsOf } from '../facts.js'
import { trimPremises } from '../links/trim.js'
import { LookedInVain, stampOfHouses } from '../path-memory.js'
import { cellPremise } from '../premise-holds.js'
import type { Step } from '../step.js'
import type { Technique } from '../technique.js'

/** Some open cells of one part of two crossing houses, with the digits they may take. */
interface Part {
  readonly cells: readonly number[]
  readonly digits: DigitSet
}

/**
 * Sue de Coq: cells where two houses cross, some of the rest of the one house and some of the rest of the other, with as
 * many digits between them as cells, a digit of both rests counted twice. Then no digit can be spared: each is in its house
 * among these cells, and the other cells there lose it.
 *
 * In the basic form the cells beside the crossing have no digits but those of the crossing; in the extended one they do.
 */
export const sueDeCoq: Technique = {
  name: 'sue-de-coq',
  level: 'chain',
  find(board, report) {
    const { houses } = board.geometry
    const { stamps } = factsOf(board)
    for (const first of houses) {
      for (const second of houses.slice(first.index + 1)) {
        const stamp = stampOfHouses(stamps, [first.index, second.index])
        const place = first.index * houses.length + second.index
        if (vain.look(place, stamp, report, (tell) => reportCrossing(board, first, second, tell))) return
      }
    }
  },
}

const vain = new LookedInVain()

function reportCrossing(board: Board, first: House, second: House, report: (step: Step) => boolean): boolean {
  const shared = first.cells.filter((cell) => second.cells.includes(cell))
  if (shared.length < 2) return false
  const crossings = partsOf(board, shared).filter(
    ({ cells, digits }) => cells.length > 1 && digitCount(digits) >= cells.length + 2,
  )
  if (crossings.length === 0) return false
  const beside = ({ cells }: House) =>
    partsOf(
      board,
      cells.filter((cell) => !shared.includes(cell)),
    )
  const [ones, others] = [beside(first), beside(second)]
  return crossings.some((crossing) => reportFits(board, crossing, ones, others, report))
}

/** Every choice of open cells, one or more, few cells first. */
function partsOf({ candidates }: Board, cells: readonly number[]): Part[] {
  const parts: Part[] = [{ cells: [], digits: 0 }]
  for (const cell of cells) {
    if (candidates[cell] === 0) continue
    for (let i = 0, before = parts.length; i < before; i++)
      parts.push({ cells: [...parts[i]!.cells, cell], digits: parts[i]!.digits | candidates[cell]! })
  }
  return parts.slice(1).sort((a, b) => a.cells.length - b.cells.length)
}

/** How many cells a part beside the crossing adds beyond the digits it adds. */
function gain(part: Part, crossing: Part): number {
  return part.cells.length - digitCount(part.digits & ~crossing.digits)
}

function reportFits(
  board: Board,
  crossing: Part,
  ones: readonly Part[],
  others: readonly Part[],
  report: (step: Step) => boolean,
): boolean {
  const wanted = digitCount(crossing.digits) - crossing.cells.length
  const helps = (part: Part) => gain(part, crossing) > 0 && (part.digits & crossing.digits) !== 0
  const fitting = others.filter(helps)
  for (const one of ones) {
    if (!helps(one)) continue
    for (const other of fitting) {
      const twice = one.digits & other.digits & crossing.digits
      if (gain(one, crossing) + gain(other, crossing) - digitCount(twice) !== wanted) continue
      const removals = removalsBy(board, crossing, one, other)
      if (removals.length === 0) continue
      const cells = [...crossing.cells, ...one.cells, ...other.cells]
      const premises = cells.map((cell) => cellPremise(board, cell))
      // where fewer cells do, they are a locked set or a smaller pattern of this kind
      if (trimPremises(board.geometry, premises, { placements: [], removals }).length < premises.length)
        continue
      const step: Step = {
        technique: 'sue-de-coq',
        level: 'chain',
        placements: [],
        removals,
        premises,
        pattern: {
          shape: 'sets',
          sets: [crossing, one, other].map((part) => ({ cells: part.cells, digits: digitsOf(part.digits) })),
          joins: [one, other].flatMap((part, i) =>
            digitsOf(part.digits & crossing.digits).map((digit) => ({
              digit,
              between: [0, i + 1] as [number, number],
            })),
          ),
        },
      }
      if (report(step)) return true
    }
  }
  return false
}

/**
 * Each digit is used as often as it can be: one that both sides have stands on both, so the crossing lacks it and either
 * side locks it; any other stands once, and what sees all its places goes.
 */
function removalsBy(board: Board, crossing: Part, one: Part, other: Part): Candidate[] {
  const gone = new Map<string, Candidate>()
  const remove = (digit: number, places: readonly number[]) => {
    for (const cell of candidatesSeenByAll(board, digit, places))
      gone.set(`${cell}.${digit}`, { cell, digit })
  }
  const placesOf = (digit: number, ...parts: readonly Part[]) =>
    parts.flatMap(({ cells }) => cells.filter((cell) => board.hasCandidate(cell, digit)))
  for (const digit of digitsOf(crossing.digits | one.digits | other.digits)) {
    const both = one.digits & other.digits & (1 << (digit - 1))
    if (both) {
      remove(digit, placesOf(digit, one))
      remove(digit, placesOf(digit, other))
    } else {
      remove(digit, placesOf(digit, crossing, one, other))
    }
  }
  return [...gone.values()].sort((a, b) => a.cell - b.cell || a.digit - b.digit)
}
