/** Pictures that are decoded, by what their bytes begin with; file names count for nothing. */
export const PICTURE_FORMATS = ['jpeg', 'png', 'webp', 'tiff', 'gif', 'avif'] as const
export type PictureFormat = (typeof PICTURE_FORMATS)[number]

/** What bytes are that are known and not decoded, and what a person can do. */
export interface OtherFormat {
  /** As people call it, with its article. */
  readonly name: string
  readonly advice: string
}

/** Most bytes that are looked at. */
const HEAD = 4096

/** What a picture's bytes are: a format that is decoded, another that is known by name, or undefined. */
export function formatOf(bytes: Uint8Array): PictureFormat | OtherFormat | undefined {
  const head = bytes.subarray(0, HEAD)
  const text = latin1(head)
  const [format] = MARKS.find(([, ...marks]) => marks.some((mark) => isMarked(text, mark))) ?? []
  if (format === 'tiff' && isCameraRaw(head)) return RAW
  return format ?? boxFormat(text) ?? textFormat(text)
}

function latin1(bytes: Uint8Array): string {
  // not with a TextDecoder, whose "latin1" takes some bytes for other characters
  let text = ''
  for (const byte of bytes) text += String.fromCharCode(byte)
  return text
}

const AS_JPEG = 'Save or share it as a JPEG'
const RAW: OtherFormat = {
  name: 'a raw picture of a camera',
  advice: `${AS_JPEG}, as the camera's program does.`,
}
const HEIC: OtherFormat = {
  name: 'a HEIC picture, as many phones take them',
  advice: `${AS_JPEG}, or set the phone's camera to the format that is most compatible.`,
}
const PDF: OtherFormat = {
  name: 'a PDF document',
  advice: 'Save its page as a PNG or JPEG of 200 dots to the inch or more, or take the digits from its text.',
}
const VIDEO: OtherFormat = { name: 'a video', advice: 'Take a photo, or save one frame of it as a JPEG.' }
const VECTORS: OtherFormat = {
  name: 'a drawing in SVG',
  advice: 'Save it as a PNG that is a thousand pixels wide or more.',
}
const ARCHIVE: OtherFormat = {
  name: 'an archive of files',
  advice: 'Unpack it, and hand in the pictures one by one.',
}
const PACKED: OtherFormat = { name: 'a compressed file', advice: 'Unpack it first.' }
const POSTSCRIPT: OtherFormat = {
  name: 'a PostScript document',
  advice: 'Save its page as a PNG or JPEG of 200 dots to the inch or more.',
}
const WEB_PAGE: OtherFormat = {
  name: 'a web page',
  advice: 'Save the picture that it shows, and hand that in.',
}

function still(name: string): OtherFormat {
  return { name, advice: `${AS_JPEG} or PNG.` }
}

/** What stands at the beginning of a file, a byte a character; from a place on, where a number comes first. */
type Mark = string | readonly [at: number, bytes: string]

const MARKS: readonly (readonly [
  PictureFormat | OtherFormat,
  ...(readonly (Mark | readonly [Mark, Mark])[]),
])[] = [
  ['jpeg', '\xff\xd8\xff'],
  ['png', '\x89PNG\r\n\x1a\n'],
  ['gif', 'GIF87a', 'GIF89a'],
  ['webp', ['RIFF', [8, 'WEBP']]],
  [RAW, ['II*\0', [8, 'CR\x02']], 'IIU\0', 'IIRO', 'IIRS', 'MMOR', 'FUJIFILMCCD-RAW', '\0MRM', 'FOVb'],
  ['tiff', 'II*\0', 'MM\0*', 'II+\0\x08\0\0\0', 'MM\0+\0\x08\0\0'],
  [ARCHIVE, 'PK\x03\x04', 'PK\x05\x06', 'PK\x07\x08', 'Rar!\x1a\x07', "7z\xbc\xaf'\x1c", [257, 'ustar']],
  [PACKED, '\x1f\x8b', 'BZh', '\xfd7zXZ\0', '\x28\xb5\x2f\xfd'],
  [POSTSCRIPT, '%!PS', '\xc5\xd0\xd3\xc6'],
  [VIDEO, ['RIFF', [8, 'AVI ']], '\x1a\x45\xdf\xa3', 'FLV\x01', '\0\0\x01\xba', '\0\0\x01\xb3', 'OggS'],
  [VIDEO, [4, 'moov'], [4, 'mdat'], [4, 'wide'], [4, 'free'], [4, 'skip']],
  [still('a BMP picture'), ['BM', [6, '\0\0\0\0']]],
  [still('a Photoshop document'), '8BPS'],
  [still('an icon'), '\0\0\x01\0', '\0\0\x02\0'],
  [still('a JPEG XL picture'), '\xff\x0a', '\0\0\0\x0cJXL \r\n\x87\n'],
  [still('a JPEG 2000 picture'), '\0\0\0\x0cjP  \r\n\x87\n', '\xff\x4f\xff\x51'],
  [still('a netpbm picture'), ...[...'1234567'].flatMap((kind) => [`P${kind}\n`, `P${kind} `])],
  [still('a DjVu document'), 'AT&TFORM'],
  [still('a GIMP document'), 'gimp xcf'],
  [still('an OpenEXR picture'), 'v/1\x01'],
  [still('a Radiance picture'), '#?RADIANCE', '#?RGBE'],
  [still('a QOI picture'), 'qoif'],
  [still('a FITS picture'), 'SIMPLE  ='],
  [still('a Windows metafile'), '\xd7\xcd\xc6\x9a', ['\x01\0\0\0', [40, ' EMF']]],
]

