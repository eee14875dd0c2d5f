// One layer of the digit network in AssemblyScript with 128-bit lanes: a square kernel that steps over a square of
// pixels, sixteen outputs at a time. A dense layer is a kernel as large as its input.
// `npx tsx test/photo/digits/compile-conv.ts` writes conv-bytes.ts from this file.
//
// All is float32. A pixel has its channels side by side, a row its pixels; the caller leaves a border of zeros around a
// layer's input, half a kernel wide. Weights: for each sixteen outputs, for each number of the kernel's input in order,
// the sixteen weights. Outputs are a multiple of sixteen; those that are too many have weights of zero.
//
// Four pixels by eight outputs, which reads each weight for four pixels at once, was tried and took twice as long.

export function run(
  input: usize,
  weights: usize,
  bias: usize,
  output: usize,
  kernel: i32,
  stride: i32,
  side: i32, // pixels along a side of the output
  inChannels: i32,
  outChannels: i32,
  inRow: i32, // bytes from one row of the input to the next
  outRow: i32,
  floor: f32, // outputs below are raised to it: 0, or minus infinity
): void {
  const least = f32x4.splat(floor)
  const reach = kernel * inChannels * 4
  for (let y = 0; y < side; y++) {
    for (let x = 0; x < side; x++) {
      const from = input + y * stride * inRow + x * stride * inChannels * 4
      const to = output + y * outRow + x * outChannels * 4
      let w = weights
      for (let o = 0; o < outChannels * 4; o += 64) {
        let a = v128.load(bias + o)
        let b = v128.load(bias + o, 16)
        let c = v128.load(bias + o, 32)
        let d = v128.load(bias + o, 48)
        for (let k = 0; k < kernel; k++) {
          let p = from + k * inRow
          const end = p + reach
          for (; p < end; p += 4, w += 64) {
            const value = v128.load32_splat(p)
            a = f32x4.add(a, f32x4.mul(value, v128.load(w)))
            b = f32x4.add(b, f32x4.mul(value, v128.load(w, 16)))
            c = f32x4.add(c, f32x4.mul(value, v128.load(w, 32)))
            d = f32x4.add(d, f32x4.mul(value, v128.load(w, 48)))
          }
        }
        v128.store(to + o, f32x4.pmax(least, a))
        v128.store(to + o, f32x4.pmax(least, b), 16)
        v128.store(to + o, f32x4.pmax(least, c), 32)
        v128.store(to + o, f32x4.pmax(least, d), 48)
      }
    }
  }
}
