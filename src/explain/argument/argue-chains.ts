import { digitsOf } from '../../grid/digits.js'
import type { ChainLink, ChainNode, FoundStep, Pattern } from '../../logic/steps/step.js'
import { sameNode } from '../notation.js'
import type { Fact, Made, Maker } from './facts.js'
import { ascending, houseOf, placesIn } from './sight.js'

type Chain = Extract<Pattern, { shape: 'chain' }>

/** Do the links join end to end, strong and weak in turn? */
export function alternates(links: readonly ChainLink[]): boolean {
  return links.every((link, i) => {
    const previous = links[i - 1]
    return !previous || (sameNode(previous.to, link.from) && previous.kind !== link.kind)
  })
}

/** The first and last node of a chain. */
export function chainEnds(links: readonly ChainLink[]): { first: ChainNode; last: ChainNode } | undefined {
  const first = links[0]?.from
  const last = links[links.length - 1]?.to
  return first && last ? { first, last } : undefined
}

/**
 * Chains some of whose strong links have fins, or rest on the premises as a whole, hold only under the supposition that
 * a candidate to be removed is true: it clears away the fins that would spoil those links.
 */
export function isFinned(links: readonly ChainLink[]): boolean {
  return links.some(({ kind, by, fins }) => kind === 'strong' && (fins || by.kind === 'premises'))
}

/**
 * Short chains of known forms are worded as people know them; others by walking them once: the first end is supposed
 * false (true when the chain begins with a weak link), and each pair of links makes the next candidate true.
 */
export function argueChain(step: FoundStep, { links, loop }: Chain): Fact[] {
  const ends = chainEnds(links)
  if (!ends || !alternates(links)) return []
  const known =
    loop || isFinned(links) ? undefined : (turns(step, links) ?? bridge(step, links) ?? joined(links))
  if (known) return known
  const given = isFinned(links) ? step.removals : []
  const startsTrue = links[0]!.kind === 'weak'
  const facts: Fact[] = given.length > 0 ? [{ kind: 'chain-given', given }] : []
  const rest = [...links]
  const first = startsTrue ? undefined : rest.shift()
  const made = first && madeBy(step, first)
  facts.push({ kind: 'chain-start', node: ends.first, value: startsTrue, follows: given.length > 0, made })
  // a loop is closed by its last link, which is weak
  const closing = loop ? rest.pop() : undefined
  for (let i = 0; i < rest.length; i += 2) {
    const strong = rest[i + 1]
    facts.push({
      kind: 'chain-move',
      off: rest[i]!.to,
      by: rest[i]!.by,
      made: strong && madeBy(step, strong),
    })
  }
  if (closing) facts.push({ kind: 'loop', by: closing.by, digit: closing.to.digit })
  return facts
}

function madeBy(step: FoundStep, link: ChainLink): Made {
  return { node: link.to, by: makerOf(step, link), fins: link.fins ?? [] }
}

function makerOf(step: FoundStep, { by, from, fins = [] }: ChainLink): Maker {
  if (by.kind !== 'set') return by
  const digits = digitsOf(by.cells.reduce((set, cell) => set | step.before.candidates[cell]!, 0))
  const isOut = (cell: number, digit: number) =>
    (digit === from.digit && from.cells.includes(cell)) ||
    fins.some((fin) => fin.cell === cell && fin.digit === digit)
  const left = digits.filter((digit) =>
    placesIn(step, by.cells, digit).cells.some((cell) => !isOut(cell, digit)),
  )
  return { ...by, digits, left: left.length === by.cells.length ? left : undefined }
}

/** Cells that all have the same two digits, each seeing the next: the digits of a chain that holds for both. */
export function pairOfTurns(links: readonly ChainLink[]): readonly number[] | undefined {
  const digits = ascending(links.flatMap(({ from, to }) => [from.digit, to.digit]))
  const inCells = links.every(({ kind, by }) => kind === 'weak' || by.kind === 'cell')
  return inCells && digits.length === 2 && links[0]?.kind === 'strong' ? digits : undefined
}

function turns({ before: { geometry } }: FoundStep, links: readonly ChainLink[]): Fact[] | undefined {
  const digits = pairOfTurns(links)
  const cells = links.flatMap(({ kind, from }) => (kind === 'strong' ? from.cells : []))
  // with four cells and more; an even number of them, so that the ends differ
  if (!digits || cells.length < 4 || cells.length % 2 !== 0) return undefined
  const houses = cells.slice(1).map((cell, i) => houseOf(geometry, [cells[i]!, cell]))
  return houses.every((house) => house !== undefined)
    ? [{ kind: 'take-turns', cells, digits, houses: houses as number[] }]
    : undefined
}

/** Two cells with the same two digits, and a house in which one digit is ruled out of one cell or the other. */
function bridge(step: FoundStep, links: readonly ChainLink[]): Fact[] | undefined {
  const [one, , middle, , other] = links
  if (links.length !== 5 || one!.kind !== 'strong' || one!.by.kind !== 'cell' || other!.by.kind !== 'cell')
    return undefined
  if (middle!.by.kind !== 'house' || middle!.from.digit !== one!.to.digit) return undefined
  const cells = [one!.from.cells[0]!, other!.to.cells[0]!]
  const digits = ascending([one!.from.digit, one!.to.digit])
  if (other!.to.digit !== one!.from.digit || other!.from.digit !== one!.to.digit) return undefined
  const { geometry } = step.before
  const ways = [middle!.from, middle!.to].map(({ cells: places }, i) => ({
    places,
    cell: cells[i]!,
    house: houseOf(geometry, [cells[i]!, ...places]),
  }))
  return [
    { kind: 'alike', cells, digits },
    {
      kind: 'bridge',
      house: middle!.by.house,
      digit: middle!.from.digit,
      gives: one!.from.digit,
      ways,
    },
  ]
}

/** Two strong links of one digit in houses, joined in a third. */
function joined(links: readonly ChainLink[]): Fact[] | undefined {
  const [one, joint, other] = links
  if (links.length !== 3 || one!.kind !== 'strong') return undefined
  if (one!.by.kind !== 'house' || other!.by.kind !== 'house' || joint!.by.kind !== 'house') return undefined
  if (new Set(links.flatMap(({ from, to }) => [from.digit, to.digit])).size > 1) return undefined
  return [
    {
      kind: 'joined',
      digit: one!.from.digit,
      pairs: [
        { house: one!.by.house, far: one!.from.cells, near: one!.to.cells },
        { house: other!.by.house, far: other!.to.cells, near: other!.from.cells },
      ],
      joint: joint!.by.house,
    },
  ]
}
