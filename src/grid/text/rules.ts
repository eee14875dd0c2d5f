import { isVerticalRule } from './lines.js'

/** Heavy and double rules are 2, plain ones 1: only the order matters. */
const HEAVY = /[=#\u2501\u2503\u2505\u2507\u2509\u250b\u254b\u254d\u254f\u2550\u2551\u256c]/

export function ruleWeight(text: string): number {
  return HEAVY.test(text) || /[|\u2502]{2}/.test(text) ? 2 : 1
}

/** A vertical rule on a line of cells: a character, or a doubled one. */
export interface Bar {
  readonly from: number
  /** First character after the rule. */
  readonly to: number
  readonly weight: number
}

export function barsOf(text: string, doubled = true): Bar[] {
  const bars: Bar[] = []
  for (let i = 0; i < text.length; i++) {
    if (!isVerticalRule(text[i]!)) continue
    const to = doubled && i + 1 < text.length && isVerticalRule(text[i + 1]!) ? i + 2 : i + 1
    bars.push({ from: i, to, weight: ruleWeight(text.slice(i, to)) })
    i = to - 1
  }
  return bars
}

/**
 * Size of the equal pieces that rules cut a side into, seen from the weight of the rule after each cell but the last
 * (0 for none): the heaviest ones count where weights differ. `undefined` where the rules say nothing (none, or the
 * same after every cell), 0 where they cut unequal pieces.
 */
export function pieceSize(weights: readonly number[]): number | undefined {
  const heaviest = Math.max(...weights)
  if (weights.every((weight) => weight === heaviest)) return undefined
  const cuts = weights.flatMap((weight, i) => (weight === heaviest ? [i + 1] : []))
  const size = cuts[0]!
  const order = weights.length + 1
  const even =
    order % size === 0 && cuts.length === order / size - 1 && cuts.every((cut, i) => cut === (i + 1) * size)
  return even ? size : 0
}

/**
 * cell -> number of the piece that walls close around it.
 *
 * @param wallRight is there a wall between this cell and the one on its right?
 * @param wallBelow is there a wall between this cell and the one below?
 */
export function piecesBetweenWalls(
  order: number,
  wallRight: (cell: number) => boolean,
  wallBelow: (cell: number) => boolean,
): number[] {
  const pieces = new Array<number>(order * order).fill(-1)
  let count = 0
  for (let start = 0; start < pieces.length; start++) {
    if (pieces[start] !== -1) continue
    const queue = [start]
    pieces[start] = count
    for (let cell = queue.pop(); cell !== undefined; cell = queue.pop()) {
      const column = cell % order
      const next: number[] = []
      if (column + 1 < order && !wallRight(cell)) next.push(cell + 1)
      if (column > 0 && !wallRight(cell - 1)) next.push(cell - 1)
      if (cell + order < pieces.length && !wallBelow(cell)) next.push(cell + order)
      if (cell >= order && !wallBelow(cell - order)) next.push(cell - order)
      for (const other of next) {
        if (pieces[other] === -1) {
          pieces[other] = count
          queue.push(other)
        }
      }
    }
    count++
  }
  return pieces
}

/** Rows and columns of the equal rectangles a map of pieces consists of, or undefined. */
export function boxesOfPieces(
  order: number,
  pieces: readonly number[],
): { rows: number; columns: number } | undefined {
  let columns = 1
  while (columns < order && pieces[columns] === pieces[0]) columns++
  const rows = order / columns
  if (!Number.isInteger(rows)) return undefined
  const boxNumbers = new Map<number, number>()
  for (let cell = 0; cell < pieces.length; cell++) {
    const box = Math.floor(Math.floor(cell / order) / rows) * rows + Math.floor((cell % order) / columns)
    const piece = boxNumbers.get(box)
    if (piece === undefined) boxNumbers.set(box, pieces[cell]!)
    else if (piece !== pieces[cell]) return undefined
  }
  return new Set(boxNumbers.values()).size === order ? { rows, columns } : undefined
}
