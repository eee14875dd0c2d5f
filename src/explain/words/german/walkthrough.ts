import type { WalkthroughWording } from '../wording.js'
import { count, germanTerms, list } from './terms.js'
import { GERMAN_TITLES } from './titles.js'

const LEVEL_TASKS = {
  scan: 'Einer',
  mark: 'Kandidatenarbeit',
  pattern: 'Muster (Fische, Flügel)',
  chain: 'Ketten',
  branch: 'Fallunterscheidung',
} as const

/** `Schritt 3`, `die Schritte 3, 5 und 8`; long rows are cut short. */
function steps(numbers: readonly number[], several = 'die Schritte'): string {
  if (numbers.length === 1) return `Schritt ${numbers[0]}`
  const shown =
    numbers.length > 8
      ? [...numbers.slice(0, 7).map(String), `${numbers.length - 7} weitere`]
      : numbers.map(String)
  return `${several} ${list(shown)}`
}

export const germanWalkthrough: WalkthroughWording = {
  title: 'Ein Zahlenrätsel, Schritt für Schritt',
  puzzle: 'Das Rätsel',
  verdict: 'Hat es genau eine Lösung?',
  verdicts: {
    unique: 'Ja: Es hat genau eine Lösung.',
    many: 'Nein: Es hat mehr als eine Lösung.',
    none: 'Nein: Es hat keine Lösung.',
    undecided: 'Unbekannt: Das Zählen der Lösungen wurde vorzeitig beendet.',
  },
  differing: (names, cells) => `Die Lösungen unterscheiden sich in ${germanTerms(names).cells(cells)}.`,
  clashing: (names, cells) =>
    `Schon die Vorgaben in ${germanTerms(names).cells(cells)} widersprechen einander.`,
  path: 'Der Weg zur Lösung',
  summary: (n, level) =>
    n === 1
      ? `Insgesamt ein Schritt; er verlangt ${LEVEL_TASKS[level]}.`
      : `Insgesamt ${n <= 12 ? count(n) : n} Schritte; die schwersten verlangen ${LEVEL_TASKS[level]}.`,
  nothingToDo: 'Hier gibt es nichts zu lösen.',
  key: 'Der Schlüsselschritt',
  keyIntro: (step, next) => {
    const hardest = `Schritt ${step} ist der letzte, der die schwerste Technik dieses Wegs verlangt`
    if (next === undefined) return `${hardest}; er beendet das Rätsel.`
    return next === 'singles'
      ? `${hardest}; danach genügen Einer.`
      : `${hardest}; die schwerste danach: ${GERMAN_TITLES[next]}.`
  },
  keyOfRoute: (step, key, keys) => {
    if (keys === 1) return `Schritt ${step} ist der Schlüssel: Danach führen alltägliche Techniken zum Ende.`
    return key < keys
      ? `Schritt ${step} ist Schlüssel ${key} von ${keys}: Er bringt alltägliche Techniken bis zum nächsten.`
      : `Schritt ${step} ist der letzte von ${keys} Schlüsseln: Danach führen alltägliche Techniken zum Ende.`
  },
  setUp: (direct, all) =>
    `Er beruht auf ${steps(direct, 'den Schritten')}${all > direct.length ? ` (${all} Schritte mit allem, worauf diese beruhen)` : ''}.`,
  noSetUp: 'Er ist schon im gedruckten Gitter zu sehen: Kein früherer Schritt ist dafür nötig.',
  opens: (numbers) => `Er öffnet den Weg zu ${steps(numbers, 'den Schritten')}.`,
  stepTitle: (step, technique) => `Schritt ${step}: ${technique}`,
  scanTitle: (first, last) =>
    first === last ? `Schritt ${first}: ein Einer` : `Schritte ${first} bis ${last}: Einer`,
  scanLine: (step, { cell, digit }, technique, house, names) => {
    const t = germanTerms(names)
    const where = house === undefined ? '' : ` in ${t.house(house)}`
    return `${step}. ${t.cell(cell)} ist ${t.digit(digit)}: ${GERMAN_TITLES[technique]}${where}`
  },
  restsOn: (numbers) => `Beruht auf ${steps(numbers, 'den Schritten')}.`,
  reasons: 'Kandidat für Kandidat',
  links: 'Verknüpfungen',
  ends: {
    solved: 'Gelöst: Alle Zellen sind gefüllt.',
    stuck: 'Weiter führen die gewählten Techniken nicht.',
    stopped: 'Hier wurde die Suche beendet: Für mehr war keine Zeit.',
    invalid: 'Hier widerspricht sich das Gitter, also lässt sich das Rätsel nicht beenden.',
  },
  reading: 'Aus dem Bild gelesen',
  settled: (names, cells) =>
    `Nicht am Aussehen, sondern durch die Logik des Rätsels entschieden: ${germanTerms(names).cells(cells)} (${
      cells.length === 1 ? 'eine Zelle' : `${count(cells.length)} Zellen`
    }).`,
  doubtful: (names, cells) => `Bitte mit der Seite vergleichen: ${germanTerms(names).cells(cells)}.`,
  allPrinted: 'Keine Ziffer musste durch Logik berichtigt werden.',
  profile: 'Verwendete Techniken',
  profileColumns: ['Technik', 'Stufe', 'Schritte'],
}
