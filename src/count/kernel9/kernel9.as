// The 9×9 counting kernel in AssemblyScript: 128-bit lanes, one small WebAssembly module.
// plain.ts is the same search in TypeScript, node for node; read that one first.
// `npm run build:kernel` writes wasm-bytes.ts from this file.
//
// One v128 a digit: lane b holds the digit's candidates in band b as 27 bits, bit 10·box + 3·row + column (box counted in
// the band, row and column in the box); lane 3 stays zero.

// ---- memory, in bytes ----
const X: usize = 0 // position in hand: 9 × 16
const H: usize = 144 // per digit: cells that are the only ones left for it in their box
const CELLS: usize = 288 // 81 digits, padded to 96 bytes: givens in, solution out
const NODES: usize = 384 // visited since `start`: i32
const SCORES: usize = 400 // per cell of the band words (3 × 32): i32
const PEERS: usize = 1024 // per cell in reading order: 16, the cells it sees
const BIT: usize = PEERS + 81 * 16 // per cell in reading order: 16, the cell itself
const PEERS_BY_BIT: usize = BIT + 81 * 16 // per band and bit (3 × 32): 16
const CELL_BY_BIT: usize = PEERS_BY_BIT + 96 * 16 // per band and bit: 1
const STACK: usize = 8192 // saved positions, 144 each

const ONE: i32 = 0x100401 // the first bit of each box
const FULL: i32 = ONE * 511 // all cells
const GUARD: i32 = ONE * 512 // the bit above each box, free to carry into
const ROWS: i32 = ONE * 0o111 // the first bit of each row of each box
const COLUMNS: i32 = ONE * 7 // the first row of each box

export const cells: usize = CELLS
export const words: usize = X
export const nodes: usize = NODES

let depth: i32 = 0
let alive: bool = false

// @ts-ignore: decorator
@inline
function position(cell: i32): i32 {
  const row = cell / 9
  const column = cell % 9
  return (row / 3) * 32 + 10 * (column / 3) + 3 * (row % 3) + (column % 3)
}

export function prepare(): void {
  for (let cell = 0; cell < 81; cell++) {
    const at = position(cell)
    store<i32>(BIT + cell * 16 + (at >> 5) * 4, 1 << (at & 31))
    store<u8>(CELL_BY_BIT + at, <u8>cell)
    for (let other = 0; other < 81; other++) {
      if (other === cell) continue
      const sameBox = cell / 27 === other / 27 && (cell % 9) / 3 === (other % 9) / 3
      if (cell / 9 !== other / 9 && cell % 9 !== other % 9 && !sameBox) continue
      const seen = position(other)
      const word: usize = (seen >> 5) * 4
      store<i32>(PEERS + cell * 16 + word, load<i32>(PEERS + cell * 16 + word) | (1 << (seen & 31)))
      store<i32>(PEERS_BY_BIT + at * 16 + word, load<i32>(PEERS + cell * 16 + word))
    }
  }
}

export function start(): void {
  const full = i32x4(FULL, FULL, FULL, 0)
  const none = i32x4.splat(0)
  for (let d: usize = 0; d < 144; d += 16) {
    v128.store(X + d, full)
    v128.store(H + d, none)
  }
  let filled = none
  for (let block: i32 = 0; block < 96; block += 16) {
    let found = i8x16.bitmask(i8x16.ne(v128.load(CELLS + block), none))
    for (; found !== 0; found &= found - 1) {
      const cell: usize = block + ctz(found)
      const d: usize = (<usize>load<u8>(CELLS + cell) - 1) * 16
      const bit = v128.load(BIT + cell * 16)
      filled = v128.or(filled, bit)
      v128.store(X + d, v128.andnot(v128.load(X + d), v128.load(PEERS + cell * 16)))
      v128.store(H + d, v128.or(v128.load(H + d), bit))
    }
  }
  for (let d: usize = 0; d < 144; d += 16) {
    v128.store(X + d, v128.andnot(v128.load(X + d), v128.andnot(filled, v128.load(H + d))))
  }
  store<i32>(NODES, 0)
  depth = 0
  alive = true
}

