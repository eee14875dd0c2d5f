import type { GrayImage } from '../image.js'
import type { Homography } from './homography.js'
import type { Axis } from './rule-readings.js'

/** Steps a cell is cut into, along rules and across them. */
export const STRIP_STEPS = 20
/** How far beyond the grid's expected sides lines are looked for, in cells. */
export const STRIP_MARGIN = 1.6
/** A line's two sides are looked at this far from it, in steps: for fine lines and for thick or blurred ones. */
const NEAR = 2
const FAR = 4
/** Print that stands out by more than this share of the paper counts no more: figures must not outweigh faint rules. */
const MOST_DEPTH = 0.06
/** Samples along a strip that are averaged before a line is looked for: a tenth and more of a cell, against noise. */
const AVERAGED = 5

/**
 * How much line there is at each place across the grid, for strips one cell wide along it: a faint rule, lost in noise
 * where one looks closely, stands out when a whole cell's length of it is added up.
 */
export interface LineStrips {
  /** One for each cell along the rules. */
  readonly strips: readonly Float32Array[]
  /** Values in each strip: entry `k` is the place `k / STRIP_STEPS - STRIP_MARGIN`, in cells. */
  readonly length: number
}

/**
 * Adds up what stands out as a line along an axis of a plane: dark lines count above zero, light ones below.
 *
 * @param order cells a side of the grid expected on the plane, from (0, 0) to (order, order)
 * @returns mean depths as shares of the paper, from which each strip's mean is taken away; 0 outside the picture
 */
export function lineStrips(image: GrayImage, plane: Homography, axis: Axis, order: number): LineStrips {
  const length = Math.round((order + 2 * STRIP_MARGIN) * STRIP_STEPS) + 1
  const strips: Float32Array[] = []
  const rows = STRIP_STEPS / AVERAGED
  const profile = new Float32Array(length)
  for (let cell = 0; cell < order; cell++) {
    const strip = new Float32Array(length)
    for (let row = 0; row < rows; row++) {
      profile.fill(0)
      let seen = true
      for (let k = 0; k < AVERAGED; k++) {
        const along = cell + (row * AVERAGED + k + 0.5) / STRIP_STEPS
        seen = addProfile(image, plane, axis, along, profile) && seen
      }
      if (seen) addLines(profile, strip)
    }
    let sum = 0
    for (const value of strip) sum += value
    const mean = sum / length
    for (let k = 0; k < length; k++) strip[k] = (strip[k]! - mean) / rows
    strips.push(strip)
  }
  return { strips, length }
}

/** Adds brightness across the grid at one place along it; false when much of it lies outside the picture. */
function addProfile(
  { width, height, data }: GrayImage,
  plane: Homography,
  axis: Axis,
  along: number,
  profile: Float32Array,
): boolean {
  const across = axis === 'across'
  let outside = 0
  for (let k = 0; k < profile.length; k++) {
    const place = k / STRIP_STEPS - STRIP_MARGIN
    const p = across ? plane.apply(along, place) : plane.apply(place, along)
    let x = p.x - 0.5
    let y = p.y - 0.5
    if (!(x >= 0 && y >= 0 && x < width - 1 && y < height - 1)) {
      outside++
      x = x > 0 ? Math.min(x, width - 1.001) : 0
      y = y > 0 ? Math.min(y, height - 1.001) : 0
    }
    const x0 = x | 0
    const y0 = y | 0
    const at = y0 * width + x0
    const top = data[at]! + (data[at + 1]! - data[at]!) * (x - x0)
    const low = data[at + width]! + (data[at + width + 1]! - data[at + width]!) * (x - x0)
    profile[k] = profile[k]! + top + (low - top) * (y - y0)
  }
  return outside < profile.length / 2
}

function addLines(profile: Float32Array, strip: Float32Array): void {
  for (let k = FAR; k < profile.length - FAR; k++) {
    const near = (profile[k - NEAR]! + profile[k + NEAR]!) / 2
    const far = (profile[k - FAR]! + profile[k + FAR]!) / 2
    const share = ((near + far) / 2 - profile[k]!) / Math.max(near, far, 20 * AVERAGED)
    strip[k] = strip[k]! + (share > MOST_DEPTH ? MOST_DEPTH : share < -MOST_DEPTH ? -MOST_DEPTH : share)
  }
}
