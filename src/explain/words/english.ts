import { englishFact } from './english-facts.js'
import { englishHint } from './english-hint.js'
import { englishReason } from './english-reasons.js'
import { englishRole } from './english-roles.js'
import { englishRule } from './english-rule.js'
import { counted } from './english-terms.js'
import { englishWalkthrough } from './english-walkthrough.js'
import { titleOf } from './technique-title.js'
import type { Wording } from './wording.js'

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
  role: englishRole,
  rule: englishRule,
  picture: {
    strongLink: 'strong link',
    weakLink: 'weak link',
    given: 'given',
    found: 'digit found',
    title: (technique) =>
      technique === undefined ? 'Number-place grid' : `${technique} on a number-place grid`,
    description: (geometry, given, found, open) =>
      `A grid of ${geometry.order} rows and ${geometry.order} columns with ${counted(given, 'given')}, ${counted(
        found,
        'digit found',
        'digits found',
      )} and ${counted(open, 'open cell')}.`,
  },
  hint: englishHint,
  walkthrough: englishWalkthrough,
}
