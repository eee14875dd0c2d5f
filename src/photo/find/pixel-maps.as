// Maps of a whole picture in AssemblyScript with 128-bit lanes, eight pixels at a time.
// `npx tsx test/photo/find/compile-maps.ts` writes pixel-maps-bytes.ts from this file.
//
// Maps are 16 bits a pixel. One with a border has `BORDER` pixels more on every side and eight more at the right, and rows
// `pitch` bytes apart; its address is that of its first pixel inside the border. One without a border has rows of `pitch` bytes, a whole number
// of lanes; what lies right of the picture in it means nothing. The caller sees to it that reading and writing a few
// lanes past the end does no harm.

const BORDER: i32 = 6
/** As a power of two, the side of the blocks that the paper's brightness is found for. */
const BLOCK_BITS: i32 = 4
const STROKE_PIXELS: i32 = 13

@inline
function pairOf(p: usize, offset: isize): v128 {
  return i16x8.min_s(v128.load(p - offset), v128.load(p + offset))
}

/** Sums of 3 × 3 pixels of a picture of bytes, with a border that repeats the outermost; `rows` is a map to work in. */
export function boxSums(image: usize, rows: usize, sums: usize, width: i32, height: i32, pitch: i32): void {
  for (let y = 0; y < height; y++) {
    const row = rows + y * pitch
    for (let x = 0; x < width; x += 8) {
      const p = image + y * width + x
      const three = i16x8.add(i16x8.add(v128.load8x8_u(p - 1), v128.load8x8_u(p)), v128.load8x8_u(p + 1))
      v128.store(row + 2 * x, three)
    }
    if (width > 1) {
      store<u16>(row, load<u16>(row, 2))
      store<u16>(row + 2 * (width - 1), load<u16>(row + 2 * (width - 2)))
    }
  }
  for (let y = 0; y < height; y++) {
    const here = rows + y * pitch
    const above = y > 0 ? here - pitch : here
    const below = y < height - 1 ? here + pitch : here
    const out = sums + y * pitch
    for (let x = 0; x < width * 2; x += 16) {
      v128.store(out + x, i16x8.add(i16x8.add(v128.load(above + x), v128.load(here + x)), v128.load(below + x)))
    }
    const first = load<u16>(out)
    const last = load<u16>(out + 2 * (width - 1))
    for (let k = 1; k <= BORDER; k++) store<u16>(out - 2 * k, first)
    // the last lanes reach up to seven pixels past the picture
    for (let k = 0; k < BORDER + 8; k++) store<u16>(out + 2 * (width + k), last)
  }
  const whole = 2 * (width + 2 * BORDER + 8)
  const top = sums - 2 * BORDER
  const bottom = top + (height - 1) * pitch
  for (let k = 1; k <= BORDER; k++) {
    memory.copy(top - k * pitch, top, whole)
    memory.copy(bottom + k * pitch, bottom, whole)
  }
}

/** For each block, row by row, the largest sum in it. */
export function blockMaxima(sums: usize, maxima: usize, width: i32, height: i32, pitch: i32): void {
  const side = 1 << BLOCK_BITS
  const wide = (width + side - 1) >> BLOCK_BITS
  for (let y = 0; y < height; y += side, maxima += 2 * wide) {
    const end = y + side < height ? y + side : height
    for (let x = 0; x < width; x += 8) {
      let most = i16x8.splat(0)
      for (let v = y; v < end; v++) most = i16x8.max_s(most, v128.load(sums + v * pitch + 2 * x))
      most = i16x8.max_s(most, v128.shuffle<i16>(most, most, 4, 5, 6, 7, 0, 1, 2, 3))
      most = i16x8.max_s(most, v128.shuffle<i16>(most, most, 2, 3, 0, 1, 6, 7, 4, 5))
      most = i16x8.max_s(most, v128.shuffle<i16>(most, most, 1, 0, 3, 2, 5, 4, 7, 6))
      const value = <u16>i16x8.extract_lane_s(most, 0)
      const at = maxima + 2 * (x >> BLOCK_BITS)
      // a block is two lanes wide
      if ((x & (side - 1)) == 0 || value > load<u16>(at)) store<u16>(at, value)
    }
  }
}

/**
 * Ridge depths, a map without border; dark pixels are the deepest of all.
 *
 * @param levels brightness of the paper, a float for each block
 * @param lighter, darker a pixel lighter than this share of the paper has no depth; one darker than that share is dark
 */
