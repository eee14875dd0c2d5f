import { InputError } from '../../errors.js'
import { boxedGeometry, type Geometry, regionGeometry, squareGeometry } from '../geometry.js'
import { assertSayable, regionsOf, sameRules } from '../regions.js'
import { GEOMETRY_LINE, type TextLine } from './lines.js'
import { shapeError, textError } from './sheet.js'
import { digitSymbol, quoteFound, symbolDigit } from './symbols.js'

/** What such a line says, or why that cannot be understood. */
export type SaidGeometry = { readonly line: number } & (
  | { readonly geometry: Geometry; readonly error?: never }
  | { readonly geometry?: never; readonly error: InputError }
)

export function saidGeometry(line: TextLine): SaidGeometry {
  try {
    return { line: line.number, geometry: readGeometryLine(line.text, line.number) }
  } catch (error) {
    if (error instanceof InputError) return { line: line.number, error }
    throw error
  }
}

/**
 * The geometry that the caller and the line above the grid agree on, as far as they say one.
 *
 * @throws InputError when the line cannot be understood, or says something else than the caller
 */
export function agreedGeometry(
  asked: Geometry | undefined,
  said: SaidGeometry | undefined,
): Geometry | undefined {
  if (!said) return asked
  if (said.error) throw said.error
  if (asked && !sameRules(asked, said.geometry)) {
    throw shapeError(
      said.line,
      `the geometry "${said.geometry.name}"`,
      `"${asked.name}", the geometry asked for`,
    )
  }
  return asked ?? said.geometry
}

const EXPECTED =
  'the height and width of the boxes (`# geometry: 3x2`) or a map of regions, with or without `diagonals`'

/** @throws InputError `geometry-shape` when the line cannot be understood. */
function readGeometryLine(line: string, number: number): Geometry {
  const said = GEOMETRY_LINE.exec(line)?.[1]?.trim() ?? ''
  const words = said.toLowerCase().split(/\s+/)
  const diagonals = words.at(-1) === 'diagonals'
  const [kind = '', map] = diagonals ? words.slice(0, -1) : words
  const count = words.length - (diagonals ? 1 : 0)
  const [, rows, columns] = /^(\d{1,2})[x×](\d{1,2})$/.exec(kind) ?? []
  try {
    if (count === 1 && rows && columns) return boxes(Number(rows), Number(columns), diagonals)
    if (count === 2 && kind === 'regions' && map) {
      const lines = map.split('/')
      const isSquare = lines.every((row) => row.length === lines.length)
      const regions = [...lines.join('')].map((symbol) => symbolDigit(symbol, lines.length) - 1)
      if (isSquare && !regions.includes(-1)) {
        return regionGeometry(diagonals ? 'regions diagonals' : 'regions', regions, { diagonals })
      }
    }
  } catch (error) {
    if (!(error instanceof InputError)) throw error
    throw textError(
      'geometry-shape',
      { line: number },
      `a geometry that cannot be (${error.message})`,
      EXPECTED,
    )
  }
  throw textError('geometry-shape', { line: number }, `the geometry ${quoteFound(said)}`, EXPECTED)
}

function boxes(rows: number, columns: number, diagonals: boolean): Geometry {
  const boxed = boxedGeometry(rows, columns)
  return diagonals ? regionGeometry(`${boxed.name} diagonals`, regionsOf(boxed), { diagonals }) : boxed
}

const written = new WeakMap<Geometry, string>()

/**
 * The line that says this geometry.
 *
 * @throws InputError `geometry-shape` for rules that no such line can say, so that none is lost.
 */
export function geometryLine(geometry: Geometry): string {
  let line = written.get(geometry)
  if (line === undefined) {
    assertSayable(geometry)
    line = lineFor(geometry)
    written.set(geometry, line)
  }
  return line
}

function lineFor(geometry: Geometry): string {
  const diagonals = geometry.diagonals ? ' diagonals' : ''
  const { order } = geometry
  const regions = regionsOf(geometry)
  const square = squareGeometry(order)
  const box = geometry.box ?? (square && regionsOf(square).join() === regions.join() ? square.box : undefined)
  if (box) return `# geometry: ${box.rows}x${box.columns}${diagonals}`
  const symbols = regions.map((region) => digitSymbol(region + 1))
  const rows = Array.from({ length: order }, (_, r) => symbols.slice(r * order, (r + 1) * order).join(''))
  return `# geometry: regions ${rows.join('/')}${diagonals}`
}
