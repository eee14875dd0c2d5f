import { describe, expect, it } from 'vitest'
import { STANDARD } from '../../../src/grid/geometry.js'
import { CELL_SIZE } from '../../../src/photo/digits/digit-reader.js'
import { figureLooks } from '../../../src/photo/inks/figure-look.js'
import { inkTint, type Rgb } from '../../../src/photo/inks/ink-tint.js'
import { secondInk } from '../../../src/photo/inks/second-ink.js'
import { setInkApart } from '../../../src/photo/inks/set-apart.js'
import { PRINTED, straightLattice } from '../evidence.js'

const BLACK: Rgb = [30, 28, 26]
const BLUE: Rgb = [40, 70, 190]
const RED: Rgb = [200, 40, 40]

/** A page whose figures are plain blocks: `inkOf` says in what colour, or undefined for a blank cell. */
function page(inkOf: (cell: number) => Rgb | undefined, paper: Rgb = [240, 235, 220]) {
  const lattice = straightLattice()
  const side = 480
  const data = Uint8Array.from({ length: side * side * 3 }, (_, i) => paper[i % 3]!)
  const cells = Array.from({ length: 81 }, (_, cell) => {
    const ink = inkOf(cell)
    const picture = new Uint8Array(CELL_SIZE * CELL_SIZE).fill(255)
    if (ink) {
      const left = 10 + 50 * (cell % 9)
      const top = 20 + 50 * Math.floor(cell / 9)
      for (let y = 15; y < 35; y++) {
        for (let x = 20; x < 30; x++) {
          for (let c = 0; c < 3; c++) data[3 * ((top + y) * side + left + x) + c] = ink[c]!
        }
      }
      for (let j = 0; j < CELL_SIZE; j++) {
        for (let i = 0; i < CELL_SIZE; i++) {
          // the same block as the cell picture has it: a cell is 40 / 1.2 pixels of it
          const x = ((i + 0.5) / CELL_SIZE) * 60 - 5
          const y = ((j + 0.5) / CELL_SIZE) * 60 - 5
          if (x > 21 && x < 29 && y > 16 && y < 34) picture[j * CELL_SIZE + i] = 0
        }
      }
    }
    return { data: picture }
  })
  return { lattice, cells, colour: { width: side, height: side, data } }
}

function second(inkOf: (cell: number) => Rgb | undefined, paper?: Rgb): readonly number[] {
  const { lattice, cells, colour } = page(inkOf, paper)
  const looks = figureLooks(colour, lattice, cells)
  return secondInk(looks.map((look) => look?.tint))?.cells ?? []
}

describe('secondInk', () => {
  it('finds the blue figures among the black ones, also in yellow light', () => {
    const ink = (cell: number) => (cell % 7 === 0 ? BLUE : cell % 2 === 0 ? BLACK : undefined)
    const blue = Array.from({ length: 81 }, (_, cell) => cell).filter((cell) => cell % 7 === 0)
    expect(second(ink)).toEqual(blue)
    const light: Rgb = [1, 0.85, 0.55]
    const lit = (colour: Rgb) => colour.map((level, c) => Math.round(level * light[c]!)) as unknown as Rgb
    expect(
      second(
        (cell) => {
          const colour = ink(cell)
          return colour && lit(colour)
        },
        lit([240, 235, 220]),
      ),
    ).toEqual(blue)
  })

  it('takes a coloured ink for one, though tinted cells make it look like several', () => {
    const VIOLET: Rgb = [110, 30, 200]
    const ink = (cell: number) => (cell < 2 ? VIOLET : cell % 4 === 0 ? BLUE : cell % 2 ? BLACK : undefined)
    const coloured = Array.from({ length: 81 }, (_, cell) => cell).filter(
      (cell) => cell < 2 || cell % 4 === 0,
    )
    expect(second(ink)).toEqual(coloured)
  })

  it('finds pale blue beside white on a dark screen', () => {
    const WHITE: Rgb = [236, 236, 236]
    const PALE: Rgb = [140, 160, 165]
    const ink = (cell: number) => (cell % 5 === 0 ? PALE : cell % 2 ? WHITE : undefined)
    expect(second(ink, [33, 33, 33])).toEqual(
      Array.from({ length: 81 }, (_, cell) => cell).filter((cell) => cell % 5 === 0),
    )
  })

  /** Print or entries as a picture of some softness shows them: the ink's colour and a part of the ground's. */
  const soft = (ink: Rgb, ground: Rgb, k = 0) => {
    const part = 0.3 + 0.01 * (k % 3)
    return inkTint(
      ink.map((level, c) => level * (1 - part) + part * ground[c]!) as unknown as Rgb,
      ground,
      false,
    )
  }
  const WHITE_PAPER: Rgb = [235, 233, 230]
  const PINK_BOX: Rgb = [240, 150, 200]
  const GREY_BOX: Rgb = [140, 139, 137]
  const print = Array.from({ length: 20 }, (_, k) => soft(RED, WHITE_PAPER, k))

  it('is not sure of an ink that stands on a ground of its own', () => {
    const onGrey = Array.from({ length: 5 }, () => soft(BLUE, GREY_BOX))
    expect(secondInk([...print, ...onGrey])).toMatchObject({ cells: [20, 21, 22, 23, 24], faint: true })
    expect(secondInk([...print, ...onGrey, soft(BLUE, WHITE_PAPER)])).toMatchObject({ faint: false })
  })

  it('knows the print again on coloured and grey boxes, where a soft picture gives it another tint', () => {
    for (const ink of [RED, BLUE, BLACK]) {
      const white = Array.from({ length: 20 }, (_, k) => soft(ink, WHITE_PAPER, k))
      for (const box of [PINK_BOX, GREY_BOX]) {
        const inBox = Array.from({ length: 8 }, (_, k) => soft(ink, box, k))
        expect(secondInk([...white, ...inBox])).toBeUndefined()
      }
    }
    // another ink in such a box is another ink
    const inBox = Array.from({ length: 8 }, (_, k) => soft(BLUE, PINK_BOX, k))
    expect(secondInk([...print, ...inBox])).toBeDefined()
  })

  it('keeps pale entries apart on a dark screen with a lit row, and black print on a lit cell with the print', () => {
    const white = (level: number) => inkTint([222, 222, 222], [level, level, level], true)
    const pale = (level: number) => inkTint([138, 169, 192], [level, level, level], true)
    const dark = Array.from({ length: 81 }, (_, cell) => {
      const ground = cell % 9 === 4 ? 57 : 14
      return cell % 7 === 0 ? pale(ground) : white(ground)
    })
    const entries = dark.flatMap((_, cell) => (cell % 7 === 0 ? [cell] : []))
    expect(secondInk(dark)).toMatchObject({ cells: entries, faint: false })

    const onWhite = (ink: Rgb) => inkTint(ink, [242, 242, 242], false)
    const lit = Array.from({ length: 81 }, (_, cell) => {
      if (cell === 30) return inkTint([30, 22, 44], [180, 140, 235], false)
      return onWhite(cell % 7 === 0 ? [40, 60, 190] : [45, 45, 45])
    })
    expect(secondInk(lit)).toMatchObject({ cells: entries, faint: false })
  })

  it('finds none where all is one ink, whatever its colour and however it fades', () => {
    expect(second((cell) => (cell % 2 ? RED : undefined))).toEqual([])
    const faded = (cell: number): Rgb => [30 + cell, 28 + cell, 26 + cell]
    expect(second((cell) => (cell % 2 ? faded(cell) : undefined))).toEqual([])
    expect(second(() => undefined)).toEqual([])
  })
})

