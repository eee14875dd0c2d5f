/**
 * Every error a user can meet: one class, a stable `code`, a message that says what to do next. What comes from outside
 * (text, pictures, saved JSON, limits reached) has codes of its own; a mistake in the calling program (a cell that the
 * board does not have, an unknown option, an argument of the wrong type) is an `InputError` with the code `argument`.
 */
export const ERROR_CODES = [
  // a call that the types would have refused
  'argument',
  // text and saved data
  'text-empty',
  'text-shape',
  'text-symbol',
  'json-shape',
  'geometry-shape',
  'geometry-ambiguous',
  // what a person is said to have done or concluded
  'claim-shape',
  'board-foreign',
  // asking too much
  'budget-spent',
  'time-limit',
  'aborted',
  // pictures
  'picture-unreadable',
  'picture-format',
  'picture-truncated',
  'picture-too-large',
  'no-grid-found',
  'grid-unread',
  // files
  'file-unreadable',
  // records that are written
  'output-full',
  'output-closed',
  'output-unwritable',
  'output-foreign',
  // what is not there
  'weights-unreadable',
  'thread-lost',
  'package-missing',
  'needs-node',
] as const

/** What went wrong, for programs: it stays the same from version to version, while messages may change. */
export type ErrorCode = (typeof ERROR_CODES)[number]

/** Where in the input the trouble lies; lines and columns count from 1. */
export interface ErrorPlace {
  readonly file?: string
  readonly line?: number
  readonly column?: number
}

/**
 * What all errors of this package are: a `code` for the program, a `message` for people, and the `place` in the input.
 */
export class GridreasonError extends Error {
  readonly code: ErrorCode
  readonly place: ErrorPlace

  constructor(code: ErrorCode, message: string, options: { place?: ErrorPlace; cause?: unknown } = {}) {
    super(message, options.cause === undefined ? undefined : { cause: options.cause })
    this.name = 'GridreasonError'
    this.code = code
    this.place = options.place ?? {}
  }
}

/** An argument, text, JSON, a geometry or a person's entries that are not what they should be; `place` says where. */
export class InputError extends GridreasonError {
  override readonly name = 'InputError'
  /** What stood there, and what was expected instead, as phrases; the message holds both in a sentence. */
  readonly found: string | undefined
  readonly expected: string | undefined

  constructor(
    code: ErrorCode,
    message: string,
    options: { place?: ErrorPlace; cause?: unknown; found?: string; expected?: string } = {},
  ) {
    super(code, message, options)
    this.found = options.found
    this.expected = options.expected
  }
}

/** A search or a reading that was stopped by its budget, its time limit or its AbortSignal. */
export class StoppedError extends GridreasonError {
  override readonly name = 'StoppedError'
}

/**
 * The parts of an `AbortSignal` that are used: one of any platform will do, and its own type is not needed, so that the
 * core's types need neither those of browsers nor those of Node.
 */
export interface Signal {
  readonly aborted: boolean
  readonly reason: unknown
  /** Calls the listener once the signal fires. */
  addEventListener(type: 'abort', listener: () => void): void
  /** Forgets the listener. */
  removeEventListener(type: 'abort', listener: () => void): void
}

/** What a caller gets whose signal has fired. */
export function abortedBy(signal: Pick<Signal, 'reason'>): StoppedError {
  return new StoppedError(
    'aborted',
    'Stopped by the caller: the AbortSignal fired before the work was done.',
    { cause: signal.reason },
  )
}

/** Throws the `aborted` error when the signal has fired; cheap enough for every turn of an outer loop. */
export function throwIfAborted(signal: Pick<Signal, 'aborted' | 'reason'> | undefined): void {
  if (signal?.aborted) throw abortedBy(signal)
}

/** Was work stopped by its time limit? */
export function isTimeOver(error: unknown): error is StoppedError {
  return error instanceof StoppedError && error.code === 'time-limit'
}

/** What functions say in a browser that only Node can serve. */
export function needsNode(name: string, instead: string): GridreasonError {
  return new GridreasonError('needs-node', `${name} runs in Node only; in a browser ${instead}.`)
}
