import { File } from 'node:buffer'
import { readFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { fileURLToPath } from 'node:url'
import { describe, expect, it } from 'vitest'
import type { PictureInput } from '../../../src/photo/decode/picture-input.js'
import { decodePicture } from '../../../src/photo.js'

const url = new URL('../../../fixtures/pages/3-upside-down.jpg', import.meta.url)
const file = readFileSync(url)

describe('a picture', () => {
  const copy = () => Uint8Array.from(file).buffer
  const inputs: readonly (readonly [string, PictureInput])[] = [
    ['a path', fileURLToPath(url)],
    ['a file URL', url],
    ['bytes', new Uint8Array(file)],
    ['a buffer', file],
    ['bytes within others', new Uint8Array(Uint8Array.from([1, 2, 3, ...file, 4]).buffer, 3, file.length)],
    ['an ArrayBuffer', copy()],
    ['a Blob', new Blob([file])],
    ['a File', new File([file], 'page.jpg') as Blob],
  ]
  it.each(inputs)('is %s', async (_, input) => {
    const { fullWidth, fullHeight } = await decodePicture(input)
    const whole = await decodePicture(file)
    expect([fullWidth, fullHeight]).toEqual([whole.fullWidth, whole.fullHeight])
  })

  const others: readonly (readonly [string, unknown, RegExp])[] = [
    ['nothing', undefined, /not undefined/],
    ['null', null, /not null/],
    ['a number', 12, /not 12/],
    ['an empty path', '', /path/],
    ['a path with a zero in it', 'page\0.jpg', /path/],
    ['an address on the web', 'https://papers.example/page.jpg', /Fetch it first/],
    ['a URL of the web', new URL('https://papers.example/page.jpg'), /Fetch others first/],
    ['a file URL as text', url.href, /new URL/],
    ['data as text', 'data:image/png;base64,AAAA', /Fetch it first/],
    ['a list of numbers', [...file.subarray(0, 8)], /not a list of 8/],
    ['words of two bytes', new Uint16Array(8), /Uint16Array/],
    ['an object', { file: 'page.jpg' }, /not an object/],
    ['a function', () => file, /not a function/],
    ['pixels of five bytes each', { width: 2, height: 2, data: new Uint8Array(20) }, /1, 2, 3 or 4 bytes/],
    ['a canvas, in Node', { width: 2, height: 2, getContext: () => null }, /not an object/],
    ['pixels of no width', { width: 0, height: 2, channels: 1, data: new Uint8Array(0) }, /width/],
    ['pixels in a list', { width: 2, height: 1, channels: 1, data: [1, 2] }, /data/],
  ]
  it.each(others)('is not %s', async (_, input, words) => {
    await expect(decodePicture(input as PictureInput)).rejects.toMatchObject({
      name: 'InputError',
      code: 'argument',
      message: expect.stringMatching(words),
    })
  })

  it('that is a folder or a device is no file', async () => {
    for (const path of [tmpdir(), '/dev/null', '/dev/zero']) {
      await expect(decodePicture(path)).rejects.toMatchObject({
        code: 'file-unreadable',
        place: { file: path },
      })
    }
  })

  it('whose Blob fails is one that cannot be read', async () => {
    const blob = new Blob([file])
    Object.defineProperty(blob, 'arrayBuffer', { value: () => Promise.reject(new Error('gone')) })
    await expect(decodePicture(blob)).rejects.toMatchObject({ code: 'file-unreadable' })
  })

  it('is named by its file in what goes wrong', async () => {
    const named = new File(['%PDF-1.7'], 'page.pdf') as Blob
    await expect(decodePicture(named)).rejects.toMatchObject({
      place: { file: 'page.pdf' },
      message: expect.stringContaining('page.pdf'),
    })
  })
})

describe('options of decoding', () => {
  it.each([{ maxPixels: 0 }, { maxPixels: '5' }, { timeLimit: -1 }, { signal: true }, { maxPixel: 5 }])(
    'are refused when they are %o',
    async (options) => {
      await expect(decodePicture(file, options as never)).rejects.toMatchObject({ code: 'argument' })
    },
  )
})
