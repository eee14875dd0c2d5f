import type { Grade } from '../../grade/grade.js'
import { boxedGeometry, type Geometry } from '../../grid/geometry.js'
import type { Level } from '../../logic/level.js'
import type { TechniqueName } from '../../logic/technique-names.js'
import type { BatchError } from '../batch-error.js'
import type { SkipReason } from '../input/skipped.js'
import type { GradeRecord, Origin } from './grade-record.js'
import type { PhotoStatus, Spot } from './graded-page.js'

/** Columns of a record, in their order. What has parts of its own is spread over several. */
export const COLUMNS = [
  ...['version', 'library', 'options', 'piece', 'file', 'path', 'line', 'grid', 'grids', 'bounds'],
  ...['number', 'title', 'setter', 'date', 'outcome', 'puzzle', 'geometry', 'canonical'],
  ...['verdict', 'status', 'givens', 'rounds', 'level', 'effort'],
  ...['bottleneckRound', 'bottleneckTechnique', 'bottleneckLevel', 'bottleneckEffort'],
  ...['keyTechnique', 'keyLevel', 'techniques'],
  ...['photoStatus', 'photoReasons', 'photoDoubtful', 'photoMargin', 'photoTurns'],
  ...['code', 'message', 'errorLine', 'errorColumn'],
  ...['duplicatePath', 'duplicateLine', 'duplicateGrid'],
] as const
type Column = (typeof COLUMNS)[number]
type Row = Partial<Record<Column, string | number | null | undefined>>

export function recordToRow(record: GradeRecord): string[] {
  const row = { ...placeRow(record), ...outcomeRow(record) }
  return COLUMNS.map((column) => String(row[column] ?? ''))
}

function placeRow(record: GradeRecord): Row {
  const { version, library, options, piece, file, path, line, spot, photo } = record
  const { number, title, setter, date } = record
  return {
    ...{ version, library, piece, file, path, line, number, title, setter, date },
    options: JSON.stringify(options),
    ...(spot && {
      grid: spot.grid,
      grids: spot.of,
      bounds: spot.bounds.map(({ x, y }) => `${x} ${y}`).join(' '),
    }),
    ...(photo && {
      photoStatus: photo.status,
      photoReasons: photo.reasons.join(' '),
      photoDoubtful: photo.doubtful.join(' '),
      photoMargin: photo.margin,
      photoTurns: photo.turns,
    }),
  }
}

function outcomeRow(record: GradeRecord): Row {
  if ('skipped' in record) {
    const { because, message } = record.skipped
    return { outcome: 'skipped', code: because, message }
  }
  const what = { puzzle: record.puzzle, geometry: record.geometry && geometryText(record.geometry) }
  if ('error' in record) {
    const { code, message, line, column } = record.error
    return { outcome: 'error', ...what, code, message, errorLine: line, errorColumn: column }
  }
  const { canonical, grade, duplicateOf } = record
  return {
    outcome: 'graded',
    ...what,
    canonical,
    ...gradeRow(grade),
    duplicatePath: duplicateOf?.path,
    duplicateLine: duplicateOf?.line,
    duplicateGrid: duplicateOf?.grid,
  }
}

function gradeRow(grade: Grade): Row {
  const { verdict, status, givens, rounds, level, effort, bottleneck, key, techniques } = grade
  return {
    ...{ verdict, status, givens, rounds, level, effort },
    bottleneckRound: bottleneck?.round,
    bottleneckTechnique: bottleneck?.technique,
    bottleneckLevel: bottleneck?.level,
    bottleneckEffort: bottleneck?.effort,
    // asked for and none found is something else than not asked for
    keyTechnique: key === null ? NONE : key?.technique,
    keyLevel: key?.level,
    techniques: Object.entries(techniques)
      .map(([name, count]) => `${name}:${count}`)
      .join(' '),
  }
}

const NONE = 'none'

function geometryText(geometry: Geometry): string {
  return geometry.box ? geometry.key : JSON.stringify(geometry)
}

/** The record of a row; parts that a record cannot have are found by its shape. */
export function rowToRecord(values: readonly string[]): unknown {
  const row = Object.fromEntries(COLUMNS.map((column, i) => [column, values[i] ?? ''])) as Record<
    Column,
    string
  >
  return { ...placeOf(row), ...outcomeOf(row) }
}

