import type { Board } from '../../src/grid/board.js'
import type { FoundStep, Pattern, Premise, Step } from '../../src/logic/steps/step.js'
import type { TechniqueName } from '../../src/logic/technique-names.js'
import { boardWithMarks, cellAt } from './boards.js'

/** A step as a technique would report it, with what a test does not care about filled in. */
export function stepOn(board: Board, pattern: Pattern, rest: Partial<Omit<Step, 'pattern'>> = {}): FoundStep {
  return {
    technique: 'a-technique-of-tomorrow' as TechniqueName,
    level: 'pattern',
    placements: [],
    removals: [],
    premises: [],
    ...rest,
    pattern,
    before: board,
  }
}

export const at = (name: string) => cellAt(name)
export const cell = (name: string, digits: string): Premise => ({
  kind: 'cell',
  cell: cellAt(name),
  digits: [...digits].map(Number),
})

/** An XY-wing on an otherwise empty board: pivot r1c1 {1,2}, pincers r1c5 {1,3} and r5c1 {2,3}, 3 goes from r5c5. */
export function xyWingStep(): FoundStep {
  const board = boardWithMarks({ r1c1: '12', r1c5: '13', r5c1: '23' })
  return stepOn(
    board,
    { shape: 'wing', pivot: at('r1c1'), pincers: [at('r1c5'), at('r5c1')], digit: 3 },
    {
      technique: 'xy-wing',
      removals: [{ cell: at('r5c5'), digit: 3 }],
      premises: [cell('r1c1', '12'), cell('r1c5', '13'), cell('r5c1', '23')],
    },
  )
}
