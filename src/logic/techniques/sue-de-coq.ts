import { hasCandidate } from '../../grid/board/ask.js'
import type { Board, Candidate } from '../../grid/board.js'
import { type DigitSet, digitCount, digitsOf } from '../../grid/digits.js'
import { perLayout } from '../../grid/per-layout.js'
import type { Task, Watch } from '../../limits.js'
import { candidatesSeenByAll, type Facts } from '../facts/facts.js'
import { missCache, stampOfHouses } from '../facts/path-memory.js'
import { cellPremise } from '../proof/premise-holds.js'
import { trimPremises } from '../proof/trim.js'
import type { Step } from '../steps/step.js'
import { slowTechnique, type Technique } from '../technique.js'

/** Some open cells of one part of two crossing houses, with the digits they may take. */
interface Part {
  readonly cells: readonly number[]
  readonly digits: DigitSet
}

/**
 * Sue de Coq: cells where two houses cross, some of the rest of the one house and some of the rest of the other, with
 * as many digits between them as cells, a digit of both rests counted twice. Then no digit can be spared: each is in
 * its house among these cells, and the other cells there lose it.
 *
 * In the basic form the cells beside the crossing have no digits but those of the crossing; in the extended one they
 * do.
 */
export const sueDeCoq: Technique = slowTechnique({
  name: 'sue-de-coq',
  level: 'chain',
  *search(facts, report, _, watch) {
    const { board, stamps } = facts
    const crossings = crossingsOf(board.geometry)
    const misses = facts.context.of(missesPart)
    let found = false
    const note = (step: Step): boolean => {
      found = true
      return report(step)
    }
    for (let i = 0; i < crossings.length; i++) {
      const stamp = stampOfHouses(stamps, crossings[i]!.houses)
      if (misses.has(i, stamp)) continue
      found = false
      if (yield* reportCrossing(facts, crossings[i]!, note, watch)) return
      if (!found) misses.note(i, stamp)
    }
  },
})

const missesPart = missCache()

/** Two houses with two cells or more in common. */
interface Crossing {
  readonly houses: readonly [number, number]
  readonly shared: readonly number[]
  /** The other cells of either house. */
  readonly beside: readonly (readonly number[])[]
}

const crossingsOf = perLayout(({ houses }): readonly Crossing[] =>
  houses.flatMap((first) =>
    houses.slice(first.index + 1).flatMap((second): Crossing[] => {
      const shared = first.cells.filter((cell) => second.cells.includes(cell))
      const beside = [first, second].map(({ cells }) => cells.filter((cell) => !shared.includes(cell)))
      return shared.length > 1 ? [{ houses: [first.index, second.index], shared, beside }] : []
    }),
  ),
)

function* reportCrossing(
  facts: Facts,
  { shared, beside }: Crossing,
  report: (step: Step) => boolean,
  watch: Watch,
): Task<boolean> {
  const { board } = facts
  const { crossing, first: firstChoices, second: secondChoices } = facts.context.of(threeChoices)
  const crossings = crossing.of(board, shared)
  let isReady = false
  const { all } = crossings
  for (let c = 0; c < all.length; c++) {
    const choice = all[c]!
    const digits = crossings.digits[choice]!
    const wanted = digitCount(digits) - digitCount(choice)
    if (digitCount(choice) < 2 || wanted < 2) continue
    if (!isReady) {
      firstChoices.of(board, beside[0]!)
      secondChoices.of(board, beside[1]!)
      isReady = true
    }
    const second = secondChoices.helping(digits)
    // most crossings have too little beside them
    if (second.most === 0) continue
    const first = firstChoices.helping(digits)
    if (first.most === 0 || first.most + second.most < wanted) continue
    for (let i = 0; i < first.count; i++) {
      if (watch.isDue()) yield
      const gain = first.gains[i]!
      if (gain + second.most < wanted) continue
      const one = first.choices[i]!
      for (let j = 0; j < second.count; j++) {
        if (gain + second.gains[j]! < wanted) continue
        const other = second.choices[j]!
        const twice = digitCount(firstChoices.digits[one]! & secondChoices.digits[other]! & digits)
        if (gain + second.gains[j]! - twice !== wanted) continue
        const step = stepOf(board, crossings.part(choice), firstChoices.part(one), secondChoices.part(other))
        if (step && report(step)) return true
      }
    }
  }
  return false
}

interface Helping {
  readonly choices: readonly number[]
  /** What each choice gains, how many there are, and the most that any gains; 0 when there is none. */
  readonly gains: readonly number[]
  count: number
  most: number
}

/**
 * Every choice of one or more of the open ones among a few cells, as a set of positions in their list. Serves crossing
 * after crossing.
 */
