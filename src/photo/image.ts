/** A grey picture: one byte a pixel, row by row, 0 black to 255 white. */
export interface GrayImage {
  readonly width: number
  readonly height: number
  readonly data: Uint8Array
}

/** A place on a picture in pixels; the centre of the top left pixel is (0.5, 0.5). */
export interface Point {
  readonly x: number
  readonly y: number
}

/** Where in a picture's rows of pixels the one lies that shows a place; the nearest one for places beyond its edge. */
export function pixelAt(
  { width, height }: { readonly width: number; readonly height: number },
  { x, y }: Point,
): number {
  const column = Math.max(0, Math.min(width - 1, Math.floor(x)))
  const row = Math.max(0, Math.min(height - 1, Math.floor(y)))
  return row * width + column
}
