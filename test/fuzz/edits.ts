import { HINT_DEPTHS, hint } from '../../src/explain/hint.js'
import { puzzleOf } from '../../src/grid/board/ask.js'
import { newBoard } from '../../src/grid/board/make.js'
import type { Board } from '../../src/grid/board.js'
import { allDigits } from '../../src/grid/digits.js'
import { boardFromJson, boardToJson } from '../../src/grid/json.js'
import { layoutOf } from '../../src/grid/layout.js'
import { makePuzzle } from '../../src/grid/puzzle.js'
import { shuffled } from '../../src/grid/random.js'
import { parseBoard } from '../../src/grid/text/parse.js'
import { formatPuzzle } from '../../src/grid/text/write.js'
import { checkProgress } from '../../src/logic/claims/check-progress.js'
import {
  boardAfter,
  boardText,
  differenceFrom,
  type Edit,
  edited,
  ListedBoard,
} from '../support/board-edits.js'
import { below, filledGrid, GEOMETRIES, pick, type Random } from './boards.js'
import { type Fuzzer, FuzzFault } from './fuzzer.js'

const MOST_EDITS = 120
/** Edits meet more often in a few cells and with a few digits. */
const MOST_CELLS = 24
const MOST_DIGITS = 4
/** Enough givens for one solution, on most grids, or hardly any. */
const GIVEN_SHARES = [0.1, 0.5, 0.6, 0.7] as const
/** How often a person makes nothing but entries and corrects them in the end. */
const CORRECTED = 0.3
const ENTRIES = ['place', 'place', 'erase'] as const
const EDITS = [...ENTRIES, 'place', 'remove', 'remove', 'restore', 'clear', 'note'] as const
/** How often an entry comes on the way that is gone at the end. */
const DETOURS = 0.3

/**
 * Boards edited in any order, by a person who goes back on entries and marks now and then: what comes out depends on
 * what stands in the end, survives saving, and is judged by the solution alone.
 */
export const editsFuzzer: Fuzzer = {
  name: 'edits',
  runCase(random) {
    const geometry = pick(random, GEOMETRIES)
    const solution = filledGrid(random, geometry)
    const share = pick(random, GIVEN_SHARES)
    const puzzle = makePuzzle(
      solution.map((digit) => (random() < share ? digit : 0)),
      geometry,
    )
    const corrects = random() < CORRECTED
    const made = someEdits(random, newBoard(puzzle), corrects ? ENTRIES : EDITS)
    const edits = corrects ? [...made, ...corrections(random, made, solution)] : made
    const board = boardAfter(puzzle, edits)
    const listed = new ListedBoard(puzzle)
    for (const edit of edits) listed.edit(edit)
    const fault = (what: string): never => {
      throw new FuzzFault(`${what}\n${puzzle.geometry.name} ${puzzle.givens}\n${JSON.stringify(edits)}`)
    }

    const difference = differenceFrom(listed, board)
    if (difference) fault(difference)
    const direct = boardAfter(puzzle, inAnyOrder(random, listed.shortestEdits()))
    if (boardText(direct) !== boardText(board)) fault('the shortest way ends in another board')
    checkDetour(random, puzzle.givens, listed, board, fault)
    checkSaving(board, fault)
    const counts = judged(solution, listed, board, fault)
    if (corrects && counts.offTrack) fault('entries that were corrected leave a board off track')
    return { edits: edits.length, ...counts }
  },
}

type Fault = (what: string) => never

function someEdits(random: Random, start: Board, kinds: readonly Edit['kind'][]): Edit[] {
  const { geometry } = start
  const open = [...start.digits.keys()].filter((cell) => !start.given[cell])
  if (open.length === 0) return []
  const cells = shuffled(open, random).slice(0, 1 + below(random, MOST_CELLS))
  const digits = shuffled([...new Array(geometry.order).keys()], random).slice(
    0,
    1 + below(random, MOST_DIGITS),
  )
  return Array.from({ length: below(random, MOST_EDITS) }, (): Edit => {
    const cell = pick(random, cells)
    const digit = pick(random, digits) + 1
    const kind = pick(random, kinds)
    if (kind === 'note') return { kind, cell, marks: below(random, allDigits(geometry.order) + 1) }
    return kind === 'erase' || kind === 'clear' ? { kind, cell } : { kind, cell, digit }
  })
}

