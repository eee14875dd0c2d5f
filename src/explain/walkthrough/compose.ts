import { applyTo } from '../../grid/board/edit.js'
import type { FoundStep } from '../../logic/steps/step.js'
import { argueSingle } from '../argument/argue-singles.js'
import { explain } from '../explain-step.js'
import { hunt } from '../hunt.js'
import { namesOf, type Voice } from '../voice.js'
import type { Block } from './document.js'
import { frontSection } from './front.js'
import { profileTable } from './profile.js'
import { keysOf, partsOf, pencilMoment, type Story } from './story.js'

/** How much of a story is printed: what is needed to follow it, or every step with its picture and reasons. */
export type Detail = 'short' | 'full'

/** The whole document, front to end. */
export function compose(story: Story, title: string, voice: Voice, detail: Detail): Block[] {
  const { chapters } = story
  const last = chapters.at(-1)
  const follows = last !== undefined && last.key === undefined && last.to > last.from
  return [
    { kind: 'heading', depth: 1, text: title },
    frontSection(story, voice),
    ...(detail === 'full' ? profileTable(story.steps, voice) : []),
    ...chapters.flatMap((chapter, i) =>
      chapter.key === undefined ? [] : keyChapter(story, i, chapter.key, voice, detail),
    ),
    ...(follows ? followThrough(story, last.from, voice, detail) : []),
    ending(story, voice),
  ]
}

function keyChapter(story: Story, number: number, key: number, voice: Voice, detail: Detail): Block[] {
  const words = voice.wording.walkthrough
  const { from } = story.chapters[number]!
  const blocks: Block[] = []
  if (number > 0)
    blocks.push(
      { kind: 'heading', depth: 2, text: words.stuckAgain },
      { kind: 'text', text: words.stuckIntro },
    )
  else
    blocks.push(
      { kind: 'heading', depth: 2, text: words.setUp },
      ...said(from === key ? words.noSetUp : story.isChosen ? words.setUpIntro : undefined),
    )
  blocks.push(...partBlocks(story, from, key, voice, detail))
  return [
    ...blocks,
    ...pencilCue(story, key, voice),
    keySection(story, number, key, voice, detail),
    pictureByPicture(story.steps[key]!, voice, detail),
  ]
}

function keySection(story: Story, number: number, key: number, voice: Voice, detail: Detail): Block {
  const words = voice.wording.walkthrough
  const step = story.steps[key]!
  const { technique } = step
  const keys = keysOf(story)
  return {
    kind: 'section',
    tone: 'key',
    blocks: [
      {
        kind: 'heading',
        depth: 2,
        text: words.keyTitle(key + 1, number + 1, keys.length, voice.wording.technique(technique)),
        anchor: anchor(key),
      },
      { kind: 'board', board: step.before, step, marks: 'all' },
      { kind: 'heading', depth: 3, text: words.find },
      ...looking(step, voice),
      { kind: 'heading', depth: 3, text: words.why },
      ...argument(story, key, voice, detail),
      ...(key + 1 < story.steps.length ? said(words.opens(number + 1, keys.length, story.status)) : []),
    ],
  }
}

/** How the key is found, up to where it is: that it works, and why, comes next. */
function looking(step: FoundStep, voice: Voice): Block[] {
  const { sentences, clues } = hunt(step, { ...voice, pictures: false })
  return sentences.flatMap((text, i): Block[] => (clues[i]!.kind === 'works' ? [] : [{ kind: 'text', text }]))
}

/** On paper only in full, or where its reader has opened it. */
function pictureByPicture(step: FoundStep, voice: Voice, detail: Detail): Block {
  return {
    kind: 'fold',
    summary: voice.wording.walkthrough.pictureByPicture,
    onPaper: detail === 'full',
    blocks: [{ kind: 'frames', step }],
  }
}

/** Where pencil marks come in, right before the first step that needs them. */
function pencilCue({ steps }: Story, index: number, voice: Voice): Block[] {
  if (pencilMoment(steps) !== index) return []
  const words = voice.wording.walkthrough
  return [
    {
      kind: 'section',
      tone: 'plain',
      blocks: [
        { kind: 'heading', depth: 3, text: words.pencilMarks },
        { kind: 'text', text: words.fillIn },
      ],
    },
  ]
}

/** The sentences of a step; in full also what says the same in another way: its links, and its reasons one by one. */
function argument({ steps }: Story, index: number, voice: Voice, detail: Detail): Block[] {
  const step = steps[index]!
  const words = voice.wording.walkthrough
  const { sentences, reasons, links } = explain(step, voice)
  const blocks: Block[] = sentences.map((text): Block => ({ kind: 'text', text }))
  if (detail === 'short') return blocks
  if (links !== undefined) blocks.push({ kind: 'text', text: `${words.links}: ${links}`, tone: 'notation' })
  if (step.removals.length > 1) {
    blocks.push({ kind: 'text', text: `${words.reasons}:`, tone: 'small' })
    blocks.push({ kind: 'list', items: reasons.map(({ sentence }) => sentence), tone: 'small' })
  }
  if (step.restsOn.length > 0) {
    const earlier = step.restsOn.map((other) => other + 1)
    blocks.push({ kind: 'text', text: words.restsOn(earlier), tone: 'small' })
  }
  return blocks
}

