import type { Geometry } from '../../grid/geometry.js'
import { layoutOf } from '../../grid/layout.js'
import type { Pattern } from './step.js'

type Kind = 'cell' | 'digit' | 'house'

/** What the numbers under these names are, in most shapes. */
const USUAL: Readonly<Record<string, Kind>> = {
  cell: 'cell',
  cells: 'cell',
  pivot: 'cell',
  pincers: 'cell',
  targets: 'cell',
  stem: 'cell',
  by: 'cell',
  digit: 'digit',
  digits: 'digit',
  house: 'house',
}

/** And in some. */
const IN_SHAPE: Partial<Record<Pattern['shape'], Readonly<Record<string, Kind>>>> = {
  locked: { from: 'house', to: 'house' },
  fish: { base: 'house', cover: 'house', fins: 'cell' },
  exocet: { base: 'cell', lines: 'house' },
}

/** Where a pattern names a cell, digit or house that the geometry does not have; undefined where all are there. */
export function misplacedNumber(geometry: Geometry, pattern: Pattern): string | undefined {
  const kinds = { ...USUAL, ...IN_SHAPE[pattern.shape] }
  const { cellCount, order } = geometry
  const { houses } = layoutOf(geometry)
  const fits = (n: number, kind: Kind): boolean =>
    kind === 'digit' ? n >= 1 && n <= order : n < (kind === 'cell' ? cellCount : houses.length)
  const search = (value: unknown, kind: Kind | undefined, where: string): string | undefined => {
    if (typeof value === 'number') return kind && !fits(value, kind) ? where : undefined
    if (typeof value !== 'object' || value === null) return undefined
    for (const [key, part] of Object.entries(value)) {
      const found = search(part, Array.isArray(value) ? kind : kinds[key], where ? `${where}.${key}` : key)
      if (found !== undefined) return found
    }
    return undefined
  }
  if (pattern.shape === 'sets') {
    const wrong = pattern.joins.findIndex(({ between }) => between.some((set) => set >= pattern.sets.length))
    if (wrong >= 0) return `joins.${wrong}.between`
  }
  return search(pattern, undefined, '')
}
