/** What goes through the queue: one file to grade, and where its records go. */
export const QUEUE = 'grades'

export interface FileJob {
  readonly file: string
  /** The folder that all files are below. */
  readonly root: string
  readonly out: string
}

/** How long a worker may be silent before its job is given to another, in milliseconds. */
export const SILENCE = 3000
