/**
 * Embed hints in another app: the app owns the board, the library looks at it when its user asks.
 *
 *     npx tsx examples/embed-hints.ts
 */
import {
  applyTo,
  boardFromMarks,
  cellName,
  eraseDigit,
  findRoute,
  HINT_DEPTHS,
  type Hint,
  hint,
  makePuzzle,
  newBoard,
  parsePuzzle,
  renderSvg,
  solve,
} from '../src/index.js'

// The app's own state: the printed puzzle, what its user has written, and the pencil marks the user has kept.
const puzzle = parsePuzzle(
  '5...6.....6.1.27..4...7...3.....95.4..4..7...2..3......8..2....7....3.9..3...42..',
)

const solution = solve(puzzle).board.digits

console.log('— The user is at the beginning and asks for help, a little at a time:')
for (const depth of HINT_DEPTHS) tell(hint(puzzle, { depth }))

console.log('\n— Later, all that scanning and pencil marks give has been found:')
const halfway = solve(puzzle, { preset: 'mark' }).board
tell(hint(halfway, { depth: 'cells' }))
const whole = hint(halfway, { depth: 'argument' })
tell(whole)
if (whole.kind === 'step') {
  const picture = renderSvg(halfway, { step: whole.step })
  console.log(`  (and a picture to show beside it: ${picture.length} characters of SVG)`)
}

console.log(
  '\n— The app has chosen a route; hints lead along it, whatever else its user finds in the meantime:',
)
const route = findRoute(puzzle)
if (route.status === 'solved') {
  const { before } = route.steps[route.keys[0]!]!
  tell(hint(before, { route, depth: 'method' }))
  const cell = before.digits.indexOf(0)
  const elsewhere = { cell, digit: solution[cell]! }
  console.log(`  (the app's user finds the ${elsewhere.digit} in ${cellName(puzzle.geometry, cell)})`)
  tell(hint(applyTo(before, { placements: [elsewhere], removals: [] }), { route, depth: 'method' }))
}

console.log('\n— The user has written a wrong digit; no hint is built on it:')
const open = puzzle.givens.indexOf(0)
const wrong = applyTo(newBoard(puzzle), {
  placements: [{ cell: open, digit: (solution[open]! % 9) + 1 }],
  removals: [],
})
console.log(`  (the app's user puts ${(solution[open]! % 9) + 1} into ${cellName(puzzle.geometry, open)})`)
for (const depth of HINT_DEPTHS) tell(hint(wrong, { depth }))

console.log('\n— The user erases it, and nothing is left of it:')
tell(hint(eraseDigit(wrong, open)))

console.log('\n— The app keeps pencil marks of its own, and its user has noted none so far:')
const unnoted = new Array(puzzle.givens.length).fill(undefined)
tell(hint(boardFromMarks(puzzle, puzzle.givens, unnoted)))

console.log('\n— A puzzle with a given left out:')
tell(hint(makePuzzle(puzzle.givens.map((digit, cell) => (cell === 0 ? 0 : digit)))))

function tell(answer: Hint): void {
  console.log(`  [${answer.kind === 'step' ? answer.depth : answer.kind}]`)
  for (const sentence of answer.says) console.log(`    ${sentence}`)
}
