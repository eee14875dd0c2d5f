import { describe, expect, it } from 'vitest'
import { blackChannel, inkChannel } from '../../../src/photo/decode/ink-channel.js'

const WHITE = [240, 238, 230]
const BLACK = [30, 32, 28]
const ORANGE = [235, 150, 90]
const BLUE = [40, 70, 200]

function picture(...pixels: number[][]) {
  return { width: pixels.length, height: 1, data: Uint8Array.from(pixels.flat()) }
}

describe('inkChannel', () => {
  it('has print of any colour dark: the smallest of red, green and blue', () => {
    const { data } = inkChannel(picture(WHITE, BLACK, ORANGE, BLUE, [7, 7, 9], [9, 3, 3], [0, 255, 1]))
    expect([...data]).toEqual([230, 28, 90, 40, 7, 3, 0])
  })
})

describe('blackChannel', () => {
  it('has only black and grey dark: the largest of red, green and blue', () => {
    const channel = blackChannel(picture(WHITE, BLACK, ORANGE, BLUE))
    expect([...channel!.data]).toEqual([240, 32, 235, 200])
  })

  it('is none where hardly anything has a colour', () => {
    expect(blackChannel(picture(WHITE, BLACK, WHITE))).toBeUndefined()
    const plain = Array.from({ length: 200 }, () => WHITE)
    expect(blackChannel(picture(...plain, ORANGE))).toBeUndefined()
    expect(blackChannel(picture(...plain, ORANGE, BLUE, BLUE))).toBeDefined()
  })
})
