import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { StoppedError } from '../../src/errors.js'
import { canonicalForm, canonicalKey, dedupePuzzles } from '../../src/grid/canonical.js'
import {
  boxedGeometry,
  type Geometry,
  regionGeometry,
  STANDARD,
  withFurtherPeers,
} from '../../src/grid/geometry.js'
import { layoutOf } from '../../src/grid/layout.js'
import { makePuzzle, type Puzzle } from '../../src/grid/puzzle.js'
import {
  followedBy,
  type GridTransform,
  inverse,
  lineSwap,
  randomTransform,
  transformPuzzle,
  transposition,
} from '../../src/grid/symmetry.js'
import { parsePuzzle } from '../../src/grid/text/parse.js'
import { ALL_GEOMETRIES } from '../support/any-geometry.js'
import { anyPartOfAGrid, anyPuzzle, GEOMETRIES, SEED } from './arbitraries.js'

const property = { seed: SEED, numRuns: 40 }

/**
 * Clashing puzzles and, of boxed grids, parts of full ones (drawing a full jigsaw by plain backtracking takes long).
 */
const eitherPuzzle = (geometry: Geometry) =>
  geometry.box ? fc.oneof(anyPuzzle(geometry), anyPartOfAGrid(geometry)) : anyPuzzle(geometry)

/** Every full grid of a boxed geometry whose first cells are as given, by plain backtracking. */
function* fullGrids(geometry: Geometry, start: readonly number[]): Generator<number[]> {
  const layout = layoutOf(geometry)
  const digits = start.concat(new Array(geometry.cellCount - start.length).fill(0))
  function* fill(cell: number): Generator<number[]> {
    if (cell === geometry.cellCount) {
      yield [...digits]
      return
    }
    if (cell < start.length) return yield* fill(cell + 1)
    for (let digit = 1; digit <= geometry.order; digit++) {
      if (layout.peersOf[cell]!.some((peer) => digits[peer] === digit)) continue
      digits[cell] = digit
      yield* fill(cell + 1)
      digits[cell] = 0
    }
  }
  yield* fill(0)
}

function permutations(items: readonly number[]): number[][] {
  if (items.length === 0) return [[]]
  return items.flatMap((first) =>
    permutations(items.filter((item) => item !== first)).map((rest) => [first, ...rest]),
  )
}

/** All ways to move the lines of one side so that groups of `size` stay together. */
function groupedOrders(order: number, size: number): number[][] {
  const within = permutations(Array.from({ length: size }, (_, i) => i))
  return permutations(Array.from({ length: order / size }, (_, i) => i)).flatMap((groups) =>
    groups.reduce<number[][]>(
      (heads, group) =>
        heads.flatMap((head) => within.map((w) => [...head, ...w.map((i) => group * size + i)])),
      [[]],
    ),
  )
}

/** Every move of lines, bands, stacks and (square boxes) sides, one by one. */
function allMoves(geometry: Geometry): GridTransform[] {
  const { rows, columns } = geometry.box!
  const swaps = groupedOrders(geometry.order, rows).flatMap((rowTo) =>
    groupedOrders(geometry.order, columns).map((columnTo) => lineSwap(geometry, rowTo, columnTo)),
  )
  if (rows !== columns) return swaps
  const turn = transposition(geometry)
  return [...swaps, ...swaps.map((swap) => followedBy(swap, turn))]
}

/** Digits named by first appearance, as text. */
function shapeOf(givens: readonly number[]): string {
  const names = new Map<number, number>([[0, 0]])
  return givens
    .map((digit) => {
      if (!names.has(digit)) names.set(digit, names.size)
      return names.get(digit)
    })
    .join()
}

