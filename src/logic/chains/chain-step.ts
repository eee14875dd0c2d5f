import type { Board, Candidate, Conclusion } from '../../grid/board.js'
import { digitsOf, firstDigit, lowestBit } from '../../grid/digits.js'
import type { Geometry } from '../../grid/geometry.js'
import { cellPremise, housePremise } from '../proof/premise-holds.js'
import type { CellGroup, ChainLink, ChainNode, Pattern, Premise } from '../steps/step.js'
import type { Chain, StrongReason } from './chain.js'
import type { LinkGraph } from './graph.js'
import { chainLinks, type StrongLink } from './link.js'

/** Do the ends of the chain see each other, so that it closes to a continuous loop? With fins it proves less. */
export function isLoop(graph: LinkGraph, { nodes, fins }: Chain): boolean {
  return !fins && graph.areWeaklyLinked(nodes[0]!, nodes[nodes.length - 1]!)
}

/**
 * What a chain proves. One of its ends holds, so whatever sees both ends goes, and every fin; when both ends are one
 * candidate, that candidate is true, unless there are fins. In a loop the same goes for every weak link, and its almost
 * locked sets keep their other digits.
 */
export function conclude(graph: LinkGraph, chain: Chain): Conclusion {
  const { nodes: table } = graph
  const { nodes, fins } = chain
  const first = nodes[0]!
  const last = nodes[nodes.length - 1]!
  if (first === last && !fins && table.cells[first]!.length === 1) {
    return { placements: [candidateOf(graph, first)], removals: [] }
  }
  const gone: number[] = []
  seenByBoth(graph, first, last, gone)
  if (isLoop(graph, chain)) {
    for (let i = 1; i + 1 < nodes.length; i += 2) seenByBoth(graph, nodes[i]!, nodes[i + 1]!, gone)
    for (let i = 0; i < chain.by.length; i++) {
      const reason = chain.by[i]!
      if (reason.kind === 'set') seenByOthers(graph, reason.cells, nodes[2 * i]!, nodes[2 * i + 1]!, gone)
    }
  }
  const removals: Candidate[] = []
  if (gone.length > 1) gone.sort(ascending)
  for (let i = 0; i < gone.length; i++)
    if ((i === 0 || gone[i] !== gone[i - 1]) && seesAll(graph, gone[i]!, fins))
      removals.push(candidateOf(graph, gone[i]!))
  return { placements: [], removals }
}

function seesAll(graph: LinkGraph, node: number, fins: Chain['fins']): boolean {
  return fins === undefined || fins.every((own) => own.every((fin) => graph.areWeaklyLinked(node, fin)))
}

function ascending(a: number, b: number): number {
  return a - b
}

function candidateOf({ nodes }: LinkGraph, node: number): Candidate {
  return { cell: nodes.cells[node]![0]!, digit: nodes.digit[node]! }
}

/** Adds the candidates that are weakly linked to both nodes. */
function seenByBoth(graph: LinkGraph, a: number, b: number, gone: number[]): void {
  const { nodes } = graph
  const { words } = nodes
  const digit = nodes.digit[a]!
  if (digit === nodes.digit[b]) {
    for (let w = 0; w < words; w++) {
      const seers = nodes.peers[a * words + w]! & nodes.peers[b * words + w]!
      addSeers(graph, digit, w, seers & nodes.digitCells[(digit - 1) * words + w]!, gone)
    }
  }
  if (!graph.withinCells) return
  // in a cell of one end: the other end's digit, or any third digit when both ends are in that cell
  const cellOfA = nodes.cells[a]!.length === 1 ? nodes.cells[a]![0]! : -1
  const cellOfB = nodes.cells[b]!.length === 1 ? nodes.cells[b]![0]! : -1
  seenInCell(graph, cellOfA, a, b, gone)
  if (cellOfB !== cellOfA) seenInCell(graph, cellOfB, a, b, gone)
}

/** Adds the candidates of a cell, unless it is none, that are weakly linked to both nodes. */
function seenInCell(graph: LinkGraph, cell: number, a: number, b: number, gone: number[]): void {
  if (cell < 0) return
  const { nodes } = graph
  for (let rest = nodes.board.candidates[cell]!; rest !== 0; rest &= rest - 1) {
    const node = nodes.candidate(cell, firstDigit(rest))
    if (node === a || node === b) continue
    if (graph.areWeaklyLinked(node, a) && graph.areWeaklyLinked(node, b)) gone.push(node)
  }
}

