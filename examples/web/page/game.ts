import {
  applyTo,
  type Board,
  type Conclusion,
  digitCount,
  digitSet,
  digitsOf,
  eraseDigit,
  isNoted,
  noteMarks,
  type Puzzle,
  puzzleOf,
} from 'gridreason'

/** A board on the way, with all the boards before it; boards are values, so undoing is taking the one before. */
export interface Game {
  readonly puzzle: Puzzle
  readonly board: Board
  readonly past: readonly Board[]
  readonly future: readonly Board[]
}

export function newGame(board: Board): Game {
  return { puzzle: puzzleOf(board), board, past: [], future: [] }
}

function moved(game: Game, board: Board): Game {
  return { ...game, board, past: [...game.past, game.board], future: [] }
}

/** Writes a digit, or erases it where it stands already. */
export function write(game: Game, cell: number, digit: number): Game {
  const { board } = game
  if (board.given[cell]) return game
  if (board.digits[cell] === digit) return erase(game, cell)
  return moved(game, applyTo(board, { placements: [{ cell, digit }], removals: [] }))
}

export function erase(game: Game, cell: number): Game {
  const { board } = game
  if (board.given[cell]) return game
  if (board.digits[cell] !== 0) return moved(game, eraseDigit(board, cell))
  return isNoted(board, cell) ? moved(game, noteMarks(board, cell, undefined)) : game
}

/** The pencil marks that are seen in a cell. */
export function marksIn(board: Board, cell: number): number[] {
  return board.digits[cell] === 0 && isNoted(board, cell) ? digitsOf(board.candidates[cell]!) : []
}

export function toggleMark(game: Game, cell: number, digit: number): Game {
  const { board } = game
  if (board.given[cell] || board.digits[cell] !== 0) return game
  const bit = digitSet([digit])
  const marks = digitSet(marksIn(board, cell)) ^ bit
  return moved(game, noteMarks(board, cell, digitCount(marks) === 0 ? undefined : marks))
}

/** Notes in every open cell without marks what its houses leave. */
export function noteAll(game: Game): Game {
  let { board } = game
  board.digits.forEach((digit, cell) => {
    if (digit === 0 && !isNoted(board, cell)) board = noteMarks(board, cell, board.candidates[cell]!)
  })
  return board === game.board ? game : moved(game, board)
}

export function follow(game: Game, conclusion: Conclusion): Game {
  return moved(game, applyTo(game.board, conclusion))
}

export function undo(game: Game): Game {
  const board = game.past.at(-1)
  if (!board) return game
  return { ...game, board, past: game.past.slice(0, -1), future: [game.board, ...game.future] }
}

export function redo(game: Game): Game {
  const [board, ...future] = game.future
  return board ? { ...game, board, past: [...game.past, game.board], future } : game
}
