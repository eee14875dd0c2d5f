import type { FileHandle } from 'node:fs/promises'
import { GridreasonError } from '../../errors.js'
import { DonePieces } from './done-pieces.js'
import type { GradeRecord } from './grade-record.js'
import type { RecordFormat } from './record-format.js'
import { chunksOf, recordLines, recordOf } from './record-lines.js'

/** What a file of records holds that an earlier run has written. */
export interface EarlierRecords {
  readonly done: DonePieces
  /** Bytes that are worth keeping: whole lines, and no page of which grids are missing. */
  readonly end: number
}

/** How records must have been made for this run to go on with them. */
export type MadeBy = Pick<GradeRecord, 'version' | 'library' | 'options'>

/**
 * Reads what an earlier run has written, record by record. A last line without its end, or one that is no record, is
 * what a run that was killed leaves; anywhere else it is a file of something else.
 *
 * @param take called with every record that is kept
 * @throws GridreasonError `output-foreign`
 */
export async function readEarlier(
  file: FileHandle,
  name: string,
  format: RecordFormat,
  made: MadeBy,
  take: (record: GradeRecord) => void,
): Promise<EarlierRecords> {
  const done = new DonePieces()
  /** Records of the last piece, which may be a page of which some are missing. */
  let page: GradeRecord[] = []
  let pageStart = 0
  let end = 0
  let number = 0
  let broken: string | undefined
  const keep = () => {
    for (const record of page) take(record)
    if (page[0]) done.add(page[0])
  }
  for await (const line of recordLines(chunksOf(file), format.hasQuotes)) {
    number++
    if (broken !== undefined) throw foreign(name, broken)
    if (number === 1 && format.header !== '') {
      if (`${line.text}\r\n` !== format.header) throw foreign(name, 'its first line has other columns')
      end = line.end
      pageStart = end
      continue
    }
    const record = recordOf(line.text, format)
    if (typeof record === 'string') {
      broken = `line ${number} is no record: ${record}`
      continue
    }
    const other = otherMaker(record, made)
    if (other !== undefined) throw foreign(name, other)
    if (record.piece !== page[0]?.piece) {
      keep()
      if (done.has(record.piece)) throw foreign(name, `line ${number} has piece ${record.piece} once more`)
      page = []
      pageStart = end
    }
    if ((record.spot?.grid ?? 1) !== page.length + 1)
      throw foreign(name, `line ${number} has piece ${record.piece} once more, or not all of it`)
    page.push(record)
    end = line.end
  }
  const of = page[0]?.spot?.of
  if (of !== undefined && page.length < of) return { done, end: pageStart }
  keep()
  return { done, end }
}

export function otherMaker({ version, library, options }: GradeRecord, made: MadeBy): string | undefined {
  if (version !== made.version || library !== made.library)
    return `it was written by version ${library} of this package`
  const [theirs, ours] = [JSON.stringify(options), JSON.stringify(made.options)]
  return theirs === ours ? undefined : `it was written with the options ${theirs}, not ${ours}`
}

export function foreign(name: string, why: string): GridreasonError {
  return new GridreasonError(
    'output-foreign',
    `${name} does not belong to this run: ${why}. Name another output, or remove this one.`,
  )
}