function partBlocks(story: Story, from: number, to: number, voice: Voice, detail: Detail): Block[] {
  const blocks: Block[] = []
  let row: Block[] = []
  const finishRow = () => {
    if (row.length > 1) blocks.push({ kind: 'row', blocks: row })
    else blocks.push(...row)
    row = []
  }
  for (const part of partsOf(story.steps, from, to)) {
    if (part.kind === 'singles') {
      finishRow()
      blocks.push(singlesSection(story, part.indices, voice))
    } else {
      blocks.push(...pencilCue(story, part.index, voice))
      row.push(patternSection(story, part.index, voice, detail))
    }
  }
  finishRow()
  return blocks
}

function patternSection(story: Story, index: number, voice: Voice, detail: Detail): Block {
  const step = story.steps[index]!
  return {
    kind: 'section',
    tone: 'pattern',
    blocks: [
      stepHeading(story, index, voice),
      { kind: 'board', board: step.before, step, marks: 'all' },
      ...argument(story, index, voice, detail),
    ],
  }
}

function stepHeading({ steps }: Story, index: number, voice: Voice): Block {
  const title = voice.wording.technique(steps[index]!.technique)
  const text = voice.wording.walkthrough.stepTitle(index + 1, title)
  return { kind: 'heading', depth: 3, text, anchor: anchor(index) }
}

const WORTH_A_BOARD = 4

/** A run of singles: a line each, and the grid with their digits. */
function singlesSection(story: Story, indices: readonly number[], voice: Voice): Block {
  const last = story.steps[indices.at(-1)!]!
  const board: Block = {
    kind: 'board',
    board: applyTo(last.before, last),
    placed: indices.flatMap((index) => story.steps[index]!.placements),
    marks: 'none',
  }
  return {
    kind: 'section',
    tone: 'singles',
    blocks: [
      singlesHeading(indices, voice),
      // after the last step stands the solution, and a few digits are seen in the next picture
      ...(indices.at(-1)! + 1 < story.steps.length && indices.length >= WORTH_A_BOARD ? [board] : []),
      { kind: 'list', items: singleLines(story, indices, voice), tone: 'singles' },
    ],
  }
}

function singlesHeading(indices: readonly number[], voice: Voice): Block {
  const text = voice.wording.walkthrough.singlesTitle(indices[0]! + 1, indices.at(-1)! + 1)
  return { kind: 'heading', depth: 3, text, anchor: anchor(indices[0]!) }
}

/** Each single with its reason, in one line. */
export function singleLines({ steps }: Story, indices: readonly number[], voice: Voice): string[] {
  return indices.map((index) => {
    const step = steps[index]!
    const names = namesOf(voice, step.before.geometry)
    const [fact] = step.pattern.shape === 'single' ? argueSingle(step, step.pattern) : []
    return fact?.kind === 'last-cell' || fact?.kind === 'only-candidate' || fact?.kind === 'only-place'
      ? voice.wording.walkthrough.single(index + 1, fact, names)
      : `${index + 1}. ${explain(step, voice).conclusion}`
  })
}

/** What is left to do: after a key in short without pictures and folded, since everybody can do it. */
function followThrough(story: Story, from: number, voice: Voice, detail: Detail): Block[] {
  const words = voice.wording.walkthrough
  const { steps } = story
  const heading: Block = {
    kind: 'heading',
    depth: 2,
    text: keysOf(story).length > 0 ? words.follow : words.path,
  }
  if (detail === 'full' || keysOf(story).length === 0)
    return [heading, ...partBlocks(story, from, steps.length, voice, detail)]
  const parts = partsOf(steps, from, steps.length)
  const others = parts.filter(({ kind }) => kind === 'step').length
  return [
    heading,
    {
      kind: 'fold',
      summary: words.followSummary(steps.length - from - others, others),
      onPaper: true,
      blocks: parts.flatMap((part): Block[] =>
        part.kind === 'singles'
          ? [{ kind: 'list', items: singleLines(story, part.indices, voice), tone: 'singles' }]
          : [
              ...pencilCue(story, part.index, voice),
              stepHeading(story, part.index, voice),
              ...argument(story, part.index, voice, detail),
            ],
      ),
    },
  ]
}

function ending({ status, board }: Story, voice: Voice): Block {
  return {
    kind: 'section',
    tone: 'end',
    blocks: [
      { kind: 'text', text: voice.wording.walkthrough.ends[status], tone: 'lead' },
      { kind: 'board', board, marks: status === 'solved' ? 'none' : 'all' },
    ],
  }
}

const anchor = (index: number) => `step-${index + 1}`

function said(text: string | undefined): Block[] {
  return text === undefined ? [] : [{ kind: 'text', text }]
}
