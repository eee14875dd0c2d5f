import { layoutOf } from '../../grid/layout.js'
import type { FoundStep, Pattern } from '../../logic/steps/step.js'
import { candidatesIn, cellsOfFew, choices, digitsBetween, seenByAll } from './board-facts.js'
import type { NearMiss } from './clue.js'
import { type Quarry, works } from './quarry.js'
import { sharedHouses } from './why-here.js'

type Wing = Extract<Pattern, { shape: 'wing' }>

export function huntWing(step: FoundStep, pattern: Wing): Quarry {
  const { before } = step
  const { pivot, pincers, digit } = pattern
  const all = [pivot, ...pincers]
  const most = Math.max(...all.map((cell) => candidatesIn(before, cell).length))
  const isCounted = pincers.some((cell) => candidatesIn(before, cell).length !== 2) || pincers.length > 2
  const way = isCounted ? 'counted-wing' : most === 3 ? 'pivot-of-three' : 'pivot'
  return {
    digit: undefined,
    houses: sharedHouses(before, all),
    clues: [
      { kind: 'cells-of-few', most, cells: cellsOfFew(before, most) },
      { kind: 'try', way, size: all.length },
      ...(isCounted ? countedMisses(step, pattern) : pivotMisses(step, pattern).slice(0, 2)),
      works(step, way, {
        cells: all,
        digits: [digit, ...digitsBetween(before, all).filter((other) => other !== digit)],
      }),
    ],
  }
}

/** Other pivots with as many candidates: those whose pincers strike nothing, and those that lack a pincer. */
function pivotMisses(step: FoundStep, { pivot }: Wing): NearMiss[] {
  const { before } = step
  const layout = layoutOf(before.geometry)
  const size = candidatesIn(before, pivot).length
  const pairs = cellsOfFew(before, 2)
  const unseen: NearMiss[] = []
  const alone: NearMiss[] = []
  for (const cell of cellsOfFew(before, size)) {
    const own = candidatesIn(before, cell)
    if (cell === pivot || own.length !== size) continue
    const near = pairs.filter((other) => layout.arePeers(cell, other))
    let isWing = false
    for (const [a, b] of choices(near, 2)) {
      const [first, second] = [candidatesIn(before, a!), candidatesIn(before, b!)]
      const common = first.filter((digit) => second.includes(digit))
      const rest = [...first, ...second].filter((digit) => digit !== common[0])
      const fits =
        common.length === 1 &&
        own.join() === (size === 2 ? rest : [...rest, common[0]!]).sort((p, q) => p - q).join()
      if (!fits) continue
      isWing = true
      const ends = size === 2 ? [a!, b!] : [cell, a!, b!]
      if (seenByAll(before, common[0]!, ends).length === 0)
        unseen.push({ kind: 'unseen', digit: common[0]!, cells: ends, pivot: cell })
    }
    if (isWing || size !== 2) continue
    const lonely = own.filter(
      (digit) =>
        !near.some((other) => {
          const theirs = candidatesIn(before, other)
          return theirs.includes(digit) && theirs.join() !== own.join()
        }),
    )
    if (lonely.length === 1 && near.length > 0)
      alone.push({ kind: 'no-partner', cell, digits: own, digit: lonely[0]! })
  }
  return [...unseen.slice(0, 1), ...alone]
}

/** As many cells, one of them another, with one digit too many. */
function countedMisses({ before }: FoundStep, { pivot, pincers }: Wing): NearMiss[] {
  const layout = layoutOf(before.geometry)
  const others = cellsOfFew(before, 3).filter(
    (cell) => layout.arePeers(cell, pivot) && !pincers.includes(cell),
  )
  for (let last = pincers.length - 1; last >= 0; last--)
    for (const other of others) {
      const cells = [pivot, ...pincers.filter((_, i) => i !== last), other]
      const digits = digitsBetween(before, cells)
      if (digits.length === cells.length + 1) return [{ kind: 'one-digit-too-many', cells, digits }]
    }
  return []
}
