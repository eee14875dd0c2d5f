import type { Wording } from '../wording.js'
import { germanClue } from './clues.js'
import { germanError } from './errors.js'
import { germanFact } from './facts.js'
import { germanHint } from './hint.js'
import { germanReason } from './reasons.js'
import { germanRole } from './roles.js'
import { germanRule } from './rule.js'
import { germanSheet } from './sheet.js'
import { GERMAN_TITLES } from './titles.js'
import { germanUnproven } from './unproven.js'
import { germanWalkthrough } from './walkthrough.js'

const LEVEL_NAMES = {
  scan: 'Hinsehen (Einer)',
  mark: 'Notieren (Kandidaten nötig)',
  pattern: 'Muster (Fische, Flügel, Muster einer Ziffer)',
  chain: 'Ketten (abwechselnde Verknüpfungen, fast gesperrte Mengen)',
  branch: 'Fallunterscheidung',
} as const

/** German: an import of its own, `gridreason/german`. */
export const GERMAN: Wording = {
  language: 'de',
  technique: (name) => GERMAN_TITLES[name],
  level: (level) => LEVEL_NAMES[level],
  fact: germanFact,
  reason: germanReason,
  clue: germanClue,
  error: germanError,
  unproven: germanUnproven,
  role: germanRole,
  rule: germanRule,
  picture: {
    strongLink: 'starke Verknüpfung',
    weakLink: 'schwache Verknüpfung',
    thenLink: 'macht wahr',
    given: 'vorgegeben',
    found: 'gefundene Ziffer',
    title: (technique) => (technique === undefined ? 'Zahlenrätsel' : `${technique} in einem Zahlenrätsel`),
    description: (order, given, found, open) =>
      `Ein Gitter aus ${order} Zeilen und ${order} Spalten: ${given} vorgegeben, ${found} gefunden, ${open} offen.`,
  },
  hint: germanHint,
  walkthrough: germanWalkthrough,
  sheet: germanSheet,
}
