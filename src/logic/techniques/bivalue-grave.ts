import { digitCount, digitsOf } from '../../grid/digits.js'
import { layoutOf } from '../../grid/layout.js'
import type { Facts } from '../facts/facts.js'
import { oncePerBoard } from '../facts/path-memory.js'
import type { Technique } from '../technique.js'
import type { TechniqueName } from '../technique-names.js'
import { conclusionsFrom } from '../uniqueness/conclusions.js'
import { type ExchangePattern, extrasOf } from '../uniqueness/pattern.js'

/** Cells with more than two candidates; beyond this nothing is ever in sight of all extras. */
const MOST_WIDE_CELLS = 6

/**
 * The bivalue universal grave: every open cell would have two candidates and every open digit two places in each of its
 * houses. Then all of them could be swapped, so one of the extra candidates is true. The extras follow from the houses:
 * the way to leave two candidates a cell must leave two places a digit.
 */
const graves = oncePerBoard((facts): readonly ExchangePattern[] => {
  const { board, openCells, places } = facts
  const { geometry, candidates } = board
  const layout = layoutOf(geometry)
  const wide: number[] = []
  for (const cell of openCells) {
    const count = digitCount(candidates[cell]!)
    if (count < 2) return []
    if (count > 2 && wide.push(cell) > MOST_WIDE_CELLS) return []
  }
  if (wide.length === 0) return []
  // How often each house holds each digit; extras are to bring every count to two or none.
  const counts = places.map((set) => digitCount(set))
  if (counts.some((count) => count === 1)) return []
  const found: ExchangePattern[] = []
  const kept: number[] = []
  const fits = (): boolean => counts.every((count) => count === 0 || count === 2)
  const change = (cell: number, extras: number, by: 1 | -1): void => {
    for (const house of layout.housesOf[cell]!)
      for (const digit of digitsOf(extras)) counts[house * geometry.order + digit - 1]! += by
  }
  const choose = (index: number): void => {
    if (index === wide.length) {
      if (!fits()) return
      const allowed = openCells.map((cell) => {
        const at = wide.indexOf(cell)
        return at < 0 ? candidates[cell]! : kept[at]!
      })
      found.push({ cells: openCells, allowed, extras: extrasOf(board, openCells, allowed) })
      return
    }
    const cell = wide[index]!
    const digits = digitsOf(candidates[cell]!)
    for (let i = 0; i < digits.length; i++) {
      for (let j = i + 1; j < digits.length; j++) {
        const pair = (1 << (digits[i]! - 1)) | (1 << (digits[j]! - 1))
        const extras = candidates[cell]! & ~pair
        kept.push(pair)
        change(cell, extras, -1)
        const tooFew = layout.housesOf[cell]!.some((house) =>
          digitsOf(extras).some((digit) => counts[house * geometry.order + digit - 1]! < 2),
        )
        if (!tooFew) choose(index + 1)
        change(cell, extras, 1)
        kept.pop()
      }
    }
  }
  choose(0)
  return found
})

function grave(name: TechniqueName, fits: (pattern: ExchangePattern) => boolean): Technique {
  return {
    name,
    level: 'pattern',
    assumes: 'one-solution',
    find(facts: Facts, report) {
      for (const pattern of graves(facts)) {
        if (!fits(pattern)) continue
        for (const step of conclusionsFrom(facts, name, pattern)) if (report(step)) return
      }
    },
  }
}

/** One extra candidate: it is true. */
export const bugPlusOne = grave('bug-plus-one', ({ extras }) => extras.length === 1)

/** Several extras: what follows from each of them goes. */
export const bugPlusSeveral = grave('bug-plus-several', ({ extras }) => extras.length > 1)
