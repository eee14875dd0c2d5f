import { readFileSync } from 'node:fs'
import { deflateSync } from 'node:zlib'
import sharp from 'sharp'
import { describe, expect, it } from 'vitest'
import { crc32 } from '../../src/photo/nets/net-file.js'
import { createPhotoReader, decodePicture, PictureError } from '../../src/photo.js'

const PAGE = new URL('../../fixtures/pages/1-front-page.jpg', import.meta.url)
const LABELS = readFileSync(new URL('../../fixtures/pages/labels.csv', import.meta.url), 'utf8')
const MEBIBYTE = 2 ** 20

describe('large pictures', () => {
  it('of fifty megapixels are read', async () => {
    const { width, height } = await sharp(readFileSync(PAGE)).metadata()
    const scale = Math.sqrt(50_000_000 / (width * height))
    const size = [Math.floor(width * scale), Math.floor(height * scale)] as const
    expect(size[0] * size[1]).toBeGreaterThan(49_900_000)
    const large = await sharp(readFileSync(PAGE))
      .resize(...size, { fit: 'fill' })
      .jpeg()
      .toBuffer()
    const reader = await createPhotoReader()
    const {
      readings: [{ puzzle, cells }],
    } = await reader.read(large)
    await reader.close()
    const givens = LABELS.split('\n')
      .find((line) => line.startsWith('1-front-page'))!
      .split(',')[2]!
    expect(puzzle.givens).toEqual([...givens].map(Number))
    // places are given in the picture's own pixels
    const across = cells[8]!.bounds[1].x - cells[0]!.bounds[0].x
    expect(across).toBeGreaterThan(size[0] / 8)
  }, 60_000)

  it('that claim more than they may are refused by their header, whatever their format', async () => {
    const small = sharp({ create: { width: 64, height: 64, channels: 3, background: '#fff' } })
    const bombs = {
      png: pngThatClaims(60_000, 60_000),
      jpeg: jpegThatClaims(await small.clone().jpeg().toBuffer(), 60_000, 60_000),
      tiff: tiffThatClaims(await small.clone().tiff().toBuffer(), 60_000, 60_000),
    }
    const before = process.memoryUsage.rss()
    for (const [format, bomb] of Object.entries(bombs)) {
      expect(bomb.length, format).toBeLessThan(10_000)
      const error = await decodePicture(bomb).catch((reason: unknown) => reason)
      expect(error, format).toBeInstanceOf(PictureError)
      expect((error as PictureError).code, format).toBe('picture-too-large')
    }
    expect(process.memoryUsage.rss() - before).toBeLessThan(50 * MEBIBYTE)
  })
})

/** A whole PNG but for its pixels, of which there is one row. */
function pngThatClaims(width: number, height: number): Buffer {
  const chunk = (type: string, data: Buffer) => {
    const body = Buffer.concat([Buffer.from(type, 'latin1'), data])
    const length = Buffer.alloc(4)
    length.writeUInt32BE(data.length)
    const check = Buffer.alloc(4)
    check.writeUInt32BE(crc32(body))
    return Buffer.concat([length, body, check])
  }
  const head = Buffer.alloc(13)
  head.writeUInt32BE(width, 0)
  head.writeUInt32BE(height, 4)
  head.set([8, 0, 0, 0, 0], 8) // eight bits, grey
  return Buffer.concat([
    Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]),
    chunk('IHDR', head),
    chunk('IDAT', deflateSync(Buffer.alloc(width + 1))),
    chunk('IEND', Buffer.alloc(0)),
  ])
}

function jpegThatClaims(jpeg: Buffer, width: number, height: number): Buffer {
  const out = Buffer.from(jpeg)
  const frame = out.indexOf(Buffer.from([0xff, 0xc0])) // baseline frame: marker, length, depth, height, width
  expect(frame).toBeGreaterThan(0)
  out.writeUInt16BE(height, frame + 5)
  out.writeUInt16BE(width, frame + 7)
  return out
}

function tiffThatClaims(tiff: Buffer, width: number, height: number): Buffer {
  const out = Buffer.from(tiff)
  expect(out.toString('latin1', 0, 2)).toBe('II') // little-endian
  const directory = out.readUInt32LE(4)
  for (let entry = 0; entry < out.readUInt16LE(directory); entry++) {
    const at = directory + 2 + 12 * entry // tag, type, count, value
    const claim = { 256: width, 257: height }[out.readUInt16LE(at)]
    if (claim === undefined) continue
    out.writeUInt16LE(4, at + 2) // a 32-bit number
    out.writeUInt32LE(claim, at + 8)
  }
  return out
}