class Choices {
  /** Few cells first. */
  all: readonly number[] = []
  /** choice -> the digits its cells may take. */
  readonly digits: DigitSet[] = [0]
  private readonly lists: (readonly number[])[]
  private cells: number[] = []
  private readonly chosen: number[] = []
  private readonly gains: number[] = []
  private readonly help: Helping = { choices: this.chosen, gains: this.gains, count: 0, most: 0 }

  constructor(lists: (readonly number[])[]) {
    this.lists = lists
  }

  of({ candidates }: Board, cells: readonly number[]): this {
    const { digits } = this
    let open = 0
    for (let i = 0; i < cells.length; i++) {
      const set = candidates[cells[i]!]!
      if (set === 0) continue
      const before = 1 << open
      for (let choice = 0; choice < before; choice++) digits[before + choice] = digits[choice]! | set
      this.cells[open++] = cells[i]!
    }
    this.all = choicesOf(open, this.lists)
    return this
  }

  part(choice: number): Part {
    return { cells: this.cells.filter((_, i) => choice & (1 << i)), digits: this.digits[choice]! }
  }

  /**
   * Those beside a crossing of these digits that share some and add more cells than digits, with how many more; until
   * asked again.
   */
  helping(crossing: DigitSet): Helping {
    const { all, digits, chosen, gains, help } = this
    let count = 0
    let most = 0
    for (let i = 0; i < all.length; i++) {
      const choice = all[i]!
      const own = digits[choice]!
      if ((own & crossing) === 0) continue
      const added = own & ~crossing
      const gain = added === 0 ? digitCount(choice) : digitCount(choice) - digitCount(added)
      if (gain <= 0) continue
      chosen[count] = choice
      gains[count++] = gain
      if (gain > most) most = gain
    }
    help.count = count
    help.most = most
    return help
  }
}

/** Choices of a crossing and of what is beside it on either side. */
class ThreeChoices {
  private readonly lists: (readonly number[])[] = []
  readonly crossing = new Choices(this.lists)
  readonly first = new Choices(this.lists)
  readonly second = new Choices(this.lists)
}

const threeChoices = (): ThreeChoices => new ThreeChoices()

/** Every choice of one or more of so many; kept in the lists. */
function choicesOf(count: number, lists: (readonly number[])[]): readonly number[] {
  lists[count] ??= Array.from({ length: (1 << count) - 1 }, (_, i) => i + 1).sort(
    (a, b) => digitCount(a) - digitCount(b),
  )
  return lists[count]
}

function stepOf(board: Board, crossing: Part, one: Part, other: Part): Step | undefined {
  const removals = removalsBy(board, crossing, one, other)
  if (removals.length === 0) return undefined
  const cells = [...crossing.cells, ...one.cells, ...other.cells]
  const premises = cells.map((cell) => cellPremise(board, cell))
  // where fewer cells do, they are a locked set or a smaller pattern of this kind
  if (trimPremises(board.geometry, premises, { placements: [], removals }).length < premises.length)
    return undefined
  return {
    technique: 'sue-de-coq',
    level: 'chain',
    placements: [],
    removals,
    premises,
    pattern: {
      shape: 'sets',
      sets: [crossing, one, other].map((part) => ({ cells: part.cells, digits: digitsOf(part.digits) })),
      joins: [one, other].flatMap((part, i) =>
        digitsOf(part.digits & crossing.digits).map((digit) => ({
          digit,
          between: [0, i + 1] as [number, number],
        })),
      ),
    },
  }
}

/**
 * Each digit is used as often as it can be: one that both sides have stands on both, so the crossing lacks it and
 * either side locks it; any other stands once, and what sees all its places goes.
 */
function removalsBy(board: Board, crossing: Part, one: Part, other: Part): Candidate[] {
  const gone = new Map<string, Candidate>()
  const remove = (digit: number, places: readonly number[]) => {
    for (const cell of candidatesSeenByAll(board, digit, places))
      gone.set(`${cell}.${digit}`, { cell, digit })
  }
  const placesOf = (digit: number, ...parts: readonly Part[]) =>
    parts.flatMap(({ cells }) => cells.filter((cell) => hasCandidate(board, cell, digit)))
  for (const digit of digitsOf(crossing.digits | one.digits | other.digits)) {
    const both = one.digits & other.digits & (1 << (digit - 1))
    if (both) {
      remove(digit, placesOf(digit, one))
      remove(digit, placesOf(digit, other))
    } else {
      remove(digit, placesOf(digit, crossing, one, other))
    }
  }
  return [...gone.values()].sort((a, b) => a.cell - b.cell || a.digit - b.digit)
}
