// Brightness along straight lines of grey pictures, and what is made of it, in AssemblyScript with 128-bit lanes: four
// places of a line at a time. `npx tsx test/photo/raster/compile-line-samples.ts` writes line-samples-bytes.ts from this file.
//
// A picture is one byte a pixel, row by row, with a few bytes free behind it. Numbers are float32; functions may write up to
// three of them past the last that counts. The same in plain code takes two to three times as long.

const RAMP = f32x4(0, 1, 2, 3)

/**
 * Between four pixels each, at `count` places that are (stepX, stepY) apart: the mean of `taps` lines, (tapX, tapY) apart, of
 * which the first begins at (x, y). The middle of the first pixel is at (0, 0). Beyond `lastX` and `lastY` (a little less than
 * the last column's and row's middles) the picture goes on as at its edge.
 */
export function sampleLine(
  picture: usize,
  width: i32,
  lastX: f32,
  lastY: f32,
  x: f32,
  y: f32,
  stepX: f32,
  stepY: f32,
  count: i32,
  taps: i32,
  tapX: f32,
  tapY: f32,
  to: usize,
): void {
  const zero = f32x4.splat(0)
  const mostX = f32x4.splat(lastX)
  const mostY = f32x4.splat(lastY)
  const wide = i32x4.splat(width)
  const byte = i32x4.splat(255)
  const share = f32x4.splat(f32(1) / f32(taps))
  const rampX = f32x4.mul(f32x4.splat(stepX), RAMP)
  const rampY = f32x4.mul(f32x4.splat(stepY), RAMP)
  for (let i = 0; i < count; i += 4, to += 16) {
    let atX = f32x4.add(f32x4.splat(x + stepX * f32(i)), rampX)
    let atY = f32x4.add(f32x4.splat(y + stepY * f32(i)), rampY)
    let sum = zero
    for (let tap = 0; tap < taps; tap++) {
      const u = f32x4.pmax(zero, f32x4.pmin(mostX, atX))
      const v = f32x4.pmax(zero, f32x4.pmin(mostY, atY))
      const column = i32x4.trunc_sat_f32x4_s(u)
      const row = i32x4.trunc_sat_f32x4_s(v)
      const right = f32x4.sub(u, f32x4.convert_i32x4_s(column))
      const down = f32x4.sub(v, f32x4.convert_i32x4_s(row))
      const at = i32x4.add(i32x4.mul(row, wide), column)
      // two neighbours at once, in the lower half of each lane
      let p = picture + i32x4.extract_lane(at, 0)
      let above = v128.load16_lane(p, i32x4.splat(0), 0)
      let below = v128.load16_lane(p + width, i32x4.splat(0), 0)
      p = picture + i32x4.extract_lane(at, 1)
      above = v128.load16_lane(p, above, 2)
      below = v128.load16_lane(p + width, below, 2)
      p = picture + i32x4.extract_lane(at, 2)
      above = v128.load16_lane(p, above, 4)
      below = v128.load16_lane(p + width, below, 4)
      p = picture + i32x4.extract_lane(at, 3)
      above = v128.load16_lane(p, above, 6)
      below = v128.load16_lane(p + width, below, 6)
      const topLeft = f32x4.convert_i32x4_s(v128.and(above, byte))
      const topRight = f32x4.convert_i32x4_s(i32x4.shr_u(above, 8))
      const lowLeft = f32x4.convert_i32x4_s(v128.and(below, byte))
      const lowRight = f32x4.convert_i32x4_s(i32x4.shr_u(below, 8))
      const top = f32x4.add(topLeft, f32x4.mul(f32x4.sub(topRight, topLeft), right))
      const low = f32x4.add(lowLeft, f32x4.mul(f32x4.sub(lowRight, lowLeft), right))
      sum = f32x4.add(sum, f32x4.add(top, f32x4.mul(f32x4.sub(low, top), down)))
      atX = f32x4.add(atX, f32x4.splat(tapX))
      atY = f32x4.add(atY, f32x4.splat(tapY))
    }
    v128.store(to, f32x4.mul(sum, share))
  }
}

/**
 * A square of lines below each other: each begins (nextX, nextY) from where the one before did, and its places are (twistX,
 * twistY) farther apart. A side is a multiple of four.
 */
export function sampleSquare(
  picture: usize,
  width: i32,
  lastX: f32,
  lastY: f32,
  x: f32,
  y: f32,
  stepX: f32,
  stepY: f32,
  nextX: f32,
  nextY: f32,
  twistX: f32,
  twistY: f32,
  side: i32,
  to: usize,
): void {
  for (let j = 0; j < side; j++, to += side * 4) {
    const row = f32(j)
    const acrossX = stepX + twistX * row
    const acrossY = stepY + twistY * row
    const left = x + nextX * row
    const top = y + nextY * row
    sampleLine(picture, width, lastX, lastY, left, top, acrossX, acrossY, side, 1, 0, 0, to)
  }
}

/**
 * Turns a square of brightness into darkness against paper that is a slanted plane: `paper` at the first number, more by
 * `stepX` with each column and by `stepY` with each row, never below `least`. A side is a multiple of four.
 */
export function darken(square: usize, side: i32, paper: f32, stepX: f32, stepY: f32, least: f32): void {
  const one = f32x4.splat(1)
  const floor = f32x4.splat(least)
  const ramp = f32x4.mul(f32x4.splat(stepX), RAMP)
  for (let j = 0; j < side; j++) {
    const left = paper + stepY * f32(j)
    for (let i = 0; i < side; i += 4, square += 16) {
      const here = f32x4.pmax(floor, f32x4.add(f32x4.splat(left + stepX * f32(i)), ramp))
      v128.store(square, f32x4.sub(one, f32x4.div(v128.load(square), here)))
    }
  }
}

/** Grey values, a byte each: 255 where a number is 0, less by `scale` for each 1 that it is more. A count is a multiple of four. */
export function toGrey(numbers: usize, count: i32, scale: f32, to: usize): void {
  const white = f32x4.splat(255.5)
  const factor = f32x4.splat(scale)
  for (let i = 0; i < count; i += 4, numbers += 16, to += 4) {
    const grey = i32x4.trunc_sat_f32x4_s(f32x4.sub(white, f32x4.mul(v128.load(numbers), factor)))
    const short = i16x8.narrow_i32x4_s(grey, grey)
    v128.store32_lane(to, i8x16.narrow_i16x8_u(short, short), 0)
  }
}
