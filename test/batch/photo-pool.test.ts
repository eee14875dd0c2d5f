import { readdirSync, readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { createPhotoPool, type PhotoPool } from '../../src/batch.js'
import { STANDARD } from '../../src/grid/geometry.js'
import { createPhotoReader, NoGridFound, type PhotoReader, PictureError } from '../../src/photo.js'

const pages = new URL('../../fixtures/pages/', import.meta.url)
const FILES = readdirSync(pages).filter((file) => file.endsWith('.jpg'))
const url = (file: string) => new URL(file, pages)
const bytesOf = (file: string) => readFileSync(url(file))
const FIRST = '3-upside-down.jpg'

const onThreads = { workers: 2, workerFile: new URL('./source-worker.mjs', import.meta.url) }
const settled = (reading: Promise<unknown>) => reading.catch((error: unknown) => error)

describe.each([
  ['on two threads', onThreads],
  ['in this thread', { workers: 0 }],
])('a pool %s', { timeout: 120_000 }, (_, options) => {
  let pool: PhotoPool
  let reader: PhotoReader
  beforeAll(async () => {
    pool = await createPhotoPool(options)
    reader = await createPhotoReader()
  })
  afterAll(async () => {
    await pool.close()
    await reader.close()
  })

  it('reads all pages at once as a reader does one by one, and throws the same', async () => {
    const outcomes = await Promise.all(FILES.map((file) => settled(pool.read(bytesOf(file)))))
    for (const [i, file] of FILES.entries())
      expect(outcomes[i], file).toEqual(await settled(reader.read(bytesOf(file))))
    expect(outcomes.filter((outcome) => outcome instanceof NoGridFound)).toHaveLength(1)
  })

  it('takes what a reader takes, and leaves it to the caller', async () => {
    const bytes = bytesOf(FIRST)
    const own = await reader.read(bytes)
    const buffer = Uint8Array.from(bytes).buffer
    for (const picture of [fileURLToPath(url(FIRST)), url(FIRST), bytes, buffer, new Blob([bytes])])
      expect(await pool.read(picture)).toEqual(own)
    expect([bytes.length, buffer.byteLength]).toEqual([bytes.length, bytes.length])
    expect(bytes.equals(bytesOf(FIRST))).toBe(true)
    const raw = { width: 30, height: 20, data: new Uint8Array(600).fill(255) }
    await expect(pool.read(raw)).rejects.toThrow(NoGridFound)
    expect(raw.data).toHaveLength(600)
  })

  it('knows geometries and cell pictures', async () => {
    const how = { geometry: STANDARD, cellPictures: true }
    const { readings } = await pool.read(bytesOf(FIRST), how)
    expect(readings).toEqual((await reader.read(bytesOf(FIRST), how)).readings)
    expect(readings[0].evidence.pictures).toHaveLength(81)
  })

  it.each([
    ['bytes that are no picture', Buffer.from('no picture'), 'PictureError', 'picture-unreadable'],
    ['a file that is not there', '/nowhere/page.jpg', 'PictureError', 'file-unreadable'],
    ['a URL of the web', new URL('https://papers.example/page.jpg'), 'InputError', 'argument'],
    ['a number', 12, 'InputError', 'argument'],
  ])('says what is wrong with %s', async (_, picture, name, code) => {
    await expect(pool.read(picture as never)).rejects.toMatchObject({ name, code })
  })

  it('keeps time limits and signals, before, while and after it waits', async () => {
    const controller = new AbortController()
    const reads = Array.from({ length: 6 }, () =>
      settled(pool.read(bytesOf('2-poor-light.jpg'), { signal: controller.signal })),
    )
    const short = await settled(pool.read(bytesOf('2-poor-light.jpg'), { timeLimit: 1 }))
    expect(short).toMatchObject({ name: 'StoppedError', code: 'time-limit' })
    controller.abort()
    for (const read of reads) expect(await read).toMatchObject({ name: 'StoppedError', code: 'aborted' })
    await expect(pool.read(bytesOf(FIRST), { signal: AbortSignal.abort() })).rejects.toMatchObject({
      code: 'aborted',
    })
    expect(await pool.read(bytesOf(FIRST))).toEqual(await reader.read(bytesOf(FIRST)))
  })
})

describe('a pool', { timeout: 60_000 }, () => {
  it('refuses pictures past its limit, with their class', async () => {
    const pool = await createPhotoPool({ ...onThreads, workers: 1, maxPixels: 1000 })
    const failure = await settled(pool.read(bytesOf(FIRST)))
    expect(failure).toBeInstanceOf(PictureError)
    expect(failure).toMatchObject({ code: 'picture-too-large' })
    await pool.close()
    await expect(pool.read(bytesOf(FIRST))).rejects.toMatchObject({ code: 'aborted' })
  })
  it('whose thread ends says so, and reads on', async () => {
    const pool = await createPhotoPool({
      workers: 1,
      workerFile: new URL('./fragile-worker.mjs', import.meta.url),
    })
    const failure = await settled(pool.read(bytesOf(FIRST)))
    expect(failure).toMatchObject({ name: 'GridreasonError', code: 'thread-lost' })
    await pool.close()
  })
})
