import type { WalkthroughWording } from '../wording.js'
import { capital, count, germanTerms, list } from './terms.js'
import { GERMAN_TITLES } from './titles.js'

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
  verdicts: {
    unique: 'Es hat genau eine Lösung.',
    many: 'Es hat mehr als eine Lösung.',
    none: 'Es hat keine Lösung.',
    undecided: 'Wie viele Lösungen es hat, ist unbekannt: Das Zählen wurde vorzeitig beendet.',
  },
  differing: (names, cells) => `Die Lösungen unterscheiden sich in ${germanTerms(names).cells(cells)}.`,
  clashing: (names, cells) =>
    `Schon die Vorgaben in ${germanTerms(names).cells(cells)} widersprechen einander.`,
  nothingToDo: 'Hier gibt es nichts zu lösen.',
  outlook: (steps, keys, enough) => {
    const all = `Es ${steps === 1 ? 'folgt ein Schritt' : `folgen ${steps <= 12 ? count(steps) : steps} Schritte`}`
    if (keys.length === 0) {
      if (enough === 'singles') return `${all}; Einer genügen.`
      return enough
        ? `${all}, alles alltägliche Arbeit: Einer, Ausschluss zwischen Block und Linie, Paare und Tripel.`
        : `${all}.`
    }
    const named = keys.map(({ step, technique }) => `Schritt ${step} (${GERMAN_TITLES[technique]})`)
    return keys.length === 1
      ? `${all}. Einer davon ist der Schlüssel: ${named[0]}.`
      : `${all}. ${capital(count(keys.length))} davon sind Schlüssel: ${list(named)}.`
  },
  path: 'Der Weg zur Lösung',
  setUp: 'Vorbereitung',
  setUpIntro: 'Zuerst kommt nur, worauf der Schlüssel beruht; alles andere kann warten.',
  noSetUp: 'Kein Schritt muss vorausgehen.',
  pencilMarks: 'Kandidaten',
  fillIn: 'Nun werden die Kandidaten notiert: in jeder offenen Zelle alle Ziffern, die sie nicht sieht.',
  stuckAgain: 'Wieder fest: was nun?',
  stuckIntro:
    'Von hier geht es alltäglich weiter, aber nicht bis zum Ende: Das Rätsel braucht noch einen Schlüssel.',
  keyTitle: (step, key, keys, technique) =>
    keys === 1
      ? `Der Schlüssel, Schritt ${step}: ${technique}`
      : `Schlüssel ${key} von ${keys}, Schritt ${step}: ${technique}`,
  find: 'So findet man ihn',
  why: 'Warum er stimmt',
  pictureByPicture: 'Bild für Bild',
  opens: (key, keys, status) => {
    if (key < keys) return 'Damit ist ein Teil des Rätsels offen.'
    return status === 'solved'
      ? 'Damit ist das Rätsel offen: Was folgt, ist alltägliche Arbeit.'
      : 'Damit geht es alltäglich weiter, so weit das reicht.'
  },
  follow: 'Der Rest',
  followSummary: (singles, others) =>
    [
      ...(singles > 0 ? [singles === 1 ? 'ein Einer' : `${singles} Einer`] : []),
      ...(others > 0
        ? [others === 1 ? 'ein Schritt mit Kandidaten' : `${count(others)} Schritte mit Kandidaten`]
        : []),
    ].join(' und '),
  stepTitle: (step, technique) => `Schritt ${step}: ${technique}`,
  singlesTitle: (first, last) =>
    first === last ? `Schritt ${first}: ein Einer` : `Schritte ${first} bis ${last}: Einer`,
  single: (step, fact, names) => {
    const t = germanTerms(names)
    const placed = `${step}. ${t.cell(fact.cell)} ist ${t.digit(fact.digit)}`
    switch (fact.kind) {
      case 'last-cell':
        return `${placed}: die letzte offene Zelle von ${t.house(fact.house)}`
      case 'only-candidate':
        return fact.struck.length === 0
          ? `${placed}: die Zelle sieht alle anderen Ziffern`
          : `${placed}: die Zelle sieht alle anderen bis auf ${t.digits(fact.struck)}, die gestrichen ${fact.struck.length === 1 ? 'ist' : 'sind'}`
      case 'only-place': {
        const { blockers, struck } = fact
        const because = [
          ...(blockers.length > 0 ? [`wegen der ${t.digit(fact.digit)} in ${t.cells(blockers)}`] : []),
          ...(struck.length > 0 ? [`gestrichen in ${t.cells(struck)}`] : []),
        ]
        return `${placed}: der einzige Platz in ${t.house(fact.house)}${because.map((one) => `, ${one}`).join('')}`
      }
      default:
        return fact satisfies never
    }
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
  signs: 'Zeichen',
  notes: {
    printed: 'das gedruckte Gitter',
    digitByDigit: 'das Gitter; jede Ziffer, wenn sie genannt wird',
    pencilMarks: 'das Gitter mit allen Kandidaten',
    picture: (step, technique) => `das Bild zu Schritt ${step} (${technique})`,
    frame: (step, frame, frames) => `Bild ${frame} von ${frames} zu Schritt ${step}`,
    asItIs: 'das Gitter, wie es ist',
    end: 'das Gitter am Ende',
    show: 'Zeigen',
  },
}
