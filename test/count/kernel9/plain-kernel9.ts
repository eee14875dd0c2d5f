import { PLACE_OF_CELL, restrictWords } from '../../../src/count/kernel9/layout.js'
import type { SearchEvent, SolutionSearch } from '../../../src/count/search.js'
import type { DigitSet } from '../../../src/grid/digits.js'
import { bitCount, boxesWithAny, boxesWithOne, lowestBit } from './bits.js'
import { CELL_OF_PLACE, EACH_BOX, FULL, SEEN_FROM_PLACE } from './plain-layout.js'

// Nine bits of a box -> which of its rows hold any (bits 0-2) and which of its columns (bits 3-5).
const LINES_OF_BOX = Uint8Array.from({ length: 512 }, (_, cells) => {
  let lines = 0
  for (let i = 0; i < 9; i++) if ((cells >> i) & 1) lines |= (1 << Math.floor(i / 3)) | (8 << (i % 3))
  return lines
})

// The reverse: rows (bits 0-2) and columns (bits 3-5) of a box that may hold a digit -> the cells where they cross.
const CELLS_OF_LINES = Uint16Array.from({ length: 64 }, (_, lines) => {
  let cells = 0
  for (let i = 0; i < 9; i++)
    if ((lines >> Math.floor(i / 3)) & 1 && (lines >> (3 + (i % 3))) & 1) cells |= 1 << i
  return cells
})

// Three boxes in line by three lines, as nine flags (bit 3·box + line) -> those flags that are part of a way to give
// each box a line of its own. All other flags cannot be, and a digit loses its candidates there. This is at once
// pointing, claiming, and the same for two boxes with two lines; without any way it is 0.
const MATCHED = Uint16Array.from({ length: 512 }, (_, flags) => {
  let matched = 0
  for (const [a, b, c] of [
    [0, 1, 2],
    [0, 2, 1],
    [1, 0, 2],
    [1, 2, 0],
    [2, 0, 1],
    [2, 1, 0],
  ] as const) {
    const way = (1 << a) | (8 << b) | (64 << c)
    if ((flags & way) === way) matched |= way
  }
  return matched
})

const MOST_SPLITS = 81

/**
 * The 9×9 search, three ideas deep:
 *
 * 1. **A word a digit and band.** 27 words hold all candidates, so one instruction deals with 27 cells, and a copy of
 *    the position is 27 words.
 * 2. **A digit alone**: each row of a band goes to one box for it, each column of a stack likewise. Nine flags say
 *    which boxes can serve which line, and a table keeps those that belong to a complete match (`MATCHED`).
 * 3. **The digits together**: adding up the nine words of a band, bit by bit, tells the cells with one candidate; a
 *    box in which a word has one bit left tells the cell that is the digit's only place. Both settle cells.
 *
 * What these leave is split on a cell with two candidates, one that has much to say to its peers whichever way it
 * falls. `kernel9.as` is the same search with the three bands of a digit in one vector; both visit the same nodes.
 */
export class PlainKernel9 implements SolutionSearch {
  nodes = 0
  /** 3 · (digit - 1) + band -> candidates. */
  private readonly words = new Int32Array(27)
  private readonly saved = new Int32Array(27 * (MOST_SPLITS + 1))
  /** 3 · (digit - 1) + band -> cells that are the digit's only place in their box. */
  private readonly lone = new Int32Array(27)
  private readonly hidden = new Int32Array(3)
  private readonly naked = new Int32Array(3)
  private readonly pairs = new Int32Array(3)
  private readonly scores = new Int32Array(96)
  private depth = 0
  private alive = false

  start(givens: ArrayLike<number>, marks?: ArrayLike<DigitSet>): void {
    const { words, lone: given } = this
    words.fill(FULL)
    given.fill(0)
    const filled = this.hidden.fill(0)
    for (let cell = 0; cell < 81; cell++) {
      const digit = givens[cell]!
      if (digit === 0) continue
      const place = PLACE_OF_CELL[cell]!
      const of = 3 * (digit - 1)
      filled[place >> 5]! |= 1 << (place & 31)
      given[of + (place >> 5)]! |= 1 << (place & 31)
      for (let band = 0; band < 3; band++) words[of + band]! &= ~SEEN_FROM_PLACE[3 * place + band]!
    }
    for (let i = 0; i < 27; i++) words[i]! &= ~filled[i % 3]! | given[i]!
    if (marks) restrictWords(words, 3, marks)
    this.nodes = 0
    this.depth = 0
    this.alive = true
  }

