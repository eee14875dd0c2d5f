import { InputError } from '../../errors.js'

/** Characters of the beginning of a text that are looked at. */
export const BEGINNING = 512

const OFFICE = 'a document of an office program'

/**
 * How other kinds of files begin, with control characters as their pictures (`␀` for zero). Bytes above 7F may have
 * come through a UTF-8 decoder, which makes U+FFFD of them, or one character each.
 */
const BEGINNINGS: readonly (readonly [RegExp, string])[] = [
  [/^PK␃␄.{16,26}(\[Content_Types\]|mimetype|word\/|xl\/|_rels\/)/s, OFFICE],
  [/^(\xd0\xcf|\ufffd\ufffd)␑(\xe0|\ufffd)/, OFFICE],
  [/^\{\\rtf/, 'a document in RTF'],
  [/^PK(␃␄|␅␆|␇␈)/, 'a zip archive'],
  [/^␟[\x8b\ufffd]/, 'a gzip file'],
  [/^BZh[1-9]1AY/, 'a bzip2 file'],
  [/^[\xfd\ufffd]7zXZ/, 'an xz file'],
  [/^7z[\xbc\ufffd]/, 'a 7z archive'],
  [/^\(\xb5\/\xfd|^\(\ufffd\/\ufffd/, 'a zstd file'],
  [/^[\x89\ufffd]PNG/, 'a PNG picture'],
  [/^\xff\xd8\xff|^\ufffd{3}/, 'a JPEG picture'],
  [/^GIF8[79]a/, 'a GIF picture'],
  [/^RIFF.{4,12}WEBP/s, 'a WebP picture'],
  [/^BM.{2,12}␀␀/s, 'a BMP picture'],
  [/^(II\*␀|MM␀\*)/, 'a TIFF picture'],
  [/^.{4,8}ftypavi[fs]/s, 'an AVIF picture'],
  [/^.{4,8}ftyp(hei|hev|mif1|msf1)/s, 'a HEIC picture'],
  [/^%PDF-/, 'a PDF document'],
  [/^(<\?xml[^>]*>\s*)?(<!--[^>]*-->\s*)?(<!DOCTYPE svg[^>]*>\s*)?<svg[\s>]/i, 'an SVG picture'],
  [/^\s*<(!DOCTYPE html|html|head|body)[\s>]/i, 'a page of HTML'],
]

const UTF16 = 'text in UTF-16'

/** What the beginning of a text shows it to be, when that is no text in UTF-8; undefined for text. */
export function foreignKind(text: string): string | undefined {
  const start = text.slice(0, BEGINNING).replace(/^\ufeff/, '')
  const shown = withPictures(start)
  for (const [beginning, kind] of BEGINNINGS) if (beginning.test(shown)) return kind
  // A byte order mark as a UTF-8 decoder, a decoder of single bytes, or one of the other byte order shows it.
  if (/^(\ufffd\ufffd|\xff\xfe|\xfe\xff|\ufffe)/.test(shown)) return UTF16
  // Every second byte of plain characters is zero; with the bytes the wrong way round `1` is U+3100.
  if (/^(␀[^␀]){2}|^([^␀]␀){2}/.test(shown)) return UTF16
  const swapped = [...start.slice(0, 64)].filter((c) => c > '\xff' && (c.charCodeAt(0) & 255) === 0).length
  if (swapped > 7 && swapped * 2 > Math.min(start.length, 64)) return UTF16
  const zeros = shown.split('␀').length - 1
  const unknown = shown.split('\ufffd').length - 1
  return zeros > 3 || unknown * 5 > start.length ? 'bytes that are no text' : undefined
}

function withPictures(text: string): string {
  let shown = ''
  for (let i = 0; i < text.length; i++) {
    const code = text.charCodeAt(i)
    const isControl = code < 32 && code !== 9 && code !== 10 && code !== 13
    shown += isControl ? String.fromCharCode(0x2400 + code) : text[i]
  }
  return shown
}

/** What to do with a kind of input; the first that fits. */
const ADVICE: readonly (readonly [RegExp, string])[] = [
  [/UTF-16/, 'save it as UTF-8, or decode it as UTF-16 before handing it in'],
  [/HTML/, 'hand in the text of the page alone'],
  [/office|RTF/, 'save it as plain text, with a cell of the grid in each place between commas or tabs'],
  [/HEIC|PDF|SVG/, 'save it as a PNG or JPEG picture, which the photo reader reads'],
  [/picture/, 'pictures are read by the photo reader'],
  [/no text/, 'save the puzzle as plain text'],
  [/./, 'unpack it first'],
]

export function foreignError(kind: string): InputError {
  const expected = 'plain text in UTF-8'
  const [, advice] = ADVICE.find(([kinds]) => kinds.test(kind))!
  return new InputError('text-shape', `The input is ${kind}; expected ${expected}: ${advice}.`, {
    place: { line: 1 },
    found: kind,
    expected,
  })
}
