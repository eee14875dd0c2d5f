import sharp from 'sharp'
import { GridreasonError } from '../../src/index.js'
import { createPhotoReader, type PhotoReader, type PictureInput, type RawPicture } from '../../src/photo.js'
import { drawGrid } from '../photo/drawn-grid.js'
import { type Fuzzer, FuzzFault } from './fuzzer.js'

/**
 * Pictures of all sorts, whole, damaged and none: whatever is handed in, a reader answers with readings or with an
 * error that has a code, soon, and what is not of the formats that are decoded is never shown to the decoder.
 */
export const picturesFuzzer: Fuzzer = {
  name: 'pictures',
  async runCase(random) {
    reader ??= await createPhotoReader()
    const { what, input, codes } = await pick(random, [
      randomBytes,
      damaged,
      damaged,
      damaged,
      rawPixels,
      otherFormat,
      noPicture,
    ])(random)
    const limit = random() < 0.3 ? whole(random, 0, 60) : undefined
    const limits = limit === undefined ? {} : pick(random, [byTime, bySignal])(limit)
    const start = performance.now()
    const code = await codeOf(reader.read(input as PictureInput, limits), what)
    const milliseconds = Math.round(performance.now() - start)
    if (milliseconds > TOO_LONG) throw new FuzzFault(`${what} took ${milliseconds} ms`)
    const stopped = code === 'time-limit' || code === 'aborted'
    if (stopped && limit === undefined) throw new FuzzFault(`${what} was stopped without a limit`)
    if (codes && !stopped && !codes.includes(code))
      throw new FuzzFault(`${what} ended with ${code}, not ${codes.join(' or ')}`)
    return { [code]: 1, ...(stopped ? { worstOverrunMs: milliseconds - limit! } : { worstMs: milliseconds }) }
  },
}

let reader: PhotoReader | undefined

/** Milliseconds; the pictures are small, and machines may be busy. */
const TOO_LONG = 20_000

interface Case {
  readonly what: string
  readonly input: unknown
  /** What it must end with, if that is known. */
  readonly codes?: readonly string[]
}

type Random = () => number

async function codeOf(reading: Promise<unknown>, what: string): Promise<string> {
  try {
    await reading
    return 'read'
  } catch (error) {
    if (error instanceof GridreasonError) return error.code
    throw new FuzzFault(`${what} ended with an error without a code: ${error}`)
  }
}

function byTime(timeLimit: number) {
  return { timeLimit }
}

function bySignal(milliseconds: number) {
  return { signal: AbortSignal.timeout(milliseconds) }
}

function pick<T>(random: Random, items: readonly T[]): T {
  return items[Math.floor(random() * items.length)]!
}

function whole(random: Random, low: number, high: number): number {
  return low + Math.floor(random() * (high - low + 1))
}

function noise(random: Random, length: number): Uint8Array {
  const bytes = new Uint8Array(length)
  for (let k = 0; k < length; k++) bytes[k] = random() * 256
  return bytes
}

const HEADS = [
  '',
  '\xff\xd8\xff\xe0\0\x10JFIF',
  '\x89PNG\r\n\x1a\n\0\0\0\rIHDR',
  'RIFF\x20\x10\0\0WEBPVP8 ',
  'RIFF\x20\x10\0\0WEBPVP8L',
  'II*\0\x08\0\0\0',
  'MM\0*\0\0\0\x08',
  'GIF89a',
  '\0\0\0\x20ftypavif\0\0\0\0mif1avif',
] as const

async function randomBytes(random: Random): Promise<Case> {
  const head = latin1(pick(random, HEADS))
  const tail = noise(random, whole(random, 0, pick(random, [8, 400, 20_000])))
  const codes = head.length === 0 && tail.length < 400 ? undefined : PICTURE_CODES
  return {
    what: `random bytes after ${JSON.stringify(String(head))}`,
    input: joined(head, tail),
    ...(codes && { codes }),
  }
}

/** What damaged files and random bytes may end with; decoders forgive a good deal. */
const PICTURE_CODES = [
  'read',
  'no-grid-found',
  'picture-unreadable',
  'picture-truncated',
  'picture-too-large',
  'picture-format',
]

const FORMATS = ['jpeg', 'png', 'webp', 'tiff', 'gif', 'avif'] as const
const files = new Map<string, Promise<Uint8Array>>()

/** A grid of some size in a format, made once. */
function fileOf(format: (typeof FORMATS)[number], cell: number, progressive: boolean): Promise<Uint8Array> {
  const key = `${format} ${cell} ${progressive}`
  let file = files.get(key)
  if (!file) {
    const { width, height, data } = grid(cell)
    const raw = { width, height, channels: 1 } as const
    const picture = sharp(data, { raw }).toColourspace('srgb')
    const encoded =
      format === 'jpeg' || format === 'png'
        ? picture.toFormat(format, { progressive })
        : picture.toFormat(format)
    file = encoded.toBuffer()
    files.set(key, file)
  }
  return file
}

function grid(cell: number) {
  const margin = cell
  const side = 9 * cell + 2 * margin
  return drawGrid({
    width: side,
    height: side,
    order: 9,
    toGrid: ({ x, y }) => ({ x: (x - margin) / cell, y: (y - margin) / cell }),
    figure: (column, row) => (column * 5 + row * 7) % 4 === 0,
  })
}

