import { type ErrorCode, type ErrorPlace, GridreasonError, InputError, StoppedError } from '../../errors.js'
import { NoGridFound, PictureError } from '../../photo/errors.js'
import type { Readings } from '../../photo/reading.js'
import type { UnreadGrid } from '../../photo/unread.js'

/** What a thread says of a picture: errors lose their classes on the way between threads, so they travel as data. */
export type PhotoAnswer = { readonly readings: Readings } | { readonly error: ErrorData }

export interface ErrorData {
  readonly name: string
  readonly code: ErrorCode
  readonly message: string
  readonly place: ErrorPlace
  /** Of `InputError`. */
  readonly found?: string
  readonly expected?: string
  /** Of `NoGridFound`. */
  readonly unread?: readonly UnreadGrid[]
}

/** Errors that a user of the package may meet become data; others are faults, and thrown on. */
export async function photoAnswer(reading: Promise<Readings>): Promise<PhotoAnswer> {
  try {
    return { readings: await reading }
  } catch (error) {
    if (!(error instanceof GridreasonError)) throw error
    const { name, code, message, place } = error
    return {
      error: {
        name,
        code,
        message,
        place,
        ...(error instanceof InputError && {
          ...(error.found !== undefined && { found: error.found }),
          ...(error.expected !== undefined && { expected: error.expected }),
        }),
        ...(error instanceof NoGridFound && { unread: error.unread }),
      },
    }
  }
}

/** The error that the thread met. */
export function errorFrom({ name, code, message, place, unread, ...phrases }: ErrorData): GridreasonError {
  switch (name) {
    case 'NoGridFound':
      return new NoGridFound(unread, place)
    case 'PictureError':
      return new PictureError(code, message, { place })
    case 'InputError':
      return new InputError(code, message, { place, ...phrases })
    case 'StoppedError':
      return new StoppedError(code, message, { place })
    default:
      return new GridreasonError(code, message, { place })
  }
}
