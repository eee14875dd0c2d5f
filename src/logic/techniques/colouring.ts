import type { Board } from '../../grid/board.js'
import { layoutOf } from '../../grid/layout.js'
import { meet } from '../chains/cell-masks.js'
import { type Cluster, clustersOf, shortestPath } from '../chains/clusters.js'
import { strongInHouse } from '../chains/link.js'
import { doubtfulDigits } from '../facts/digit-placements.js'
import type { Bilocal, Facts } from '../facts/facts.js'
import { patternByPlace } from '../facts/path-memory.js'
import { housePremise } from '../proof/premise-holds.js'
import { trimPremises } from '../proof/trim.js'
import type { Step } from '../steps/step.js'
import type { Technique } from '../technique.js'
import type { TechniqueName } from '../technique-names.js'

type Report = (step: Step) => boolean

/** A technique that looks at one digit at a time. */
function digitByDigit(
  name: TechniqueName,
  find: (facts: Facts, digit: number, report: Report) => boolean,
): Technique {
  return patternByPlace(name, doubtfulDigits, ({ stamps }, digit) => stamps.ofDigit[digit]!, find)
}

/** Cells of `cells` that see `cell`. */
function seenFrom(board: Board, cell: number, cells: readonly number[]): number[] {
  return cells.filter((other) => layoutOf(board.geometry).arePeers(cell, other))
}

/** A step that removes the digit from cells, resting on these strong links: those the proof can spare are left out. */
function colouringStep(
  board: Board,
  technique: TechniqueName,
  clusters: readonly Cluster[],
  links: ReadonlySet<Bilocal>,
  cells: readonly number[],
): Step {
  const { digit } = clusters[0]!
  const removals = [...cells].sort((a, b) => a - b).map((cell) => ({ cell, digit }))
  const candidate = (cell: number) => ({ cell, digit })
  const premiseOf = new Map([...links].map((link) => [link, housePremise(board, link.house, digit)]))
  const premises = trimPremises(board.geometry, [...premiseOf.values()], { placements: [], removals })
  const kept = [...links].filter((link) => premises.includes(premiseOf.get(link)!))
  const shown = new Set(kept.flatMap(({ ends }) => ends))
  return {
    technique,
    level: 'pattern',
    placements: [],
    removals,
    premises,
    pattern: {
      shape: 'colouring',
      clusters: clusters.map(({ colours: [one, other] }) => ({
        one: one.filter((cell) => shown.has(cell)).map(candidate),
        other: other.filter((cell) => shown.has(cell)).map(candidate),
      })),
      links: kept.map(({ house, ends }) =>
        strongInHouse(house, { digit, cells: [ends[0]] }, { digit, cells: [ends[1]] }),
      ),
    },
  }
}

/** Adds the links that tie every one of `cells` to the links at hand, each by the shortest way. */
function tieAll(cluster: Cluster, cells: readonly number[], links: Set<Bilocal>): void {
  for (const cell of cells) {
    const reached = [...links].flatMap(({ ends }) => ends).filter((end) => cells.includes(end))
    for (const link of shortestPath(cluster, [cell], reached) ?? []) links.add(link)
  }
}

/**
 * Simple colouring. A colour that stands twice in a house is false, all of it. And a candidate outside that sees both
 * colours goes, since one of them is true.
 */
export const simpleColouring = digitByDigit('simple-colouring', (facts, digit, report) => {
  const { board } = facts
  for (const cluster of clustersOf(facts, digit)) {
    if (cluster.colours[0].length + cluster.colours[1].length < 3) continue
    if (reportFalseColours(board, cluster, report) || reportTrapped(facts, cluster, report)) return true
  }
  return false
})

function reportFalseColours(board: Board, cluster: Cluster, report: Report): boolean {
  for (const [colour, cells] of cluster.colours.entries()) {
    if (!meet(cluster.cells[colour]!, cluster.seen[colour]!)) continue
    let shortest: Bilocal[] | undefined
    for (const cell of cells) {
      const path = shortestPath(cluster, [cell], seenFrom(board, cell, cells))
      if (path && (!shortest || path.length < shortest.length)) shortest = path
    }
    if (!shortest) continue
    const links = new Set(shortest)
    tieAll(cluster, cells, links)
    if (report(colouringStep(board, 'simple-colouring', [cluster], links, cells))) return true
  }
  return false
}

