import type { Wording } from '../wording.js'
import { englishClue } from './clues.js'
import { englishHint } from './hint.js'
import { ENGLISH_PICTURES } from './pictures.js'
import { englishSheet } from './sheet.js'
import { ENGLISH_STEPS } from './steps.js'
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
  ...ENGLISH_STEPS,
  ...ENGLISH_PICTURES,
  level: (level) => LEVEL_NAMES[level],
  clue: englishClue,
  // errors are written in English
  error: (error) => error.message,
  unproven: englishUnproven,
  hint: englishHint,
  walkthrough: englishWalkthrough,
  sheet: englishSheet,
}
