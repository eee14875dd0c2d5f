import { layoutOf } from '../../grid/layout.js'
import type { ChainNode, FoundStep, Pattern } from '../../logic/steps/step.js'
import { argueChain, pairOfTurns } from '../argument/argue-chains.js'
import { rulesOut } from '../argument/sight.js'
import {
  candidatesIn,
  cellsAlike,
  cellsOfFew,
  choices,
  housesOfFew,
  openCells,
  placesOf,
  seenByAll,
} from './board-facts.js'
import type { Clue, HouseCells, NearMiss, Way } from './clue.js'
import { crossMisses, unjoinedPair } from './larger-misses.js'
import { type Quarry, works } from './quarry.js'

type Chain = Extract<Pattern, { shape: 'chain' }>

export function huntChain(step: FoundStep, pattern: Chain): Quarry {
  const { before } = step
  const { links, loop } = pattern
  const digits = [...new Set(links.flatMap(({ from, to }) => [from.digit, to.digit]))].sort((a, b) => a - b)
  const only = digits.length === 1 ? digits[0]! : undefined
  const known = argueChain(step, pattern)[0]
  const houses = links.flatMap(({ by }) => (by.kind === 'house' ? [by.house] : []))
  const ends = [links[0]!.from, links[links.length - 1]!.to]
  const endCells = [...new Set(ends.flatMap(({ cells }) => cells))]
  const base = { digit: only, houses }
  if (known?.kind === 'joined') {
    const { digit, pairs, joint } = known
    const cross = crossOf(step, digit, links)
    const way: Way = cross ? 'cross' : 'two-houses'
    const look: Clue = cross ?? {
      kind: 'houses-of-few',
      digit,
      within: 'any',
      most: 2,
      houses: housesOfFew(before, digit, 'any', 2),
    }
    return {
      ...base,
      clues: [
        look,
        { kind: 'try', way, size: 2 },
        ...(cross
          ? crossMisses(step, digit, cross.found)
          : pairMisses(
              step,
              digit,
              pairs.map(({ house }) => house),
            ).slice(0, 2)),
        works(step, way, {
          cells: pairs.flatMap(({ far }) => far),
          digits: [digit],
          houses: [...pairs.map(({ house }) => house), joint],
        }),
      ],
    }
  }
  if (known?.kind === 'alike' || known?.kind === 'take-turns') {
    const way: Way = known.kind === 'alike' ? 'same-pair' : 'turns'
    const alike = cellsAlike(before, known.digits)
    const bridge = argueChain(step, pattern).find((fact) => fact.kind === 'bridge')
    return {
      ...base,
      clues: [
        { kind: 'alike', digits: known.digits, cells: alike },
        { kind: 'try', way, size: known.cells.length },
        ...(known.kind === 'alike'
          ? [...alikeMisses(step, known.cells), ...unjoinedPair(step, known.cells)].slice(0, 2)
          : [{ kind: 'even-turns', cells: [known.cells[0]!, known.cells[2]!], moves: 2 } as const]),
        works(step, way, {
          cells:
            known.kind === 'alike' ? known.cells : [known.cells[0]!, known.cells[known.cells.length - 1]!],
          digits: bridge?.kind === 'bridge' ? [bridge.gives, bridge.digit] : known.digits,
          houses: bridge?.kind === 'bridge' ? [bridge.house] : [],
        }),
      ],
    }
  }
  const inCells = links.every(({ kind, by }) => kind === 'weak' || by.kind === 'cell')
  const hasSets = links.some(({ by }) => by.kind === 'set')
  const way: Way = loop
    ? 'ring'
    : hasSets
      ? 'set-chain'
      : only !== undefined
        ? 'digit-chain'
        : inCells
          ? 'cell-chain'
          : 'chain'
  const look: Clue[] = []
  if (only === undefined) look.push({ kind: 'cells-of-few', most: 2, cells: cellsOfFew(before, 2) })
  if (only !== undefined || (!inCells && !hasSets)) {
    const digit = only ?? ends[0]!.digit
    look.push({
      kind: 'houses-of-few',
      digit,
      within: 'any',
      most: 2,
      houses: housesOfFew(before, digit, 'any', 2),
    })
  }
  return {
    ...base,
    clues: [
      ...look,
      { kind: 'try', way, size: links.length },
      ...(loop ? [] : prefixMisses(step, pattern).slice(0, 1)),
      works(step, way, {
        cells: loop ? links.flatMap(({ from }) => from.cells) : endCells,
        digits: [...new Set(ends.map(({ digit }) => digit))],
      }),
    ],
  }
}

type Crosses = Extract<Clue, { kind: 'crosses' }>

