import type { WalkthroughWording } from '../wording.js'
import { titleOf } from './technique-title.js'
import { capital, count, counted, englishTerms, list } from './terms.js'

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
  verdicts: {
    unique: 'It has exactly one solution.',
    many: 'It has more than one solution.',
    none: 'It has no solution.',
    undecided: 'How many solutions it has is not known: counting was stopped before it was done.',
  },
  differing: (names, cells) => `The solutions differ in ${englishTerms(names).cells(cells)}.`,
  clashing: (names, cells) =>
    `The givens in ${englishTerms(names).cells(cells)} already contradict each other.`,
  nothingToDo: 'There is nothing to solve.',
  outlook: (steps, keys, enough) => {
    const all = `${capital(counted(steps, 'step'))} ${steps === 1 ? 'is' : 'are'} ahead`
    if (keys.length === 0) {
      if (enough === 'singles') return `${all}, and singles are all it takes.`
      return enough ? `${all}, all of them everyday work: singles, locked candidates, subsets.` : `${all}.`
    }
    const named = keys.map(({ step, technique }) => `step ${step} (${titleOf(technique)})`)
    return keys.length === 1
      ? `${all}. One of them is the key: ${named[0]}.`
      : `${all}. ${capital(count(keys.length))} of them are keys: ${list(named)}.`
  },
  path: 'The way to the solution',
  setUp: 'Setting up',
  setUpIntro: 'Only what the key rests on comes first; everything else can wait.',
  noSetUp: 'No step has to come first.',
  pencilMarks: 'Pencil marks',
  fillIn: 'Now fill in the pencil marks: in every open cell, all the digits that it does not see.',
  stuckAgain: 'Stuck again: what now?',
  stuckIntro: 'Everyday work goes on from here, but not to the end: the puzzle needs another key.',
  keyTitle: (step, key, keys, technique) =>
    keys === 1 ? `The key, step ${step}: ${technique}` : `Key ${key} of ${keys}, step ${step}: ${technique}`,
  find: 'How to find it',
  why: 'Why it works',
  pictureByPicture: 'Picture by picture',
  opens: (key, keys, status) => {
    if (key < keys) return 'It opens a part of the puzzle.'
    return status === 'solved'
      ? 'It opens the puzzle: what follows is everyday work.'
      : 'It gets everyday work going again, as far as that goes.'
  },
  follow: 'Following through',
  followSummary: (singles, others) =>
    [
      ...(singles > 0 ? [counted(singles, 'single')] : []),
      ...(others > 0 ? [counted(others, 'step with pencil marks', 'steps with pencil marks')] : []),
    ].join(' and '),
  stepTitle: (step, technique) => `Step ${step}: ${technique}`,
  singlesTitle: (first, last) =>
    first === last ? `Step ${first}: a single` : `Steps ${first} to ${last}: singles`,
  single: (step, fact, names) => {
    const t = englishTerms(names)
    const placed = `${step}. ${t.cell(fact.cell)} is ${t.digit(fact.digit)}`
    switch (fact.kind) {
      case 'last-cell':
        return `${placed}: the last open cell of ${t.house(fact.house)}`
      case 'only-candidate':
        return fact.struck.length === 0
          ? `${placed}: it sees all other digits`
          : `${placed}: it sees all others but ${t.digits(fact.struck)}, which ${fact.struck.length === 1 ? 'is' : 'are'} crossed out`
      case 'only-place': {
        const { blockers, struck } = fact
        const because = [
          ...(blockers.length > 0
            ? [
                `because of the ${blockers.length > 1 ? t.several(fact.digit) : t.digit(fact.digit)} in ${t.cells(blockers)}`,
              ]
            : []),
          ...(struck.length > 0 ? [`crossed out in ${t.cells(struck)}`] : []),
        ]
        return `${placed}: the only place left in ${t.house(fact.house)}${because.map((one) => `, ${one}`).join('')}`
      }
      default:
        return fact satisfies never
    }
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
  signs: 'Signs',
  notes: {
    printed: 'the printed grid',
    digitByDigit: 'the grid; each digit as it is said',
    pencilMarks: 'the grid with all its pencil marks',
    picture: (step, technique) => `the picture of step ${step} (${technique})`,
    frame: (step, frame, frames) => `frame ${frame} of ${frames} of step ${step}`,
    asItIs: 'the grid as it stands',
    end: 'the grid at the end',
    show: 'Show',
  },
}