function isMarked(text: string, marks: Mark | readonly [Mark, Mark]): boolean {
  if (typeof marks === 'string') return text.startsWith(marks)
  const [first, second] = marks
  if (typeof first === 'number') return text.startsWith(second as string, first)
  return isMarked(text, first) && isMarked(text, second as Mark)
}

/** Formats of text, which may begin with spaces, comments and a mark of its encoding. */
function textFormat(text: string): OtherFormat | undefined {
  if (text.slice(0, PDF_WITHIN).includes('%PDF-')) return PDF
  // letters of two bytes leave zeros between them
  const plain = text
    .replaceAll('\0', '')
    .replace(/^(?:\xef\xbb\xbf|\xff\xfe|\xfe\xff)/, '')
    .trimStart()
    .toLowerCase()
  if (!plain.startsWith('<')) return undefined
  if (/<svg[\s>:]/.test(plain)) return VECTORS
  return /^<(?:!doctype html|html|head|body)/.test(plain) ? WEB_PAGE : undefined
}

/** The mark of a PDF document may have other bytes before it. */
const PDF_WITHIN = 1024

/** Formats whose files are boxes, of which the first names the brands that can read them. */
function boxFormat(text: string): PictureFormat | OtherFormat | undefined {
  if (!text.startsWith('ftyp', 4)) return undefined
  const size = (text.charCodeAt(2) << 8) | text.charCodeAt(3)
  const brands = [text.slice(8, 12), ...everyFour(text.slice(16, size))]
  const has = (...wanted: string[]) => brands.some((brand) => wanted.includes(brand))
  if (has('avif', 'avis')) return 'avif'
  if (has('crx ')) return RAW
  if (has('heic', 'heix', 'heim', 'heis', 'hevc', 'hevx', 'hevm', 'hevs', 'mif1', 'msf1')) return HEIC
  return VIDEO
}

function everyFour(text: string): string[] {
  return Array.from({ length: text.length >> 2 }, (_, k) => text.slice(4 * k, 4 * k + 4))
}

const SUB_DIRECTORIES = 0x14a
const MAKER = 0x10f
const DNG_VERSION = 0xc612

/**
 * Raw pictures of many cameras are TIFF files of a sort: they name the camera's maker and have pictures within
 * pictures, or the version of DNG.
 */
function isCameraRaw(head: Uint8Array): boolean {
  const view = new DataView(head.buffer, head.byteOffset, head.byteLength)
  const little = head[0] === 0x49
  if (head.length < 8) return false
  const directory = view.getUint32(4, little)
  if (directory + 2 > head.length) return false
  const count = view.getUint16(directory, little)
  const tags = new Set<number>()
  for (let at = directory + 2; at + 12 <= head.length && tags.size < count; at += 12) {
    tags.add(view.getUint16(at, little))
    if (at > directory + 12 * count) break
  }
  return tags.has(DNG_VERSION) || (tags.has(SUB_DIRECTORIES) && tags.has(MAKER))
}
