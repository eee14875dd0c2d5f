import { describe, expect, it } from 'vitest'
import { A, B, C, entriesOf, faultOf, read, rows, text } from './reading.js'

describe('what is said above a grid', () => {
  it('is kept up to a hundred comments of a thousand characters', async () => {
    const comments = Array.from({ length: 150 }, (_, i) => `# ${i} ${'x'.repeat(2000)}`)
    const [entry] = await entriesOf(text(comments, 'T'.repeat(2000), A))
    expect(entry!.comments).toHaveLength(100)
    expect(entry!.comments[99]).toBe(`99 ${'x'.repeat(997)}`)
    expect(entry!.title).toBe('T'.repeat(1000))
  })

  it('is a remark beside the cells where there is no heading', async () => {
    const entries = await entriesOf(text(`17 ${A} 2.4 hard`, 'Two', `17 ${B}`, `${C}  # not said`))
    expect(entries.map(({ title }) => title)).toEqual(['17 2.4 hard', 'Two', undefined])
  })

  it('begins after the signs of a comment', async () => {
    const [entry] = await entriesOf(text('## one', '#two', '  #  three', A))
    expect(entry!.comments).toEqual(['one', 'two', ' three'])
  })
})

describe('rows with words before them', () => {
  const found = (count: number, cells: number) =>
    `Line 1: found ${count} lines of words with ${cells} cells after them; expected rows without words, or with a number or a letter before each.`
  it('are said from four lines on', async () => {
    const four = ['1020', '0304', '4010', '0203'].map((row) => `line ${row}`)
    expect(await read(text(four))).toEqual([found(4, 4)])
    expect(await read(text(four.slice(1), '', A))).toEqual([A])
    expect(await read(text(four.map((row) => row.replace(/\d+/, '$&0'))))).toEqual([])
    const six = rows(A).map((row) => `line ${row.slice(0, 6)}`)
    expect(await read(text(six.slice(0, 4)))).toEqual([found(4, 6)])
    expect(await read(text(six.slice(0, 3)))).toEqual([])
  })

  it('end where the number of cells changes, at a blank line and at rows', async () => {
    const nine = rows(A).map((row) => `line ${row}`)
    expect(await read(text(nine.slice(0, 4), 'line 12345', '', A))).toEqual([found(4, 9), A])
    expect(await read(text(nine.slice(0, 3), '', nine.slice(3, 6), A))).toEqual([A])
    expect(await read(text(nine.slice(0, 4), rows(B)))).toEqual([found(4, 9), B])
  })

  it('may have blanks between their cells, and other words', async () => {
    const spaced = rows(A).map((row) => `Row one: ${[...row].join(' ')}`)
    expect(await read(text(spaced))).toEqual([found(9, 9)])
    expect(await read(text(spaced.map((row) => row.slice(0, -12))))).toEqual([])
    expect(await read(text(new Array(9).fill('see page 12 or 13')))).toEqual([])
  })
})

describe('files of other kinds', () => {
  it.each<[string, string, RegExp]>([
    ['bzip2', 'BZh91AY&SY', /a bzip2 file.*unpack/],
    ['xz', '\xfd7zXZ\0', /an xz file.*unpack/],
    ['7z', '7z\xbc\xaf\x27\x1c', /a 7z archive.*unpack/],
    ['zstd', '\x28\xb5\x2f\xfd', /a zstd file.*unpack/],
    ['gzip, decoded', '\x1f\ufffd\b\0', /a gzip file.*unpack/],
    ['an empty zip', 'PK\x05\x06', /a zip archive.*unpack/],
    ['BMP', 'BM6\0\0\0\0\0\0\0', /a BMP picture.*photo/],
    ['TIFF', 'II*\0\b\0\0\0', /a TIFF picture.*photo/],
    ['TIFF, big end first', 'MM\0*\0\0\0\b', /a TIFF picture.*photo/],
    ['AVIF', '\0\0\0\x1cftypavif', /an AVIF picture.*photo/],
    ['JPEG, decoded', '\ufffd\ufffd\ufffd\ufffd', /a JPEG picture.*photo/],
    [
      'SVG after a comment',
      '<?xml version="1.0"?><!-- a --><svg width="1">',
      /an SVG picture.*save it as a PNG or JPEG.*photo/,
    ],
    ['RTF', '{\\rtf1\\ansi 003', /a document in RTF.*save it as plain text/],
    ['an old document', '\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1', /an office program.*plain text/],
    ['an old document, decoded', '\ufffd\ufffd\x11\ufffd\ufffd\ufffd\x1a\ufffd', /an office program/],
    ['a zipped document', `PK\x03\x04${'\0'.repeat(26)}[Content_Types].xml`, /an office program.*plain text/],
    ['another', `PK\x03\x04${'a'.repeat(26)}mimetypeapplication/x`, /an office program.*plain text/],
    ['HEIC', '\0\0\0\x18ftypmif1', /a HEIC picture.*save it as a PNG or JPEG/],
    ['PDF', '%PDF-1.7', /a PDF document.*save it as a PNG or JPEG/],
    ['HTML', '<!DOCTYPE html><html>', /a page of HTML.*the text of the page alone/],
    ['HTML without a type', '  <body>', /a page of HTML/],
    ['zeros', 'a\0\0b\0\0c\0\0d', /bytes that are no text/],
    ['other bytes', '\ufffda\ufffd\ufffdb\ufffdc\ufffd', /bytes that are no text/],
    ['UTF-16 with its mark', '\xff\xfe1\0', /text in UTF-16.*save it as UTF-8/],
    ['UTF-16 the wrong way round', '\u3100\u3200\u3300\u3000\u3000\u3000\u3100\u3100\u3100', /UTF-16/],
  ])('%s', (_, input, message) => {
    expect(faultOf(input)).toMatch(message)
  })

  it.each(['BMW 12', 'PKW', 'GIF', 'II', '7z', 'RIFF', '\ufffd'])('%s may begin a heading', async (start) => {
    expect(await read(text(`${start} is what this page is called`, rows(A)))).toEqual([A])
  })
})
