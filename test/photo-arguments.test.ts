import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import * as batch from '../src/batch.js'
import { gradePuzzle, parsePuzzle, STANDARD } from '../src/index.js'
import { concludeReading } from '../src/photo/conclude.js'
import * as photo from '../src/photo.js'
import { PRINTED, straightLattice, sureEvidence } from './photo/evidence.js'
import { type Callable, wrongOutcomes } from './support/argument-attempts.js'
import {
  geometry as aGeometry,
  amount,
  anyString,
  arg,
  type Entries,
  emptyList,
  flag,
  never,
  noOptions,
  optional,
  options,
  whole,
} from './support/entries.js'

/** The errors that what is handed in may meet. */
const CODES = new Set<string>([
  'argument',
  'json-shape',
  'geometry-shape',
  'geometry-ambiguous',
  'text-shape',
  'text-symbol',
  'text-empty',
  'file-unreadable',
  'output-foreign',
  'output-unwritable',
  'picture-unreadable',
  'picture-too-large',
])

const SIDE = 64
const gray = { width: SIDE, height: SIDE, data: new Uint8Array(SIDE * SIDE).fill(255) }
const colour = { width: SIDE, height: SIDE, data: new Uint8Array(SIDE * SIDE * 3).fill(255) }
const raw = { ...gray, channels: 1 as const }
/** Without options that there are not. */
const aPlainObject = (value: unknown) =>
  typeof value === 'object' && value !== null && !Array.isArray(value) && Object.keys(value).length === 0
const lattice = straightLattice()
const reading = concludeReading(STANDARD, lattice, 0, sureEvidence(PRINTED))
const puzzle = parsePuzzle(PRINTED.join(''))
const record = {
  file: 'a',
  line: 1,
  puzzle: PRINTED.join(''),
  geometry: STANDARD,
  grade: gradePuzzle(puzzle),
}

const LIMITS = { signal: never, timeLimit: amount(0) }
const FOLDER = {
  workers: whole(0, 1024),
  workerFile: anyString,
  signal: never,
  onProgress: (value: unknown) => typeof value === 'function',
  order: never,
  memory: amount(1),
}
const EXTENSIONS = {
  extensions: (value: unknown) =>
    Array.isArray(value) && Array.from(value).every((entry) => typeof entry === 'string'),
}
const GRADING = {
  timeLimit: amount(0),
  nodeBudget: whole(0),
  preset: never,
  techniques: emptyList,
  oneSolution: flag,
  maxLinks: whole(1),
  route: flag,
  maxPixels: amount(1),
}
const ROOT = { root: anyString }
/** A path may be of anything, and what cannot be read comes out as a record. */
const targets = arg(
  [],
  (value) =>
    anyString(value) ||
    emptyList(value) ||
    (Array.isArray(value) && Array.from(value).every((entry) => typeof entry === 'string')),
)

/** Lists of paths or of pieces of text, whatever they say. */
const strings = arg(
  [],
  (value) =>
    value instanceof Map ||
    (Array.isArray(value) && Array.from(value).every((entry) => typeof entry === 'string')),
)

const PHOTO: Entries = {
  boardOf: [arg(reading)],
  createNetworkReader: [optional(new URL('file:///digits.bin'))],
  createPhotoReader: [
    options({ digitReader: never, maxPixels: amount(1), weights: (value) => aPlainObject(value) }),
  ],
  createTesseractReader: [],
  cutCells: [arg(gray), arg(lattice), optional(colour)],
  decodePicture: [arg(raw), options({ ...LIMITS, maxPixels: amount(SIDE * SIDE) })],
  findLattices: [arg(gray), options(LIMITS)],
  overlayPng: [arg(colour), arg([reading], emptyList)],
  overlaySvg: [arg({ width: 10, height: 10 }), arg([reading], emptyList)],
  readingFromJson: [arg(photo.readingToJson(reading))],
  readingToJson: [arg(reading)],
  rectifiedPng: [arg(colour), arg(reading)],
  rectify: [
    arg(colour),
    arg(lattice),
    arg(20, whole(1, 1000)),
    optional(0.2, (value) => value === 0 || value === 1 || value === 1.5),
  ],
  settleCells: [
    arg(reading),
    arg([{ cell: 0, digit: 0 }], emptyList),
    options({ ...LIMITS, geometry: sameOrder }),
  ],
}