/** Adds the candidates outside an almost locked set of a loop that see every place of one of its other digits. */
function seenByOthers(
  graph: LinkGraph,
  cells: readonly number[],
  a: number,
  b: number,
  gone: number[],
): void {
  const { nodes } = graph
  const { board } = nodes
  const tied = (1 << (nodes.digit[a]! - 1)) | (1 << (nodes.digit[b]! - 1))
  let digits = 0
  for (let i = 0; i < cells.length; i++) digits |= board.candidates[cells[i]!]!
  for (let rest = digits & ~tied; rest !== 0; rest &= rest - 1) {
    const digit = firstDigit(rest)
    for (let w = 0; w < nodes.words; w++) addSeers(graph, digit, w, nodes.seersOf(digit, cells, w), gone)
  }
}

/** Adds a digit's candidates in the cells of a word of a mask. */
function addSeers({ nodes }: LinkGraph, digit: number, word: number, seers: number, gone: number[]): void {
  for (; seers !== 0; seers &= seers - 1) gone.push(nodes.candidate(word * 32 + lowestBit(seers), digit))
}

/** The premises behind these strong links, each once. */
export function premisesBehind(board: Board, reasons: readonly StrongReason[]): Premise[] {
  const { cellCount, order } = board.geometry
  const premises = new Map<number, Premise>()
  const addCell = (cell: number) => premises.set(cell, cellPremise(board, cell))
  for (const reason of reasons) {
    if (reason.kind === 'cell') addCell(reason.cell)
    else if (reason.kind === 'set') reason.cells.forEach(addCell)
    else {
      const key = cellCount + reason.house * order + reason.digit
      premises.set(key, housePremise(board, reason.house, reason.digit))
    }
  }
  return [...premises.values()]
}

/** The chain as people draw it: strong and weak links by turns, closed by a weak one in a loop. */
export function chainPattern(graph: LinkGraph, chain: Chain): Pattern {
  const { geometry } = graph.nodes.board
  return chainOf(geometry, chain, (node) => chainNode(graph, node), isLoop(graph, chain))
}

/** The same for nodes of any kind. */
export function chainOf(
  geometry: Geometry,
  { nodes, by, fins }: Chain,
  nodeOf: (node: number) => ChainNode,
  loop: boolean,
): Pattern {
  const strong = by.map((reason, i): StrongLink => {
    const spoilt = (fins?.[i] ?? []).flatMap((fin) => candidatesOf(nodeOf(fin)))
    return spoilt.length > 0 ? { by: placeOf(reason), fins: spoilt } : { by: placeOf(reason) }
  })
  return { shape: 'chain', links: chainLinks(geometry, nodes.map(nodeOf), strong, loop), loop }
}

/** Where a strong link holds. */
function placeOf(reason: StrongReason): ChainLink['by'] {
  return reason.kind === 'house' ? { kind: 'house', house: reason.house } : reason
}

/** What a node says. */
function chainNode({ nodes }: LinkGraph, node: number): ChainNode {
  return { digit: nodes.digit[node]!, cells: nodes.cells[node]! }
}

function candidatesOf({ digit, cells }: ChainNode): Candidate[] {
  return cells.map((cell) => ({ cell, digit }))
}

/** The chain as sets of cells joined by digits; for chains whose strong links are all cells and almost locked sets. */
export function setsPattern(graph: LinkGraph, chain: Chain): Pattern {
  const { nodes: table } = graph
  const { board } = table
  const sets = chain.by.map((by): CellGroup => {
    const cells = by.kind === 'set' ? by.cells : by.kind === 'cell' ? [by.cell] : []
    let digits = 0
    for (const cell of cells) digits |= board.candidates[cell]!
    return { cells, digits: digitsOf(digits) }
  })
  const joins: { digit: number; between: [number, number] }[] = []
  for (let i = 1; i < sets.length; i++) {
    joins.push({ digit: table.digit[chain.nodes[2 * i]!]!, between: [i - 1, i] })
  }
  if (isLoop(graph, chain))
    joins.push({ digit: table.digit[chain.nodes[0]!]!, between: [sets.length - 1, 0] })
  return { shape: 'sets', sets, joins }
}
