import type { Board } from '../../grid/board.js'
import { digitCount } from '../../grid/digits.js'
import type { House } from '../../grid/layout.js'
import { layoutOf } from '../../grid/layout.js'
import { perLayout } from '../../grid/per-layout.js'
import { holderMask, isSeenByAll } from '../chains/cell-masks.js'
import { misplaced } from '../facts/digit-placements.js'
import { type Bilocal, candidatesSeenByAll, cellsAt, type Facts } from '../facts/facts.js'
import { linesOf } from '../facts/lines.js'
import { oncePerPlaces, patternByDigit } from '../facts/path-memory.js'
import { removalNeedsEach } from '../proof/minimal.js'
import type { ChainLink, ChainNode, Premise, Step } from '../steps/step.js'
import type { Technique } from '../technique.js'

/** One arm of the cross: cells of a box in one line. */
interface Arm {
  readonly line: number
  readonly cells: readonly number[]
}

/** Where an arm leads when it is false: itself, or through a strong link that its line feeds, the link's far end. */
interface Reach {
  readonly cells: readonly number[]
  readonly through?: { readonly link: Bilocal; readonly near: number; readonly line: number }
}

/**
 * A box whose places for a digit lie on a row and a column: one of the two arms holds it. If an arm does, the rest of
 * its line does not, so a strong link with one end on that line has its other end true. What sees that end and the
 * whole other arm (or, with a strong link on each arm, both far ends) loses the digit.
 */
export const emptyRectangle: Technique = patternByDigit(
  'empty-rectangle',
  oncePerPlaces((facts, digit) => rectanglesOf(facts, digit)),
)

function rectanglesOf(facts: Facts, digit: number): readonly Step[] {
  const { board, places } = facts
  const { geometry } = board
  const steps: Step[] = []
  if (facts.bilocal(digit).length === 0 || misplaced(facts, digit).length === 0) return steps
  const { order } = geometry
  const { blocks } = linesOf(geometry)
  const crosses = crossesOf(geometry)
  const holders = holderMask(facts, digit)
  for (let i = 0; i < blocks.length; i++) {
    const block = blocks[i]!.index
    const set = places[block * order + digit - 1]!
    // Two places are a strong link, and its patterns have names of their own.
    if (digitCount(set) < 3) continue
    const own = crosses[i]!
    for (let j = 0; j < own.length; j++) {
      const { row, column, rowMask, columnMask } = own[j]!
      if (set & ~(rowMask | columnMask)) continue
      // All on one line is a locked candidate.
      if (!(set & rowMask & ~columnMask) || !(set & columnMask & ~rowMask)) continue
      const one = { line: row, cells: cellsAt(geometry, block, set & rowMask) }
      const other = { line: column, cells: cellsAt(geometry, block, set & columnMask) }
      const cells = cellsAt(geometry, block, set)
      addRectangles(facts, digit, block, cells, one, other, holders, steps)
    }
  }
  return steps
}

/** A row and a column that cross in a block, and the block's positions on each. */
interface Cross {
  readonly row: number
  readonly column: number
  readonly rowMask: number
  readonly columnMask: number
}

/** The crosses of each block. */
const crossesOf = perLayout(({ positionIn }, geometry): readonly (readonly Cross[])[] => {
  const { rows, columns, blocks } = linesOf(geometry)
  const onLine = (block: House, line: House): number =>
    block.cells.reduce((set, cell, at) => (positionIn(line.index, cell) >= 0 ? set | (1 << at) : set), 0)
  return blocks.map((block) =>
    rows
      .flatMap((row) =>
        columns.map((column) => ({
          row: row.index,
          column: column.index,
          rowMask: onLine(block, row),
          columnMask: onLine(block, column),
        })),
      )
      .filter(({ rowMask, columnMask }) => rowMask !== 0 && columnMask !== 0),
  )
})

