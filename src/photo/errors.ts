import { type ErrorPlace, GridreasonError } from '../errors.js'
import { adviceOn, type UnreadGrid } from './unread.js'

/**
 * A file or bytes that cannot be taken as a picture: `picture-format` (something known that is not decoded),
 * `picture-unreadable`, `picture-truncated`, `picture-too-large` or `file-unreadable`.
 */
export class PictureError extends GridreasonError {
  override readonly name = 'PictureError'
}

/** The picture was decoded, but shows no grid that was read; the message says what was seen instead, and what to do. */
export class NoGridFound extends GridreasonError {
  override readonly name = 'NoGridFound'
  /** Grids that the picture shows and that were not read. */
  readonly unread: readonly UnreadGrid[]

  constructor(unread: readonly UnreadGrid[] = [], place: ErrorPlace = {}) {
    super(
      'no-grid-found',
      unread.length === 0
        ? 'No printed number-place grid was found on this picture. Take it nearer and sharper, with all four sides of the grid in view.'
        : `The picture shows no grid that can be read. ${adviceOn(unread)}`,
      { place },
    )
    this.unread = unread
  }
}