/** Without options as many threads as cores are meant, which nothing asks for here. */
const folder = (known: Parameters<typeof options>[0]) => ({
  ...options({ ...FOLDER, geometry: aGeometry.allows, ...known }, { workers: 0 }),
  allows: noOptions,
})

const BATCH: Entries = {
  createPhotoPool: [
    {
      ...options({ workers: whole(0, 1024), workerFile: anyString, maxPixels: amount(1) }, { workers: 0 }),
      allows: noOptions,
    },
  ],
  gradeFiles: [strings, folder({ ...GRADING, ...ROOT })],
  gradeFolder: [targets, folder({ ...GRADING, ...EXTENSIONS, ...ROOT })],
  gradeStream: [strings, folder({ ...GRADING, name: anyString })],
  gradeReport: [
    arg([], (value) => emptyList(value) || value instanceof Map),
    options({ title: anyString, language: never }),
  ],
  mergeGrades: [
    arg([], (value) => Array.isArray(value) && Array.from(value).every((entry) => typeof entry === 'string')),
    arg('merged.jsonl', (value) => anyString(value) && value !== ''),
    options({ format: never, mixed: flag, memory: amount(1), temporary: anyString, signal: never }),
  ],
  readFolder: [targets, folder({ maxPixels: amount(1), ...EXTENSIONS })],
  readGrades: [arg('merged.jsonl', anyString), options({ signal: never })],
  recordedPuzzle: [arg(record)],
  writeGrades: [
    targets,
    arg('grades.jsonl', (value) => anyString(value) && value !== ''),
    folder({ ...GRADING, ...EXTENSIONS, ...ROOT, name: anyString, format: never }),
  ],
}

// what is written goes by names that are junk
const home = process.cwd()
const work = mkdtempSync(join(tmpdir(), 'gridreason-arguments-'))
beforeAll(() => process.chdir(work))
afterAll(() => {
  process.chdir(home)
  rmSync(work, { recursive: true })
})

/** Geometries of another order than the reading's are refused. */
function sameOrder(value: unknown): boolean {
  return aGeometry.allows(value) && (value as { order: number }).order === 9
}

const isClass = (value: unknown): boolean =>
  typeof value === 'function' && /^class\b/.test(Function.prototype.toString.call(value))

describe.each([
  ['photo', photo as Readonly<Record<string, unknown>>, PHOTO],
  ['batch', batch as Readonly<Record<string, unknown>>, BATCH],
])('functions of gridreason/%s say what was expected', (_, door, entries) => {
  it('every function has its arguments listed, and no other', () => {
    const functions = Object.keys(door).filter(
      (name) => typeof door[name] === 'function' && !isClass(door[name]),
    )
    expect(Object.keys(entries).sort()).toEqual(functions.sort())
  })
  it.each(Object.entries(entries))('%s', async (name, args) => {
    expect(await wrongOutcomes(door[name] as Callable, args, CODES)).toEqual([])
  })
})

describe('what a photo reader does', async () => {
  const reader = await photo.createPhotoReader()
  const network = photo.createNetworkReader()
  const cell = { data: new Uint8Array(1600).fill(255) }
  it('read', async () => {
    const noGrid = new Set([...CODES, 'no-grid-found'])
    // a picture without a grid, or a name without a file, is for the picture's errors to say
    const entry = [
      arg(raw, (value) => anyString(value) && value !== ''),
      options({ ...LIMITS, geometry: aGeometry.allows }),
    ]
    const wrong = await wrongOutcomes(reader.read as Callable, entry, noGrid)
    expect(
      wrong.filter((line) => !/no-grid-found|No printed number-place grid|cannot be read/.test(line)),
    ).toEqual([])
  })
  it('read cells', async () => {
    expect(await wrongOutcomes(network.read as Callable, [arg([cell], emptyList)], CODES)).toEqual([])
  })
})
