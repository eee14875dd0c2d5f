import { ENGLISH } from '../../explain/words/english/index.js'
import { GERMAN } from '../../explain/words/german/index.js'
import type { Wording } from '../../explain/words/wording.js'
import type { Grade } from '../../grade/grade.js'
import type { CheckReason } from '../../photo/reading.js'
import type { SkipReason } from '../input/skipped.js'

/** Puzzles by what came of them: solved ones by their level, the others by why there is none. */
export type Outcome = 'stuck' | Exclude<Grade['verdict'], 'unique'>

/** Everything a report says, in one language. */
export interface ReportLanguage {
  /** Names of levels and techniques. */
  readonly wording: Wording
  readonly title: string
  /** Writes a number. */
  number(value: number): string
  /** Writes a share of a whole. */
  share(part: number, whole: number): string
  /** The sentence at the top. */
  summary(counts: { readonly graded: number; readonly failed: number; readonly skipped: number }): string
  readonly levels: string
  readonly outcomes: Readonly<Record<Outcome, string>>
  readonly effort: string
  /** Explains the picture of efforts. */
  effortSays(quarter: number, half: number, threeQuarters: number): string
  readonly looks: string
  readonly puzzles: string
  readonly techniques: string
  readonly techniqueColumns: readonly [string, string, string, string, string, string]
  readonly hardest: string
  readonly easiest: string
  /** Caption of a puzzle. */
  caption(level: string, effort: string, technique: string | undefined): string
  readonly duplicates: string
  readonly noDuplicates: string
  /** Says which puzzles are the same. */
  sameAs(count: number): string
  readonly photos: string
  /** Says how the photos came out. */
  photosSay(certain: number, check: number): string
  readonly checkReasons: Readonly<Record<CheckReason, string>>
  readonly failed: string
  readonly failedColumns: readonly [string, string, string]
  readonly skipped: string
  readonly skipReasons: Readonly<Record<SkipReason, string>>
  /** After a list that was cut. */
  more(count: number): string
  /** Where a record comes from. */
  place(path: string, line: number | undefined, grid: number | undefined): string
  /** Names a puzzle by its number. */
  puzzleNumber(number: string): string
}

/** English, for reports. */
export const ENGLISH_REPORT: ReportLanguage = {
  wording: ENGLISH,
  title: 'Grades',
  number: (value) => value.toLocaleString('en'),
  share: (part, whole) => percent(part, whole, '.'),
  summary: ({ graded, failed, skipped }) =>
    [
      `${graded.toLocaleString('en')} ${graded === 1 ? 'puzzle was' : 'puzzles were'} graded.`,
      ...(failed > 0 ? [`${failed.toLocaleString('en')} could not be read or graded.`] : []),
      ...(skipped > 0
        ? [`${skipped.toLocaleString('en')} ${skipped === 1 ? 'file was' : 'files were'} passed over.`]
        : []),
    ].join(' '),
  levels: 'Levels',
  outcomes: {
    stuck: 'beyond the techniques',
    many: 'several solutions',
    none: 'no solution',
    undecided: 'not counted to the end',
  },
  effort: 'Effort',
  effortSays: (quarter, half, threeQuarters) =>
    `Half of the solved puzzles take more than ${round(half, 'en')} looks, a quarter less than ${round(quarter, 'en')}, and a quarter more than ${round(threeQuarters, 'en')}.`,
  looks: 'effort in looks',
  puzzles: 'puzzles',
  techniques: 'Techniques',
  techniqueColumns: ['Technique', 'Level', 'Puzzles', 'Share', 'Rounds', 'Hardest moment in'],
  hardest: 'Hardest',
  easiest: 'Easiest',
  caption: (level, effort, technique) =>
    `${level}, effort ${effort}${technique ? `, hardest: ${technique}` : ''}`,
  duplicates: 'The same puzzle more than once',
  noDuplicates: 'No puzzle is there twice, turned, mirrored, rearranged or renamed ones included.',
  sameAs: (count) =>
    (count === 1 ? 'One puzzle is' : `${count.toLocaleString('en')} puzzles are`) +
    ' the same as one before but for names and order.',
  photos: 'Photos',
  photosSay: (certain, check) =>
    `${certain.toLocaleString('en')} grids were read with certainty; ${check.toLocaleString('en')} should be checked against the photo.`,
  checkReasons: {
    'close-rival': 'another reading is almost as likely',
    'not-sound': 'as read it has not exactly one solution',
    'hard-to-read': 'hard to read',
    'grid-cut': 'the grid is cut off',
    'grid-faint': 'the grid is hardly seen',
    'turn-unclear': 'which way is up is not clear',
    handwriting: 'somebody has written in it',
    'box-shape': 'the shape of the boxes is not clear',
    'entry-unclear': 'an entry is hard to read',
    'marks-unclear': 'pencil marks are hard to read',
  },
  failed: 'Not read or graded',
  failedColumns: ['Why', 'How many', 'For example'],
  skipped: 'Passed over',
  skipReasons: {
    extension: 'other extensions than those asked for',
    hidden: 'hidden files and folders',
    seen: 'folders that were read already',
    special: 'pipes and devices',
    format: 'neither text nor a picture that can be read',
    empty: 'no grid in it',
  },
  more: (count) => `and ${count.toLocaleString('en')} more`,
  place: (path, line, grid) => `${path}${line ? `, line ${line}` : ''}${grid ? `, grid ${grid}` : ''}`,
  puzzleNumber: (number) => `No. ${number}`,
}

