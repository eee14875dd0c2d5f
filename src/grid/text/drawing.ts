import type { Geometry } from '../geometry.js'
import type { CellText } from './cells.js'
import { counted } from './counted.js'
import { hasRules, isRuleLine, type TextLine, withoutBars } from './lines.js'
import { type Bar, barsOf, boxesOfPieces, pieceSize, piecesBetweenWalls, ruleWeight } from './rules.js'
import { segmentCells } from './segments.js'
import { orderOfCount, type SheetShape, shapeError } from './sheet.js'
import { isEmptySymbol } from './symbols.js'

/** A ruled drawing taken apart: what stands in each cell, and the boxes or regions its rules show. */
export interface Drawing {
  readonly order: number
  readonly texts: readonly CellText[]
  readonly shape: SheetShape | undefined
  readonly line: number
}

/** Rows of cells, and the rules drawn above row i (`gaps[i]`; the last one is below all rows). */
interface Layers {
  readonly rows: readonly TextLine[]
  readonly gaps: readonly (TextLine | undefined)[]
}

export function isRuled(lines: readonly TextLine[]): boolean {
  return lines.some((line) => hasRules(line.text) || isRuleLine(line.text))
}

/**
 * Takes a ruled drawing apart. Rules may stand round every cell, round boxes or regions only, with or without a frame.
 * A space is an empty cell where rules or even columns of characters tell which cell it is.
 *
 * @throws InputError `text-shape` where rows, rules and columns do not make one grid.
 */
export function readDrawing(lines: readonly TextLine[], geometry: Geometry | undefined): Drawing {
  const layers = layersOf(lines)
  const { rows } = layers
  const order = geometry?.order ?? rows.length
  if (rows.length !== order || orderOfCount(order * order) === 0) {
    throw shapeError(
      (rows.at(-1) ?? lines[0]!).number,
      `${counted(rows.length, 'row')} of cells between the rules`,
      geometry ? `${order}` : '4 to 16',
    )
  }
  refuseLostRows(rows)
  return mazeDrawing(layers, order) ?? evenDrawing(layers, order)
}

/** Where empty cells have a mark and all rows have as many cells, there must be as many rows. */
function refuseLostRows(rows: readonly TextLine[]): void {
  const words = rows.map(({ text }) => withoutBars(text).trim().split(/\s+/))
  const hasMarks = words.some((row) => row.some((word) => [...word].every(isEmptySymbol)))
  const counts = [words.map((row) => row.length), words.map((row) => row.join('').length)]
  const widths = counts.flatMap((each) => (new Set(each).size === 1 ? [each[0]!] : []))
  const width = widths.at(-1)
  if (!hasMarks || width === undefined || widths.includes(rows.length) || orderOfCount(width ** 2) === 0)
    return
  const found = `${counted(rows.length, 'row')} of ${width} cells between the rules`
  throw shapeError(rows.at(-1)!.number, found, `${width} rows`)
}

function layersOf(lines: readonly TextLine[]): Layers {
  const hasBars = lines.some((line) => !isRuleLine(line.text) && barsOf(line.text).length > 0)
  const rows: TextLine[] = []
  const gaps: (TextLine | undefined)[] = [undefined]
  for (const line of lines) {
    if (isRuleLine(line.text) || (hasBars && /^[\s_]*$/.test(line.text))) {
      gaps[rows.length] = line
    } else {
      rows.push(line)
      gaps[rows.length] = undefined
    }
  }
  return { rows, gaps }
}

/**
 * A drawing on a lattice of even steps, as irregular regions need: walls stand only at multiples of the step, anywhere
 * or nowhere, and close off pieces of `order` cells. Undefined when the drawing is not of this kind.
 */