/** A box whose places for the digit make a cross, where one of the two pairs of a chain is such a box. */
function crossOf({ before }: FoundStep, digit: number, links: Chain['links']): Crosses | undefined {
  const layout = layoutOf(before.geometry)
  const isBox = (house: number) => ['box', 'region'].includes(layout.houses[house]!.kind)
  const grouped = links.some(
    ({ kind, by, from, to }) =>
      kind === 'strong' && by.kind === 'house' && isBox(by.house) && from.cells.length + to.cells.length > 2,
  )
  if (!grouped) return undefined
  const found = layout.houses.flatMap(({ index }) => {
    if (!isBox(index)) return []
    const cells = placesOf(before, index, digit)
    if (cells.length < 3) return []
    const lines = (kind: 'row' | 'column') => [
      ...new Set(
        cells.flatMap((cell) =>
          layout.housesOf[cell]!.filter((house) => layout.houses[house]!.kind === kind),
        ),
      ),
    ]
    for (const row of lines('row'))
      for (const column of lines('column')) {
        const inRow = cells.filter((cell) => layout.positionIn(row, cell) >= 0)
        const inColumn = cells.filter((cell) => layout.positionIn(column, cell) >= 0)
        const all = new Set([...inRow, ...inColumn])
        if (all.size === cells.length && inRow.length < cells.length && inColumn.length < cells.length)
          return [{ box: index, row, column, cells }]
      }
    return []
  })
  return found.length > 0 ? { kind: 'crosses', digit, found } : undefined
}

/** Other houses with two places for the digit: a pair that does not meet, or one whose far ends nothing sees. */
function pairMisses({ before }: FoundStep, digit: number, own: readonly number[]): NearMiss[] {
  const layout = layoutOf(before.geometry)
  const houses = housesOfFew(before, digit, 'any', 2)
  const unseen: NearMiss[] = []
  const apart: NearMiss[] = []
  for (const [a, b] of choices(houses, 2) as [HouseCells, HouseCells][]) {
    if (own.includes(a.house) && own.includes(b.house)) continue
    if (a.cells.some((cell) => b.cells.includes(cell))) continue
    const meets = a.cells.flatMap((near) =>
      b.cells.filter((other) => layout.arePeers(near, other)).map((other) => [near, other] as const),
    )
    if (meets.length === 0) {
      if (own.includes(a.house) || own.includes(b.house)) apart.push({ kind: 'apart', digit, houses: [a, b] })
      continue
    }
    for (const [near, other] of meets) {
      const cells = [a.cells.find((cell) => cell !== near)!, b.cells.find((cell) => cell !== other)!]
      if (!layout.arePeers(cells[0]!, cells[1]!) && seenByAll(before, digit, cells).length === 0)
        unseen.push({ kind: 'unseen', digit, cells })
    }
  }
  return [...unseen.slice(0, 1), ...apart.slice(0, 1)]
}

/** Cells of the same two candidates between which no house joins either digit. */
function alikeMisses({ before }: FoundStep, own: readonly number[]): NearMiss[] {
  const out: NearMiss[] = []
  const layout = layoutOf(before.geometry)
  const pairs = new Map<string, number[]>()
  for (const cell of cellsOfFew(before, 2)) {
    const key = candidatesIn(before, cell).join()
    pairs.set(key, [...(pairs.get(key) ?? []), cell])
  }
  for (const cells of pairs.values())
    for (const [a, b] of choices(cells, 2)) {
      if (layout.arePeers(a!, b!) || (own.includes(a!) && own.includes(b!))) continue
      const two = candidatesIn(before, a!)
      for (const digit of two) {
        const joined = housesOfFew(before, digit, 'any', 2).some(({ cells: places }) =>
          [0, 1].some(
            (i) =>
              layout.arePeers(places[i]!, a!) &&
              layout.arePeers(places[1 - i]!, b!) &&
              !places.includes(a!) &&
              !places.includes(b!),
          ),
        )
        const gives = two.find((other) => other !== digit)!
        if (joined && seenByAll(before, gives, [a!, b!]).length === 0)
          out.push({ kind: 'unseen', digit: gives, cells: [a!, b!] })
      }
    }
  return out
}

/** Where the chain would end if one stopped earlier, and rule out nothing. */
function prefixMisses(step: FoundStep, { links }: Chain): NearMiss[] {
  const first = links[0]!
  if (first.kind !== 'strong' || pairOfTurns(links)?.length === 2) return []
  if (links.some(({ kind, by, fins }) => kind === 'strong' && (fins || by.kind === 'premises'))) return []
  const out: NearMiss[] = []
  for (let i = 2; i < links.length - 1; i += 2) {
    const end = links[i]!.to
    if (!strikesSomething(step, first.from, end)) out.push({ kind: 'too-short', first: first.from, end })
  }
  // the last stop before the end says the most
  return out.reverse()
}

function strikesSomething({ before }: FoundStep, a: ChainNode, b: ChainNode): boolean {
  return openCells(before).some((cell) =>
    candidatesIn(before, cell).some((digit) => {
      const candidate = { cell, digit }
      const isPart = [a, b].some((node) => node.digit === digit && node.cells.includes(cell))
      return !isPart && rulesOut(before.geometry, candidate, a) && rulesOut(before.geometry, candidate, b)
    }),
  )
}
