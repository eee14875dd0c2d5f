import { count, counted, englishTerms } from './english-terms.js'
import type { WalkthroughWording } from './wording.js'

const steps = (numbers: readonly number[]) =>
  numbers.length === 1
    ? `step ${numbers[0]}`
    : `steps ${numbers.slice(0, -1).join(', ')} and ${numbers.at(-1)}`

export const englishWalkthrough: WalkthroughWording = {
  title: 'A number-place puzzle, step by step',
  puzzle: 'The puzzle',
  verdict: 'Verdict',
  one: 'The puzzle is sound: it has exactly one solution.',
  many: 'The puzzle is unsound: it has more than one solution.',
  none: 'The puzzle is unsound: it has no solution.',
  undecided: 'The count of solutions was stopped before it was done.',
  path: 'The way to the solution',
  summary: (n, level) =>
    n === 0
      ? 'There is nothing left to solve.'
      : `${counted(n, 'step')}; the hardest ${level === undefined ? '' : `asks for: ${level}`}.`,
  key: 'The step that cracks it',
  keyIntro: (step, technique) => `Step ${step}, ${technique}, is the hardest step of the way.`,
  setUp: (numbers) => `It rests on what ${steps(numbers)} prepared.`,
  noSetUp: 'It can be seen on the board as printed: no other step has to prepare it.',
  stepTitle: (step, technique) => `Step ${step}: ${technique}`,
  scanTitle: (first, last) =>
    first === last ? `Step ${first}: a single` : `Steps ${first} to ${last}: singles`,
  scanIntro: (n) => (n === 1 ? 'One digit follows by scanning:' : `${count(n)} digits follow by scanning:`),
  restsOn: 'Rests on',
  why: 'Candidate by candidate',
  links: 'Links',
  after: 'The board afterwards',
  solved: 'Solved: every cell is filled.',
  stuck: 'Here the chosen techniques lead no further.',
  invalid: 'Here the board contradicts itself: the puzzle cannot be solved from it.',
  reading: 'Read from the picture',
  settled: (geometry, cells) =>
    cells.length === 0
      ? 'Every digit was read as printed.'
      : `Settled by the puzzle's own logic: ${englishTerms(geometry).cells(cells)}.`,
  doubtful: (geometry, cells) =>
    cells.length === 0 ? '' : `Please compare with the page: ${englishTerms(geometry).cells(cells)}.`,
  profile: 'Techniques used',
  profileColumns: ['technique', 'level', 'steps'],
}