/** With one strong link on either arm, or one on each. */
function addRectangles(
  facts: Facts,
  digit: number,
  box: number,
  cells: readonly number[],
  one: Arm,
  other: Arm,
  holders: Uint32Array,
  steps: Step[],
): void {
  const { board } = facts
  const { geometry } = board
  const fromOne = linked(facts, digit, box, one)
  const fromOther = linked(facts, digit, box, other)
  const add = (first: Reach, second: Reach): void => {
    // most pairs have no candidate in sight of both
    if (!isSeenByAll(geometry, holders, first.cells, second.cells)) return
    if (first.through && first.through.link === second.through?.link) return
    const step = stepOf(board, digit, box, cells, one, other, first, second)
    if (step) steps.push(step)
  }
  for (let i = 0; i < fromOne.length; i++) add(fromOne[i]!, { cells: other.cells })
  for (let i = 0; i < fromOther.length; i++) add(fromOther[i]!, { cells: one.cells })
  for (let i = 0; i < fromOne.length; i++)
    for (let j = 0; j < fromOther.length; j++) add(fromOne[i]!, fromOther[j]!)
}

function stepOf(
  board: Board,
  digit: number,
  box: number,
  cells: readonly number[],
  one: Arm,
  other: Arm,
  first: Reach,
  second: Reach,
): Step | undefined {
  const { geometry } = board
  const premises: Premise[] = [{ kind: 'house', house: box, digit, cells }]
  for (const { through } of [first, second])
    if (through)
      premises.push({ kind: 'house', house: through.link.house, digit, cells: [...through.link.ends] })
  const removals = candidatesSeenByAll(board, digit, [...new Set([...first.cells, ...second.cells])])
    .map((cell) => ({ cell, digit }))
    .filter((removal) => removalNeedsEach(geometry, premises, removal))
  if (removals.length === 0) return undefined
  return {
    technique: 'empty-rectangle',
    level: 'pattern',
    placements: [],
    removals,
    premises,
    pattern: {
      shape: 'chain',
      loop: false,
      links: chainOf(box, digit, one, other, first, second),
    },
  }
}

/** The strong links outside the box that begin on the arm's line, seen from their far ends. */
function linked(facts: Facts, digit: number, box: number, arm: Arm): Reach[] {
  const { board } = facts
  const { geometry } = board
  const layout = layoutOf(geometry)
  const reaches: Reach[] = []
  const links = facts.bilocal(digit)
  for (let i = 0; i < links.length; i++) {
    const link = links[i]!
    const [one, other] = link.ends
    if (layout.positionIn(box, one) >= 0 || layout.positionIn(box, other) >= 0) continue
    const isOneOn = layout.positionIn(arm.line, one) >= 0
    if (isOneOn === layout.positionIn(arm.line, other) >= 0) continue
    const [near, end] = isOneOn ? [one, other] : [other, one]
    reaches.push({ cells: [end], through: { link, near, line: arm.line } })
  }
  return reaches
}

function chainOf(box: number, digit: number, one: Arm, other: Arm, first: Reach, second: Reach): ChainLink[] {
  const node = (cells: readonly number[]): ChainNode => ({ digit, cells })
  const firstArm = first.through?.line === other.line ? other : one
  const secondArm = firstArm === one ? other : one
  // A cell on both arms is drawn with the first, so that the two ends of the strong link share nothing.
  const from = node(firstArm.cells)
  const to = node(secondArm.cells.filter((cell) => !firstArm.cells.includes(cell)))
  const links: ChainLink[] = [{ from, to, kind: 'strong', by: { kind: 'house', house: box } }]
  if (first.through) {
    const { link, near, line } = first.through
    links.unshift(
      { from: node(first.cells), to: node([near]), kind: 'strong', by: { kind: 'house', house: link.house } },
      { from: node([near]), to: from, kind: 'weak', by: { kind: 'house', house: line } },
    )
  }
  if (second.through) {
    const { link, near, line } = second.through
    links.push(
      { from: to, to: node([near]), kind: 'weak', by: { kind: 'house', house: line } },
      {
        from: node([near]),
        to: node(second.cells),
        kind: 'strong',
        by: { kind: 'house', house: link.house },
      },
    )
  }
  return links
}
