import { parsePuzzle } from '../../src/grid/text/parse.js'

/** Puzzles made for these tests, minimal, named by the hardest thing that the easiest path asks for. */
export const PUZZLES = {
  singles: parsePuzzle('54.2.......1....9.62..948.....1.....7..4.......53.76...5.....2.2.4....6...6..15..'),
  pointing: parsePuzzle('4..2......6.9.4...2538..4.....6..9.7.....8.6..7..1....64.....1...5..2.7.......346'),
  nakedPair: parsePuzzle('...3.5.6.32.6.........845..6....3...5....6147...4...9.2.......5.6....3..7.1......'),
  xWing: parsePuzzle('...1...7.6.8.74.........3....75....1......4...4....5274..2.6..32..49.1.6..6.8..5.'),
  xyWing: parsePuzzle('5...6.....6.1.27..4...7...3.....95.4..4..7...2..3......8..2....7....3.9..3...42..'),
  chain: parsePuzzle('.59....43...5.......49.6..5.7......9...8..5....67...2.9.365.....27..36.4.....2...'),
} as const