describe('against counts published elsewhere', () => {
  // 288 grids (OEIS A107739) in two kinds: common knowledge of the trade; numbers from memory.
  it('sorts the 288 grids of order 4 into 2 kinds, whose sizes follow from their automorphisms', () => {
    const geometry = boxedGeometry(2, 2)
    const grids = [...fullGrids(geometry, [])].map((givens) => makePuzzle(givens, geometry))
    expect(grids.length).toBe(288)
    const { distinct, firstOf } = dedupePuzzles(grids)
    expect(distinct.length).toBe(2)
    // 128 moves (lines, bands, stacks, transposition) times 24 relabellings, shared among each kind's grids.
    for (const puzzle of distinct) {
      const first = grids.indexOf(puzzle)
      const size = firstOf.filter((of) => of === first).length
      expect(size * canonicalForm(puzzle).automorphisms).toBe(128 * 24)
    }
  })

  // 28,200,960 grids with 2×3 boxes in 49 kinds (tables of Pettersen, Jarvis and Russell, 2005 to 2006; from memory).
  // These boxes allow no transposition.
  it('sorts the grids of order 6 into 49 kinds that add up to 28,200,960', () => {
    const geometry = boxedGeometry(2, 3)
    // With the first box fixed and the rest of the first row and column in order, every kind is met.
    const keys = new Map<string, Puzzle>()
    for (const tail of permutations([4, 5, 6]).slice(0, 1)) {
      for (const givens of fullGrids(geometry, [1, 2, 3, ...tail, 4, 5, 6])) {
        const heads = [givens[12]!, givens[18]!, givens[24]!, givens[30]!] as const
        if (heads[0] > heads[1] || heads[2] > heads[3] || heads[0] > heads[2]) continue
        const puzzle = makePuzzle(givens, geometry)
        keys.set(canonicalKey(puzzle), puzzle)
      }
    }
    expect(keys.size).toBe(49)
    const moves = 3 * 2 * 2 ** 3 * (2 * 6 ** 2)
    const relabellings = 720
    const total = [...keys.values()].reduce(
      (sum, puzzle) => sum + (moves * relabellings) / canonicalForm(puzzle).automorphisms,
      0,
    )
    expect(total).toBe(28_200_960)
  })

  // The most symmetric 9×9 grid has 648 automorphisms: Russell and Jarvis, "Mathematics of Sudoku II" (2006). The grid
  // itself (each row the one before, shifted) is written from memory; the count is theirs.
  it('counts 648 automorphisms of the most symmetric 9×9 grid', () => {
    const grid = parsePuzzle(
      '123456789456789123789123456231564897564897231897231564312645978645978312978312645',
    )
    expect(canonicalForm(grid).automorphisms).toBe(648)
  })
})

describe('against brute force over every move', () => {
  it.each([
    ['2x2', boxedGeometry(2, 2), 150],
    ['2x3', boxedGeometry(2, 3), 6],
  ] as const)(
    'counts automorphisms and tells kinds apart as trying all moves of %s does',
    (_, geometry, numRuns) => {
      const moves = allMoves(geometry)
      const images = ({ givens }: Puzzle) =>
        moves.map(({ cellTo }) => {
          const image = new Array<number>(givens.length)
          givens.forEach((digit, cell) => {
            image[cellTo[cell]!] = digit
          })
          return shapeOf(image)
        })
      fc.assert(
        fc.property(eitherPuzzle(geometry), eitherPuzzle(geometry), fc.nat(), (a, b, seed) => {
          const shapes = images(a)
          const own = shapeOf(a.givens)
          expect(canonicalForm(a).automorphisms).toBe(shapes.filter((shape) => shape === own).length)
          const key = canonicalKey(a)
          const near = makePuzzle(
            a.givens.map((digit, cell) => (cell === seed % a.givens.length ? 0 : digit)),
            geometry,
          )
          for (const other of [b, near, transformPuzzle(a, randomTransform(geometry, seed))]) {
            expect(canonicalKey(other) === key).toBe(shapes.includes(shapeOf(other.givens)))
          }
        }),
        { ...property, numRuns },
      )
    },
  )
})

describe.each(GEOMETRIES.map((geometry) => [geometry.name, geometry] as const))('%s', (_, geometry) => {
  it('gives every image of a puzzle the same form, which the transform leads to', () => {
    fc.assert(
      fc.property(eitherPuzzle(geometry), fc.integer(), (puzzle, seed) => {
        const form = canonicalForm(puzzle)
        const image = transformPuzzle(puzzle, randomTransform(geometry, seed))
        expect(canonicalKey(image)).toBe(form.key)
        expect(canonicalForm(image).automorphisms).toBe(form.automorphisms)
        expect(transformPuzzle(puzzle, form.transform)).toEqual(form.puzzle)
        expect(transformPuzzle(form.puzzle, inverse(form.transform)).givens).toEqual(puzzle.givens)
        expect(canonicalKey(form.puzzle)).toBe(form.key)
      }),
      { ...property, numRuns: geometry.order > 9 ? 10 : 30 },
    )
  })
})