export function ridges(
  sums: usize,
  levels: usize,
  depths: usize,
  width: i32,
  height: i32,
  pitch: i32,
  outPitch: i32,
  lighter: f32,
  darker: f32,
): void {
  const wide = (width + (1 << BLOCK_BITS) - 1) >> BLOCK_BITS
  const none = i16x8.splat(0)
  const deepest = i16x8.splat(i16.MAX_VALUE)
  for (let y = 0; y < height; y++) {
    const row = levels + 4 * (y >> BLOCK_BITS) * wide
    for (let x = 0; x < width; x += 8) {
      const level = load<f32>(row + 4 * (x >> BLOCK_BITS))
      const p = sums + y * pitch + 2 * x
      const here = v128.load(p)
      const isDark = i16x8.lt_s(here, i16x8.splat(<i16>Mathf.ceil(level * darker)))
      const inked = i16x8.le_s(here, i16x8.splat(<i16>Mathf.floor(level * lighter)))
      const out = depths + y * outPitch + 2 * x
      if (!v128.any_true(inked)) {
        v128.store(out, none)
        continue
      }
      // rows and columns at 3 and 6 pixels, diagonals at 2 and 4
      let best = i16x8.max_s(pairOf(p, 6), pairOf(p, 12))
      best = i16x8.max_s(best, i16x8.max_s(pairOf(p, 3 * pitch), pairOf(p, 6 * pitch)))
      best = i16x8.max_s(best, i16x8.max_s(pairOf(p, 2 * pitch + 4), pairOf(p, 2 * pitch - 4)))
      best = i16x8.max_s(best, i16x8.max_s(pairOf(p, 4 * pitch + 8), pairOf(p, 4 * pitch - 8)))
      const depth = v128.and(inked, i16x8.sub_sat_u(best, here))
      v128.store(out, v128.or(depth, v128.and(isDark, deepest)))
    }
  }
}

/** Sums over thirteen pixels along a direction: `offsets` are thirteen places beside a pixel, in bytes (32 bits each). */
export function sumAlong(sums: usize, offsets: usize, along: usize, width: i32, height: i32, pitch: i32): void {
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x += 8) {
      const at = y * pitch + 2 * x
      let sum = i16x8.splat(0)
      for (let k = 0; k < STROKE_PIXELS; k++) {
        sum = i16x8.add(sum, v128.load(sums + at + load<i32>(offsets + 4 * k)))
      }
      v128.store(along + at, sum)
    }
  }
}

/**
 * Raises the maps of dark lines, light lines and edges (without border) to what one direction shows: how much a pixel
 * differs from its sides at two distances, `near` and `far` bytes away, and how much the places `step` bytes away differ.
 * A frame of `BORDER` pixels is left out.
 */
export function raiseStrokes(
  along: usize,
  near: isize,
  far: isize,
  step: isize,
  dark: usize,
  light: usize,
  edge: usize,
  width: i32,
  height: i32,
  pitch: i32,
  outPitch: i32,
): void {
  const last = width - BORDER - 8
  if (last < BORDER) return
  for (let y = BORDER; y < height - BORDER; y++) {
    let x = BORDER
    while (true) {
      const p = along + y * pitch + 2 * x
      const at = y * outPitch + 2 * x
      const here = v128.load(p)
      const a = v128.load(p - near)
      const b = v128.load(p + near)
      const c = v128.load(p - far)
      const d = v128.load(p + far)
      const sides = i16x8.max_s(i16x8.min_s(a, b), i16x8.min_s(c, d))
      v128.store(dark + at, i16x8.max_s(v128.load(dark + at), i16x8.sub_sat_u(sides, here)))
      const lighterSides = i16x8.min_s(i16x8.max_s(a, b), i16x8.max_s(c, d))
      v128.store(light + at, i16x8.max_s(v128.load(light + at), i16x8.sub_sat_u(here, lighterSides)))
      const rise = i16x8.abs(i16x8.sub(v128.load(p - step), v128.load(p + step)))
      v128.store(edge + at, i16x8.max_s(v128.load(edge + at), rise))
      if (x == last) break
      // the last lanes overlap those before, which does no harm to a maximum
      x = x + 8 < last ? x + 8 : last
    }
  }
}

/** Turns a map without border into thousandths of the paper's brightness, at most 1000. */
export function toShares(map: usize, levels: usize, width: i32, height: i32, outPitch: i32, divisor: f32): void {
  const wide = (width + (1 << BLOCK_BITS) - 1) >> BLOCK_BITS
  const most = i16x8.splat(1000)
  for (let y = 0; y < height; y++) {
    const row = levels + 4 * (y >> BLOCK_BITS) * wide
    for (let x = 0; x < width; x += 8) {
      const p = map + y * outPitch + 2 * x
      const value = v128.load(p)
      if (!v128.any_true(value)) continue
      const level = f32x4.splat(divisor * load<f32>(row + 4 * (x >> BLOCK_BITS)))
      const thousand = f32x4.splat(1000)
      const low = f32x4.div(f32x4.mul(f32x4.convert_i32x4_s(i32x4.extend_low_i16x8_u(value)), thousand), level)
      const high = f32x4.div(f32x4.mul(f32x4.convert_i32x4_s(i32x4.extend_high_i16x8_u(value)), thousand), level)
      const shares = i16x8.narrow_i32x4_u(i32x4.trunc_sat_f32x4_s(low), i32x4.trunc_sat_f32x4_s(high))
      v128.store(p, i16x8.min_u(shares, most))
    }
  }
}
