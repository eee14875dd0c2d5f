import type { WalkthroughWording } from '../wording.js'
import { titleOf } from './technique-title.js'
import { counted, englishTerms, list } from './terms.js'

const LEVEL_TASKS = {
  scan: 'singles',
  mark: 'pencil marks',
  pattern: 'patterns (fish, wings)',
  chain: 'chains',
  branch: 'case analysis',
} as const

/** `step 3`, `steps 3, 5 and 8`; long rows are cut short. */
function steps(numbers: readonly number[]): string {
  if (numbers.length === 1) return `step ${numbers[0]}`
  const shown =
    numbers.length > 8
      ? [...numbers.slice(0, 7).map(String), `${numbers.length - 7} more`]
      : numbers.map(String)
  return `steps ${list(shown)}`
}

export const englishWalkthrough: WalkthroughWording = {
  title: 'A number-place puzzle, step by step',
  puzzle: 'The puzzle',
  verdict: 'Does it have one solution?',
  verdicts: {
    unique: 'Yes: it has exactly one solution.',
    many: 'No: it has more than one solution.',
    none: 'No: it has no solution.',
    undecided: 'Not known: counting its solutions was stopped before it was done.',
  },
  differing: (names, cells) => `The solutions differ in ${englishTerms(names).cells(cells)}.`,
  clashing: (names, cells) =>
    `The givens in ${englishTerms(names).cells(cells)} already contradict each other.`,
  path: 'The way to the solution',
  summary: (n, level) => `${counted(n, 'step')} in all; the hardest require ${LEVEL_TASKS[level]}.`,
  nothingToDo: 'There is nothing to solve.',
  key: 'The step that cracks it',
  keyIntro: (step, next) => {
    const hardest = `Step ${step} is the last one that requires the hardest technique of this path`
    if (next === undefined) return `${hardest}; it ends the puzzle.`
    return next === 'singles'
      ? `${hardest}; after it, singles are enough.`
      : `${hardest}; the hardest one after it: ${titleOf(next)}.`
  },
  keyOfRoute: (step, key, keys) => {
    if (keys === 1) return `Step ${step} is the key: after it, everyday techniques finish the puzzle.`
    return key < keys
      ? `Step ${step} is key ${key} of ${keys}: it takes everyday techniques as far as the next one.`
      : `Step ${step} is the last of ${keys} keys: after it, everyday techniques finish the puzzle.`
  },
  setUp: (direct, all) =>
    `It rests on ${steps(direct)}${all > direct.length ? ` (${counted(all, 'step')} with what these rest on in turn)` : ''}.`,
  noSetUp: 'It can be seen on the board as printed: no earlier step is needed for it.',
  opens: (numbers) => `It opens the way to ${steps(numbers)}.`,
  stepTitle: (step, technique) => `Step ${step}: ${technique}`,
  scanTitle: (first, last) =>
    first === last ? `Step ${first}: a single` : `Steps ${first} to ${last}: singles`,
  scanLine: (step, { cell, digit }, technique, house, names) => {
    const t = englishTerms(names)
    const where = house === undefined ? '' : ` in ${t.house(house)}`
    return `${step}. ${t.cell(cell)} is ${t.digit(digit)}: ${titleOf(technique).toLowerCase()}${where}`
  },
  restsOn: (numbers) => `Rests on ${steps(numbers)}.`,
  reasons: 'Candidate by candidate',
  links: 'Links',
  ends: {
    solved: 'Solved: every cell is filled.',
    stuck: 'The chosen techniques get no further than this.',
    stopped: 'The search was stopped here: there was no time for more.',
    invalid: 'Here the board contradicts itself, so the puzzle cannot be finished.',
  },
  reading: 'Read from the picture',
  settled: (names, cells) =>
    `Decided by the logic of the puzzle rather than by their looks: ${englishTerms(names).cells(cells)} (${counted(cells.length, 'cell')}).`,
  doubtful: (names, cells) => `Please compare with the page: ${englishTerms(names).cells(cells)}.`,
  allPrinted: 'No digit had to be corrected by logic.',
  profile: 'Techniques used',
  profileColumns: ['technique', 'level', 'steps'],
}
