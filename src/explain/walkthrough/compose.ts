import type { Verdict } from '../../count/check-uniqueness.js'
import { applyTo } from '../../grid/board/edit.js'
import { newBoard } from '../../grid/board/make.js'
import type { Board } from '../../grid/board.js'
import type { Puzzle } from '../../grid/puzzle.js'
import { setUp } from '../../logic/dependencies.js'
import type { SolvePath } from '../../logic/solve.js'
import type { PathStep } from '../../logic/step.js'
import type { TechniqueName } from '../../logic/technique-names.js'
import { keyStep } from '../../route/key-step.js'
import { explain } from '../explain-step.js'
import { namesOf, type Voice } from '../voice.js'
import type { Block } from './document.js'
import { hardestLevel } from './hardest-level.js'

/** What a walkthrough is made from. Step numbers are the path's, from 1. */
export interface WalkthroughSource {
  readonly puzzle: Puzzle
  readonly verdict: Verdict
  readonly steps: readonly PathStep[]
  /** Indices of a route's keys; none for a path, whose key step is the last of its hardest technique. */
  readonly keys: readonly number[]
  readonly status: SolvePath['status']
  readonly board: Board
  /** Cells that a reading of a picture settled by logic, and those to be compared with the page. */
  readonly reading?: { readonly settled: readonly number[]; readonly doubtful: readonly number[] }
}

/** Parts of a path: runs of singles gathered in one part, every other step by itself. */
export type PathPart =
  | { readonly kind: 'scan'; readonly indices: readonly number[] }
  | { readonly kind: 'step'; readonly index: number }

export function partsOf(steps: readonly PathStep[]): PathPart[] {
  const parts: PathPart[] = []
  let run: number[] | undefined
  steps.forEach((step, index) => {
    if (step.level !== 'scan') {
      run = undefined
      parts.push({ kind: 'step', index })
    } else if (run) run.push(index)
    else {
      run = [index]
      parts.push({ kind: 'scan', indices: run })
    }
  })
  return parts
}

const numbered = (indices: readonly number[]) => indices.map((index) => index + 1)
const anchor = (index: number) => `step-${index + 1}`

/** The whole document, front to end. */
export function compose(source: WalkthroughSource, title: string, voice: Voice): Block[] {
  const { steps } = source
  const words = voice.wording.walkthrough
  const level = hardestLevel(steps)
  const blocks: Block[] = [{ kind: 'heading', depth: 1, text: title }, front(source, voice)]
  blocks.push(...keySections(source, voice))
  blocks.push({ kind: 'heading', depth: 2, text: words.path })
  if (level === undefined) blocks.push({ kind: 'text', text: words.nothingToDo })
  for (const part of partsOf(steps)) {
    blocks.push(
      part.kind === 'scan' ? scanSection(steps, part.indices, voice) : stepSection(steps, part.index, voice),
    )
  }
  blocks.push({
    kind: 'section',
    tone: 'step',
    blocks: [
      { kind: 'text', text: words.ends[source.status], tone: 'lead' },
      { kind: 'board', board: source.board, marks: source.status === 'solved' ? 'none' : 'all' },
    ],
  })
  return blocks
}

function front(source: WalkthroughSource, voice: Voice): Block {
  const words = voice.wording.walkthrough
  const names = namesOf(voice, source.puzzle.geometry)
  const { verdict, reading, steps } = source
  const blocks: Block[] = [
    { kind: 'heading', depth: 2, text: words.puzzle },
    { kind: 'text', text: voice.wording.rule(names) },
    { kind: 'board', board: newBoard(source.puzzle), marks: 'none' },
    { kind: 'heading', depth: 3, text: words.verdict },
    { kind: 'text', text: words.verdicts[verdict.kind] },
  ]
  if (verdict.kind === 'many') blocks.push({ kind: 'text', text: words.differing(names, verdict.openCells) })
  if (verdict.kind === 'none')
    blocks.push({
      kind: 'text',
      text: words.clashing(
        names,
        verdict.conflict.givens.map(({ cell }) => cell),
      ),
    })
  if (reading) {
    blocks.push({ kind: 'heading', depth: 3, text: words.reading })
    if (reading.settled.length === 0) blocks.push({ kind: 'text', text: words.allPrinted })
    else blocks.push({ kind: 'text', text: words.settled(names, reading.settled) })
    if (reading.doubtful.length > 0)
      blocks.push({ kind: 'text', text: words.doubtful(names, reading.doubtful), tone: 'lead' })
  }
  const level = hardestLevel(steps)
  if (level !== undefined) {
    blocks.push(...profile(steps, voice))
    blocks.push({ kind: 'text', text: words.summary(steps.length, level) })
  }
  return { kind: 'section', tone: 'front', blocks }
}