// 1: at a solution, 0: no further solution, 2: the nodes allowed are used up
export function next(allowed: i32): i32 {
  while (true) {
    if (allowed-- <= 0) return 2
    if (!alive) {
      if (depth === 0) {
        allowed++
        return 0
      }
      restore()
    }
    store<i32>(NODES, load<i32>(NODES) + 1)
    alive = drawConsequences()
    if (!alive) continue
    if (!split()) {
      alive = false
      return 1
    }
  }
}

function restore(): void {
  const from = STACK + --depth * 144
  for (let d: usize = 0; d < 144; d += 16) v128.store(X + d, v128.load(from + d))
}

function drawConsequences(): bool {
  const full = i32x4(FULL, FULL, FULL, 0)
  const one = i32x4.splat(ONE)
  const guard = i32x4.splat(GUARD)
  const rows = i32x4.splat(ROWS)
  const columns = i32x4.splat(COLUMNS)
  const threeRows = i32x4.splat(0o111) // a factor that copies the first row of each box to all three
  const lane3 = i32x4(0, 0, 0, 1)
  while (true) {
    let once = i32x4.splat(0)
    let twice = i32x4.splat(0)
    let hidden = i32x4.splat(0)
    let clash = i32x4.splat(0)
    for (let d: usize = 0; d < 144; d += 16) {
      const w = v128.load(X + d)
      twice = v128.or(twice, v128.and(once, w))
      once = v128.or(once, w)
      const others = v128.and(w, i32x4.sub(w, one))
      const u = v128.andnot(guard, i32x4.add(others, full))
      const h = v128.and(w, i32x4.sub(u, i32x4.shr_u(u, 9)))
      v128.store(H + d, h)
      clash = v128.or(clash, v128.and(hidden, h))
      hidden = v128.or(hidden, h)
    }
    if (v128.any_true(v128.or(clash, v128.andnot(full, once)))) return false
    const naked = v128.andnot(once, twice)
    let changed = i32x4.splat(0)
    let least = full
    for (let d: usize = 0; d < 144; d += 16) {
      const before = v128.load(X + d)
      let w = v128.andnot(before, v128.andnot(hidden, v128.load(H + d)))
      const s = v128.and(w, naked)
      // of each box with a settled cell only that cell stays; of two, one, and the other is left without a candidate
      const u = v128.and(i32x4.add(s, full), guard)
      const v = i32x4.shr_u(u, 9)
      w = v128.andnot(w, v128.andnot(i32x4.sub(u, v), v128.andnot(s, i32x4.sub(s, v))))
      // Rows. `m` flags each row of each box that has a place; a and b are the flags one row and two rows further on
      // within the box, p and q one box further on as well. A flag stays if the two other boxes can have the two other
      // rows. (Bits that shifts carry elsewhere come to rest between the flags.)
      {
        const m = v128.and(v128.or(v128.or(w, i32x4.shr_u(w, 1)), i32x4.shr_u(w, 2)), rows)
        const a = v128.or(i32x4.shl(m, 3), i32x4.shr_u(m, 6))
        const b = v128.or(i32x4.shr_u(m, 3), i32x4.shl(m, 6))
        const p = v128.or(i32x4.shl(a, 10), i32x4.shr_u(a, 20))
        const q = v128.or(i32x4.shl(b, 10), i32x4.shr_u(b, 20))
        const r = v128.or(v128.and(a, q), v128.and(b, p))
        const k = v128.and(m, v128.or(i32x4.shl(r, 10), i32x4.shr_u(r, 20)))
        w = v128.and(w, i32x4.sub(i32x4.shl(k, 3), k))
      }
      // Columns: the same with columns for rows, and bands (lanes) for boxes.
      {
        const m = v128.and(v128.or(v128.or(w, i32x4.shr_u(w, 3)), i32x4.shr_u(w, 6)), columns)
        const a = v128.or(i32x4.shl(m, 1), i32x4.shr_u(m, 2))
        const b = v128.or(i32x4.shr_u(m, 1), i32x4.shl(m, 2))
        const p = v128.shuffle<i32>(a, a, 1, 2, 0, 3)
        const q = v128.shuffle<i32>(b, b, 1, 2, 0, 3)
        const r = v128.or(v128.and(a, q), v128.and(b, p))
        const k = v128.and(m, v128.shuffle<i32>(r, r, 1, 2, 0, 3))
        w = v128.and(w, i32x4.mul(k, threeRows))
      }
      changed = v128.or(changed, v128.xor(before, w))
      least = i32x4.min_u(least, w)
      v128.store(X + d, w)
    }
    if (!i32x4.all_true(v128.or(least, lane3))) return false
    if (!v128.any_true(changed)) return true
  }
}

