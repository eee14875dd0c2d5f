import { mkdtemp, realpath, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import {
  abortSignal,
  amount,
  argumentError,
  boolean,
  checkOptions,
  listOf,
  type OptionChecks,
  oneOf,
  string,
} from '../check-arguments.js'
import { throwIfAborted } from '../errors.js'
import { checkOutput } from './check-output.js'
import { savedRecords } from './read-grades.js'
import { foreign, type MadeBy, otherMaker } from './records/earlier-records.js'
import type { GradeRecord, Origin } from './records/grade-record.js'
import { readLines, writeLines } from './records/line-file.js'
import { formatFor, RECORD_FORMATS, type RecordFormatName } from './records/record-format.js'
import { openSink, withOutputErrors } from './records/record-sink.js'
import { RecordWriter } from './records/record-writer.js'
import { LineSorter, type SortOptions } from './records/sort-lines.js'
import { RecordTally, type Tallied } from './records/tally.js'

/** How files of records are joined. */
export interface MergeGradesOptions {
  /** What a line of the output is; left out, `csv` for a file whose name ends so and `jsonl` for all others. */
  readonly format?: RecordFormatName
  /**
   * Take parts that were graded by other versions or with other options than the first? Their grades do not compare.
   */
  readonly mixed?: boolean
  /** Bytes of memory for records while they are sorted, roughly; 64 MiB when left out. */
  readonly memory?: number
  /** Where what does not fit into memory goes meanwhile; the system's folder for such files when left out. */
  readonly temporary?: string
  readonly signal?: AbortSignal
}

/** What merging has found. */
export interface MergedGrades extends Tallied {
  /** Records left out since another part has the same. */
  readonly repeated: number
  /** Puzzles that are the same as one before them under symmetry; their records name it in `duplicateOf`. */
  readonly duplicates: number
  /** Puzzles too symmetric to be compared. */
  readonly undecided: number
  /** Parts that end in the middle of a record: run `writeGrades` to their end first, or what they lack is missing. */
  readonly unfinished: readonly string[]
}

const MERGE_CHECKS: OptionChecks<MergeGradesOptions> = {
  format: oneOf(RECORD_FORMATS),
  mixed: boolean,
  memory: amount(1),
  temporary: string,
  signal: abortSignal,
}

const checkParts = listOf(string, 'a list of paths of files of records')

const USUAL_MEMORY = 64 * 2 ** 20

/**
 * Joins files of records, as `writeGrades` writes them, into one: in the order of folders and lines, what several parts
 * have once, and numbered anew. Parts of one folder so come out as one run over it would have written them. A puzzle
 * that is the same as one before it but for names and order gets `duplicateOf`. Memory stays bounded whatever the
 * number of records; the disk takes two copies of them meanwhile.
 *
 * ```ts
 * const { records, duplicates } = await mergeGrades(['north.jsonl', 'south.csv'], 'all.jsonl')
 * ```
 *
 * @throws GridreasonError `file-unreadable` for a part that is none, `output-foreign` for one that was graded otherwise
 *   than the first, `output-full`, `output-closed`, `output-unwritable`; StoppedError `aborted`; InputError `argument`
 */
export async function mergeGrades(
  parts: readonly string[],
  out: string | NodeJS.WritableStream,
  options: MergeGradesOptions = {},
): Promise<MergedGrades> {
  checkParts(parts, 'parts')
  checkOutput(out)
  checkOptions<MergeGradesOptions>(options, MERGE_CHECKS)
  throwIfAborted(options.signal)
  if (typeof out === 'string') await checkApart(parts, out)
  const temporary = options.temporary ?? tmpdir()
  const folder = await withOutputErrors(temporary, mkdtemp(join(temporary, 'gridreason-merge-')))
  try {
    // two sorters are full at once at most: one gives its lines while the other takes them
    const sorting = { folder, memory: (options.memory ?? USUAL_MEMORY) / 2, signal: options.signal }
    return await merge(parts, out, options, sorting)
  } finally {
    await rm(folder, { recursive: true, force: true })
  }
}

async function checkApart(parts: readonly string[], out: string): Promise<void> {
  const known = await Promise.all([out, ...parts].map((file) => realpath(file).catch(() => file)))
  if (known.indexOf(known[0]!, 1) > 0) throw argumentError('out', 'another file than the parts', out)
}

async function merge(
  parts: readonly string[],
  out: string | NodeJS.WritableStream,
  options: MergeGradesOptions,
  sorting: SortOptions,
): Promise<MergedGrades> {
  const unfinished: string[] = []
  const byPlace = new LineSorter('places', sorting)
  for await (const record of partRecords(parts, options, unfinished))
    await byPlace.add(`${placeKey(record)}\t${JSON.stringify(record)}`)

  const once = new Once()
  const byCanonical = new LineSorter('keys', sorting)
  let undecided = 0
  const ordered = join(sorting.folder, 'ordered')
  await writeLines(
    ordered,
    (async function* () {
      for await (const line of byPlace.sorted()) {
        const record = JSON.parse(line.slice(line.indexOf('\t') + 1)) as GradeRecord
        const piece = once.pieceOf(record)
        if (piece === undefined) continue
        const number = ordinal(once.records)
        yield `${number}\t${JSON.stringify({ ...record, piece })}`
        if (!('grade' in record)) continue
        if (record.canonical === null) undecided++
        else await byCanonical.add(`${record.canonical}\t${number}\t${JSON.stringify(originOf(record))}`)
      }
    })(),
  )

  const repeats = new LineSorter('repeats', sorting)
  let duplicates = 0
  let before: readonly string[] = []
  for await (const line of byCanonical.sorted()) {
    const entry = line.split('\t')
    if (entry[0] !== before[0]) before = entry
    else {
      duplicates++
      await repeats.add(`${entry[1]}\t${before[2]}`)
    }
  }

  const tally = new RecordTally()
  await writeAll(out, options, withOrigins(readLines(ordered), repeats.sorted()), tally)
  return { ...tally.result, repeated: once.repeated, duplicates, undecided, unfinished }
}

async function* partRecords(
  parts: readonly string[],
  { mixed = false, signal }: MergeGradesOptions,
  unfinished: string[],
): AsyncGenerator<GradeRecord> {
  let made: MadeBy | undefined
  for (const part of parts) {
    for await (const record of savedRecords(part, signal, () => unfinished.push(part))) {
      made ??= record
      const other = mixed ? undefined : otherMaker(record, made)
      if (other !== undefined) throw foreign(part, other)
      yield record
    }
  }
}

/** Sorts as a run over the whole folder would have come to it: names folder by folder, then lines, then grids. */
function placeKey({ path, line, spot }: GradeRecord): string {
  const names = path.replaceAll('/', '\u0001').replace(/[\t\n\r]/g, '\u0002')
  // what is wrong with a file as a whole comes after what could be read of it
  return `${names}\u0000${ordinal(line ?? LAST)}${ordinal(spot?.grid ?? 0)}`
}

const LAST = 999_999_999_999

function ordinal(number: number): string {
  return String(number).padStart(12, '0')
}

function originOf({ path, line, spot }: GradeRecord): Origin {
  return { path, ...(line !== undefined && { line }), ...(spot && { grid: spot.grid }) }
}

/** Numbers pieces anew, and finds records that several parts have. */
class Once {
  records = 0
  repeated = 0
  private pieces = 0
  private place = ''
  private page = ''
  /** What was said of the place so far: two parts may say different things of it, and neither is lost. */
  private said = new Set<string>()

  /** The number of the record's piece; undefined for a record that was there before. */
  pieceOf(record: GradeRecord): number | undefined {
    const place = placeKey(record)
    if (place !== this.place) this.said.clear()
    this.place = place
    const { piece: _, file: __, ...what } = record
    const text = JSON.stringify(what)
    if (this.said.has(text)) {
      this.repeated++
      return undefined
    }
    const isFirst = this.said.size === 0
    this.said.add(text)
    const page = record.spot && record.path
    if (page === undefined || page !== this.page || !isFirst) this.pieces++
    this.page = page ?? ''
    this.records++
    return this.pieces
  }
}

/** Records in their order, each with the first of its kind if it is not the first itself. */
async function* withOrigins(
  ordered: AsyncGenerator<string>,
  repeats: AsyncGenerator<string>,
): AsyncGenerator<GradeRecord> {
  let repeat = await repeats.next()
  for await (const line of ordered) {
    const tab = line.indexOf('\t')
    const record = JSON.parse(line.slice(tab + 1)) as GradeRecord
    const [number, origin] = repeat.done ? [] : repeat.value.split('\t')
    if (number !== line.slice(0, tab)) yield record
    else {
      yield { ...record, duplicateOf: JSON.parse(origin!) as Origin }
      repeat = await repeats.next()
    }
  }
}

async function writeAll(
  out: string | NodeJS.WritableStream,
  { format, signal }: MergeGradesOptions,
  records: AsyncIterable<GradeRecord>,
  tally: RecordTally,
): Promise<void> {
  const lines = formatFor(typeof out === 'string' ? out : undefined, format)
  const sink = await openSink(out)
  try {
    await sink.cut(0)
    const writer = new RecordWriter(sink, lines.header)
    for await (const record of records) {
      if (writer.failure || signal?.aborted) break
      tally.add(record)
      await writer.add(lines.line(record))
    }
    await writer.end()
    if (writer.failure) throw writer.failure
    throwIfAborted(signal)
  } finally {
    await sink.close()
  }
}