function profile(steps: readonly PathStep[], voice: Voice): Block[] {
  const rows = new Map<TechniqueName, { level: string; steps: number }>()
  for (const { technique, level } of steps) {
    const row = rows.get(technique)
    if (row) row.steps++
    else rows.set(technique, { level, steps: 1 })
  }
  return [
    { kind: 'heading', depth: 3, text: voice.wording.walkthrough.profile },
    {
      kind: 'table',
      head: voice.wording.walkthrough.profileColumns,
      rows: [...rows].map(([technique, row]) => [
        voice.wording.technique(technique),
        row.level,
        `${row.steps}`,
      ]),
    },
  ]
}

/** Sentences, links and reasons of a step: what stands next to its picture. */
function argument(step: PathStep, voice: Voice): Block[] {
  const { sentences, reasons, links } = explain(step, voice)
  const blocks: Block[] = sentences.map((text): Block => ({ kind: 'text', text }))
  if (links !== undefined) {
    blocks.push({ kind: 'text', text: `${voice.wording.walkthrough.links}: ${links}`, tone: 'notation' })
  }
  if (step.removals.length > 0) {
    blocks.push({ kind: 'text', text: `${voice.wording.walkthrough.reasons}:`, tone: 'small' })
    blocks.push({ kind: 'list', items: reasons.map(({ sentence }) => sentence), tone: 'small' })
  }
  return blocks
}

/** Keys that have a section ahead of the path; of a route with more, the others are in the path only. */
const MOST_KEYS = 3

function keySections({ steps, keys }: WalkthroughSource, voice: Voice): Block[] {
  const words = voice.wording.walkthrough
  if (keys.length > 0)
    return keys
      .slice(0, MOST_KEYS)
      .map((key, i) => keySection(steps, key, words.keyOfRoute(key + 1, i + 1, keys.length), voice))
  const key = keyStep(steps)
  if (key === undefined) return []
  const rest = steps.slice(key + 1)
  const next = keyStep(rest)
  const after = next === undefined ? (rest.length > 0 ? 'singles' : undefined) : rest[next]!.technique
  return [keySection(steps, key, words.keyIntro(key + 1, after), voice)]
}

function keySection(steps: readonly PathStep[], key: number, intro: string, voice: Voice): Block {
  const words = voice.wording.walkthrough
  const step = steps[key]!
  const opened = steps.flatMap(({ restsOn }, index) => (restsOn.includes(key) ? [index] : []))
  const blocks: Block[] = [
    { kind: 'heading', depth: 2, text: words.key },
    { kind: 'heading', depth: 3, text: words.stepTitle(key + 1, voice.wording.technique(step.technique)) },
    { kind: 'text', text: intro, tone: 'lead' },
    {
      kind: 'text',
      text:
        step.restsOn.length === 0
          ? words.noSetUp
          : words.setUp(numbered(step.restsOn), setUp(steps, key).length),
    },
    { kind: 'board', board: step.before, step, marks: 'all' },
    ...argument(step, voice),
  ]
  if (opened.length > 0) blocks.push({ kind: 'text', text: words.opens(numbered(opened)) })
  return { kind: 'section', tone: 'key', blocks }
}

function stepSection(steps: readonly PathStep[], index: number, voice: Voice): Block {
  const words = voice.wording.walkthrough
  const step = steps[index]!
  const blocks: Block[] = [
    {
      kind: 'heading',
      depth: 3,
      text: words.stepTitle(index + 1, voice.wording.technique(step.technique)),
      anchor: anchor(index),
    },
    { kind: 'board', board: step.before, step, marks: 'all' },
    ...argument(step, voice),
  ]
  if (step.restsOn.length > 0) {
    blocks.push({ kind: 'text', text: words.restsOn(numbered(step.restsOn)), tone: 'small' })
  }
  return { kind: 'section', tone: 'step', blocks }
}

function scanSection(steps: readonly PathStep[], indices: readonly number[], voice: Voice): Block {
  const words = voice.wording.walkthrough
  const first = indices[0]!
  const last = indices[indices.length - 1]!
  const placed = indices.flatMap((index) => steps[index]!.placements)
  const lines = indices.flatMap((index) => {
    const step = steps[index]!
    const names = namesOf(voice, step.before.geometry)
    const house = step.pattern.shape === 'single' ? step.pattern.house : undefined
    return step.placements.map((placed) => words.scanLine(index + 1, placed, step.technique, house, names))
  })
  return {
    kind: 'section',
    tone: 'scan',
    blocks: [
      { kind: 'heading', depth: 3, text: words.scanTitle(first + 1, last + 1), anchor: anchor(first) },
      { kind: 'board', board: applyTo(steps[last]!.before, steps[last]!), placed, marks: 'none' },
      { kind: 'list', items: lines, tone: 'small' },
    ],
  }
}