describe('setInkApart', () => {
  const scores = (digits: readonly number[]) =>
    digits.map((digit) => {
      const shares = new Float32Array(10)
      shares[digit] = 1
      return { digits: shares, handwritten: 0 }
    })
  const open = PRINTED.indexOf(0)

  it('takes the second ink for filled in when the rest is a sound puzzle', () => {
    const next = PRINTED.indexOf(0, open + 1)
    const filledIn = setInkApart(STANDARD, scores(PRINTED.with(open, 4).with(next, 8)), {
      cells: [open, next],
      faint: false,
    })
    for (const cell of [open, next]) {
      expect(filledIn[cell]!.digits[0]).toBeGreaterThan(0.9)
      expect(filledIn[cell]!.handwritten).toBe(1)
    }
  })

  it('only suspects figures that are a little off', () => {
    const ink = { cells: [open], faint: true }
    const [cell] = setInkApart(STANDARD, scores(PRINTED.with(open, 4)), ink).slice(open)
    expect(cell!.digits[4]).toBe(1)
    expect(cell!.handwritten).toBe(1)
  })

  it('keeps it, and says what it suspects, when the rest would not be one', () => {
    const cells = PRINTED.flatMap((digit, cell) => (digit ? [cell] : [])).slice(0, 15)
    const kept = setInkApart(STANDARD, scores(PRINTED), { cells, faint: false })
    for (const cell of cells) {
      expect(kept[cell]!.digits[PRINTED[cell]!]).toBe(1)
      expect(kept[cell]!.handwritten).toBe(1)
    }
  })

  it('knows an entry beside a thin pale figure on other ground, once there surely are entries', () => {
    const dark: Rgb = [14, 14, 14]
    const lit: Rgb = [55, 55, 56]
    const tints = Array.from({ length: 81 }, (_, cell) => {
      if (cell % 2 === 1) return undefined
      return cell % 6 === 0 ? inkTint([144, 180, 207], dark, true) : inkTint([236, 236, 236], dark, true)
    })
    const entries = tints.flatMap((tint, cell) => (tint && cell % 6 === 0 ? [cell] : []))
    // a 1 so thin that it is rather grey, and beside it an entry in a cell that is lit
    tints[64] = inkTint([188, 188, 188], dark, true)
    tints[65] = inkTint([147, 176, 197], lit, true)
    expect(secondInk(tints)).toEqual({ cells: [...entries, 65].sort((a, b) => a - b), faint: false })
    // without entries elsewhere it is rather print
    const alone = tints.map((tint, cell) => (entries.includes(cell) ? undefined : tint))
    expect(secondInk(alone)).toBeUndefined()
  })
})
