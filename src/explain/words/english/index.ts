import type { Wording } from '../wording.js'
import { englishClue } from './clues.js'
import { englishFact } from './facts.js'
import { englishHint } from './hint.js'
import { englishReason } from './reasons.js'
import { englishRole } from './roles.js'
import { englishRule } from './rule.js'
import { englishSheet } from './sheet.js'
import { titleOf } from './technique-title.js'
import { counted } from './terms.js'
import { englishUnproven } from './unproven.js'
import { englishWalkthrough } from './walkthrough.js'

const LEVEL_NAMES = {
  scan: 'scan (singles)',
  mark: 'mark (pencil marks needed)',
  pattern: 'pattern (fish, wings, one-digit patterns)',
  chain: 'chain (alternating links, almost locked sets)',
  branch: 'branch (case analysis)',
} as const

/** The wording used unless another is handed in. */
export const ENGLISH: Wording = {
  language: 'en',
  technique: titleOf,
  level: (level) => LEVEL_NAMES[level],
  fact: englishFact,
  reason: englishReason,
  clue: englishClue,
  // errors are written in English
  error: (error) => error.message,
  unproven: englishUnproven,
  role: englishRole,
  rule: englishRule,
  picture: {
    strongLink: 'strong link',
    weakLink: 'weak link',
    thenLink: 'makes true',
    given: 'given',
    found: 'digit found',
    title: (technique) =>
      technique === undefined ? 'Number-place grid' : `${technique} on a number-place grid`,
    description: (order, given, found, open) =>
      `A grid of ${order} rows and ${order} columns with ${counted(given, 'given')}, ${counted(
        found,
        'digit found',
        'digits found',
      )} and ${counted(open, 'open cell')}.`,
  },
  hint: englishHint,
  walkthrough: englishWalkthrough,
  sheet: englishSheet,
}
