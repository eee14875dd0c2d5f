import { checkOptions, type OptionChecks, oneOf } from '../check-arguments.js'
import { throwIfAborted } from '../errors.js'
import type { TextChunks } from '../grid/text/stream.js'
import { checkTargets } from './batch-options.js'
import { runPieces } from './batch-run.js'
import { checkOutput } from './check-output.js'
import {
  checkChunks,
  FOLDER_CHECKS,
  folderBatch,
  type GradeBatch,
  type GradeFolderOptions,
  type GradeStreamOptions,
  madeBy,
  STREAM_CHECKS,
  streamBatch,
} from './grade-files.js'
import type { GradePiece } from './grade-pieces.js'
import type { ProgressCounter } from './progress.js'
import type { DonePieces } from './records/done-pieces.js'
import { foreign, readEarlier } from './records/earlier-records.js'
import { formatFor, RECORD_FORMATS, type RecordFormatName } from './records/record-format.js'
import { openSink, type RecordSink } from './records/record-sink.js'
import { RecordWriter } from './records/record-writer.js'
import { RecordTally, type Tallied } from './records/tally.js'

/** How grades are written. */
export interface WriteGradesOptions extends GradeFolderOptions, GradeStreamOptions {
  /** What a line of the output is; left out, `csv` for a file whose name ends so and `jsonl` for all others. */
  readonly format?: RecordFormatName
}

/** What a file of records holds. */
export interface WrittenGrades extends Tallied {
  /** Records that an earlier run had written. */
  readonly earlier: number
}

const WRITE_CHECKS: OptionChecks<WriteGradesOptions> = {
  ...FOLDER_CHECKS,
  ...STREAM_CHECKS,
  format: oneOf(RECORD_FORMATS),
}

/**
 * Grades files and folders, or a stream, into a file of records, one a line, and goes on with the file where an earlier
 * run stopped: killed, aborted, or out of disk space. Nothing is lost and nothing is written twice; in the order of the
 * source the file ends byte for byte as that of a run that was not disturbed.
 *
 * ```ts
 * const { records, errors } = await writeGrades('puzzles', 'grades.jsonl')
 * ```
 *
 * The source must be the same as before, and so must what decides the grades (`techniques`, `preset`, …); workers,
 * memory and order may differ. A time limit makes records that another run need not repeat. One run at a time may
 * write a file.
 *
 * @param source files and folders as `gradeFolder` takes them, or a stream of text or bytes from its beginning
 * @param out the file, or a stream to write to, which cannot be gone on with
 * @throws StoppedError `aborted`; GridreasonError `output-full`, `output-closed` or `output-unwritable`, and
 *   `output-foreign` for a file of something else; InputError `argument`
 */
export async function writeGrades(
  source: string | readonly string[] | AsyncIterable<string | Uint8Array>,
  out: string | NodeJS.WritableStream,
  options: WriteGradesOptions = {},
): Promise<WrittenGrades> {
  const isStream = typeof source === 'object' && source !== null && Symbol.asyncIterator in source
  if (isStream) checkChunks(source, 'source', 'files and folders, or a stream of text or bytes')
  else checkTargets(source)
  checkOutput(out)
  checkOptions<WriteGradesOptions>(options, WRITE_CHECKS)
  const { signal } = options
  throwIfAborted(signal)
  const sink = await openSink(out)
  try {
    const batch = isStream
      ? streamBatch(source as TextChunks, options)
      : folderBatch(source as string | readonly string[], options)
    return await write(batch, sink, typeof out === 'string' ? out : undefined, options)
  } finally {
    await sink.close()
  }
}

async function write(
  batch: GradeBatch,
  sink: RecordSink,
  name: string | undefined,
  options: WriteGradesOptions,
): Promise<WrittenGrades> {
  const format = formatFor(name, options.format)
  const tally = new RecordTally()
  let pieces = batch.pieces
  let begin = 0
  if (sink.before) {
    const { done, end } = await readEarlier(sink.before, name!, format, madeBy(options), (record) => {
      tally.add(record)
      batch.counter.addEarlier(record)
    })
    await sink.cut(end)
    begin = end
    if (done.last > 0) pieces = remaining(batch.pieces, done, batch.counter, name!)
  }
  const earlier = tally.records
  const writer = new RecordWriter(sink, begin === 0 ? format.header : '')
  const signal = options.signal ? AbortSignal.any([options.signal, writer.signal]) : writer.signal
  try {
    for await (const { records } of runPieces({ ...batch, pieces }, { ...options, signal })) {
      for (const record of records) tally.add(record)
      await writer.add(records.map((record) => format.line(record)).join(''))
    }
  } catch (error) {
    // a failed write stopped the run: say that, and not that it was stopped
    throw writer.failure ?? error
  } finally {
    await writer.end()
  }
  if (writer.failure) throw writer.failure
  return { ...tally.result, earlier }
}

/** The pieces that are not done. */
async function* remaining(
  pieces: AsyncIterable<GradePiece>,
  done: DonePieces,
  counter: ProgressCounter,
  name: string,
): AsyncGenerator<GradePiece> {
  let last = 0
  for await (const piece of pieces) {
    last = piece.piece
    if (!done.has(piece.piece)) {
      yield piece
      continue
    }
    if (!done.isSame(piece))
      throw foreign(
        name,
        `piece ${piece.piece} of the source is now ${piece.path}${lineOf(piece)}, and was another`,
      )
    counter.pass(piece.bytes)
  }
  if (done.last > last) throw foreign(name, `it has ${done.last} pieces, and the source has ${last} now`)
}

function lineOf({ line }: { readonly line?: number }): string {
  return line === undefined ? '' : `, line ${line}`
}
