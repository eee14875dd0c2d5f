import { createReadStream, mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { copyFile, mkdir, readFile, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import * as batch from '../../src/batch.js'
import * as core from '../../src/index.js'
import * as photo from '../../src/photo.js'
import { asProgram, documentedFunctions } from './docstrings.js'

const functions = documentedFunctions(['index', 'photo', 'batch'])
const exported = { ...core, ...photo, ...batch }

const pages = new URL('../../fixtures/pages/', import.meta.url)
const folder = mkdtempSync(join(tmpdir(), 'docstrings-'))
const cwd = process.cwd()

/** What examples may speak of without saying where it comes from; the front page of the reference lists it. */
async function surroundings() {
  const puzzle = core.parsePuzzle(
    '5...6.....6.1.27..4...7...3.....95.4..4..7...2..3......8..2....7....3.9..3...42..',
  )
  const board = core.newBoard(puzzle)
  const route = core.findRoute(puzzle)
  const step = route.status === 'solved' ? route.steps[route.keys[0]!]! : undefined
  const reader = await photo.createPhotoReader()
  const grade = core.gradePuzzle(puzzle, { route: true })
  const text = core.formatPuzzle(puzzle)
  const saved = new Map<string, string>([['board', JSON.stringify(core.boardToJson(board))]])
  return {
    ...{ puzzle, puzzles: [puzzle], board, step, path: core.solve(puzzle), text, file: 'monday.txt' },
    ...{ records: [{ puzzle, grade }], reader, reading: (await reader.read('page.jpg')).readings[0] },
    ...{ signal: new AbortController().signal, request: { signal: new AbortController().signal } },
    ...{ upload: readFileSync('page.jpg'), createReadStream, readFile, writeFile },
    process: { stdin: [text] },
    localStorage: { getItem: (name: string) => saved.get(name) },
    console: { log: () => {} },
    same: (value: unknown, said: unknown) => expect(value).toEqual(said),
  }
}

describe('docstrings', () => {
  let around: Awaited<ReturnType<typeof surroundings>>
  beforeAll(async () => {
    process.chdir(folder)
    await copyFile(new URL('1-front-page.jpg', pages), 'page.jpg')
    await copyFile(new URL('5-half-solved.jpg', pages), 'half-solved.jpg')
    await copyFile(new URL('1-front-page.jpg', pages), 'tuesday.jpg')
    await mkdir('photos')
    await copyFile('page.jpg', 'photos/page.jpg')
    around = await surroundings()
    await mkdir('puzzles')
    for (const name of ['monday.txt', 'puzzles/november.txt']) await writeFile(name, `${around.text}\n`)
    await batch.writeGrades('puzzles', 'grades.jsonl', { workers: 0 })
    await batch.writeGrades('puzzles', 'north.jsonl', { workers: 0 })
    await batch.writeGrades('puzzles', 'south.csv', { workers: 0 })
    await writeFile('puzzle.json', JSON.stringify(core.puzzleToJson(around.puzzle)))
    await writeFile('step.json', core.formatStep(around.step!))
    await writeFile('path.json', JSON.stringify(core.pathToJson(around.path)))
    await writeFile('reading.json', JSON.stringify(photo.readingToJson(around.reading!)))
  })
  afterAll(async () => {
    process.chdir(cwd)
    await around?.reader.close()
    rmSync(folder, { recursive: true })
  })

  it.each(functions)('$name says what it does and shows it', ({ name, summary, examples }) => {
    expect(summary).toMatch(/\S/)
    expect(examples).not.toEqual([])
    for (const example of examples) expect(example).toContain(name)
  })

  it.each(functions)('$name does what its example says', async ({ examples }) => {
    const names = { ...exported, ...around }
    const AsyncFunction = (async () => {}).constructor as FunctionConstructor
    // in a block, so that an example may declare what it could have found around it
    for (const example of examples)
      await new AsyncFunction(...Object.keys(names), `{ ${asProgram(example)} }`)(...Object.values(names))
  })
})
