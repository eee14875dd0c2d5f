import { type ErrorPlace, GridreasonError } from '../errors.js'

/** A file or buffer that cannot be taken as a picture: `picture-unreadable`, `picture-truncated`, `picture-too-large` or `file-unreadable`. */
export class PictureError extends GridreasonError {
  override readonly name = 'PictureError'
}

/** The picture was decoded, but no printed grid was seen on it. */
export class NoGridFound extends GridreasonError {
  override readonly name = 'NoGridFound'

  /** @param otherOrders orders of grids that were found but cannot be read as number-place puzzles */
  constructor(otherOrders: readonly number[] = [], place: ErrorPlace = {}) {
    const seen = otherOrders.map((order) => `${order}×${order}`).join(', ')
    super(
      'no-grid-found',
      seen === ''
        ? 'No printed number-place grid was found on this picture. Take it nearer and sharper, with all four sides of the grid in view.'
        : `No number-place grid that can be read was found on this picture, only grids of ${seen} cells.`,
      { place },
    )
  }
}
