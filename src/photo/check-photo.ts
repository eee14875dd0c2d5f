/** Checks of arguments for the public entries of photos: shapes only, since code within the package calls past them. */
import { argumentError, type Check, isWhole, listOf } from '../check-arguments.js'
import { checkPuzzle } from '../grid/puzzle.js'
import { CELL_SIZE } from './digits/digit-reader.js'
import type { Lattice } from './lattice.js'
import type { Reading } from './reading.js'

/** @param channels bytes a pixel */
function picture(channels: number, expected: string): Check {
  return (value, name) => {
    const { width, height, data } = (value ?? {}) as { width?: unknown; height?: unknown; data?: unknown }
    const isOne =
      isWhole(width, 1, MOST_SIDE) &&
      isWhole(height, 1, MOST_SIDE) &&
      (data instanceof Uint8Array || data instanceof Uint8ClampedArray) &&
      data.length === width * height * channels
    if (!isOne) throw argumentError(name, expected, value)
  }
}

const MOST_SIDE = 2 ** 16

export const grayImage = picture(
  1,
  'a grey picture { width, height, data } of one byte a pixel, such as `gray` of decodePicture',
)
export const colourImage = picture(
  3,
  'a picture { width, height, data } of three bytes a pixel, such as `colour` of decodePicture',
)

const MOST_ORDER = 16

export const lattice: Check = (value, name) => {
  const { order, points } = (value ?? {}) as Partial<Lattice>
  const isOne =
    isWhole(order, 1, MOST_ORDER) &&
    Array.isArray(points) &&
    points.length === (order + 1) ** 2 &&
    points.every((point) => Number.isFinite(point?.x) && Number.isFinite(point?.y))
  if (!isOne) throw argumentError(name, 'a lattice, such as findLattices and readings have', value)
}

/** What is drawn of a reading. */
export const drawnReading: Check = (value, name) => {
  const { lattice: own, cells, doubtful } = (value ?? {}) as Partial<Reading>
  if (typeof own !== 'object' || !Array.isArray(cells) || !Array.isArray(doubtful))
    throw argumentError(name, READING, value)
  lattice(own, `${name}.lattice`)
  const count = own.order ** 2
  const isOne =
    cells.length === count &&
    cells.every((cell) => isWhole(cell?.digit, 0, MOST_ORDER) && Array.isArray(cell.alternatives)) &&
    doubtful.every((cell) => isWhole(cell, 0, count - 1))
  if (!isOne) throw argumentError(name, READING, value)
}

export const reading: Check = (value, name) => {
  drawnReading(value, name)
  const { puzzle, turns, evidence, lattice: own } = value as Reading
  checkPuzzle(puzzle, `${name}.puzzle`)
  const isOne =
    puzzle.geometry.order === own.order &&
    isWhole(turns, 0, 3) &&
    Array.isArray(evidence?.scores) &&
    evidence.scores.length === own.order ** 2 &&
    typeof evidence.settled === 'object' &&
    evidence.settled !== null
  if (!isOne) throw argumentError(name, READING, value, 'A saved one comes back with readingFromJson.')
}

const READING = 'a reading, as `read` of a photo reader gives it'

export const cellPictures = listOf((value, name) => {
  const { data } = (value ?? {}) as { data?: unknown }
  if (!(data instanceof Uint8Array) || data.length !== CELL_SIZE ** 2)
    throw argumentError(name, `a cell picture of ${CELL_SIZE ** 2} bytes, as cutCells makes them`, value)
}, 'a list of cell pictures')
