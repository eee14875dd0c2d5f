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