  next(nodes: number): SearchEvent {
    for (let left = nodes; left > 0 || (!this.alive && this.depth === 0); left--) {
      if (!this.alive) {
        if (this.depth === 0) return 'exhausted'
        this.restore()
      }
      this.nodes++
      this.alive = this.drawConsequences()
      if (!this.alive || this.split()) continue
      this.alive = false
      return 'solution'
    }
    return 'out-of-nodes'
  }

  readSolution(out: { [cell: number]: number }): void {
    for (let i = 0; i < 27; i++) {
      const band = 32 * (i % 3)
      for (let rest = this.words[i]!; rest !== 0; rest &= rest - 1) {
        out[CELL_OF_PLACE[band + lowestBit(rest)]!] = Math.floor(i / 3) + 1
      }
    }
  }

  private restore(): void {
    const { words, saved } = this
    const from = 27 * --this.depth
    for (let i = 0; i < 27; i++) words[i] = saved[from + i]!
  }

  /** Ideas 2 and 3 in turn until nothing changes; false when the position cannot be finished. */
  private drawConsequences(): boolean {
    const { words, lone, hidden, naked } = this
    // digits whose lines are to be matched (idea 2) even if nothing new is settled
    let stale = 511
    for (;;) {
      for (let band = 0; band < 3; band++) {
        let once = 0
        let twice = 0
        let only = 0
        for (let i = band; i < 27; i += 3) {
          const word = words[i]!
          twice |= once & word
          once |= word
          const alone = word & boxesWithOne(word)
          lone[i] = alone
          if (only & alone) return false
          only |= alone
        }
        if (once !== FULL) return false
        naked[band] = once & ~twice
        hidden[band] = only
      }
      let changed = 0
      for (let digit = 0; digit < 9; digit++) {
        const of = 3 * digit
        let different = 0
        for (let band = 0; band < 3; band++) {
          const before = words[of + band]!
          const word = before & (~hidden[band]! | lone[of + band]!)
          const settled = word & naked[band]!
          let after = word
          if (settled !== 0) {
            const boxes = boxesWithAny(settled)
            // the lowest settled bit of each box taken away: anything left is a second one
            if (settled & (settled - (boxes & EACH_BOX))) return false
            after &= ~boxes | settled
          }
          words[of + band] = after
          different |= before ^ after
        }
        if (different === 0 && ((stale >> digit) & 1) === 0) continue
        const matched = this.matchLines(of)
        if (matched < 0) return false
        if (different | matched) changed |= 1 << digit
      }
      if (changed === 0) return true
      stale = changed
    }
  }

  /** Idea 2 for the digit whose words begin at `of`: 0 if nothing changed, 1 if something did, -1 without any match. */
  private matchLines(of: number): number {
    const { words } = this
    const top = words[of]!
    const middle = words[of + 1]!
    const bottom = words[of + 2]!
    const t0 = LINES_OF_BOX[top & 511]!
    const t1 = LINES_OF_BOX[(top >> 10) & 511]!
    const t2 = LINES_OF_BOX[top >> 20]!
    const m0 = LINES_OF_BOX[middle & 511]!
    const m1 = LINES_OF_BOX[(middle >> 10) & 511]!
    const m2 = LINES_OF_BOX[middle >> 20]!
    const b0 = LINES_OF_BOX[bottom & 511]!
    const b1 = LINES_OF_BOX[(bottom >> 10) & 511]!
    const b2 = LINES_OF_BOX[bottom >> 20]!
    const rowsT = MATCHED[(t0 & 7) | ((t1 & 7) << 3) | ((t2 & 7) << 6)]!
    const rowsM = MATCHED[(m0 & 7) | ((m1 & 7) << 3) | ((m2 & 7) << 6)]!
    const rowsB = MATCHED[(b0 & 7) | ((b1 & 7) << 3) | ((b2 & 7) << 6)]!
    const columns0 = MATCHED[(t0 >> 3) | (m0 & 56) | ((b0 & 56) << 3)]!
    const columns1 = MATCHED[(t1 >> 3) | (m1 & 56) | ((b1 & 56) << 3)]!
    const columns2 = MATCHED[(t2 >> 3) | (m2 & 56) | ((b2 & 56) << 3)]!
    const newTop =
      top &
      (CELLS_OF_LINES[(rowsT & 7) | ((columns0 & 7) << 3)]! |
        (CELLS_OF_LINES[((rowsT >> 3) & 7) | ((columns1 & 7) << 3)]! << 10) |
        (CELLS_OF_LINES[(rowsT >> 6) | ((columns2 & 7) << 3)]! << 20))
    const newMiddle =
      middle &
      (CELLS_OF_LINES[(rowsM & 7) | (columns0 & 56)]! |
        (CELLS_OF_LINES[((rowsM >> 3) & 7) | (columns1 & 56)]! << 10) |
        (CELLS_OF_LINES[(rowsM >> 6) | (columns2 & 56)]! << 20))
    const newBottom =
      bottom &
      (CELLS_OF_LINES[(rowsB & 7) | ((columns0 >> 3) & 56)]! |
        (CELLS_OF_LINES[((rowsB >> 3) & 7) | ((columns1 >> 3) & 56)]! << 10) |
        (CELLS_OF_LINES[(rowsB >> 6) | ((columns2 >> 3) & 56)]! << 20))
    if (newTop === 0 || newMiddle === 0 || newBottom === 0) return -1
    words[of] = newTop
    words[of + 1] = newMiddle
    words[of + 2] = newBottom
    return newTop === top && newMiddle === middle && newBottom === bottom ? 0 : 1
  }