// Saves the position without a candidate and goes on with it; false when every cell is settled.
function split(): bool {
  let once = i32x4.splat(0)
  let twice = i32x4.splat(0)
  let thrice = i32x4.splat(0)
  for (let d: usize = 0; d < 144; d += 16) {
    const w = v128.load(X + d)
    thrice = v128.or(thrice, v128.and(twice, w))
    twice = v128.or(twice, v128.and(once, w))
    once = v128.or(once, w)
  }
  if (!v128.any_true(twice)) return false
  const pairs = v128.andnot(twice, thrice)
  if (v128.any_true(pairs)) splitPair(pairs)
  else splitPlace()
  return true
}

function splitPair(pairs: v128): void {
  const pairsLow = i64x2.extract_lane(pairs, 0)
  const pairsHigh = i64x2.extract_lane(pairs, 1)
  let best = -1
  let bestDigit: usize = 0
  let bestAt: i32 = 0
  for (let d: usize = 0; d < 144; d += 16) {
    const low = load<i64>(X + d)
    const high = load<i64>(X + d, 8)
    for (let band = 0; band < 3; band++) {
      let rest = load<i32>(X + d + band * 4) & (band === 0 ? <i32>pairsLow : band === 1 ? <i32>(pairsLow >> 32) : <i32>pairsHigh)
      for (; rest !== 0; rest &= rest - 1) {
        const at = band * 32 + ctz(rest)
        const seenLow = low & load<i64>(PEERS_BY_BIT + at * 16)
        const seenHigh = high & load<i64>(PEERS_BY_BIT + at * 16, 8)
        const score = <i32>(popcnt(seenLow) + popcnt(seenHigh) + 3 * (popcnt(seenLow & pairsLow) + popcnt(seenHigh & pairsHigh))) + 1
        const first = load<i32>(SCORES + at * 4)
        if (first === 0) {
          store<i32>(SCORES + at * 4, score)
        } else {
          store<i32>(SCORES + at * 4, 0)
          if (first * score > best) {
            best = first * score
            bestDigit = d
            bestAt = at
          }
        }
      }
    }
  }
  take(bestDigit, bestAt)
}

// No cell with two candidates: a digit with two places in a box, else a cell with the fewest candidates.
function splitPlace(): void {
  for (let d: usize = 0; d < 144; d += 16) {
    for (let band = 0; band < 3; band++) {
      const w = load<i32>(X + d + band * 4)
      for (let box = 0; box < 30; box += 10) {
        const places = w & (511 << box)
        if (popcnt(places) === 2) return take(d, band * 32 + ctz(places))
      }
    }
  }
  let fewest = 10
  let at = 0
  for (let cell = 0; cell < 81; cell++) {
    const place = position(cell)
    let count = 0
    for (let d: usize = 0; d < 144; d += 16) count += (load<i32>(X + d + (place >> 5) * 4) >> (place & 31)) & 1
    if (count > 1 && count < fewest) {
      fewest = count
      at = place
    }
  }
  let d: usize = 0
  while (((load<i32>(X + d + (at >> 5) * 4) >> (at & 31)) & 1) === 0) d += 16
  take(d, at)
}

function take(digit: usize, at: i32): void {
  const to = STACK + depth++ * 144
  const word: usize = (at >> 5) * 4
  const bit = 1 << (at & 31)
  for (let d: usize = 0; d < 144; d += 16) v128.store(to + d, v128.load(X + d))
  for (let d: usize = 0; d < 144; d += 16) {
    if (d !== digit) store<i32>(X + d + word, load<i32>(X + d + word) & ~bit)
  }
  store<i32>(to + digit + word, load<i32>(to + digit + word) & ~bit)
}

export function readSolution(): void {
  for (let digit = 1; digit <= 9; digit++) {
    for (let band = 0; band < 3; band++) {
      let rest = load<i32>(X + (digit - 1) * 16 + band * 4)
      for (; rest !== 0; rest &= rest - 1) {
        store<u8>(CELLS + load<u8>(CELL_BY_BIT + band * 32 + ctz(rest)), <u8>digit)
      }
    }
  }
}
