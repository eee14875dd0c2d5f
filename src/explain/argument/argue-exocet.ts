import { hasCandidate } from '../../grid/board/ask.js'
import { layoutOf } from '../../grid/layout.js'
import type { FoundStep, Pattern } from '../../logic/steps/step.js'
import type { Fact } from './facts.js'
import { ascending, isIn } from './sight.js'

type Exocet = Extract<Pattern, { shape: 'exocet' }>

/**
 * The base takes two digits; each has to be in a target, since the lines across have too little room for it otherwise.
 */
export function argueExocet(step: FoundStep, pattern: Exocet): Fact[] {
  const { base, targets, digits } = pattern
  const groups = new Map<string, { digits: number[]; lines: readonly number[]; across: readonly number[] }>()
  for (const digit of digits) {
    const room = roomFor(step, pattern, digit)
    if (!room) continue
    const key = `${room.lines}|${room.across}`
    const group = groups.get(key)
    if (group) group.digits.push(digit)
    else groups.set(key, { digits: [digit], ...room })
  }
  return [
    { kind: 'exocet-base', base, digits },
    ...[...groups.values()].map(
      (group, i): Fact => ({ kind: 'exocet-lines', targets, ...group, further: i > 0 }),
    ),
    { kind: 'exocet-targets', base, targets },
  ]
}

/** Lines in which a digit of the base would have fewer lines across than it needs, were it in no target, if any. */
export function roomFor(
  { before }: FoundStep,
  { base, targets, lines }: Pick<Exocet, 'base' | 'targets' | 'lines'>,
  digit: number,
): { lines: readonly number[]; across: readonly number[] } | undefined {
  const { geometry } = before
  const layout = layoutOf(geometry)
  const kind = layout.houses[lines[0]!]!.kind
  const acrossOf = lines.map((line) => {
    const free = layout.houses[line]!.cells.filter(
      (cell) =>
        (before.digits[cell] === digit || hasCandidate(before, cell, digit)) &&
        !targets.includes(cell) &&
        !base.every((other) => layout.arePeers(cell, other)),
    )
    return ascending(
      free.flatMap((cell) =>
        layout.housesOf[cell]!.filter((house) => {
          const own = layout.houses[house]!.kind
          return own !== kind && (own === 'row' || own === 'column') && isIn(geometry, house, cell)
        }),
      ),
    )
  })
  // the fewest lines that show it
  for (const chosen of [1, 2, 4, 3, 5, 6, 7]) {
    const some = lines.filter((_, i) => chosen & (1 << i))
    const across = ascending(acrossOf.flatMap((list, i) => (chosen & (1 << i) ? list : [])))
    if (across.length < some.length) return { lines: some, across }
  }
  return undefined
}