function reportTrapped(facts: Facts, cluster: Cluster, report: Report): boolean {
  const { board } = facts
  if (!meet(cluster.outside, cluster.seen[0], cluster.seen[1])) return false
  const [one, other] = cluster.colours
  const links = new Set<Bilocal>()
  const trapped: number[] = []
  for (const cell of facts.cellsWith(cluster.digit)) {
    if (one.includes(cell) || other.includes(cell)) continue
    const seenOne = seenFrom(board, cell, one)
    if (seenOne.length === 0) continue
    const path = shortestPath(cluster, seenOne, seenFrom(board, cell, other))
    // a single link seen whole is a locked candidate
    if (!path || path.length < 3) continue
    for (const link of path) links.add(link)
    trapped.push(cell)
  }
  if (trapped.length === 0) return false
  return report(colouringStep(board, 'simple-colouring', [cluster], links, trapped))
}

/**
 * Multi-colouring, two clusters of a digit. If a colour of one sees a colour of the other, not both are true, so one of
 * their opposites is: candidates that see both opposites go. A colour that sees both colours of the other cluster is
 * false.
 */
export const multiColouring = digitByDigit('multi-colouring', (facts, digit, report) => {
  const { board } = facts
  const clusters = clustersOf(facts, digit)
  for (const first of clusters) {
    for (const second of clusters) {
      if (first === second) continue
      if (reportOutseen(board, first, second, report)) return true
      if (first.colours[0][0]! < second.colours[0][0]! && reportBridged(facts, first, second, report))
        return true
    }
  }
  return false
})

/** A colour of `first` that sees both colours of `second`, by different cells: one cell alone is simple colouring. */
function reportOutseen(board: Board, first: Cluster, second: Cluster, report: Report): boolean {
  const [one, other] = second.colours
  for (const [colour, cells] of first.colours.entries()) {
    if (!second.seen.every((seen) => meet(first.cells[colour]!, seen))) continue
    let links: Set<Bilocal> | undefined
    let trapped = false
    for (const a of cells) {
      const nearOne = seenFrom(board, a, one)
      trapped ||= nearOne.length > 0 && seenFrom(board, a, other).length > 0
      if (nearOne.length === 0) continue
      for (const b of cells) {
        const nearOther = seenFrom(board, b, other)
        if (nearOther.length === 0) continue
        const across = shortestPath(second, nearOne, nearOther)
        const along = shortestPath(first, [a], [b])
        if (!across || !along || (links && across.length + along.length >= links.size)) continue
        links = new Set([...along, ...across])
      }
    }
    if (trapped || !links) continue
    tieAll(first, cells, links)
    if (report(colouringStep(board, 'multi-colouring', [first, second], links, cells))) return true
  }
  return false
}

function reportBridged(facts: Facts, first: Cluster, second: Cluster, report: Report): boolean {
  const { board } = facts
  const members = [...first.colours, ...second.colours].flat()
  for (const a of [0, 1] as const) {
    for (const b of [0, 1] as const) {
      if (!meet(first.cells[a], second.seen[b])) continue
      if (!meet(first.outside, second.outside, first.seen[1 - a]!, second.seen[1 - b]!)) continue
      const near = first.colours[a]
      const far = second.colours[b]
      const bridges = near.flatMap((from) => seenFrom(board, from, far).map((to) => [from, to] as const))
      if (bridges.length === 0) continue
      const links = new Set<Bilocal>()
      const removed: number[] = []
      for (const cell of facts.cellsWith(first.digit)) {
        if (members.includes(cell)) continue
        const seenFirst = seenFrom(board, cell, first.colours[1 - a]!)
        const seenSecond = seenFrom(board, cell, second.colours[1 - b]!)
        if (seenFirst.length === 0 || seenSecond.length === 0) continue
        // with both colours of one cluster in sight, simple colouring is enough
        if (seenFrom(board, cell, near).length > 0 || seenFrom(board, cell, far).length > 0) continue
        let shortest: Bilocal[] | undefined
        for (const [from, to] of bridges) {
          const path = [
            ...shortestPath(first, seenFirst, [from])!,
            ...shortestPath(second, [to], seenSecond)!,
          ]
          if (!shortest || path.length < shortest.length) shortest = path
        }
        for (const link of shortest!) links.add(link)
        removed.push(cell)
      }
      if (removed.length === 0) continue
      if (report(colouringStep(board, 'multi-colouring', [first, second], links, removed))) return true
    }
  }
  return false
}
