import { type Explanation, explain } from '../explain/explain-step.js'
import { hintAt } from '../explain/hint.js'
import { renderSvg } from '../explain/render-svg.js'
import type { Voice } from '../explain/voice.js'
import type { Board } from '../grid/board.js'
import type { FoundStep } from '../logic/steps/step.js'
import type { Opened, Position } from './positions.js'
import type { SourcePlace } from './starts.js'

/** A board on which one technique is to be found, with all that is needed to set it and to go through it. */
export interface Exercise {
  /** Where the puzzle stands in its source. */
  readonly from: SourcePlace
  /** The board as it is set, pencil marks included: nothing the class knows gives anything. */
  readonly board: Board
  /** The step to be found. */
  readonly answer: FoundStep
  /** How many steps of the technique the board has. */
  readonly instances: number
  /** What the class gets on with once the answer is found. */
  readonly opens: Opened
  /** Effort of the answer, in looks, as `stepEffort` gives it. */
  readonly effort: number
  /** Where to look, what to look for, and which cells it is about: three sentences for those who need help. */
  readonly hints: readonly string[]
  /** The answer in words. */
  readonly explanation: Explanation
  /** The board, and the board with the answer drawn on it: two SVG documents. */
  readonly pictures: { readonly board: string; readonly answer: string }
}

/** What an exercise is made of. */
export interface Found extends Position {
  readonly place: SourcePlace
  readonly effort: number
}

/** Words and pictures are made when they are first looked at: a picture takes as long as finding the exercise. */
export function exerciseOf({ place, answer, instances, opens, effort }: Found, voice: Voice): Exercise {
  const board = answer.before
  const hints = once(() => hintAt(answer, 'cells', voice).says)
  const explanation = once(() => explain(answer, voice))
  const blank = once(() => renderSvg(board, voice))
  const drawn = once(() => renderSvg(board, { ...voice, step: answer }))
  return {
    from: place,
    board,
    answer,
    instances,
    opens,
    effort,
    get hints() {
      return hints()
    },
    get explanation() {
      return explanation()
    },
    pictures: {
      get board() {
        return blank()
      },
      get answer() {
        return drawn()
      },
    },
  }
}

function once<Made>(make: () => Made): () => Made {
  let made: Made | undefined
  return () => {
    made ??= make()
    return made
  }
}
