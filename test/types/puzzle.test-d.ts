// Compiled by `npm run types`, never run: each line marked so must not compile.
import {
  boxedGeometry,
  checkUniqueness,
  makePuzzle,
  type Puzzle,
  parsePuzzle,
  STANDARD,
} from '../../src/index.js'

const puzzle = makePuzzle([])

const read: Puzzle = parsePuzzle('')
checkUniqueness(read)

// @ts-expect-error a puzzle is not written down by hand
checkUniqueness({ geometry: STANDARD, givens: [1] })
// @ts-expect-error nor put together from parts of another
checkUniqueness({ ...puzzle, givens: [1] })
// @ts-expect-error nor given another geometry
checkUniqueness({ ...puzzle, geometry: boxedGeometry(2, 2) })
// @ts-expect-error what is made stays as it was made
puzzle.givens[0] = 1
