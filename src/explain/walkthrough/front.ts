import type { Voice } from '../voice.js'
import { namesOf } from '../voice.js'
import type { Block } from './document.js'
import { keysOf, pencilMoment, type Story } from './story.js'

/** What the puzzle is: its rule, the printed grid, the verdict, and what is ahead. */
export function frontSection(story: Story, voice: Voice): Block {
  return {
    kind: 'section',
    tone: 'front',
    blocks: [
      { kind: 'heading', depth: 2, text: voice.wording.walkthrough.puzzle },
      { kind: 'text', text: voice.wording.rule(namesOf(voice, story.puzzle.geometry)) },
      { kind: 'board', board: story.start, marks: 'none' },
      ...verdictBlocks(story, voice),
      ...outlook(story, voice),
      ...readingBlocks(story, voice),
    ],
  }
}

export function verdictBlocks({ puzzle, verdict }: Story, voice: Voice): Block[] {
  const words = voice.wording.walkthrough
  const names = namesOf(voice, puzzle.geometry)
  const blocks: Block[] = [{ kind: 'text', text: words.verdicts[verdict.kind], tone: 'lead' }]
  if (verdict.kind === 'many') blocks.push({ kind: 'text', text: words.differing(names, verdict.openCells) })
  if (verdict.kind === 'none') {
    const cells = verdict.conflict.givens.map(({ cell }) => cell)
    blocks.push({ kind: 'text', text: words.clashing(names, cells) })
  }
  return blocks
}

function readingBlocks({ puzzle, reading }: Story, voice: Voice): Block[] {
  if (!reading) return []
  const words = voice.wording.walkthrough
  const names = namesOf(voice, puzzle.geometry)
  const blocks: Block[] = [{ kind: 'heading', depth: 3, text: words.reading }]
  if (reading.settled.length === 0) blocks.push({ kind: 'text', text: words.allPrinted })
  else blocks.push({ kind: 'text', text: words.settled(names, reading.settled) })
  if (reading.doubtful.length > 0)
    blocks.push({ kind: 'text', text: words.doubtful(names, reading.doubtful), tone: 'lead' })
  return blocks
}

/** What is ahead: how many steps there are, and which of them are keys. */
export function outlook(story: Story, voice: Voice): Block[] {
  const { steps } = story
  const words = voice.wording.walkthrough
  if (steps.length === 0) return [{ kind: 'text', text: words.nothingToDo }]
  const keys = keysOf(story).map((index) => ({ step: index + 1, technique: steps[index]!.technique }))
  return [
    {
      kind: 'text',
      text: words.outlook(
        steps.length,
        keys,
        story.status === 'solved' && (pencilMoment(steps) === undefined ? 'singles' : 'everyday'),
      ),
    },
  ]
}