describe('canonicalForm', () => {
  it('takes boxes on their side for the same as boxes upright', () => {
    const puzzle = makePuzzle(
      Array.from({ length: 36 }, (_, cell) => (cell % 7 === 0 ? (cell % 6) + 1 : 0)),
      boxedGeometry(2, 3),
    )
    const onSide = transformPuzzle(puzzle, transposition(puzzle.geometry))
    expect(onSide.geometry.name).toBe('3x2')
    expect(canonicalForm(onSide)).toMatchObject({
      key: canonicalKey(puzzle),
      puzzle: { geometry: { name: '2x3' } },
    })
  })

  it('handles blank grids and grids of one given without a search', () => {
    const blank = (geometry: Geometry, given = 0) =>
      makePuzzle([given, ...new Array<number>(geometry.cellCount - 1).fill(0)], geometry)
    // Bands, stacks and lines within them, times transposition: 2 × (3! × 3!³)².
    expect(canonicalForm(blank(boxedGeometry(3, 3)), { nodeBudget: 0 }).automorphisms).toBe(2 * 6 ** 8)
    expect(canonicalForm(blank(boxedGeometry(4, 4)), { nodeBudget: 0 }).automorphisms).toBe(2 * 24 ** 10)
    // One given fixes its line, band and side places: (2! × 2! × 3!²)² × 2.
    expect(canonicalForm(blank(boxedGeometry(3, 3), 5)).automorphisms).toBe(2 * (2 * 2 * 36) ** 2)
  })

  it('finds large groups by their generators, not their elements', () => {
    const geometry = boxedGeometry(4, 4)
    const diagonal = Array.from({ length: 256 }, (_, cell) => (cell % 17 === 0 ? cell / 17 + 1 : 0))
    // Rows and columns can only move together: 4! × 4!⁴ ways, and transposition.
    expect(canonicalForm(makePuzzle(diagonal, geometry)).automorphisms).toBe(2 * 24 ** 5)
  })

  it('stops by its budget on a grid of too much symmetry, and says so', () => {
    const geometry = boxedGeometry(4, 4)
    const nimSums = Array.from({ length: 256 }, (_, cell) => {
      const row = cell >> 4
      return ((((row & 3) << 2) | (row >> 2)) ^ (cell & 15)) + 1
    })
    const attempt = () => canonicalForm(makePuzzle(nimSums, geometry), { nodeBudget: 2000 })
    expect(attempt).toThrow(StoppedError)
    expect(attempt).toThrow(/Raise nodeBudget/)
  })
})

describe('dedupePuzzles', () => {
  it('keeps the first of each kind and says which are like it', () => {
    const a = parsePuzzle('003020600900305001001806400008102900700000008006708200002609500800203009005010300')
    const b = parsePuzzle('200080300060070084030500209000105408000000000402706000301007040720040060004010003')
    const copies = [1, 2, 3].map((seed) => transformPuzzle(a, randomTransform(a.geometry, seed)))
    const { distinct, firstOf } = dedupePuzzles([b, copies[0]!, copies[1]!, b, a, copies[2]!])
    expect(distinct).toEqual([b, copies[0]])
    expect(firstOf).toEqual([0, 1, 1, 0, 1, 1])
  })

  it('lists what the budget did not suffice for, and keeps it', () => {
    const geometry = boxedGeometry(4, 4)
    const ones = makePuzzle(new Array(256).fill(1), geometry)
    const blank = makePuzzle(new Array(256).fill(0), geometry)
    const deduped = dedupePuzzles([ones, blank, ones, blank], { nodeBudget: 1 })
    expect(deduped).toEqual({ distinct: [ones, blank, ones], firstOf: [0, 1, 2, 1], undecided: [0, 2] })
  })

  it('tells geometries of one name apart by their regions', () => {
    const regions = [0, 0, 0, 1, 0, 2, 1, 1, 2, 2, 1, 3, 2, 3, 3, 3]
    const others = [0, 0, 1, 1, 0, 0, 1, 1, 2, 2, 3, 3, 2, 2, 3, 3]
    const givens = new Array(16).fill(0)
    const puzzles = [
      makePuzzle(givens, regionGeometry('Saturday', regions)),
      makePuzzle(givens, regionGeometry('Saturday', others)),
      makePuzzle(givens, regionGeometry('Saturday', others, { diagonals: true })),
      makePuzzle(givens, regionGeometry('Sunday', regions)),
    ]
    expect(dedupePuzzles(puzzles).firstOf).toEqual([0, 1, 2, 0])
  })

  it('refuses rules that a key cannot say, so that nothing else has the same key', () => {
    const further = withFurtherPeers(STANDARD, 'further peers', [[0, 80]])
    expect(() => canonicalKey(makePuzzle(new Array(81).fill(0), further))).toThrow(
      expect.objectContaining({ code: 'geometry-shape' }),
    )
  })

  it('takes regions that are numbered in another order for the same', () => {
    const regions = [0, 0, 0, 1, 0, 2, 1, 1, 2, 2, 1, 3, 2, 3, 3, 3]
    const renumbered = regions.map((region) => [2, 0, 3, 1][region]!)
    const givens = [1, 0, 0, 2, ...new Array(12).fill(0)]
    const [a, b] = [regions, renumbered].map((map) => makePuzzle(givens, regionGeometry('any', map)))
    expect(canonicalKey(a!)).toBe(canonicalKey(b!))
  })

  it('tells all geometries apart but boxes upright from boxes on their side', () => {
    const blank = (geometry: Geometry) => makePuzzle(new Array(geometry.cellCount).fill(0), geometry)
    const { distinct } = dedupePuzzles(ALL_GEOMETRIES.map(blank))
    const kept = distinct.map(({ geometry }) => geometry)
    const turned = ALL_GEOMETRIES.filter((geometry) => !kept.includes(geometry))
    expect(turned.map(({ name }) => name)).toEqual(['3x2', '4x2', '5x2', '4x3', '6x2', '7x2', '5x3', '8x2'])
  })
})
