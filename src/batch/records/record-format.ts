import { extname } from 'node:path'
import { csvLine, csvValues } from './csv.js'
import type { GradeRecord } from './grade-record.js'
import { COLUMNS, recordToRow, rowToRecord } from './record-csv.js'

/** Formats of files of records. */
export const RECORD_FORMATS = ['jsonl', 'csv'] as const
/** JSON Lines, or comma-separated values as RFC 4180 has them, with a line of column names. */
export type RecordFormatName = (typeof RECORD_FORMATS)[number]

/** A way to write records, one a line. */
export interface RecordFormat {
  /** Stands before all records. */
  readonly header: string
  line(record: GradeRecord): string
  /** @param line without its end; throws for what is no record */
  parse(line: string): unknown
  /** May a line end stand within a record, in quotes? */
  readonly hasQuotes: boolean
}

const FORMATS: Readonly<Record<RecordFormatName, RecordFormat>> = {
  jsonl: {
    header: '',
    line: (record) => `${JSON.stringify(record)}\n`,
    parse: (line) => JSON.parse(line),
    hasQuotes: false,
  },
  csv: {
    header: csvLine(COLUMNS),
    line: (record) => csvLine(recordToRow(record)),
    parse: (line) => {
      const values = csvValues(line)
      if (values?.length !== COLUMNS.length) throw new Error(`it has not ${COLUMNS.length} values`)
      return rowToRecord(values)
    },
    hasQuotes: true,
  },
}

/** The format asked for, or the one that a file's name says; JSON Lines where it says none. */
export function formatFor(file: string | undefined, format: RecordFormatName | undefined): RecordFormat {
  const named = file !== undefined && extname(file).toLowerCase() === '.csv' ? 'csv' : 'jsonl'
  return FORMATS[format ?? named]
}