function mazeDrawing({ rows, gaps }: Layers, order: number): Drawing | undefined {
  const bars = rows.map((row) => barsOf(row.text))
  const left = bars[0]![0]?.from
  const right = bars[0]!.at(-1)?.from
  if (left === undefined || right === undefined) return undefined
  const step = (right - left) / order
  if (!Number.isInteger(step) || step < 2) return undefined
  const onLattice = bars.every(
    (row) =>
      row[0]?.from === left &&
      row.at(-1)?.from === right &&
      row.every((bar) => (bar.from - left) % step === 0 && bar.to === bar.from + 1),
  )
  // A symbol where a wall would stand belongs to a cell of a narrower step.
  const isClear = rows.every((row, r) =>
    Array.from({ length: order + 1 }, (_, c) => left + c * step).every(
      (at) => (row.text[at] ?? ' ') === ' ' || bars[r]!.some((bar) => bar.from === at),
    ),
  )
  if (!onLattice || !isClear) return undefined

  const hasBarAt = bars.map((row) => new Set(row.map((bar) => (bar.from - left) / step)))
  const hasRuleAt = (gap: number, column: number) =>
    !/^\s*$/.test(gaps[gap]?.text[left + column * step + Math.floor(step / 2)] ?? ' ')
  const pieces = piecesBetweenWalls(
    order,
    (cell) => hasBarAt[Math.floor(cell / order)]!.has((cell % order) + 1),
    (cell) => hasRuleAt(Math.floor(cell / order) + 1, cell % order),
  )
  if (!isPartition(pieces, order)) return undefined
  const boxes = boxesOfPieces(order, pieces)
  // Rules between all columns and no rows, or the other way about, close off lines and tell nothing about boxes.
  if (boxes && (boxes.rows === 1 || boxes.columns === 1)) return undefined
  // Boxes alone do not show how many cells they have: a larger grid may have lost rows.
  const hasPost = (gap: TextLine, c: number) =>
    /[^-\s=~_\u2500\u2501\u2550]/.test(gap.text[left + c * step] ?? '')
  const isPosted = gaps.some(
    (gap) => gap && Array.from({ length: order }, (_, c) => c).every((c) => hasPost(gap, c)),
  )
  if (boxes && !isPosted) return undefined
  const texts = rows.flatMap((row) =>
    Array.from({ length: order }, (_, c) => {
      const from = left + c * step + 1
      return trimmed(row, from, from + step - 1)
    }),
  )
  return {
    order,
    texts,
    shape: boxes ? { kind: 'boxes', ...boxes } : { kind: 'regions', regions: pieces },
    line: rows[0]!.number,
  }
}

function isPartition(pieces: readonly number[], order: number): boolean {
  const sizes = new Array<number>(order).fill(0)
  for (const piece of pieces) {
    if (piece >= order) return false
    sizes[piece] = sizes[piece]! + 1
  }
  return sizes.every((size) => size === order)
}

/** A drawing whose vertical rules run from top to bottom: between all cells, or between boxes. */
function evenDrawing({ rows, gaps }: Layers, order: number): Drawing {
  // Two rules side by side are a heavy one, unless that makes lines differ and single ones are as many as cells need:
  // then nothing stands between them.
  const single = rows.map((row) => barsOf(row.text, false))
  const merged = rows.map((row) => barsOf(row.text))
  const isFull =
    merged.some((row) => row.length !== merged[0]!.length) &&
    [order - 1, order + 1].some((count) => single.every((row) => row.length === count))
  const bars = isFull ? single : merged
  bars.forEach((row, r) => {
    if (row.length !== bars[0]!.length) {
      throw shapeError(
        rows[r]!.number,
        counted(row.length, 'vertical rule'),
        `${bars[0]!.length} as on line ${rows[0]!.number}, or walls at even steps that close off pieces of ${order} cells`,
      )
    }
  })
  const framed = frameOf(rows, gaps, bars, order)
  const segments = rows.map((row, r) => {
    const edges: { from: number; to: number }[] = [...bars[r]!]
    if (!framed.left) edges.unshift({ from: 0, to: 0 })
    if (!framed.right) edges.push({ from: row.text.length, to: row.text.length })
    return edges.slice(1).map((edge, i) => ({ from: edges[i]!.to, to: edge.from }))
  })
  const count = segments[0]!.length
  if (count < 1 || order % count !== 0) {
    throw shapeError(
      rows[0]!.number,
      `${counted(count, 'group')} between vertical rules`,
      `${order}, or a number of boxes that divides ${order}`,
    )
  }
  const perSegment = order / count
  const texts =
    perSegment === 1
      ? rows.flatMap((row, r) => segments[r]!.map(({ from, to }) => trimmed(row, from, to)))
      : segmentCells(rows, segments, perSegment)

  const inner = bars[0]!.slice(framed.left ? 1 : 0, framed.right ? -1 : undefined)
  const columns =
    count === 1 ? undefined : perSegment > 1 ? perSegment : pieceSize(inner.map((bar) => bar.weight))
  return {
    order,
    texts,
    shape: evenShape(order, columns, gaps, rows, perSegment === 1),
    line: rows[0]!.number,
  }
}