  /** Saves the position without one candidate and goes on with it; false when every cell is settled. */
  private split(): boolean {
    const { words, pairs } = this
    let open = 0
    let anyPair = 0
    for (let band = 0; band < 3; band++) {
      let once = 0
      let twice = 0
      let thrice = 0
      for (let i = band; i < 27; i += 3) {
        const word = words[i]!
        thrice |= twice & word
        twice |= once & word
        once |= word
      }
      pairs[band] = twice & ~thrice
      open |= twice
      anyPair |= pairs[band]!
    }
    if (open === 0) return false
    if (anyPair !== 0) this.splitPair()
    else this.splitPlace()
    return true
  }

  /**
   * A cell with two candidates. Each of the two is worth as many points as there are peers that would lose it, a peer
   * with two candidates (which would be settled) counting four; the cell is worth the product, so that both ways
   * are short.
   */
  private splitPair(): void {
    const { words, pairs, scores } = this
    const [pairsTop, pairsMiddle, pairsBottom] = [pairs[0]!, pairs[1]!, pairs[2]!]
    let best = -1
    let bestDigit = 0
    let bestPlace = 0
    for (let of = 0; of < 27; of += 3) {
      for (let band = 0; band < 3; band++) {
        for (let rest = words[of + band]! & pairs[band]!; rest !== 0; rest &= rest - 1) {
          const place = 32 * band + lowestBit(rest)
          const top = words[of]! & SEEN_FROM_PLACE[3 * place]!
          const middle = words[of + 1]! & SEEN_FROM_PLACE[3 * place + 1]!
          const bottom = words[of + 2]! & SEEN_FROM_PLACE[3 * place + 2]!
          // the 1 tells a score from "not seen yet"
          const score =
            1 +
            bitCount(top) +
            bitCount(middle) +
            bitCount(bottom) +
            3 * (bitCount(top & pairsTop) + bitCount(middle & pairsMiddle) + bitCount(bottom & pairsBottom))
          const first = scores[place]!
          if (first === 0) {
            scores[place] = score
            continue
          }
          scores[place] = 0
          if (first * score > best) {
            best = first * score
            bestDigit = of / 3
            bestPlace = place
          }
        }
      }
    }
    this.take(bestDigit, bestPlace)
  }

  /** No cell with two candidates: a digit with two places in a box, else a cell with the fewest candidates. */
  private splitPlace(): void {
    const { words } = this
    for (let i = 0; i < 27; i++) {
      for (let box = 0; box < 30; box += 10) {
        const places = words[i]! & (511 << box)
        if (bitCount(places) === 2) {
          this.take(Math.floor(i / 3), 32 * (i % 3) + lowestBit(places))
          return
        }
      }
    }
    let fewest = 10
    let best = 0
    for (const place of PLACE_OF_CELL) {
      let count = 0
      for (let i = place >> 5; i < 27; i += 3) count += (words[i]! >> (place & 31)) & 1
      if (count > 1 && count < fewest) {
        fewest = count
        best = place
      }
    }
    let digit = 0
    while (((words[3 * digit + (best >> 5)]! >> (best & 31)) & 1) === 0) digit++
    this.take(digit, best)
  }

  private take(digit: number, place: number): void {
    const { words, saved } = this
    const to = 27 * this.depth++
    const band = place >> 5
    const bit = 1 << (place & 31)
    for (let i = 0; i < 27; i++) saved[to + i] = words[i]!
    for (let i = band; i < 27; i += 3) if (i !== 3 * digit + band) words[i]! &= ~bit
    saved[to + 3 * digit + band]! &= ~bit
  }
}
