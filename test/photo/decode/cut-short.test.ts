import { readFileSync } from 'node:fs'
import sharp from 'sharp'
import { describe, expect, it } from 'vitest'
import { isCutShort } from '../../../src/photo/decode/cut-short.js'
import { formatOf } from '../../../src/photo/decode/picture-format.js'

const jpeg = new Uint8Array(
  readFileSync(new URL('../../../fixtures/pages/1-front-page.jpg', import.meta.url)),
)
const png = new Uint8Array(await sharp(jpeg).resize(200).png().toBuffer())
const progressive = new Uint8Array(await sharp(jpeg).resize(400).jpeg({ progressive: true }).toBuffer())

describe('the end of a file', () => {
  it.each([
    ['JPEG', jpeg],
    ['progressive JPEG', progressive],
    ['PNG', png],
  ])('of %s is there, or it is missing', (_, bytes) => {
    const format = formatOf(bytes)
    const isCut = (part: Uint8Array) => isCutShort(format, part)
    expect(isCut(bytes)).toBe(false)
    expect(isCut(Uint8Array.of(...bytes, 0, 0, 0))).toBe(false)
    for (const share of [0.5, 0.9, 0.999]) expect(isCut(bytes.subarray(0, share * bytes.length))).toBe(true)
  })
  it('is not judged by the end of a thumbnail', () => {
    const thumbnail = [0xff, 0xd8, 0xff, 0xda, 1, 2, 0xff, 0xd9]
    const whole = Uint8Array.of(0xff, 0xd8, ...thumbnail, 0xff, 0xda, 3, 4, 0xff, 0xd9)
    expect(isCutShort('jpeg', whole)).toBe(false)
    expect(isCutShort('jpeg', whole.subarray(0, whole.length - 2))).toBe(true)
  })
})
