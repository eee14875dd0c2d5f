import { GridreasonError } from '../errors.js'

/** An error as a record: `code` is a stable one of this package, or `internal` for a fault nobody foresaw. */
export interface BatchError {
  readonly code: string
  readonly message: string
  readonly line?: number
  readonly column?: number
}

export function batchError(error: unknown): BatchError {
  if (error instanceof GridreasonError) {
    const { line, column } = error.place
    return {
      code: error.code,
      message: error.message,
      ...(line !== undefined && { line }),
      ...(column !== undefined && { column }),
    }
  }
  return { code: 'internal', message: error instanceof Error ? error.message : String(error) }
}
