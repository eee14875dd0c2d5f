import type { Clue } from '../../src/explain/hunt/clue.js'
import type { Board } from '../../src/grid/board.js'
import { digitsOf } from '../../src/grid/digits.js'
import { layoutOf } from '../../src/grid/layout.js'
import type { ChainNode, FoundStep } from '../../src/logic/steps/step.js'

const sorted = (numbers: Iterable<number>) => [...new Set(numbers)].sort((a, b) => a - b)
const same = (a: Iterable<number>, b: Iterable<number>) => sorted(a).join() === sorted(b).join()

/** What is false in a clue, counted on the board anew and held against the solution. */
export function falsehoods(step: FoundStep, clue: Clue, solution: ArrayLike<number>): string[] {
  const board: Board = step.before
  const { houses } = layoutOf(board.geometry)
  const all = Array.from(board.digits.keys())
  const open = all.filter((cell) => board.digits[cell] === 0)
  const marks = (cell: number) => (board.digits[cell] === 0 ? digitsOf(board.candidates[cell]!) : [])
  const between = (cells: readonly number[]) => sorted(cells.flatMap(marks))
  const cellsIn = (house: number) => houses[house]!.cells
  const places = (house: number, digit: number) =>
    cellsIn(house).filter((cell) => marks(cell).includes(digit))
  const inHouse = (house: number, cells: readonly number[]) =>
    cells.every((cell) => cellsIn(house).includes(cell))
  const see = (a: number, b: number) => a !== b && layoutOf(board.geometry).arePeers(a, b)
  const faults: string[] = []
  const claim = (is: boolean, what: string) => {
    if (!is) faults.push(`${clue.kind}: ${what} in ${JSON.stringify(clue)}`)
  }
  const few = (most: number) => open.filter((cell) => marks(cell).length >= 2 && marks(cell).length <= most)
  const kindOf = (house: number) => houses[house]!.kind
  const seenBy = (digit: number, cells: readonly number[]) =>
    open.filter(
      (cell) =>
        !cells.includes(cell) && marks(cell).includes(digit) && cells.every((other) => see(cell, other)),
    )
  const holds = ({ cells, digit }: ChainNode) => cells.some((cell) => solution[cell] === digit)
  switch (clue.kind) {
    case 'worth-opening':
      claim(same(marks(clue.cell), clue.digits), 'the candidates')
      claim(
        clue.digits.filter((digit) => !step.removals.some((r) => r.cell === clue.cell && r.digit === digit))
          .length === 1,
        'is opened',
      )
      break
    case 'worth-settling': {
      claim(same(places(clue.house, clue.digit), clue.cells), 'the places')
      const left = clue.cells.filter(
        (cell) => !step.removals.some((r) => r.cell === cell && r.digit === clue.digit),
      )
      claim(left.length === 1, 'is settled')
      break
    }
    case 'nearly-full':
      claim(
        same(
          cellsIn(clue.house).filter((cell) => board.digits[cell] === 0),
          clue.cells,
        ),
        'the open cells',
      )
      claim(clue.cells.length <= 5, 'little is open')
      break
    case 'often-placed':
      claim(all.filter((cell) => board.digits[cell] === clue.digit).length === clue.placed, 'how many stand')
      claim(clue.order === board.geometry.order && 2 * clue.placed >= clue.order, 'often')
      break
    case 'cells-of-few':
      claim(same(few(clue.most), clue.cells) && clue.cells.length > 0, 'the cells')
      break
    case 'houses-of-few': {
      const found = houses.filter(
        ({ index, kind }) =>
          (clue.within === 'any' || kind === clue.within) &&
          places(index, clue.digit).length >= 2 &&
          places(index, clue.digit).length <= clue.most,
      )
      claim(
        same(
          found.map(({ index }) => index),
          clue.houses.map(({ house }) => house),
        ) && found.length > 0,
        'the houses',
      )
      for (const { house, cells } of clue.houses) claim(same(places(house, clue.digit), cells), 'the places')
      break
    }
    case 'few-in-house':
      claim(
        same(
          cellsIn(clue.house).filter((cell) => board.digits[cell] === 0 && marks(cell).length <= clue.most),
          clue.cells,
        ) && clue.cells.length > 0,
        'the cells',
      )
      break
    case 'few-places': {
      const digits = sorted(cellsIn(clue.house).flatMap(marks)).filter(
        (digit) => places(clue.house, digit).length <= clue.most,
      )
      claim(
        same(
          digits,
          clue.digits.map(({ digit }) => digit),
        ),
        'the digits',
      )
      for (const { digit, cells } of clue.digits) claim(same(places(clue.house, digit), cells), 'the places')
      break
    }
    case 'one-line': {
      const kind = kindOf(clue.found[0]!.from)
      const pairs = houses.flatMap(({ index, kind: own }) => {
        const cells = places(index, clue.digit)
        if (own !== kind || cells.length < 2) return []
        return houses.flatMap((other) =>
          other.index !== index && inHouse(other.index, cells) ? [[index, other.index]] : [],
        )
      })
      claim(
        pairs.map(String).sort().join(';') ===
          clue.found
            .map(({ from, to }) => String([from, to]))
            .sort()
            .join(';'),
        'the pairs of houses',
      )
      for (const { from, cells } of clue.found) claim(same(places(from, clue.digit), cells), 'the places')
      break
    }
    case 'crosses':
      for (const { box, row, column, cells } of clue.found) {
        claim(same(places(box, clue.digit), cells) && cells.length > 2, 'the places')
        claim(kindOf(row) === 'row' && kindOf(column) === 'column', 'a row and a column')
        claim(
          cells.every((cell) => inHouse(row, [cell]) || inHouse(column, [cell])) &&
            !inHouse(row, cells) &&
            !inHouse(column, cells),
          'a cross',
        )
      }
      break
    case 'alike':
      claim(
        same(
          open.filter((cell) => same(marks(cell), clue.digits)),
          clue.cells,
        ) && clue.cells.length > 0,
        'the cells',
      )
      break
    case 'spare-one':
      for (const { cells, digits } of clue.sets) {
        claim(inHouse(clue.house, cells) && cells.length <= clue.most, 'in the house')
        claim(same(between(cells), digits) && digits.length === cells.length + 1, 'the digits')
      }
      claim(clue.sets.length > 0, 'some sets')
      break
    case 'more-than-two':
      claim(open.length === clue.open, 'how many are open')
      claim(
        same(
          open.filter((cell) => marks(cell).length > 2),
          clue.cells,
        ),
        'the cells',
      )
      break
    case 'stands':
      claim(
        same(
          all.filter((cell) => board.digits[cell] === clue.digit),
          clue.cells,
        ),
        'the cells',
      )
      break
    case 'sees': {
      const seen = all.filter((cell) => see(cell, clue.cell)).map((cell) => board.digits[cell]!)
      claim(
        same(
          seen.filter((digit) => digit !== 0),
          clue.digits,
        ),
        'the digits',
      )
      break
    }
    case 'base-pair':
      claim(clue.cells.length === 2 && same(between(clue.cells), clue.digits), 'the digits')
      claim(houses.filter(({ index }) => inHouse(index, clue.cells)).length >= 2, 'a line and a box')
      break
    case 'try':
      claim(clue.size > 0, 'a size')
      break
    case 'one-digit-too-many':
      claim(same(between(clue.cells), clue.digits), 'the digits')
      claim(clue.digits.length === clue.cells.length + 1, 'one too many')
      claim(
        houses.some(({ index }) => inHouse(index, clue.cells)) || step.pattern.shape === 'wing',
        'a house',
      )
      break
    case 'one-cell-too-many':
      claim(
        same(
          clue.digits.flatMap((digit) => places(clue.house, digit)),
          clue.cells,
        ),
        'the places',
      )
      claim(clue.cells.length === clue.digits.length + 1, 'one too many')
      break
    case 'one-line-too-many': {
      const cells = clue.base.flatMap((house) => places(house, clue.digit))
      const kind = kindOf(clue.cover[0]!)
      claim(
        same(
          houses
            .filter((house) => house.kind === kind && cells.some((cell) => house.cells.includes(cell)))
            .map(({ index }) => index),
          clue.cover,
        ),
        'the lines across',
      )
      claim(clue.cover.length === clue.base.length + 1, 'one too many')
      break
    }
    case 'nothing-to-strike':
      claim(same(places(clue.from, clue.digit), clue.cells), 'the places')
      claim(same(places(clue.to, clue.digit), clue.cells), 'no other')
      break
    case 'no-partner': {
      claim(same(marks(clue.cell), clue.digits), 'the candidates')
      const pairs = open.filter(
        (cell) => see(cell, clue.cell) && marks(cell).length === 2 && !same(marks(cell), clue.digits),
      )
      claim(!pairs.some((cell) => marks(cell).includes(clue.digit)), 'no pair')
      break
    }
    case 'unseen':
      claim(holds(clue), 'one of them is true')
      claim(seenBy(clue.digit, clue.cells).length === 0, 'nothing sees them')
      break
    case 'apart': {
      const [a, b] = clue.houses
      for (const { house, cells } of clue.houses) claim(same(places(house, clue.digit), cells), 'the places')
      claim(!a.cells.some((cell) => b.cells.some((other) => see(cell, other))), 'apart')
      break
    }
    case 'too-short': {
      claim(holds(clue.first) || holds(clue.end), 'one end is true')
      const excludes = ({ cells, digit }: ChainNode, cell: number, mark: number) =>
        cells.every((own) => (own === cell ? mark !== digit : mark === digit && see(own, cell)))
      const struck = open.flatMap((cell) =>
        marks(cell).filter((digit) => {
          const isPart = [clue.first, clue.end].some(
            (node) => node.digit === digit && node.cells.includes(cell),
          )
          return !isPart && excludes(clue.first, cell, digit) && excludes(clue.end, cell, digit)
        }),
      )
      claim(struck.length === 0, 'rules out nothing')
      break
    }
    case 'quiet-colours': {
      for (const cell of clue.cells) claim(marks(cell).includes(clue.digit), 'the digit')
      // a cell that sees both colours sees a true one either way
      for (const cell of open) {
        if (clue.cells.includes(cell) || !marks(cell).includes(clue.digit)) continue
        const seen = clue.cells.filter((other) => see(cell, other))
        const isBoth =
          seen.some((other) => solution[other] === clue.digit) &&
          seen.some((other) => solution[other] !== clue.digit)
        claim(!isBoth, 'nothing sees both colours')
      }
      break
    }
    case 'given-corner':
      claim(board.given[clue.given] === 1 && clue.digits.includes(board.digits[clue.given]!), 'the given')
      for (const cell of clue.cells)
        if (cell !== clue.given)
          claim(
            clue.digits.every((digit) => marks(cell).includes(digit)),
            'the digits',
          )
      break
    case 'four-boxes':
      for (const cell of clue.cells)
        claim(
          clue.digits.every((digit) => marks(cell).includes(digit)),
          'the digits',
        )
      claim(
        houses.filter(
          ({ kind, cells }) =>
            (kind === 'box' || kind === 'region') && clue.cells.some((cell) => cells.includes(cell)),
        ).length === 4,
        'four boxes',
      )
      break
    case 'two-places-left':
      claim(clue.cells.length === 2 && same(places(clue.house, clue.digit), clue.cells), 'the places')
      break
    case 'two-digits-left':
      claim(clue.digits.length === 2 && same(marks(clue.cell), clue.digits), 'the candidates')
      break
    case 'two-cells-open':
      claim(
        clue.cells.length === 2 &&
          same(
            cellsIn(clue.house).filter((cell) => board.digits[cell] === 0),
            clue.cells,
          ),
        'the open cells',
      )
      break
    case 'fins-unseen': {
      const own = clue.base.flatMap((house) => places(house, clue.digit))
      const inCover = (cell: number) => clue.cover.some((house) => inHouse(house, [cell]))
      claim(
        same(
          own.filter((cell) => !inCover(cell)),
          clue.cells,
        ),
        'the fins',
      )
      claim(
        seenBy(clue.digit, clue.cells).every((cell) => !inCover(cell) || own.includes(cell)),
        'nothing sees them',
      )
      break
    }
    case 'lacking-corner':
      for (const cell of clue.cells)
        claim(
          clue.digits.every(
            (digit) => marks(cell).includes(digit) === !(cell === clue.cell && digit === clue.digit),
          ),
          'the digits',
        )
      break
    case 'no-dead-end':
      claim(marks(clue.cell).includes(clue.digit) && singlesFrom(board, clue) !== undefined, 'no dead end')
      break
    case 'nothing-in-common': {
      claim(clue.digits.length === 2 && same(marks(clue.cell), clue.digits), 'the candidates')
      const [one, other] = clue.digits.map((digit) => singlesFrom(board, { cell: clue.cell, digit }))
      claim(one !== undefined && other !== undefined, 'two ways')
      const common = open.flatMap((cell) =>
        marks(cell).filter((d) => one?.[cell]?.has(d) !== true && other?.[cell]?.has(d) !== true),
      )
      claim(common.length === 0, 'nothing in common')
      break
    }
    case 'in-sight':
      for (const { cells, digits } of clue.sets) {
        claim(same(between(cells), digits), 'the digits')
        claim(
          clue.of.some((cell) => cells.some((other) => see(cell, other))),
          'in sight',
        )
      }
      break
    case 'unjoined': {
      const [a, b] = clue.cells
      claim(clue.cells.length === 2 && !see(a!, b!), 'two cells apart')
      for (const cell of clue.cells) claim(same(marks(cell), clue.digits), 'the candidates')
      for (const digit of clue.digits)
        for (const { index } of houses) {
          const own = places(index, digit)
          const isJoined =
            own.length > 0 &&
            own.every((cell) => !clue.cells.includes(cell) && (see(cell, a!) || see(cell, b!)))
          claim(!isJoined, 'no house')
        }
      break
    }
    case 'even-turns':
      claim(clue.moves % 2 === 0 && same(marks(clue.cells[0]), marks(clue.cells[1])), 'the same pair')
      claim(solution[clue.cells[0]] === solution[clue.cells[1]], 'the same digit')
      break
    case 'goes-together': {
      const { pattern } = step
      if (pattern.shape !== 'exclusion') throw new Error('no cells that exclude each other')
      claim(
        same(
          clue.fits.map(({ cell }) => cell),
          pattern.cells,
        ),
        'all the cells',
      )
      for (const { cell, digit } of clue.fits) {
        claim(marks(cell).includes(digit), 'a candidate')
        claim(!step.removals.some((one) => one.cell === cell && one.digit === digit), 'stays')
        claim(!clue.fits.some((other) => other.digit === digit && see(cell, other.cell)), 'seen')
      }
      for (const { by } of pattern.excluded) {
        const left = sorted(
          by.flatMap((cell) =>
            marks(cell).filter(
              (digit) =>
                !clue.fits.some((one) =>
                  one.cell === cell ? one.digit !== digit : one.digit === digit && see(cell, one.cell),
                ),
            ),
          ),
        )
        claim(by.length === 0 || left.length >= by.length, 'enough is left')
      }
      break
    }
    case 'has-room': {
      claim(clue.base.length === 2 && between(clue.base).includes(clue.digit), 'a base')
      const [row] = houses.filter(({ index, kind }) => /row|column/.test(kind) && inHouse(index, clue.base))
      const [box] = houses.filter(({ index, kind }) => kind === 'box' && inHouse(index, clue.base))
      const third = row!.cells.filter((cell) => box!.cells.includes(cell) && !clue.base.includes(cell))
      const across = row!.kind === 'row' ? 'column' : 'row'
      const lines = [...third, ...clue.targets].map(
        (cell) => houses.find(({ kind, cells }) => kind === across && cells.includes(cell))!,
      )
      for (const chosen of [1, 2, 3, 4, 5, 6, 7]) {
        const some = lines.filter((_, i) => chosen & (1 << i))
        const free = some
          .flatMap(({ cells }) => cells)
          .filter(
            (cell) =>
              (board.digits[cell] === clue.digit || marks(cell).includes(clue.digit)) &&
              !clue.targets.includes(cell) &&
              !clue.base.every((other) => see(cell, other)),
          )
        const parallel = sorted(
          free.map(
            (cell) => houses.find(({ kind, cells }) => kind === row!.kind && cells.includes(cell))!.index,
          ),
        )
        claim(parallel.length >= some.length, 'room')
      }
      break
    }
    case 'one-short':
      claim(clue.digits === clue.cells + 1 && marks(clue.without).length > 0, 'one short')
      break
    case 'petals-apart': {
      claim(
        same(
          marks(clue.stem),
          clue.petals.map(({ digit }) => digit),
        ),
        'a cell for each',
      )
      for (const { cell, digit } of clue.petals)
        claim(see(cell, clue.stem) && marks(cell).includes(digit) && marks(cell).length === 2, 'a petal')
      const rest = clue.petals.map(({ cell, digit }) => marks(cell).filter((other) => other !== digit))
      claim(new Set(rest.flat()).size > 1, 'nothing shared')
      break
    }
    case 'no-extra':
      for (const digit of clue.digits) {
        claim(marks(clue.cell).includes(digit), 'a candidate')
        claim(places(clue.house, digit).length === 2 && inHouse(clue.house, [clue.cell]), 'two places')
      }
      break
    case 'works':
      claim(clue.placed === step.placements && clue.struck === step.removals, 'the effects')
      break
    default:
      clue satisfies never
  }
  return faults
}

