import { open } from 'node:fs/promises'
import { abortSignal, checkOptions, string } from '../check-arguments.js'
import { throwIfAborted } from '../errors.js'
import { unreadable } from './input/list-files.js'
import type { GradeRecord } from './records/grade-record.js'
import { formatFor } from './records/record-format.js'
import { chunksOf, recordLines, recordOf } from './records/record-lines.js'

/** How a file of records is read. */
export interface ReadGradesOptions {
  readonly signal?: AbortSignal
}

/**
 * The records of a file that `writeGrades` or `mergeGrades` wrote, JSON Lines or CSV by its name, one after another.
 *
 * @throws GridreasonError `file-unreadable` for a file that cannot be read, or a line that is no record; StoppedError
 *   `aborted`; InputError `argument`
 *
 * @example
 * for await (const record of readGrades('grades.jsonl'))
 *   if ('grade' in record) console.log(formatPuzzle(recordedPuzzle(record)))
 */
export function readGrades(file: string, options: ReadGradesOptions = {}): AsyncGenerator<GradeRecord> {
  string(file, 'file')
  checkOptions<ReadGradesOptions>(options, { signal: abortSignal })
  return savedRecords(file, options.signal, () => {})
}

/** Lines between two looks at the signal. */
const TURN = 4096

/** @param unfinished called when the file ends in the middle of a record */
export async function* savedRecords(
  file: string,
  signal: AbortSignal | undefined,
  unfinished: () => void,
): AsyncGenerator<GradeRecord> {
  const format = formatFor(file, undefined)
  const handle = await open(file).catch((cause) => {
    throw unreadable(file, cause)
  })
  try {
    let end = 0
    let number = 0
    for await (const line of recordLines(chunksOf(handle), format.hasQuotes)) {
      if (number % TURN === 0) throwIfAborted(signal)
      end = line.end
      if (++number === 1 && format.header !== '') continue
      const record = recordOf(line.text, format)
      if (typeof record === 'string')
        throw unreadable(file, new Error(`line ${number} is no record: ${record}`))
      yield record
    }
    if ((await handle.stat()).size > end) unfinished()
  } finally {
    await handle.close()
  }
}
