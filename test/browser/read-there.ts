import { createPhotoReader, type PhotoReader, type PictureInput } from '../../src/photo-browser.js'

/** What a browser is asked to read: a file that the server has, in one of the forms that apps hold pictures in. */
export interface Question {
  readonly file: string
  readonly as: 'blob' | 'bytes' | 'bitmap' | 'canvas' | 'image-data' | 'pixels' | 'cut-file'
  /** Of raw pixels. */
  readonly width?: number
  readonly height?: number
}

interface Bitmap {
  readonly width: number
  readonly height: number
  close(): void
}
interface Browser {
  createImageBitmap(blob: Blob): Promise<Bitmap>
  readonly OffscreenCanvas: new (width: number, height: number) => Canvas
}
interface Canvas {
  readonly width: number
  readonly height: number
  getContext(name: '2d'): {
    drawImage(bitmap: Bitmap, x: number, y: number): void
    getImageData(
      x: number,
      y: number,
      width: number,
      height: number,
    ): { width: number; height: number; data: Uint8ClampedArray }
  }
}
const { createImageBitmap, OffscreenCanvas } = globalThis as unknown as Browser

let reader: Promise<PhotoReader> | undefined

/** All that a reading says, as JSON, or the error that came; how long it took. */
export async function outcomeOf(question: Question): Promise<unknown> {
  reader ??= createPhotoReader()
  try {
    const picture = await pictureOf(question)
    const start = performance.now()
    const { readings } = await (await reader).read(picture)
    const ms = performance.now() - start
    return { readings: readings, ms }
  } catch (error) {
    const { code, message } = error as { code?: string; message: string }
    return { code, message }
  }
}

async function pictureOf({ file, as, width = 0, height = 0 }: Question): Promise<PictureInput> {
  const blob = await (await fetch(file)).blob()
  if (as === 'blob') return blob
  const bytes = new Uint8Array(await blob.arrayBuffer())
  if (as === 'bytes') return bytes
  if (as === 'cut-file') return bytes.subarray(0, bytes.length * 0.7)
  if (as === 'pixels') return { width, height, data: bytes }
  const bitmap = await createImageBitmap(blob)
  if (as === 'bitmap') return bitmap
  const canvas = new OffscreenCanvas(bitmap.width, bitmap.height)
  canvas.getContext('2d').drawImage(bitmap, 0, 0)
  return as === 'canvas' ? canvas : canvas.getContext('2d').getImageData(0, 0, bitmap.width, bitmap.height)
}

/** The quick look for a camera: what it says of a frame, and the middle one of the times that it takes. */
export async function looked(file: string): Promise<{ readonly seen: unknown; readonly ms: number }> {
  reader ??= createPhotoReader()
  const frame = await createImageBitmap(await (await fetch(file)).blob())
  const times: number[] = []
  let seen: unknown
  for (let i = 0; i < 15; i++) {
    const start = performance.now()
    seen = await (await reader).findGrid(frame)
    times.push(performance.now() - start)
  }
  return { seen, ms: times.sort((a, b) => a - b)[7]! }
}