async function damaged(random: Random): Promise<Case> {
  const format = pick(random, FORMATS)
  const cell = pick(random, [12, 30])
  const file = await fileOf(format, cell, random() < 0.5)
  const [name, damage] = pick(random, DAMAGES)
  const other = await fileOf(pick(random, FORMATS), cell, false)
  const bytes = damage(file, random, other)
  return { what: `a ${format} file, ${name}`, input: wrapped(bytes, random), codes: PICTURE_CODES }
}

type Damage = (file: Uint8Array, random: Random, other: Uint8Array) => Uint8Array

const DAMAGES: readonly (readonly [string, Damage])[] = [
  ['whole', (file) => file],
  ['cut short', (file, random) => file.slice(0, whole(random, 1, file.length))],
  [
    'with other bytes here and there',
    (file, random) => changed(file, random, whole(random, 1, 30), file.length),
  ],
  ['with other bytes at its head', (file, random) => changed(file, random, whole(random, 1, 12), 200)],
  [
    'gone on with in another',
    (file, random, other) =>
      joined(file.slice(0, whole(random, 1, file.length)), other.slice(whole(random, 0, other.length - 1))),
  ],
  [
    'with a part twice',
    (file, random) => {
      const at = whole(random, 0, file.length)
      return joined(file.slice(0, at), file.slice(whole(random, 0, at)))
    },
  ],
  [
    'with a part of zeros',
    (file, random) => {
      const at = whole(random, 0, file.length)
      return Uint8Array.from(file).fill(random() < 0.5 ? 0 : 255, at, at + whole(random, 1, 500))
    },
  ],
  ['with noise at its end', (file, random) => joined(file, noise(random, 1000))],
]

function changed(file: Uint8Array, random: Random, count: number, within: number): Uint8Array {
  const bytes = Uint8Array.from(file)
  for (let k = 0; k < count; k++) bytes[whole(random, 0, Math.min(within, bytes.length) - 1)] = random() * 256
  return bytes
}

function wrapped(bytes: Uint8Array, random: Random): unknown {
  const copy = Uint8Array.from(bytes)
  return pick(random, [copy, Buffer.from(copy), copy.buffer, new Blob([copy])])
}

async function rawPixels(random: Random): Promise<Case> {
  const side = () => pick(random, [1, 2, 3, 7, 40, 90, 300, 1500, 6000])
  let [width, height] = [side(), side()]
  while (width * height > MOST_RAW) [width, height] = [Math.ceil(width / 2), Math.ceil(height / 2)]
  const channels = pick(random, [1, 2, 3, 4] as const)
  const data =
    random() < 0.5
      ? noise(random, width * height * channels)
      : new Uint8Array(width * height * channels).fill(random() * 256)
  const picture: RawPicture = { width, height, channels, data }
  return {
    what: `${width} × ${height} × ${channels} raw pixels`,
    input: picture,
    codes: ['read', 'no-grid-found'],
  }
}

const MOST_RAW = 200_000

const OTHERS = [
  '<svg xmlns="http://www.w3.org/2000/svg"><image href="file:///etc/hostname"/></svg>',
  '<?xml version="1.0"?><!DOCTYPE svg [<!ENTITY a "aaaa"><!ENTITY b "&a;&a;&a;&a;">]><svg><text>&b;</text></svg>',
  '%PDF-1.4\n1 0 obj<</Type/Catalog>>endobj',
  '\0\0\0\x18ftypheic\0\0\0\0mif1heic',
  '\0\0\0\x18ftypmp42\0\0\0\0isommp42',
  'PK\x03\x04\x14\0\0\0',
  '\x1f\x8b\x08\0\0\0\0\0',
  'BM\x46\0\0\0\0\0\0\0\x36\0\0\0\x28\0\0\0',
  '8BPS\0\x01',
  'P6\n2 2\n255\n',
  '\xff\x0a\0\0',
  'v/1\x01\x02\0\0\0',
  'SIMPLE  =                    T',
] as const

async function otherFormat(random: Random): Promise<Case> {
  const head = pick(random, OTHERS)
  const bytes = joined(latin1(head), noise(random, whole(random, 0, 3000)))
  return {
    what: `bytes that begin with ${JSON.stringify(head.slice(0, 24))}`,
    input: wrapped(bytes, random),
    codes: ['picture-format'],
  }
}

const NO_PICTURES: readonly unknown[] = [
  undefined,
  null,
  0,
  Number.NaN,
  true,
  '',
  'https://papers.example/page.jpg',
  'data:image/png;base64,iVBORw0KGgo=',
  new URL('https://papers.example/page.jpg'),
  [],
  {},
  [1, 2, 3],
  new Uint16Array(4),
  new DataView(new ArrayBuffer(4)),
  new Map(),
  Symbol('page'),
  12n,
  () => 0,
  new Date(0),
  Object.create(null),
  { width: 2, height: 2, channels: 3, data: new Uint8Array(11) },
  { width: 1e9, height: 1e9, channels: 4, data: new Uint8Array(4) },
  { width: 2, height: 2, channels: 5, data: new Uint8Array(20) },
  { width: 1.5, height: 2, channels: 1, data: new Uint8Array(3) },
]

async function noPicture(random: Random): Promise<Case> {
  const input = pick(random, NO_PICTURES)
  return { what: `what is no picture, number ${NO_PICTURES.indexOf(input)}`, input, codes: ['argument'] }
}

function latin1(text: string): Uint8Array {
  return Uint8Array.from(text, (character) => character.charCodeAt(0))
}

function joined(...parts: readonly Uint8Array[]): Uint8Array {
  return Uint8Array.from(Buffer.concat(parts))
}
