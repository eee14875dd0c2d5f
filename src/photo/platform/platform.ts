import type { LoadedPicture, PictureName } from '../decode/picture-input.js'
import type { Decoded } from '../decode/pixels.js'
import type { ReadUrl } from '../weights/weights.js'

/**
 * What reading photos needs of the platform that it runs on: Node's is in `node.ts`, that of browsers in `browser.ts`.
 */
export interface Platform {
  readonly readUrl: ReadUrl
  /**
   * Takes what a program handed in and is neither bytes nor a Blob nor raw pixels: a path, a canvas.
   *
   * @throws InputError `argument` when it is nothing of what a picture can be here
   */
  load(source: unknown, maxPixels: number, signal: AbortSignal | undefined): Promise<LoadedPicture>
  /**
   * Decodes a picture file, turned upright as its EXIF tag says; it may come smaller than it is.
   *
   * @throws PictureError
   */
  decode(bytes: Uint8Array, picture: PictureName, maxPixels: number, signal: AbortSignal): Promise<Decoded>
}
