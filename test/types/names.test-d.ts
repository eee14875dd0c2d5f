// Compiled by `npm run types`, never run: each line marked so must not compile.
import {
  type Board,
  checkClaim,
  findSteps,
  type Hint,
  hint,
  type StepHint,
  solve,
  TECHNIQUE_NAMES,
  type TechniqueName,
  techniqueTitle,
} from '../../src/index.js'

declare const board: Board

const name: TechniqueName = TECHNIQUE_NAMES[0]
findSteps(board, { techniques: [name, 'x-wing'] })
for (const step of findSteps(board)) techniqueTitle(step.technique)

// @ts-expect-error the name has a hyphen
findSteps(board, { techniques: ['xwing'] })
// @ts-expect-error the name has a hyphen
techniqueTitle('xwing')
// @ts-expect-error the name has a hyphen
checkClaim(board, { technique: 'xwing' })
// @ts-expect-error there is no such level
solve(board, { preset: 'hard' })
// @ts-expect-error there is no such option
solve(board, { technique: 'x-wing' })
// @ts-expect-error options go by name
solve(board, 'scan')
// @ts-expect-error a number is no text
findSteps(board, { limit: '1' })

const look = hint(board)
// @ts-expect-error a look gives no technique away
if (look.kind === 'step') look.technique
const method = hint(board, { depth: 'method', preset: 'mark' })
if (method.kind === 'step') {
  techniqueTitle(method.technique)
  // @ts-expect-error a method gives no cells away
  method.cells
}
const whole = hint(board, { depth: 'argument' })
if (whole.kind === 'step') {
  whole.step.before satisfies Board
  whole.explanation.sentences satisfies readonly string[]
}
// @ts-expect-error there is no such depth
hint(board, { depth: 'deeper' })

declare const any: Hint
if (any.kind === 'step' && any.depth === 'argument') any.step.before satisfies Board
// @ts-expect-error only at the depth of the argument
if (any.kind === 'step') any.step

// @ts-expect-error an argument without its step is none
const lacking: StepHint<'argument'> = {
  kind: 'step',
  depth: 'argument',
  says: [],
  houses: [],
  technique: 'x-wing',
  level: 'pattern',
  cells: [],
  digits: [],
}
lacking satisfies StepHint
