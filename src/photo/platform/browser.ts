import { argumentError } from '../../check-arguments.js'
import { throwIfAborted } from '../../errors.js'
import { cutShort, decodedFormat, noPicture } from '../decode/accepted-format.js'
import { isCutShort } from '../decode/cut-short.js'
import { checkPixels } from '../decode/decode-picture.js'
import { formatOf } from '../decode/picture-format.js'
import { type CountedPicture, expectedPicture, NAMELESS, type PictureName } from '../decode/picture-input.js'
import { fromPixels } from '../decode/pixels.js'
import { fetched } from './fetched.js'
import type { Platform } from './platform.js'

/** The parts of a browser that are used here; the platform's own types come with the DOM. */
interface Browser {
  createImageBitmap(source: unknown, options?: { readonly imageOrientation: 'from-image' }): Promise<Bitmap>
  readonly OffscreenCanvas?: new (width: number, height: number) => Canvas
  readonly document?: { createElement(name: 'canvas'): Canvas }
}
interface Bitmap {
  readonly width: number
  readonly height: number
  close(): void
}
interface Canvas {
  width: number
  height: number
  getContext(name: '2d', options: { readonly willReadFrequently: boolean }): Context | null
}
interface Context {
  fillStyle: string
  fillRect(x: number, y: number, width: number, height: number): void
  drawImage(bitmap: Bitmap, x: number, y: number): void
  getImageData(x: number, y: number, width: number, height: number): { readonly data: Uint8ClampedArray }
}

const browser = globalThis as unknown as Browser

/** Pages and their workers: pictures are decoded and drawn by the browser. */
export const BROWSER: Platform = {
  readUrl: fetched,
  async load(source, maxPixels) {
    const expected = expectedPicture('an ImageBitmap, a canvas, an image, a video')
    if (typeof source === 'string' || Object.prototype.toString.call(source) === '[object URL]')
      throw argumentError('picture', expected, source, 'Fetch it first, and hand in the Blob that comes.')
    let bitmap: Bitmap
    try {
      bitmap = await browser.createImageBitmap(source)
    } catch (cause) {
      if (cause instanceof TypeError) throw argumentError('picture', expected, source)
      throw noPicture(NAMELESS, cause)
    }
    return { ...NAMELESS, raw: pixelsOf(bitmap, NAMELESS, maxPixels) }
  },
  async decode(bytes, picture, maxPixels, signal) {
    if (bytes.length === 0) decodedFormat(bytes, picture)
    const format = formatOf(bytes)
    let bitmap: Bitmap
    try {
      // some browsers decode more formats than are decoded elsewhere
      bitmap = await browser.createImageBitmap(new Blob([bytes as Uint8Array<ArrayBuffer>]), {
        imageOrientation: 'from-image',
      })
    } catch (cause) {
      decodedFormat(bytes, picture)
      throw isCutShort(format, bytes) ? cutShort(picture, cause) : noPicture(picture, cause)
    }
    throwIfAborted(signal)
    // browsers draw what there is of a file whose end is missing
    if (isCutShort(format, bytes)) throw cutShort(picture)
    return fromPixels(pixelsOf(bitmap, picture, maxPixels))
  },
}

function pixelsOf(bitmap: Bitmap, picture: PictureName, maxPixels: number): CountedPicture {
  try {
    checkPixels(bitmap, picture, maxPixels)
    const { width, height } = bitmap
    const context = canvasOf(width, height).getContext('2d', { willReadFrequently: true })
    if (!context) throw noPicture(picture, new Error('There is no room to draw it.'))
    context.fillStyle = '#ffffff'
    context.fillRect(0, 0, width, height)
    context.drawImage(bitmap, 0, 0)
    return { width, height, channels: 4, data: context.getImageData(0, 0, width, height).data }
  } finally {
    bitmap.close()
  }
}

/** Workers have no document, and some browsers no canvas without one. */
function canvasOf(width: number, height: number): Canvas {
  if (browser.OffscreenCanvas) return new browser.OffscreenCanvas(width, height)
  return Object.assign(browser.document!.createElement('canvas'), { width, height })
}
