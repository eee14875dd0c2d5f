import type { CellText } from './cells.js'
import { counted } from './counted.js'
import type { TextLine } from './lines.js'
import { refuseRaggedGroups } from './ragged-groups.js'
import { shapeError, textError } from './sheet.js'
import { isEmptySymbol, isOtherEmptySymbol } from './symbols.js'

/** A stretch of a line between two vertical rules, as positions from 0. */
export interface Stretch {
  readonly from: number
  readonly to: number
}

interface Run {
  readonly text: string
  /** Position in the stretch, from 0. */
  readonly at: number
}

/**
 * Cells of a drawing with several cells between two vertical rules. In turn: as many words as cells everywhere; as many
 * characters as cells everywhere; else spaces stand for empty cells and even columns tell which.
 *
 * @throws InputError `text-shape` when none of these fits, or when columns leave it open which cell a digit is in.
 */
export function segmentCells(
  rows: readonly TextLine[],
  stretches: readonly (readonly Stretch[])[],
  perStretch: number,
): CellText[] {
  const runs = rows.map((row, r) => stretches[r]!.map((stretch) => runsOf(row, stretch)))
  const cellText = (run: Run, r: number, s: number): CellText => ({
    text: run.text,
    line: rows[r]!.number,
    column: stretches[r]![s]!.from + run.at + 1,
  })
  const flat = (split: (run: Run) => Run[]) =>
    runs.flatMap((row, r) =>
      row.flatMap((words, s) => words.flatMap(split).map((run) => cellText(run, r, s))),
    )

  if (runs.every((row) => row.every((words) => words.length === perStretch))) return flat((run) => [run])
  const characters = (run: Run): Run[] => [...run.text].map((text, i) => ({ text, at: run.at + i }))
  if (runs.every((row) => row.every((words) => words.flatMap(characters).length === perStretch))) {
    refuseRaggedGroups(
      rows,
      runs.map((row) => row.map((words) => words.map(({ text }) => text))),
    )
    return flat(characters)
  }
  return byColumns(rows, stretches, runs, perStretch, cellText)
}

/** Where empty cells have a mark, cells can be counted: too many or too few of them. */
function refuseOtherCounts(
  rows: readonly TextLine[],
  runs: readonly (readonly (readonly Run[])[])[],
  perStretch: number,
): never {
  const counts = runs.map((row) => row.map((words) => words.reduce((sum, { text }) => sum + text.length, 0)))
  const r = counts.findIndex((row) => row.some((count) => count !== perStretch))
  const odd = counts[r]!.find((count) => count !== perStretch)!
  throw shapeError(
    rows[r]!.number,
    `${counted(odd, 'cell')} between two vertical rules`,
    `${perStretch}, each with a digit or a mark`,
  )
}

function isMark(symbol: string): boolean {
  return isEmptySymbol(symbol) || isOtherEmptySymbol(symbol)
}

/** Is a cell of these an empty one with a mark? A zero may belong to a number, a question mark to a pencil mark. */
function hasMark(text: string): boolean {
  return (
    [...text].every(isMark) ||
    [...text.replace(/[1-9]0/g, '')].some((symbol) => symbol !== '?' && isMark(symbol))
  )
}

function runsOf(row: TextLine, { from, to }: Stretch): Run[] {
  return [...row.text.slice(from, to).matchAll(/\S+/g)].map((match) => ({ text: match[0], at: match.index }))
}

/** A line is short because its last cells are blank only where one cell in this many is. */
const LEAST_BLANK = 4

/**
 * Steps between the columns of neighbouring cells that are looked for. In a drawing that has lost rows, cells 4 columns
 * apart may be those of a larger grid whose cells are 2 apart.
 */
const STEPS = [1, 2, 3, 5, 7]

function byColumns(
  rows: readonly TextLine[],
  stretches: readonly (readonly Stretch[])[],
  runs: readonly (readonly (readonly Run[])[])[],
  perStretch: number,
  cellText: (run: Run, r: number, s: number) => CellText,
): CellText[] {
  if (runs.flat(2).some(({ text }) => hasMark(text))) refuseOtherCounts(rows, runs, perStretch)
  const isTrimmed = !rows.some((row) => /\s$/.test(row.text))
  // A last stretch that no grid line closes may have lost its trailing spaces: the first one's width stands for all.
  const width = stretches[0]![0]!.to - stretches[0]![0]!.from
  stretches.forEach((row, r) => {
    row.forEach(({ from, to }, s) => {
      const mayBeTrimmed = isTrimmed && s === row.length - 1 && to === rows[r]!.text.length
      if (to - from !== width && !(mayBeTrimmed && to - from < width)) {
        throw textError(
          'text-shape',
          { line: rows[r]!.number, column: from + 1 },
          `${runs[r]![s]!.length} of ${perStretch} cells in a space of ${to - from} characters`,
          `${width} characters between rules on every line, so that a space can stand for an empty cell`,
        )
      }
    })
  })
  const readings = new Map<string, (Run | undefined)[]>()
  for (const step of STEPS) {
    for (let margin = 0; margin <= step; margin++) {
      const rest = width - 1 - margin - (perStretch - 1) * step
      if (rest < 0 || rest > step || Math.abs(rest - margin) > 1 || (step === 1 && width !== perStretch))
        continue
      const slots = placeRuns(runs, perStretch, step, margin)
      if (slots) readings.set(slots.map((run) => run?.text ?? '').join(','), slots)
    }
  }
  if (readings.size !== 1) {
    throw shapeError(
      rows[0]!.number,
      readings.size === 0
        ? 'digits that stand in no even columns'
        : 'spaces that can be counted in several ways',
      `${perStretch} cells between rules; write 0 . _ or * for an empty cell`,
    )
  }
  const [slots] = [...readings.values()]
  const isShort = stretches.some((row) => row.some(({ from, to }) => to - from < width))
  const blanks = slots!.filter((run) => run === undefined).length
  if (isShort && blanks * LEAST_BLANK < slots!.length) {
    const r = stretches.findIndex((row) => row.some(({ from, to }) => to - from < width))
    throw shapeError(
      rows[r]!.number,
      'a line that is shorter than the others',
      `${perStretch} cells between grid lines; write 0 . _ or * for an empty cell`,
    )
  }
  const perRow = stretches[0]!.length * perStretch
  return slots!.map((run, i) => {
    const r = Math.floor(i / perRow)
    const s = Math.floor((i % perRow) / perStretch)
    return cellText(run ?? { text: '', at: 0 }, r, s)
  })
}

/** Every run into the cell whose column it stands in; undefined when one stands elsewhere. */
function placeRuns(
  runs: readonly (readonly (readonly Run[])[])[],
  perStretch: number,
  step: number,
  margin: number,
): (Run | undefined)[] | undefined {
  const slots: (Run | undefined)[] = []
  for (const row of runs) {
    for (const words of row) {
      const cells = new Array<Run | undefined>(perStretch).fill(undefined)
      const parts =
        step === 1
          ? words.flatMap((run) => [...run.text].map((text, i) => ({ text, at: run.at + i })))
          : words
      for (const run of parts) {
        // Numbers of two characters are set flush with the column at either end.
        const last = run.at + run.text.length - 1
        const offset = (run.at - margin) % step === 0 ? run.at - margin : last - margin
        const cell = offset / step
        if (
          !Number.isInteger(cell) ||
          cell < 0 ||
          cell >= perStretch ||
          cells[cell] ||
          run.text.length > Math.max(1, step - 1)
        ) {
          return undefined
        }
        cells[cell] = run
      }
      slots.push(...cells)
    }
  }
  return slots
}