function placeOf(row: Record<Column, string>): object {
  return {
    version: Number(row.version),
    library: row.library,
    options: JSON.parse(row.options),
    piece: Number(row.piece),
    file: row.file,
    path: row.path,
    ...numberAs('line', row.line),
    ...(row.grid !== '' && { spot: spotOf(row) }),
    ...textAs('number', row.number),
    ...textAs('title', row.title),
    ...textAs('setter', row.setter),
    ...textAs('date', row.date),
    ...(row.photoStatus !== '' && { photo: photoOf(row) }),
  }
}

function spotOf({ grid, grids, bounds }: Record<Column, string>): Spot {
  const at = numbersOf(bounds)
  const corners = [0, 2, 4, 6].map((i) => ({ x: at[i]!, y: at[i + 1]! }))
  return { grid: Number(grid), of: Number(grids), bounds: corners as unknown as Spot['bounds'] }
}

function photoOf(row: Record<Column, string>): PhotoStatus {
  return {
    status: row.photoStatus as PhotoStatus['status'],
    reasons: wordsOf(row.photoReasons) as PhotoStatus['reasons'],
    doubtful: numbersOf(row.photoDoubtful),
    margin: row.photoMargin === '' ? null : Number(row.photoMargin),
    turns: Number(row.photoTurns),
  }
}

function outcomeOf(row: Record<Column, string>): object {
  const { outcome, code, message } = row
  if (outcome === 'skipped') return { skipped: { because: code as SkipReason, message } }
  const what = {
    ...textAs('puzzle', row.puzzle),
    ...(row.geometry !== '' && { geometry: geometryOf(row.geometry) }),
  }
  if (outcome === 'error') {
    const place = { ...numberAs('line', row.errorLine), ...numberAs('column', row.errorColumn) }
    return { ...what, error: { code, message, ...place } satisfies BatchError }
  }
  return {
    ...what,
    canonical: row.canonical === '' ? null : row.canonical,
    grade: gradeOf(row),
    ...(row.duplicatePath !== '' && { duplicateOf: originOf(row) }),
  }
}

function gradeOf(row: Record<Column, string>): Grade {
  const technique = row.bottleneckTechnique as TechniqueName
  const counts = wordsOf(row.techniques).map((entry) => entry.split(':') as [string, string])
  return {
    verdict: row.verdict as Grade['verdict'],
    status: row.status as Grade['status'],
    givens: Number(row.givens),
    rounds: Number(row.rounds),
    level: row.level === '' ? null : (row.level as Level),
    effort: Number(row.effort),
    bottleneck: row.bottleneckRound === '' ? null : { technique, ...bottleneckOf(row) },
    techniques: Object.fromEntries(counts.map(([name, count]) => [name, Number(count)])),
    ...(row.keyTechnique === NONE && { key: null }),
    ...(row.keyLevel !== '' && {
      key: { technique: row.keyTechnique as TechniqueName, level: row.keyLevel as Level },
    }),
  }
}

function bottleneckOf(row: Record<Column, string>): { round: number; level: Level; effort: number } {
  return {
    round: Number(row.bottleneckRound),
    level: row.bottleneckLevel as Level,
    effort: Number(row.bottleneckEffort),
  }
}

function originOf(row: Record<Column, string>): Origin {
  return {
    path: row.duplicatePath,
    ...numberAs('line', row.duplicateLine),
    ...numberAs('grid', row.duplicateGrid),
  }
}

function geometryOf(text: string): Geometry {
  const [rows, columns] = text.split('x').map(Number)
  return text.startsWith('{') ? JSON.parse(text) : boxedGeometry(rows!, columns!)
}

function textAs(name: string, text: string): object {
  return text === '' ? {} : { [name]: text }
}

function numberAs(name: string, text: string): object {
  return text === '' ? {} : { [name]: Number(text) }
}

function wordsOf(text: string): string[] {
  return text === '' ? [] : text.split(' ')
}

function numbersOf(text: string): number[] {
  return wordsOf(text).map(Number)
}
