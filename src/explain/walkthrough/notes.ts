import { explain } from '../explain-step.js'
import { frames } from '../frames.js'
import { hunt } from '../hunt.js'
import type { Voice } from '../voice.js'
import { namesOf } from '../voice.js'
import { singleLines } from './compose.js'
import type { Block } from './document.js'
import { outlook, verdictBlocks } from './front.js'
import { keysOf, partsOf, pencilMoment, type Story } from './story.js'

/**
 * Speaking notes: the same story as numbered cues, each with what to show and what to say. Digits that everybody finds
 * are read off a list.
 */
export function speakingNotes(story: Story, title: string, voice: Voice): Block[] {
  const { steps, chapters, board, status } = story
  const words = voice.wording.walkthrough
  const notes = words.notes
  const blocks: Block[] = [{ kind: 'heading', depth: 1, text: title }]
  let number = 0
  const cue = (show: string, say: readonly string[], picture?: string) => {
    number++
    blocks.push({ kind: 'cue', number, show, say, ...(picture !== undefined && { picture }) })
  }
  const heading = (text: string) => blocks.push({ kind: 'heading', depth: 2, text })
  const cover = (from: number, to: number) => {
    for (const part of partsOf(steps, from, to)) {
      if (part.kind === 'singles') cue(notes.digitByDigit, singleLines(story, part.indices, voice))
      else {
        fillIn(part.index)
        cue(notes.picture(part.index + 1, titleAt(part.index)), explain(steps[part.index]!, voice).sentences)
      }
    }
  }
  const fillIn = (index: number) => {
    if (pencilMoment(steps) === index) cue(notes.pencilMarks, [words.fillIn])
  }
  const titleAt = (index: number) => voice.wording.technique(steps[index]!.technique)

  heading(words.puzzle)
  cue(notes.printed, [voice.wording.rule(namesOf(voice, story.puzzle.geometry))])
  const texts = [...verdictBlocks(story, voice), ...outlook(story, voice)]
  cue(
    notes.printed,
    texts.flatMap((block) => (block.kind === 'text' ? [block.text] : [])),
  )
  const keys = keysOf(story)
  chapters.forEach(({ from, to, key }, i) => {
    if (key === undefined) {
      if (to === from) return
      heading(keys.length > 0 ? words.follow : words.path)
      cover(from, to)
      return
    }
    heading(i === 0 ? words.setUp : words.stuckAgain)
    if (i > 0) cue(notes.asItIs, [words.stuckIntro])
    else if (key === from) cue(notes.asItIs, [words.noSetUp])
    else if (story.isChosen) cue(notes.asItIs, [words.setUpIntro])
    cover(from, key)
    fillIn(key)
    const title = words.keyTitle(key + 1, i + 1, keys.length, titleAt(key))
    heading(title)
    const pictures = [...hunt(steps[key]!, voice).frames, ...frames(steps[key]!, voice)]
    for (const [at, { text, svg }] of pictures.entries())
      cue(notes.frame(key + 1, at + 1, pictures.length), [text], svg)
    if (key + 1 < steps.length) cue(notes.asItIs, [words.opens(i + 1, keys.length, status)])
  })
  cue(notes.end, [words.ends[status]])
  const solution: Block = { kind: 'board', board, marks: status === 'solved' ? 'none' : 'all' }
  blocks.push({ kind: 'section', tone: 'end', blocks: [solution] })
  return blocks
}
