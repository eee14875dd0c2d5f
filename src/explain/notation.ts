import { type Candidate, checkCandidates } from '../grid/board.js'
import { checkStyle, type DigitStyle, digitName } from '../grid/digit-names.js'
import { cellName, checkGeometry, type Geometry } from '../grid/geometry.js'
import { checkPattern } from '../logic/steps/check-step.js'
import type { ChainLink, ChainNode } from '../logic/steps/step.js'
import { cellsNotation } from './cell-names.js'

/**
 * How conclusions and links are written. The `(3=7)r1c1-(7)r1c5` manner of writing chains is common practice among
 * solvers and belongs to no language, so it lives outside the wording tables. Everything written here reads back:
 * digits of a bracket are parted by the signs of their links, cells as `parseCells` takes them.
 */

/**
 * `r1c1=5`, `r1c1<>5`: a digit placed, a candidate removed (common practice in solving threads).
 *
 * @example
 * conclusionNotation(STANDARD, step.placements, step.removals) // → 'r7c9<>1'
 */
export function conclusionNotation(
  geometry: Geometry,
  placements: readonly Candidate[],
  removals: readonly Candidate[],
  style?: DigitStyle,
): string {
  checkGeometry(geometry)
  checkCandidates(geometry, placements, 'placements')
  checkCandidates(geometry, removals, 'removals')
  if (style !== undefined) checkStyle(style, 'style')
  const placed = placements.map(({ cell, digit }) => `${cellName(geometry, cell)}=${digitName(digit, style)}`)
  const cellsOf = new Map<number, number[]>()
  for (const { cell, digit } of removals) {
    const cells = cellsOf.get(digit)
    if (cells) cells.push(cell)
    else cellsOf.set(digit, [cell])
  }
  const removed = [...cellsOf].map(
    ([digit, cells]) => `${cellsNotation(geometry, cells)}<>${digitName(digit, style)}`,
  )
  return [...placed, ...removed].join(', ')
}

export function sameNode(a: ChainNode, b: ChainNode): boolean {
  return a.digit === b.digit && a.cells.length === b.cells.length && a.cells.every((c) => b.cells.includes(c))
}

function sameCells(a: ChainNode, b: ChainNode): boolean {
  return sameNode({ digit: 0, cells: a.cells }, { digit: 0, cells: b.cells })
}

/**
 * Links in alternating inference notation: `=` is strong, `-` is weak, digits stand in brackets before their cells.
 * Two digits joined inside the same cells share one bracket: `(3=7)r1c1-(7)r1c5=(7)r4c5`.
 * Links that do not join end to end (those of a colouring) are written one after the other, parted by semicolons.
 *
 * @example
 * const pattern = step.pattern
 * if (pattern.shape === 'chain') linkNotation(STANDARD, pattern.links, pattern.loop)
 */
export function linkNotation(
  geometry: Geometry,
  links: readonly ChainLink[],
  loop = false,
  style?: DigitStyle,
): string {
  checkGeometry(geometry)
  checkPattern(geometry, { shape: 'chain', links, loop }, 'chain')
  if (style !== undefined) checkStyle(style, 'style')
  let text = ''
  let digits = ''
  let cells: ChainNode | undefined
  const close = () => {
    if (cells) text += `(${digits})${cellsNotation(geometry, cells.cells)}`
    cells = undefined
  }
  links.forEach((link, i) => {
    const sign = link.kind === 'strong' ? '=' : '-'
    const previous = links[i - 1]
    if (!previous || !sameNode(previous.to, link.from)) {
      close()
      if (previous) text += '; '
      cells = link.from
      digits = digitName(link.from.digit, style)
    }
    if (link.kind === 'strong' && sameCells(link.from, link.to)) {
      digits += `${sign}${digitName(link.to.digit, style)}`
    } else {
      close()
      text += sign
      digits = digitName(link.to.digit, style)
    }
    cells = link.to
  })
  close()
  return loop ? `${text} loop` : text
}
