import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import sharp, { type Sharp } from 'sharp'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { toFullFrame } from '../../../src/photo/decode/decode-picture.js'
import { decodePicture, PictureError } from '../../../src/photo.js'

/** 60 × 40: left half white, right half red. */
function twoHalves(): Buffer {
  const data = Buffer.alloc(60 * 40 * 3, 255)
  for (let i = 0; i < 60 * 40; i++) if (i % 60 >= 30) data.set([200, 30, 30], i * 3)
  return data
}
const RAW = { raw: { width: 60, height: 40, channels: 3 } } as const

async function codeOf(work: Promise<unknown>): Promise<string> {
  try {
    await work
  } catch (error) {
    if (error instanceof PictureError) return error.code
    throw error
  }
  return 'decoded'
}

describe('decodePicture', () => {
  let folder = ''
  let jpeg: Buffer
  beforeAll(async () => {
    folder = mkdtempSync(join(tmpdir(), 'decode-'))
    jpeg = await sharp(twoHalves(), RAW).jpeg({ quality: 95 }).toBuffer()
    writeFileSync(join(folder, 'good.jpg'), jpeg)
    writeFileSync(join(folder, 'empty.jpg'), '')
    writeFileSync(join(folder, 'words.jpg'), 'these are words, not a picture')
  })
  afterAll(() => rmSync(folder, { recursive: true }))

  it('makes red print dark and paper light, from a path, bytes and raw pixels alike', async () => {
    const pixels = { width: 60, height: 40, channels: 3, data: new Uint8Array(twoHalves()) } as const
    for (const source of [join(folder, 'good.jpg'), jpeg, new Uint8Array(jpeg), pixels]) {
      const { gray, colour, fullWidth, fullHeight } = await decodePicture(source)
      expect([gray.width, gray.height, fullWidth, fullHeight]).toEqual([60, 40, 60, 40])
      expect(colour.data.length).toBe(60 * 40 * 3)
      expect(gray.data[20 * 60 + 10]).toBeGreaterThan(245)
      expect(gray.data[20 * 60 + 50]).toBeLessThan(60)
    }
  })

  it('follows the EXIF turn: what is reported is what people see', async () => {
    const turned = await sharp(twoHalves(), RAW).withMetadata({ orientation: 6 }).jpeg().toBuffer()
    const { gray } = await decodePicture(turned)
    expect([gray.width, gray.height]).toEqual([40, 60])
    expect(gray.data[10 * 40 + 20]).toBeGreaterThan(200)
    expect(gray.data[50 * 40 + 20]).toBeLessThan(90)
  })

  it('takes grey, transparent and raw one-channel pictures', async () => {
    const grey = await decodePicture(await sharp(twoHalves(), RAW).greyscale().png().toBuffer())
    expect(grey.colour.data.length).toBe(60 * 40 * 3)
    const clear = await sharp({
      create: { width: 8, height: 8, channels: 4, background: { r: 0, g: 0, b: 0, alpha: 0 } },
    })
      .png()
      .toBuffer()
    expect((await decodePicture(clear)).gray.data.every((value) => value === 255)).toBe(true)
    const raw = await decodePicture({ width: 3, height: 1, channels: 1, data: Uint8Array.of(0, 100, 200) })
    expect([...raw.gray.data]).toEqual([0, 100, 200])
  })

  it.each([
    ['four inks', (picture: Sharp) => picture.toColourspace('cmyk').jpeg()],
    ['sixteen bits', (picture: Sharp) => picture.toColourspace('rgb16').png()],
    [
      'a palette with transparent colours',
      (picture: Sharp) => picture.ensureAlpha(0.9).png({ palette: true, colours: 8 }),
    ],
    ['several levels', (picture: Sharp) => picture.tiff({ pyramid: true, tile: true })],
  ] as const)('takes pictures of %s', async (_, encode) => {
    const { gray } = await decodePicture(await encode(sharp(twoHalves(), RAW)).toBuffer())
    expect([gray.width, gray.height]).toEqual([60, 40])
    expect(gray.data[20 * 60 + 10]).toBeGreaterThan(220)
    expect(gray.data[20 * 60 + 50]).toBeLessThan(90)
  })

  it.each(['gif', 'webp'] as const)('takes the first picture of an animated %s', async (format) => {
    const other = sharp({ create: { width: 60, height: 40, channels: 3, background: 'black' } })
    const frames = [await sharp(twoHalves(), RAW).png().toBuffer(), await other.png().toBuffer()]
    const animated = await sharp(frames, { join: { animated: true } })
      [format]()
      .toBuffer()
    const { gray } = await decodePicture(animated)
    expect([gray.width, gray.height]).toEqual([60, 40])
    expect(gray.data[20 * 60 + 10]).toBeGreaterThan(220)
  })

  it('names a picture that ends within its header', async () => {
    const png = await sharp(twoHalves(), RAW).png().toBuffer()
    for (const length of [8, 20, 33])
      expect(await codeOf(decodePicture(png.subarray(0, length)))).toBe('picture-truncated')
    for (const length of [3, 20, 100])
      expect(await codeOf(decodePicture(jpeg.subarray(0, length)))).toBe('picture-truncated')
  })

  it('names what is wrong with a picture', async () => {
    expect(await codeOf(decodePicture(join(folder, 'missing.jpg')))).toBe('file-unreadable')
    expect(await codeOf(decodePicture(folder))).toBe('file-unreadable')
    expect(await codeOf(decodePicture(join(folder, 'words.jpg')))).toBe('picture-unreadable')
    expect(await codeOf(decodePicture(join(folder, 'empty.jpg')))).toBe('picture-unreadable')
    expect(await codeOf(decodePicture(new Uint8Array(0)))).toBe('picture-unreadable')
    expect(await codeOf(decodePicture(Buffer.from('no picture')))).toBe('picture-unreadable')
    const large = await sharp({ create: { width: 900, height: 700, channels: 3, background: '#888' } })
      .jpeg()
      .toBuffer()
    expect(await codeOf(decodePicture(large.subarray(0, large.length >> 1)))).toBe('picture-truncated')
    const png = await sharp(twoHalves(), RAW).png().toBuffer()
    expect(await codeOf(decodePicture(png.subarray(0, png.length - 40)))).toBe('picture-truncated')
  })

  it('refuses a picture past the limit by its header alone', async () => {
    const wide = await sharp({ create: { width: 9000, height: 6000, channels: 3, background: '#fff' } })
      .png()
      .toBuffer()
    const before = process.memoryUsage().rss
    expect(await codeOf(decodePicture(wide))).toBe('picture-too-large')
    expect(process.memoryUsage().rss - before).toBeLessThan(40e6)
    expect(await codeOf(decodePicture(jpeg, { maxPixels: 2000 }))).toBe('picture-too-large')
    expect(await codeOf(decodePicture(jpeg, { maxPixels: 2400 }))).toBe('decoded')
  })

  it('shrinks a large picture while decoding and remembers its full frame', async () => {
    const large = await sharp({ create: { width: 6000, height: 3000, channels: 3, background: '#fff' } })
      .jpeg()
      .toBuffer()
    const picture = await decodePicture(large)
    expect([picture.gray.width, picture.gray.height]).toEqual([2000, 1000])
    expect([picture.fullWidth, picture.fullHeight]).toEqual([6000, 3000])
    expect(toFullFrame(picture, { x: 100, y: 50 })).toEqual({ x: 300, y: 150 })
  })

  it('stops when asked to, and takes a wrong count of raw pixels for a mistake of the caller', async () => {
    await expect(decodePicture(jpeg, { signal: AbortSignal.abort() })).rejects.toMatchObject({
      code: 'aborted',
    })
    const short = { width: 4, height: 4, channels: 3, data: new Uint8Array(47) } as const
    await expect(decodePicture(short)).rejects.toMatchObject({ name: 'InputError', code: 'argument' })
  })
})