/** German, for reports. */
export const GERMAN_REPORT: ReportLanguage = {
  wording: GERMAN,
  title: 'Bewertungen',
  number: (value) => value.toLocaleString('de'),
  share: (part, whole) => percent(part, whole, ','),
  summary: ({ graded, failed, skipped }) =>
    [
      `${graded.toLocaleString('de')} Rätsel ${graded === 1 ? 'wurde' : 'wurden'} bewertet.`,
      ...(failed > 0
        ? [
            `${failed.toLocaleString('de')} ${failed === 1 ? 'konnte' : 'konnten'} nicht gelesen oder bewertet werden.`,
          ]
        : []),
      ...(skipped > 0
        ? [`${skipped.toLocaleString('de')} ${skipped === 1 ? 'Datei wurde' : 'Dateien wurden'} übergangen.`]
        : []),
    ].join(' '),
  levels: 'Stufen',
  outcomes: {
    stuck: 'mit diesen Techniken nicht lösbar',
    many: 'mehrere Lösungen',
    none: 'keine Lösung',
    undecided: 'nicht zu Ende gezählt',
  },
  effort: 'Aufwand',
  effortSays: (quarter, half, threeQuarters) =>
    `Die Hälfte der gelösten Rätsel braucht mehr als ${round(half, 'de')} Blicke, ein Viertel weniger als ${round(quarter, 'de')}, ein Viertel mehr als ${round(threeQuarters, 'de')}.`,
  looks: 'Aufwand in Blicken',
  puzzles: 'Rätsel',
  techniques: 'Techniken',
  techniqueColumns: ['Technik', 'Stufe', 'Rätsel', 'Anteil', 'Runden', 'Schwerste Stelle in'],
  hardest: 'Die schwersten',
  easiest: 'Die leichtesten',
  caption: (level, effort, technique) =>
    `${level}, Aufwand ${effort}${technique ? `, am schwersten: ${technique}` : ''}`,
  duplicates: 'Mehrfach vorhanden',
  noDuplicates: 'Kein Rätsel kommt zweimal vor, auch nicht gedreht, gespiegelt, umgestellt oder umbenannt.',
  sameAs: (count) =>
    count === 1
      ? 'Ein Rätsel gleicht einem früheren bis auf Namen und Anordnung.'
      : `${count.toLocaleString('de')} Rätsel gleichen früheren bis auf Namen und Anordnung.`,
  photos: 'Fotos',
  photosSay: (certain, check) =>
    `${certain.toLocaleString('de')} Gitter wurden sicher gelesen; ${check.toLocaleString('de')} sollten mit dem Foto verglichen werden.`,
  checkReasons: {
    'close-rival': 'eine andere Lesart ist fast so wahrscheinlich',
    'not-sound': 'so gelesen hat es nicht genau eine Lösung',
    'hard-to-read': 'schwer zu lesen',
    'grid-cut': 'das Gitter ist angeschnitten',
    'grid-faint': 'das Gitter ist kaum zu sehen',
    'turn-unclear': 'wo oben ist, bleibt unklar',
    handwriting: 'jemand hat hineingeschrieben',
    'box-shape': 'die Form der Blöcke bleibt unklar',
    'entry-unclear': 'ein Eintrag ist schwer zu lesen',
    'marks-unclear': 'Kandidatennotizen sind schwer zu lesen',
  },
  failed: 'Nicht gelesen oder bewertet',
  failedColumns: ['Warum', 'Wie viele', 'Zum Beispiel'],
  skipped: 'Übergangen',
  skipReasons: {
    extension: 'andere Endungen als die verlangten',
    hidden: 'versteckte Dateien und Ordner',
    seen: 'Ordner, die schon gelesen wurden',
    special: 'Pipes und Geräte',
    format: 'weder Text noch ein lesbares Bild',
    empty: 'kein Gitter darin',
  },
  more: (count) => `und ${count.toLocaleString('de')} weitere`,
  place: (path, line, grid) => `${path}${line ? `, Zeile ${line}` : ''}${grid ? `, Gitter ${grid}` : ''}`,
  puzzleNumber: (number) => `Nr. ${number}`,
}

function round(looks: number, language: string): string {
  return Math.round(looks).toLocaleString(language)
}

function percent(part: number, whole: number, point: string): string {
  if (whole === 0) return '–'
  const share = (100 * part) / whole
  const text = share > 0 && share < 0.1 ? '< 0.1' : share < 10 ? share.toFixed(1) : share.toFixed(0)
  return `${text.replace('.', point)}\u00a0%`
}
