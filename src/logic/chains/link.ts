import type { Geometry } from '../../grid/geometry.js'
import { layoutOf } from '../../grid/layout.js'
import type { ChainLink, ChainNode } from '../steps/step.js'

/** The strong link between the two candidates of a cell. */
export function strongInCell(cell: number, from: number, to: number): ChainLink {
  return {
    from: { digit: from, cells: [cell] },
    to: { digit: to, cells: [cell] },
    kind: 'strong',
    by: { kind: 'cell', cell },
  }
}

/** The strong link that a house gives between two parts of its places for a digit. */
export function strongInHouse(house: number, from: ChainNode, to: ChainNode): ChainLink {
  return { from, to, kind: 'strong', by: { kind: 'house', house } }
}

/** The weak link of two nodes that see each other: by a cell, by a house that has all of it, or by several houses. */
export function weakLink(geometry: Geometry, from: ChainNode, to: ChainNode): ChainLink {
  return { from, to, kind: 'weak', by: weakBy(geometry, from, to) }
}

function weakBy(geometry: Geometry, from: ChainNode, to: ChainNode): ChainLink['by'] {
  if (from.digit !== to.digit) return { kind: 'cell', cell: from.cells[0]! }
  const houses = layoutOf(geometry).housesOf[from.cells[0]!]!
  for (let i = 0; i < houses.length; i++) {
    const house = houses[i]!
    if (areIn(geometry, house, from.cells) && areIn(geometry, house, to.cells))
      return { kind: 'house', house }
  }
  return { kind: 'premises' }
}

function areIn(geometry: Geometry, house: number, cells: readonly number[]): boolean {
  const layout = layoutOf(geometry)
  for (let i = 0; i < cells.length; i++) if (layout.positionIn(house, cells[i]!) < 0) return false
  return true
}

/** Why a strong link holds, and what would spoil it. */
export type StrongLink = Pick<ChainLink, 'by' | 'fins'>

/** The links of a chain: its nodes come in pairs joined by strong links, with weak links between the pairs. */
export function chainLinks(
  geometry: Geometry,
  nodes: readonly ChainNode[],
  strong: readonly StrongLink[],
  loop: boolean,
): ChainLink[] {
  const links: ChainLink[] = []
  for (let i = 0; i < strong.length; i++) {
    const { by, fins } = strong[i]!
    const from = nodes[2 * i]!
    const to = nodes[2 * i + 1]!
    if (i > 0) links.push(weakLink(geometry, nodes[2 * i - 1]!, from))
    links.push(fins ? { from, to, kind: 'strong', by, fins } : { from, to, kind: 'strong', by })
  }
  if (loop) links.push(weakLink(geometry, nodes[nodes.length - 1]!, nodes[0]!))
  return links
}
