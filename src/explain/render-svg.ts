import {
  argumentError,
  boolean,
  checkOptions,
  listOf,
  type OptionChecks,
  object,
  oneOf,
  pixels,
  string,
} from '../check-arguments.js'
import { openCount } from '../grid/board/ask.js'
import { type Board, type Candidate, checkBoard, checkCandidates } from '../grid/board.js'
import { digitName } from '../grid/digit-names.js'
import { checkFoundStep, checkPattern } from '../logic/steps/check-step.js'
import type { FoundStep } from '../logic/steps/step.js'
import { EDGE, LABELS } from './picture/layout.js'
import { drawLegend } from './picture/legend.js'
import { planPicture } from './picture/plan.js'
import { NO_PLAN } from './picture/plan-builder.js'
import { makeScene } from './picture/scene.js'
import { svgDocument } from './picture/svg-document.js'
import { THEMES, type ThemeName, themeOf } from './picture/theme.js'
import { namesOf, type VoiceOptions, voiceChecks, voiceOf } from './voice.js'
import { ENGLISH_PICTURES } from './words/english/pictures.js'
import { setName } from './words/set-names.js'

export interface SvgOptions extends VoiceOptions {
  /** The step to show on the board. */
  readonly step?: FoundStep
  /** Digits to be seen as new: they stand on the board or are about to. */
  readonly placed?: readonly Candidate[]
  /** Which pencil marks to draw: all, those of the step, or none. All when left out. */
  readonly marks?: 'all' | 'step' | 'none'
  /**
   * Digits and pencil marks that the step does not use: `dim`, smaller and paler than the others, as when left out, or
   * `plain`.
   */
  readonly unused?: 'dim' | 'plain'
  /** Where it is shown: `light`, as when left out, `dark`, or `print`, without colour. */
  readonly theme?: ThemeName
  /** Name the roles below the grid. Yes with a step, when left out. */
  readonly legend?: boolean
  /** Title for readers of the markup; the technique's name when left out. */
  readonly title?: string
  /** Width in pixels; the picture scales to its place when left out. */
  readonly width?: number
}

const SVG_CHECKS: OptionChecks<SvgOptions> = {
  ...voiceChecks(ENGLISH_PICTURES),
  step: (step, name) => {
    checkFoundStep(step as FoundStep, name)
    checkPattern((step as FoundStep).before.geometry, (step as FoundStep).pattern, `${name}.pattern`)
  },
  placed: listOf(object),
  marks: oneOf(['all', 'step', 'none']),
  unused: oneOf(['dim', 'plain']),
  theme: oneOf(THEMES),
  legend: boolean,
  title: string,
  width: pixels,
}

/**
 * A board as a picture: an SVG document of its own, without ids or styles, so that any number of them can stand in one
 * page. Roles differ by shape, weight and hatching, not by colour alone.
 *
 * @example
 * renderSvg(step.before, { step, theme: 'print' }).startsWith('<svg') // → true
 */
export function renderSvg(board: Board, options: SvgOptions = {}): string {
  checkBoard(board)
  checkOptions<SvgOptions>(options, SVG_CHECKS)
  const { step } = options
  if (step && step.before.geometry.key !== board.geometry.key)
    throw argumentError('step', `a step on a board of ${board.geometry.name}`, step)
  if (options.placed) checkCandidates(board.geometry, options.placed, 'placed')
  const voice = voiceOf(options, ENGLISH_PICTURES)
  const { wording } = voice
  const names = namesOf(voice, board.geometry)
  const theme = themeOf(options.theme ?? 'light')
  const plan = step ? planPicture(step) : NO_PLAN
  const big = [...(options.placed ?? []), ...(step?.pattern.shape === 'single' ? step.placements : [])]
  const { layout, draw } = makeScene(board, plan, {
    theme,
    marks: options.marks ?? 'all',
    dim: step !== undefined && options.unused !== 'plain',
    big,
    digit: (digit) => digitName(digit, voice.digits),
    set: (index) => setName(index, names),
  })
  const width = LABELS + layout.side + EDGE
  const found = Array.from(board.digits).filter((digit, cell) => digit !== 0 && !board.given[cell]).length
  const open = openCount(board)
  const legend =
    (options.legend ?? step !== undefined)
      ? drawLegend(layout, theme, plan, voice, found > 0)
      : { markup: '', height: 0 }
  const height = LABELS + layout.side + EDGE + (legend.height > 0 ? legend.height + 8 : 0)
  const technique = step && wording.technique(step.technique)
  const title = options.title ?? wording.picture.title(technique)
  const counts = wording.picture.description(
    board.geometry.order,
    board.geometry.cellCount - open - found,
    found,
    open,
  )
  return svgDocument({
    theme,
    width,
    height,
    shownWidth: options.width,
    language: wording.language,
    title,
    description: `${counts} ${wording.rule(names)}`,
    content: draw() + legend.markup,
  })
}