function corrections(random: Random, edits: readonly Edit[], solution: readonly number[]): Edit[] {
  const cells = [...new Set(edits.map(({ cell }) => cell))]
  return shuffled(cells, random).map((cell) =>
    random() < 0.5 ? { kind: 'erase', cell } : { kind: 'place', cell, digit: solution[cell]! },
  )
}

/** To clear a cell takes its removals along, so that comes first. */
function inAnyOrder(random: Random, edits: readonly Edit[]): Edit[] {
  const mixed = shuffled(edits, random)
  const isClear = ({ kind }: Edit) => kind === 'clear'
  return [...mixed.filter(isClear), ...mixed.filter((edit) => !isClear(edit))]
}

/** With entries on the way that are overwritten or erased later. */
function checkDetour(
  random: Random,
  givens: readonly number[],
  listed: ListedBoard,
  board: Board,
  fault: Fault,
): void {
  const { geometry } = board
  const touched = new Set<number>()
  let detour = newBoard(puzzleOf(board))
  const enter = (): void => {
    const cell = below(random, geometry.cellCount)
    if (givens[cell]) return
    touched.add(cell)
    detour = edited(detour, { kind: 'place', cell, digit: 1 + below(random, geometry.order) })
  }
  for (const edit of inAnyOrder(random, listed.shortestEdits())) {
    if (random() < DETOURS) enter()
    detour = edited(detour, edit)
  }
  for (const cell of touched) {
    const digit = listed.digits[cell]!
    detour = edited(detour, digit ? { kind: 'place', cell, digit } : { kind: 'erase', cell })
  }
  if (boardText(detour) !== boardText(board)) fault('entries that are gone left something behind')
}

function checkSaving(board: Board, fault: Fault): void {
  const saved = JSON.stringify(boardToJson(board))
  if (boardText(boardFromJson(JSON.parse(saved))) !== boardText(board)) fault('saved data lost something')
  if (boardText(parseBoard(saved)) !== boardText(board)) fault('JSON as text lost something')
  const text = formatPuzzle(board, { style: 'marks' })
  const read = parseBoard(text, { format: 'marks', geometry: board.geometry })
  if (formatPuzzle(read, { style: 'marks' }) !== text) fault('a pencil-mark grid reads back as another')
}

type Judged = { readonly [judgement in 'unsound' | 'onTrack' | 'offTrack']?: 1 }

/** Without a single solution there is nothing to judge by. */
function judged(solution: readonly number[], listed: ListedBoard, board: Board, fault: Fault): Judged {
  const progress = checkProgress(puzzleOf(board), board)
  if (progress.status === 'unsound-puzzle') return { unsound: 1 }
  const wrong = listed.digits.filter((digit, cell) => digit !== 0 && digit !== solution[cell]).length
  const taken = solution.filter((digit, cell) => !listed.digits[cell] && listed.removed[cell]!.has(digit))
  const { mistakes, wrongDigits, wrongRemovals, status } = progress
  if (wrongDigits.length !== wrong) fault(`${wrong} digits are wrong, not ${wrongDigits.length}`)
  if (wrongRemovals.length > taken.length) fault('blames for marks that nobody removed')
  if (wrong === 0 && wrongRemovals.length < taken.length) fault('misses a removed mark of the solution')
  if ((status === 'on-track') !== (wrong + taken.length === 0)) fault(`is ${status}`)
  if ((status === 'on-track') !== (mistakes.length === 0)) fault('knows no mistake of a board off track')
  for (const mistake of mistakes)
    if (mistake.kind === 'clash') {
      const { house, digit, cells } = mistake
      const found = layoutOf(board.geometry).houses[house]!.cells.filter(
        (cell) => listed.digits[cell] === digit,
      )
      if (found.length < 2 || found.join() !== cells.join()) fault('a clash that is none')
    }
  if (status === 'off-track') {
    const answer = hint(board, { depth: 'argument' })
    if (answer.kind !== 'mistake' || answer.says.length !== HINT_DEPTHS.length)
      fault('no hint at the mistake')
  }
  return status === 'on-track' ? { onTrack: 1 } : { offTrack: 1 }
}
