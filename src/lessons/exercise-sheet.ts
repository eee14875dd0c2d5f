import {
  argumentError,
  boolean,
  checkOptions,
  listOf,
  type OptionChecks,
  oneOf,
  string,
} from '../check-arguments.js'
import { explain } from '../explain/explain-step.js'
import { hintAt } from '../explain/hint.js'
import { htmlPage } from '../explain/picture/html-page.js'
import { THEMES, type ThemeName } from '../explain/picture/theme.js'
import { element, escapeText } from '../explain/picture/xml.js'
import { renderSvg } from '../explain/render-svg.js'
import { type Voice, type VoiceOptions, voiceChecks, voiceOf } from '../explain/voice.js'
import { ENGLISH } from '../explain/words/english/index.js'
import { checkFoundStep, checkPattern } from '../logic/steps/check-step.js'
import type { FoundStep } from '../logic/steps/step.js'
import type { TechniqueName } from '../logic/technique-names.js'

/** What a sheet needs of an exercise: its answer on its board, and what is to stand over it. */
export interface SheetExercise {
  readonly answer: FoundStep
  readonly from?: { readonly title?: string }
}

/** Positions on a page that are read well in print. */
const PER_PAGE = [1, 2, 4, 6] as const

export interface SheetOptions extends VoiceOptions {
  /** The technique to be found, when left out. */
  readonly title?: string
  /** Positions on a page: 1, 2, 4 or 6; 4 when left out. */
  readonly perPage?: (typeof PER_PAGE)[number]
  /** A page with where to look, between positions and answers? */
  readonly hints?: boolean
  /** How boards are drawn: `print`, as when left out, does without colour. */
  readonly theme?: ThemeName
}

const SHEET_CHECKS: OptionChecks<SheetOptions> = {
  ...voiceChecks(ENGLISH),
  title: string,
  perPage: (value, name) => {
    if (!(PER_PAGE as readonly unknown[]).includes(value))
      throw argumentError(name, PER_PAGE.join(', '), value)
  },
  hints: boolean,
  theme: oneOf(THEMES),
}

const checkExercises = listOf((value, name) => {
  const { answer, from } = (value ?? {}) as Partial<SheetExercise>
  checkFoundStep(answer as FoundStep, `${name}.answer`)
  checkPattern(answer!.before.geometry, answer!.pattern, `${name}.answer.pattern`)
  if (from?.title !== undefined) string(from.title, `${name}.from.title`)
}, 'a list of exercises')

/**
 * Exercises as a page to print: several positions a page with room to work, the answers on pages of their own at the
 * end. One HTML document without anything from elsewhere.
 *
 * ```ts
 * const exercises = []
 * for await (const exercise of findExercises(text, 'xy-chain', { count: 12 })) exercises.push(exercise)
 * await writeFile('sheet.html', exerciseSheet(exercises))
 * ```
 *
 * @throws InputError `argument` for what is no list of exercises
 */
export function exerciseSheet(exercises: readonly SheetExercise[], options: SheetOptions = {}): string {
  checkExercises(exercises, 'exercises')
  checkOptions<SheetOptions>(options, SHEET_CHECKS)
  const voice = voiceOf(options, ENGLISH)
  const words = voice.wording.sheet
  const techniques = [...new Set(exercises.map(({ answer }) => answer.technique))]
  const title = options.title ?? words.title(techniques)
  const look = { ...voice, theme: options.theme ?? ('print' as const), title: '' }
  const perPage = options.perPage ?? 4
  const pages = inPages(exercises, perPage).map((page, i) =>
    element(
      'section',
      { class: `page of-${perPage}` },
      heading(i === 0 ? 1 : undefined, title),
      element('p', {}, escapeText(words.task(techniques))),
      element(
        'div',
        { class: 'positions' },
        ...page.map(({ answer, from }, at) => {
          const number = i * perPage + at + 1
          const caption = from?.title === undefined ? `${number}` : `${number} · ${from.title}`
          const board = renderSvg(answer.before, { ...look, title: words.position(number) })
          return element('figure', {}, element('figcaption', {}, escapeText(caption)), board)
        }),
      ),
    ),
  )
  const hints = options.hints ? [hintPage(exercises, voice)] : []
  const answers = exercises.map(({ answer }, i) =>
    element(
      'section',
      { class: 'answer' },
      renderSvg(answer.before, { ...look, step: answer, title: words.position(i + 1) }),
      element('h3', {}, escapeText(named(i + 1, answer.technique, techniques, voice))),
      ...explain(answer, voice).sentences.map((sentence) => element('p', {}, escapeText(sentence))),
    ),
  )
  const body = [...pages, ...hints, element('h2', {}, escapeText(words.answers)), ...answers].join('\n')
  return htmlPage({ language: voice.wording.language, title, style: STYLE, body })
}

