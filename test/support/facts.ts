import type { Board } from '../../src/grid/board.js'
import { Context } from '../../src/logic/facts/context.js'
import { type Facts, factsOf } from '../../src/logic/facts/facts.js'

const made = new WeakMap<Board, Facts>()

/** The facts of a board in a context of its own: the same value whenever that board is asked about. */
export function factsFor(board: Board): Facts {
  let facts = made.get(board)
  if (!facts) {
    facts = freshFacts(board)
    made.set(board, facts)
  }
  return facts
}

/** The facts of a board in a new context. */
export function freshFacts(board: Board): Facts {
  return factsOf(new Context(), board)
}