/**
 * What is left of every cell when a candidate is true and singles follow; `undefined` where nothing is left somewhere.
 */
function singlesFrom(board: Board, supposed: { cell: number; digit: number }): Set<number>[] | undefined {
  const layout = layoutOf(board.geometry)
  const left = Array.from(
    board.digits,
    (digit, cell) => new Set(digit ? [digit] : digitsOf(board.candidates[cell]!)),
  )
  const queue = [supposed]
  const done = new Set<number>(Array.from(board.digits.keys()).filter((cell) => board.digits[cell] !== 0))
  for (let next = queue.pop(); next; next = queue.pop()) {
    const { cell, digit } = next
    if (!left[cell]!.has(digit)) return undefined
    left[cell] = new Set([digit])
    done.add(cell)
    left.forEach((set, other) => {
      if (layout.arePeers(cell, other)) set.delete(digit)
    })
    if (left.some((set) => set.size === 0)) return undefined
    if (queue.length > 0) continue
    const single = left.findIndex((set, other) => set.size === 1 && !done.has(other))
    if (single >= 0) queue.push({ cell: single, digit: [...left[single]!][0]! })
    else
      for (const { cells } of layout.houses)
        for (let d = 1; d <= board.geometry.order && queue.length === 0; d++) {
          const at = cells.filter((other) => left[other]!.has(d))
          if (at.length === 0) return undefined
          if (at.length === 1 && !done.has(at[0]!)) queue.push({ cell: at[0]!, digit: d })
        }
  }
  for (const { cells } of layout.houses)
    for (let d = 1; d <= board.geometry.order; d++)
      if (!cells.some((other) => left[other]!.has(d))) return undefined
  return left
}
