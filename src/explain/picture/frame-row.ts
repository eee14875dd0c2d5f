import type { Candidate } from '../../grid/board.js'
import { digitName } from '../../grid/digit-names.js'
import type { FoundStep } from '../../logic/steps/step.js'
import { namesOf, type Voice } from '../voice.js'
import { setName } from '../words/set-names.js'
import type { PictureWording } from '../words/wording.js'
import { type FrameShape, layFrames } from './frame-page.js'
import { planPicture } from './plan.js'
import { makeScene, type Said } from './scene.js'
import type { Shown } from './shown-by.js'
import { svgDocument } from './svg-document.js'
import { type ThemeName, themeOf } from './theme.js'

/** One picture of a row that shows something, and the sentence that is said with it. */
export interface Frame {
  /** Position of its sentence among those of the explanation or hunt, from 0. */
  readonly sentence: number
  readonly text: string
  /** Seconds from the start of the first frame until this one comes, and until the next does. */
  readonly from: number
  readonly to: number
  /** An SVG document; all frames of a row have the same size, and the board is at the same place in all of them. */
  readonly svg: string
}

/** A sentence and what its frame shows. */
export interface Line {
  readonly text: string
  readonly shown: Shown
  /**
   * `step`: adds to the step as it has been explained so far. `aside`: shows what it speaks of, and nothing stays.
   * `pattern`: all of the step but its conclusion.
   */
  readonly about: 'step' | 'aside' | 'pattern'
}

export interface RowOptions {
  readonly theme?: ThemeName
  readonly shape?: FrameShape
  readonly width?: number
  readonly marks?: 'all' | 'step' | 'none'
  readonly wordsPerMinute?: number
}

const WORDS_PER_MINUTE = 130
/** Seconds between two sentences, and the least that a frame stands. */
const PAUSE = 0.7
const LEAST = 1.5

/** A picture for each line, all of them with one layout. */
export function drawRow(
  step: FoundStep,
  title: string,
  lines: readonly Line[],
  options: RowOptions,
  voice: Voice<PictureWording>,
): Frame[] {
  const { before } = step
  const names = namesOf(voice, before.geometry)
  const theme = themeOf(options.theme ?? 'light')
  const scene = makeScene(before, planPicture(step), {
    theme,
    marks: options.marks ?? 'all',
    dim: true,
    big: step.pattern.shape === 'single' ? step.placements : [],
    digit: (digit) => digitName(digit, voice.digits),
    set: (index) => setName(index, names),
  })
  const page = layFrames(
    scene.layout,
    theme,
    options.shape ?? 'board',
    title,
    lines.map(({ text }) => text),
  )
  const lastOfStep = lines.findLastIndex(({ about }) => about === 'step')
  let clock = 0
  return lines.map((line, i) => {
    const before = lines.slice(0, i + 1).flatMap(({ about, shown }) => (about === 'step' ? [shown] : []))
    const said = saidWith(line, before, i === lastOfStep)
    const words = line.text.split(/\s+/).length
    const from = clock
    clock = Math.max(LEAST, (words * 60) / (options.wordsPerMinute ?? WORDS_PER_MINUTE)) + PAUSE + from
    const svg = svgDocument({
      theme,
      width: page.width,
      height: page.height,
      shownWidth: options.width,
      language: voice.wording.language,
      title,
      description: line.text,
      content: page.set(scene.draw(said), line.text),
    })
    const tenth = (seconds: number) => Math.round(seconds * 10) / 10
    return { sentence: i, text: line.text, from: tenth(from), to: tenth(clock), svg }
  })
}

function saidWith({ about, shown }: Line, before: readonly Shown[], isLast: boolean): Said {
  switch (about) {
    case 'aside':
      return aside(shown)
    case 'pattern':
      return { ...saidBy([shown], true), concluded: () => false }
    case 'step':
      return saidBy(before, isLast)
    default:
      return about satisfies never
  }
}

const keyOf = ({ cell, digit }: Candidate) => `${cell} ${digit}`

/** What has been said with the last of these sentences; with the very last, all of it. */
function saidBy(sentences: readonly Shown[], everything: boolean): Said {
  const cells = new Set(sentences.flatMap((shown) => shown.cells))
  const houses = new Set(sentences.flatMap((shown) => shown.houses))
  const candidates = new Set(sentences.flatMap((shown) => shown.candidates.map(keyOf)))
  const reached = new Set(sentences.flatMap((shown) => (shown.lists ? [] : shown.candidates.map(keyOf))))
  const concluded = new Set(sentences.flatMap((shown) => shown.concluded.map(keyOf)))
  return {
    cell: (cell) => everything || cells.has(cell),
    house: (house) => everything || houses.has(house),
    candidate: (candidate) => everything || candidates.has(keyOf(candidate)),
    leadsTo: (candidate) => everything || reached.has(keyOf(candidate)),
    concluded: (candidate) => everything || concluded.has(keyOf(candidate)),
    focus: [...new Set(sentences[sentences.length - 1]?.cells ?? [])],
    // what is said and has no part in the whole picture, such as cases within cases
    aside: sentences[sentences.length - 1]?.candidates ?? [],
    asideHouses: [],
  }
}

/** Nothing of the step, and what the sentence speaks of. */
function aside(shown: Shown): Said {
  const none = () => false
  return {
    cell: none,
    house: none,
    candidate: none,
    leadsTo: none,
    concluded: none,
    focus: [...new Set(shown.cells)],
    aside: shown.candidates,
    asideHouses: [...new Set(shown.houses)],
  }
}