/**
 * Do the outermost vertical rules stand outside the cells? Only where nothing is written beyond them, and where the
 * number of groups comes out; if it does either way, they do unless a line that only draws begins left of them.
 */
function frameOf(rows: readonly TextLine[], gaps: Layers['gaps'], bars: readonly Bar[][], order: number) {
  const count = bars[0]!.length
  const nothing = (text: string) => text.trim() === ''
  const blankLeft = count > 0 && rows.every((row, r) => nothing(row.text.slice(0, bars[r]![0]!.from)))
  const blankRight = count > 1 && rows.every((row, r) => nothing(row.text.slice(bars[r]!.at(-1)!.to)))
  const fitting = [
    { left: true, right: true },
    { left: true, right: false },
    { left: false, right: true },
    { left: false, right: false },
  ].filter(({ left, right }) => {
    const groups = count + 1 - Number(left) - Number(right)
    return (!left || blankLeft) && (!right || blankRight) && groups > 0 && order % groups === 0
  })
  // A framed line that only draws has corners or crossings at its ends; an unframed one begins with a dash.
  const left = bars[0]![0]?.from ?? 0
  const goesOn = gaps.some(
    (gap) => gap && /^[-=~─━═_]/.test(gap.text.trim()) && !nothing(gap.text.slice(0, left)),
  )
  return (goesOn ? fitting.at(-1) : fitting[0]) ?? { left: blankLeft, right: blankRight }
}

/** Boxes from where rules run; undefined when they do not tell. */
function evenShape(
  order: number,
  columns: number | undefined,
  gaps: Layers['gaps'],
  rows: readonly TextLine[],
  isTable: boolean,
): SheetShape | undefined {
  const weights = gaps.slice(1, order).map((gap) => (gap ? ruleWeight(gap.text) : 0))
  // A rule under the first row only is how tables in running text set off their head.
  const onlyHead = isTable && weights[0]! > 0 && weights.slice(1).every((weight) => weight === 0)
  const height = onlyHead ? undefined : pieceSize(weights)
  if (columns === 0 || height === 0) {
    throw shapeError(rows[0]!.number, 'rules that cut unequal pieces', 'boxes of one size')
  }
  if (columns === undefined && height === undefined) return undefined
  const boxColumns = columns ?? order / height!
  const boxRows = height ?? order / boxColumns
  if (boxRows * boxColumns !== order) {
    throw shapeError(
      rows[0]!.number,
      `rules round boxes ${boxRows} high and ${boxColumns} wide`,
      `boxes of ${order} cells`,
    )
  }
  return { kind: 'boxes', rows: boxRows, columns: boxColumns }
}

function trimmed(row: TextLine, from: number, to: number): CellText {
  const raw = row.text.slice(from, to)
  return { text: raw.trim(), line: row.number, column: from + 1 + (raw.length - raw.trimStart().length) }
}
