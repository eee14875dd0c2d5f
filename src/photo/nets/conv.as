// One layer of a small network in AssemblyScript with 128-bit lanes: a square kernel that steps over a square of
// pixels, two pixels and sixteen outputs at a time. A dense layer is a kernel as large as its input.
// `npx tsx test/photo/nets/compile-conv.ts` writes conv-bytes.ts from this file.
//
// Inputs and weights are whole numbers of 16 bits, whose products are summed in 32 bits: the caller sees to it that no
// sum can overflow. Numbers are taken in pairs. A pixel of the input has its channels side by side, a row its pixels;
// there is a border of zeros around it, as wide as the kernel reaches. The kernel is taken run by run: a run is what lies
// side by side in memory, a whole row of it or, where its places stand apart (a dilated kernel), one place. Weights: for
// each sixteen outputs, for each run, for each pair of the run's numbers (the last filled up with zero), a pair for each of
// the sixteen. Outputs are a multiple of sixteen, those that are too many have weights of zero; they are float32, pixel by
// pixel without a border.
//
// The same in float32, one pixel at a time, takes about twice as long; four pixels by eight outputs twice as long again.

const LANES = 16

/** Returns the largest output. */
export function run(
  input: usize,
  weights: usize,
  steps: usize, // what a product of 1 is worth, for each output
  bias: usize,
  output: usize,
  kept: usize, // outputs of the layer before, to be added; 0 for none
  runs: i32,
  runsInRow: i32,
  pairs: i32, // in a run
  width: i32, // pixels of the output, a row
  pixels: i32, // of the output
  outChannels: i32,
  inStep: i32, // bytes from one pixel's input to the next, along a row
  inRow: i32, // bytes from one row of the kernel to the next
  inRun: i32, // bytes from one run of a row to the next
  inRowStep: i32, // bytes from one row of outputs' input to the next
  worth: f32, // what an input of 1 is worth
  floor: f32, // outputs below are raised to it: 0, or minus infinity
): f32 {
  const least = f32x4.splat(floor)
  const scale = f32x4.splat(worth)
  const reach = pairs * 4
  let most = least
  for (let o = 0; o < outChannels; o += LANES, weights += runs * pairs * LANES * 4) {
    for (let n = 0; n < pixels; n += 2) {
      // an odd last pixel is its own neighbour
      const m = n + 1 < pixels ? n + 1 : n
      const from = input + (n / width) * inRowStep + (n % width) * inStep
      const next = input + (m / width) * inRowStep + (m % width) * inStep - from
      let a = i32x4.splat(0)
      let b = a
      let c = a
      let d = a
      let e = a
      let f = a
      let g = a
      let h = a
      let w = weights
      for (let k = 0; k < runs; k++) {
        let p = from + (k / runsInRow) * inRow + (k % runsInRow) * inRun
        const end = p + reach
        for (; p < end; p += 4, w += 64) {
          const v = v128.load32_splat(p)
          const u = v128.load32_splat(p + next)
          let t = v128.load(w)
          a = i32x4.add(a, i32x4.dot_i16x8_s(v, t))
          e = i32x4.add(e, i32x4.dot_i16x8_s(u, t))
          t = v128.load(w, 16)
          b = i32x4.add(b, i32x4.dot_i16x8_s(v, t))
          f = i32x4.add(f, i32x4.dot_i16x8_s(u, t))
          t = v128.load(w, 32)
          c = i32x4.add(c, i32x4.dot_i16x8_s(v, t))
          g = i32x4.add(g, i32x4.dot_i16x8_s(u, t))
          t = v128.load(w, 48)
          d = i32x4.add(d, i32x4.dot_i16x8_s(v, t))
          h = i32x4.add(h, i32x4.dot_i16x8_s(u, t))
        }
      }
      const to = output + (n * outChannels + o) * 4
      const then = (m - n) * outChannels * 4
      for (let q = 0; q < 4; q++) {
        const at = o * 4 + q * 16
        const step = f32x4.mul(v128.load(steps + at), scale)
        const start = v128.load(bias + at)
        const sum = q == 0 ? a : q == 1 ? b : q == 2 ? c : d
        const other = q == 0 ? e : q == 1 ? f : q == 2 ? g : h
        let one = f32x4.add(start, f32x4.mul(f32x4.convert_i32x4_s(sum), step))
        let two = f32x4.add(start, f32x4.mul(f32x4.convert_i32x4_s(other), step))
        if (kept) {
          const before = to - output + kept + q * 16
          one = f32x4.add(one, v128.load(before))
          two = f32x4.add(two, v128.load(before + then))
        }
        one = f32x4.pmax(least, one)
        two = f32x4.pmax(least, two)
        v128.store(to + q * 16, one)
        v128.store(to + then + q * 16, two)
        most = f32x4.pmax(f32x4.pmax(most, one), two)
      }
    }
  }
  return max<f32>(
    max<f32>(f32x4.extract_lane(most, 0), f32x4.extract_lane(most, 1)),
    max<f32>(f32x4.extract_lane(most, 2), f32x4.extract_lane(most, 3)),
  )
}

/** Makes outputs the input of the next layer: multiplied by `scale`, rounded, and written inside its border. */
export function pack(from: usize, to: usize, width: i32, height: i32, channels: i32, toRow: i32, scale: f32): void {
  const factor = f32x4.splat(scale)
  for (let y = 0; y < height; y++, to += toRow) {
    for (let x = 0; x < width * channels * 2; x += 16, from += 32) {
      const low = i32x4.trunc_sat_f32x4_s(f32x4.nearest(f32x4.mul(v128.load(from), factor)))
      const high = i32x4.trunc_sat_f32x4_s(f32x4.nearest(f32x4.mul(v128.load(from, 16), factor)))
      v128.store(to + x, i16x8.narrow_i32x4_s(low, high))
    }
  }
}
