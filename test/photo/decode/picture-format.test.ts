import sharp from 'sharp'
import { describe, expect, it } from 'vitest'
import { formatOf, PICTURE_FORMATS } from '../../../src/photo/decode/picture-format.js'
import { decodePicture } from '../../../src/photo.js'

const bytes = (text: string) => Uint8Array.from(text, (character) => character.charCodeAt(0))
const box = (...brands: string[]) =>
  bytes(
    `\0\0\0${String.fromCharCode(16 + 4 * (brands.length - 1))}ftyp${brands[0]}\0\0\0\0${brands.slice(1).join('')}`,
  )

describe('what bytes are', () => {
  it.each(PICTURE_FORMATS)('%s, by what they begin with', async (format) => {
    const picture = sharp({ create: { width: 40, height: 30, channels: 3, background: '#fa0' } })
    const data = await picture.toFormat(format).toBuffer()
    expect(formatOf(data)).toBe(format)
    const { fullWidth, fullHeight } = await decodePicture(data)
    expect([fullWidth, fullHeight]).toEqual([40, 30])
  })

  const known: readonly (readonly [string, Uint8Array, RegExp])[] = [
    ['HEIC', box('heic', 'mif1', 'heic'), /HEIC .* JPEG/],
    ['HEIC that names the structure first', box('mif1', 'heic'), /HEIC/],
    ['PDF', bytes('%PDF-1.7\n%\xe2\xe3'), /PDF .* 200 dots/],
    ['PDF after other bytes', bytes('\n\n%PDF-1.4'), /PDF/],
    ['SVG', bytes('<svg xmlns="http://www.w3.org/2000/svg"/>'), /SVG.* PNG/],
    [
      'SVG after a declaration',
      bytes('\xef\xbb\xbf<?xml version="1.0"?>\n<!-- x -->\n<svg width="1"/>'),
      /SVG/,
    ],
    ['SVG in letters of two bytes', bytes('\xff\xfe<\0s\0v\0g\0 \0/\0>\0'), /SVG/],
    ['video', box('isom', 'mp42'), /video/],
    ['older video', bytes('\0\0\0\x08wide\0\0\0\0mdat'), /video/],
    ['zip', bytes('PK\x03\x04\x14\0'), /archive .* Unpack/],
    ['gzip', bytes('\x1f\x8b\x08\0'), /compressed .* Unpack/],
    ['raw of one camera', bytes('II*\0\x10\0\0\0CR\x02\0'), /raw picture/],
    ['raw of another', box('crx '), /raw picture/],
    ['BMP', bytes('BM\x46\0\0\0\0\0\0\0\x36\0\0\0\x28\0\0\0'), /BMP/],
    ['JPEG XL', bytes('\xff\x0a\0'), /JPEG XL/],
    ['web page', bytes('<!DOCTYPE html><html>'), /web page/],
  ]
  it.each(known)('%s: named, with what to do', async (_, data, words) => {
    expect(formatOf(data)).toMatchObject({ name: expect.any(String) })
    await expect(decodePicture(data)).rejects.toMatchObject({
      name: 'PictureError',
      code: 'picture-format',
      message: expect.stringMatching(words),
    })
  })

  it('a raw picture in the manner of TIFF, by its tags', () => {
    const directory = (tags: readonly number[], little: boolean) => {
      const data = new DataView(new ArrayBuffer(10 + 12 * tags.length))
      data.setUint16(0, little ? 0x4949 : 0x4d4d)
      data.setUint16(2, 42, little)
      data.setUint32(4, 8, little)
      data.setUint16(8, tags.length, little)
      for (const [k, tag] of tags.entries()) data.setUint16(10 + 12 * k, tag, little)
      return new Uint8Array(data.buffer)
    }
    for (const little of [true, false]) {
      expect(formatOf(directory([0x100, 0x10f, 0x14a], little))).toMatchObject({ name: /raw/ })
      expect(formatOf(directory([0x100, 0xc612], little))).toMatchObject({ name: /raw/ })
      expect(formatOf(directory([0x100, 0x10f], little))).toBe('tiff')
      expect(formatOf(directory([0x100, 0x14a], little))).toBe('tiff')
    }
    // the directory lies beyond the file, or says more tags than there are
    expect(formatOf(bytes('II*\0\xff\xff\xff\xff'))).toBe('tiff')
    expect(formatOf(bytes('II*\0\x08\0\0\0\xff\xff'))).toBe('tiff')
    expect(formatOf(bytes('MM\0*'))).toBe('tiff')
  })

  it('none, where nothing is known of them', () => {
    for (const text of [
      '',
      'no picture',
      '\0\0\0\0',
      '<note>a grid</note>',
      'ftypavif',
      '530070000600195000',
    ]) {
      expect(formatOf(bytes(text)), text).toBeUndefined()
    }
  })
})