/** The technique is named where exercises have several. */
function named(
  number: number,
  technique: TechniqueName,
  all: readonly TechniqueName[],
  voice: Voice,
): string {
  return all.length > 1 ? `${number}. ${voice.wording.technique(technique)}` : `${number}.`
}

function hintPage(exercises: readonly SheetExercise[], voice: Voice): string {
  const lines = exercises.map(({ answer }, i) =>
    element('li', { value: i + 1 }, escapeText(hintAt(answer, 'look', voice).says.join(' '))),
  )
  return element(
    'section',
    { class: 'hints' },
    element('h2', {}, escapeText(voice.wording.sheet.hints)),
    element('ol', {}, ...lines),
  )
}

/** On every page, so that a single one says what it is; the first is the document's. */
function heading(depth: 1 | undefined, title: string): string {
  return depth === 1
    ? element('h1', {}, escapeText(title))
    : element('p', { class: 'again', 'aria-hidden': 'true' }, escapeText(title))
}

function inPages<Item>(items: readonly Item[], size: number): Item[][] {
  const pages: Item[][] = []
  for (let from = 0; from < items.length; from += size) pages.push(items.slice(from, from + size))
  return pages
}

const STYLE = `
* { box-sizing: border-box; }
body { margin: 0; color: #1b202c; background: #fff; font: 16px/1.45 Georgia, 'DejaVu Serif', serif; }
main { max-width: 60rem; margin: 0 auto; padding: 1.5rem; }
h1, p.again { font-size: 1.6rem; font-weight: bold; line-height: 1.2; margin: 0 0 .3rem; }
p { margin: .3rem 0; }
.positions { display: grid; grid-template-columns: repeat(auto-fit, minmax(20rem, 1fr)); gap: 1.2rem; margin: 1rem 0 2rem; }
.of-1 .positions { grid-template-columns: minmax(0, 36rem); }
figure { margin: 0; break-inside: avoid; }
figcaption { font-weight: bold; }
svg { display: block; width: 100%; height: auto; }
section.answer { padding: .8rem 0; border-top: 1px solid #c9ced8; break-inside: avoid; }
section.answer::after { content: ''; display: block; clear: both; }
section.answer > svg { float: right; width: 22rem; max-width: 50%; margin-left: 1.2rem; }
h3 { margin: 0 0 .3rem; }
@media print {
  @page { margin: 13mm; }
  body { font-size: 10pt; }
  main { max-width: none; padding: 0; }
  h1, p.again { font-size: 16pt; }
  section.page, section.hints { break-after: page; }
  .positions { grid-template-columns: repeat(2, 88mm); gap: 6mm; margin: 3mm 0 0; }
  .of-1 .positions { grid-template-columns: 160mm; justify-content: center; }
  .of-2 .positions { grid-template-columns: 108mm; justify-content: center; }
  .of-6 .positions { grid-template-columns: repeat(2, 74mm); gap: 3mm 12mm; justify-content: center; }
  section.answer { padding: 3mm 0; }
  section.answer > svg { width: 76mm; }
  svg { print-color-adjust: exact; -webkit-print-color-adjust: exact; }
}
`
