import { layoutOf } from '../../../grid/layout.js'
import type {
  Clue,
  FartherMiss,
  LargerMiss,
  LookFirst,
  NearMiss,
  Way,
  WhyHere,
  Works,
} from '../../hunt/clue.js'
import type { Names } from '../../names.js'
import { capital, count, counted, type EnglishTerms, englishTerms, list } from './terms.js'

/** More than these are counted and not listed. */
const MOST_LISTED = 10

export function englishClue(clue: Clue, names: Names): string {
  const t = englishTerms(names)
  switch (clue.kind) {
    case 'worth-opening':
    case 'worth-settling':
    case 'nearly-full':
    case 'often-placed':
      return whyHere(t, clue)
    case 'cells-of-few':
    case 'houses-of-few':
    case 'few-in-house':
    case 'few-places':
    case 'one-line':
    case 'crosses':
    case 'alike':
    case 'spare-one':
    case 'more-than-two':
    case 'stands':
    case 'sees':
    case 'base-pair':
    case 'in-sight':
      return lookFirst(t, clue, names)
    case 'try':
      return TRIES[clue.way](count(clue.size))
    case 'two-places-left':
    case 'two-digits-left':
    case 'two-cells-open':
    case 'fins-unseen':
    case 'lacking-corner':
    case 'no-dead-end':
    case 'nothing-in-common':
      return fartherMiss(t, clue)
    case 'unjoined':
    case 'even-turns':
    case 'goes-together':
    case 'has-room':
    case 'one-short':
    case 'petals-apart':
    case 'no-extra':
      return largerMiss(t, clue)
    case 'works':
      return `${capital(works(t, clue))}. ${effect(t, clue)}`
    default:
      return nearMiss(t, clue, names)
  }
}

function whyHere(t: EnglishTerms, clue: WhyHere): string {
  switch (clue.kind) {
    case 'worth-opening':
      return `${capital(t.cell(clue.cell))} is worth opening: it has just ${t.digits(clue.digits)} left.`
    case 'worth-settling':
      return `${capital(t.house(clue.house))} has ${count(clue.cells.length)} places left for its ${t.digit(clue.digit)}, ${t.within(clue.house, clue.cells)}: worth settling.`
    case 'nearly-full': {
      const open = counted(clue.cells.length, 'open cell')
      return clue.of === 1
        ? `${capital(t.house(clue.house))} has ${open}: ${t.within(clue.house, clue.cells)}.`
        : `${capital(t.house(clue.house))} is a good place to begin, with ${open}: ${t.within(clue.house, clue.cells)}.`
    }
    case 'often-placed':
      return `${capital(count(clue.placed))} of the ${count(clue.order)} ${t.several(clue.digit)} stand already, so few places are left for the others.`
    default:
      return clue satisfies never
  }
}

const few = (most: number) => (most === 2 ? 'just two' : `at most ${count(most)}`)

/** `: r1c1 and r1c2`, or how many there are. */
function listed(t: EnglishTerms, cells: readonly number[]): string {
  return cells.length <= MOST_LISTED ? t.cells(cells) : `there are ${count(cells.length)} of them`
}

function lookFirst(t: EnglishTerms, clue: LookFirst, { geometry }: Names): string {
  const { houses: all } = layoutOf(geometry)
  switch (clue.kind) {
    case 'cells-of-few':
      return `Look first at the cells with ${few(clue.most)} candidates: ${listed(t, clue.cells)}.`
    case 'houses-of-few': {
      const noun = clue.within === 'any' ? 'houses' : `${clue.within}s`
      const found = clue.houses.map(({ house }) => house)
      const where = found.length <= MOST_LISTED ? t.houses(found) : `there are ${count(found.length)} of them`
      return `Look ${clue.isFurther ? 'as well' : 'first'} at the ${noun} where the ${t.digit(clue.digit)} has ${few(clue.most)} places: ${where}.`
    }
    case 'few-in-house':
      return `In ${t.house(clue.house)}, look first at the cells with at most ${count(clue.most)} candidates: ${clue.cells.length <= MOST_LISTED ? t.within(clue.house, clue.cells) : listed(t, clue.cells)}.`
    case 'few-places': {
      const digits = clue.digits.map(
        ({ digit, cells }) => `the ${t.digit(digit)} in ${t.within(clue.house, cells, 'or')}`,
      )
      return `In ${t.house(clue.house)}, look first at the digits with at most ${count(clue.most)} places: ${digits.join('; ')}.`
    }
    case 'one-line': {
      const { kind } = all[clue.found[0]!.from]!
      const by =
        kind === 'box'
          ? 'Box by box'
          : kind === 'row'
            ? 'Row by row'
            : kind === 'column'
              ? 'Column by column'
              : 'House by house'
      const into =
        kind === 'box' || kind === 'region'
          ? 'a single row or column'
          : kind === 'diagonal'
            ? 'another house'
            : 'a single box'
      const found = clue.found.map(({ from, to }) => `in ${t.house(from)} it is ${t.house(to)}`)
      return `${by}, ask where the ${t.digit(clue.digit)} fits in ${into} only. ${capital(list(found))}.`
    }
    case 'crosses': {
      const found = clue.found.map(
        ({ box, row, column }) => `in ${t.house(box)}, with ${t.houses([row, column])}`,
      )
      return `Ask where the places for the ${t.digit(clue.digit)} in a box make a cross, all of them in one row and one column. They do ${list(found)}.`
    }
    case 'alike':
      return `Look first at the cells with just ${t.digits(clue.digits)}: ${listed(t, clue.cells)}.`
    case 'spare-one': {
      const size =
        clue.most === 1
          ? 'two candidates'
          : `at most ${count(clue.most)} cells with one digit more than cells`
      const what = clue.most === 1 ? `cells with ${size}` : `sets of ${size}`
      const found =
        clue.sets.length <= 4
          ? list(clue.sets.map(({ cells, digits }) => `${t.cells(cells)} with ${t.digits(digits)}`))
          : `there are ${count(clue.sets.length)} of them`
      return `In ${t.house(clue.house)}, look first for ${what}: ${found}.`
    }
    case 'more-than-two':
      return `Of the ${count(clue.open)} open cells, only ${t.cells(clue.cells)} ${clue.cells.length === 1 ? 'has' : 'have'} more than two candidates.`
    case 'stands':
      return `The ${t.digit(clue.digit)} stands in ${t.cells(clue.cells)}.`
    case 'sees':
      return `Look at ${t.cell(clue.cell)}: it sees ${t.digits(clue.digits)}.`
    case 'in-sight': {
      const sets = clue.sets.map(({ cells, digits }) => `${t.cells(cells)} with ${t.digits(digits)}`)
      return sets.length === 0
        ? `Look first at ${t.cells(clue.of)}, which see each other.`
        : `Look first at what ${t.cells(clue.of)} see between them and could leave without enough digits: ${sets.join('; ')}.`
    }
    case 'base-pair':
      return `Look first for two open cells in one line of a box with few digits: ${t.cells(clue.cells)} have ${t.digits(clue.digits)} between them.`
    default:
      return clue satisfies never
  }
}

const TRIES: Readonly<Record<Way, (size: string) => string>> = {
  'fill-house': () => 'Where a house has one open cell, the digit that it lacks goes there.',
  'cross-out': () =>
    'Let each of them cross out the cells that it sees, and ask of every house whether just one place is left.',
  'count-digits': () =>
    'Count what is seen or crossed out: where that is every digit but one, the one goes in.',
  'one-line': () =>
    'The digit then stands where the two houses cross, so look for more of it in the rest of the second.',
  'naked-group': (n) => `Then look for ${n} cells that have only ${n} digits between them.`,
  'hidden-group': (n) => `Then look for ${n} digits that have only ${n} cells between them.`,
  'lines-alike': (n) => `Then look for ${n} of them that need only ${n} lines across.`,
  'lines-but-for-fins': (n) =>
    `Then look for ${n} of them that would need only ${n} lines across, but for a place or two close together.`,
  'houses-alike': (n) =>
    `Then take ${n} houses together, boxes among them, and ask whether ${n} others hold all their places, but for a few at most.`,
  pivot: () =>
    'Take one of them as pivot: for each of its two digits it needs a partner in sight that has this digit, and both partners share their other one.',
  'pivot-of-three': () =>
    'Take one with three candidates as pivot: it needs two partners in sight, each with two of its digits, that share one.',
  'counted-wing': (n) =>
    `Then look for ${n} of them with ${n} digits between them, of which all but one can be there only once.`,
  'two-houses': () =>
    'Then take two of these houses in which one place sees one place of the other: of their two far places one has the digit.',
  cross: () =>
    'Then look for a house with two places for the digit, one of them in line with an arm of a cross: the other place and the other arm work together.',
  'same-pair': () =>
    'Then take two of them, and look for a house where each of the two parts that hold one of their digits sees one of them.',
  turns: () => 'Then go from one to the next that it sees: after an odd number of moves the two ends differ.',
  'digit-chain': () =>
    'Then go from house to house: if it is not here, it is there, and so not in the next. Look where the two ends see the same cell.',
  'cell-chain': () =>
    'Then go from cell to cell that it sees: each takes a digit from the next, which is left with its other one. Look out for the digit that you began with.',
  chain: () =>
    'Suppose a candidate false and follow what that makes true, by cells with two candidates and houses with two places. Look where start and end rule out the same.',
  'set-chain': () =>
    'Suppose a candidate false and follow what that makes true. Cells that have one digit more than they are carry on as well: losing one, they need all others.',
  ring: () =>
    'Follow links from one candidate, strong and weak in turn, and look whether they lead back to it.',
  colours: () =>
    'Colour the two places of each in turn, from house to house, and look for what sees both colours, or for a colour that meets itself.',
  'two-colourings': () =>
    'Colour the two places of each in turn; where there are two clusters, look for colours that see each other, and for what sees the other two.',
  'two-sets': () =>
    'Then look for a second set, with a digit that all see one another by, and a further digit in common.',
  'row-of-sets': () =>
    'Then go from set to set by a digit that two of them share and that all see one another by, until the first and the last have a digit in common.',
  'ring-of-sets': () =>
    'Then go from set to set by a digit that two of them share and that all see one another by, until the last is joined to the first by another.',
  blossom: () =>
    'Take one of them as stem: for each of its digits it needs a set in sight that loses it, and all these sets share a further digit.',
  crossing: () =>
    'Where two houses cross, take a few open cells, and some of either house, until the digits that fit there are just as many as the cells.',
  rectangle: () =>
    'Then look for four cells where two rows and two columns cross, in two boxes, that all have the same two digits.',
  'filled-rectangle': () =>
    'Then look for four cells, none of them given, where two rows and two columns cross in two boxes, that could come to hold the same two digits crosswise.',
  loop: () =>
    'Then look for cells, none of them given, that could hold the same few digits so that each house has every one of them twice or not at all.',
  'last-extras': () =>
    'Where nearly all open cells have two candidates, look for what keeps the rest from being exchanged.',
  'fill-two': (n) =>
    `Take ${n} cells with few candidates, try each way to fill them, and leave out those that leave other cells nothing.`,
  'base-and-targets': () =>
    'Then look for two cells in the other boxes of that band, one in each, and ask whether their digits have room beside them.',
  sectors: () =>
    'Where a few lines are short of places for the same digits, count cells and digits, and look for just as many digits as cells.',
  cases: () => 'Take one with few alternatives, follow each of them, and look for what comes out in all.',
  suppose: () => 'Suppose a candidate true and follow the singles, until a house or a cell has nothing left.',
}

function effect(t: EnglishTerms, { placed, struck }: Works): string {
  if (placed.length > 0) return `That places ${t.theCandidates(placed)}.`
  return `That crosses out ${t.theCandidates(struck)}.`
}

function works(t: EnglishTerms, { way, cells, digits, houses, sets, struck }: Works): string {
  const [first, ...rest] = cells
  const digit = digits[0] === undefined ? '' : t.digit(digits[0])
  const base = houses.slice(0, houses.length / 2)
  const cover = houses.slice(houses.length / 2)
  switch (way) {
    case 'fill-house':
      return `here only ${t.cells(cells)} is open in ${t.house(houses[0]!)}, which lacks the ${digit}`
    case 'cross-out':
      return `in ${t.house(houses[0]!)} just ${t.cells(cells)} is left for the ${digit}`
    case 'count-digits':
      return `${t.cells(cells)} can only be ${t.digits(digits, 'or')}`
    case 'one-line':
      return `in ${t.house(houses[0]!)} the ${digit} is in ${t.within(houses[0]!, cells, 'or')}, and ${t.house(houses[1]!)} has other ${t.several(digits[0]!)}`
    case 'naked-group':
      return `${t.cells(cells)} have just ${t.digits(digits)}, and others in sight have some of these`
    case 'hidden-group':
      return `in ${t.house(houses[0]!)} just ${t.cells(cells)} have ${t.digits(digits)}, and more besides`
    case 'lines-alike':
      return `${t.houses(base)} have the ${digit} in ${t.houses(cover)} only, where others can go`
    case 'lines-but-for-fins':
      return `but for ${t.cells(cells)}, ${t.houses(base)} have the ${digit} in ${t.houses(cover)} only`
    case 'houses-alike':
      return `${cells.length > 0 ? `but for ${t.cells(cells)}, ` : ''}${t.houses(base)} have the ${digit} in ${t.houses(cover)} only`
    case 'pivot':
    case 'pivot-of-three':
      return `${t.cell(first!)} works as pivot: ${t.cells(rest)} are its partners and share the ${digit}`
    case 'counted-wing':
      return `${t.cells(cells)} have ${t.digits([...digits].sort((a, b) => a - b))} between them, and only the ${digit} can be there more than once`
    case 'two-houses':
    case 'cross':
      return `${t.houses(houses.slice(0, 2))} meet in ${t.house(houses[2]!)}, and what sees ${far(t, cells)} loses its ${digit}`
    case 'same-pair':
      return `${t.cells(cells)} have the same two digits, and ${t.house(houses[0]!)} joins them by its ${t.digit(digits[1]!)}`
    case 'turns':
      return `the row of such cells from ${t.cell(cells[0]!)} to ${t.cell(cells[1]!)} has the right length`
    case 'digit-chain':
    case 'cell-chain':
    case 'chain':
    case 'set-chain':
      return cells.length === 1
        ? `a chain that begins and ends in ${t.cells(cells)} does it`
        : digits.length === 1
          ? `a chain does it whose ends are ${t.cells(cells)}: one of these is ${digit}`
          : `a chain does it whose ends are ${t.cells(cells)}, with ${t.digits(digits)}`
    case 'ring':
      return `a ring through ${t.cells([...new Set(cells)])} does it`
    case 'colours':
    case 'two-colourings':
      return `colouring the ${t.digits(digits)} in ${t.cells(cells)} does it`
    case 'two-sets':
    case 'row-of-sets':
      return `${parted(sets.map((set) => t.cells(set)))} are such sets in a row: the first or the last keeps its ${digit}`
    case 'ring-of-sets':
      return `${parted(sets.map((set) => t.cells(set)))} are joined in a ring, so each set loses one digit to the next and needs all others`
    case 'blossom':
      return `${t.cells(cells)} works as stem: whatever it takes, some set keeps the ${digit}`
    case 'crossing':
      return `at ${t.houses(houses)}, ${t.cells(cells)} have ${t.digits(digits)} between them, and all are needed`
    case 'rectangle':
    case 'filled-rectangle':
    case 'loop':
      return `${t.cells(cells)} could hold just ${t.digits(digits)}, which only one solution rules out`
    case 'last-extras':
      return `only ${t.theCandidates(cells.map((cell, i) => ({ cell, digit: digits[i]! })))} ${cells.length === 1 ? 'keeps' : 'keep'} the rest from being exchanged`
    case 'fill-two':
      return `with ${struck.length === 1 ? t.theCandidates(struck) : `any of these: ${t.candidates(struck, 'or')},`} no way is left to fill the rest of ${t.cells(cells)}`
    case 'base-and-targets':
      return `the targets ${t.cells(cells)} take the digits of the base, of ${t.digits(digits)}`
    case 'sectors':
      return `${t.cells(cells)} are just as many cells as ${t.houses(houses)} have digits for them`
    case 'cases':
      return houses.length > 0
        ? `the ${digit} of ${t.house(houses[0]!)} is in ${t.cells(cells, 'or')}, and all of these lead to the same`
        : `${t.cells(cells)} is ${t.digits(digits, 'or')}, and all of these lead to the same`
    case 'suppose':
      return `supposing ${t.candidates(struck.length > 0 ? struck.slice(0, 1) : cells.map((cell) => ({ cell, digit: digits[0]! })), 'or')} leads to a dead end`
    default:
      return way satisfies never
  }
}

/** Sets of cells, parted by semicolons. */
const parted = (sets: readonly string[]) => `${sets.slice(0, -1).join('; ')}; and ${sets[sets.length - 1]}`

function far(t: EnglishTerms, cells: readonly number[]): string {
  return cells.length === 2 ? `both ${t.cells(cells)}` : `all of ${t.cells(cells)}`
}

function nearMiss(t: EnglishTerms, clue: NearMiss, { geometry }: Names): string {
  switch (clue.kind) {
    case 'one-digit-too-many':
      return `${capital(t.cells(clue.cells))} come close, but have ${t.digits(clue.digits)}: one digit too many.`
    case 'one-cell-too-many':
      return `${t.digits(clue.digits)} come close, but in ${t.house(clue.house)} they have ${t.cells(clue.cells)}: one cell too many.`
    case 'one-line-too-many': {
      const { kind } = layoutOf(geometry).houses[clue.cover[0]!]!
      return `${capital(t.houses(clue.base))} come close, but have the ${t.digit(clue.digit)} in ${t.houses(clue.cover)}: one ${kind} too many.`
    }
    case 'nothing-to-strike':
      return `In ${t.house(clue.from)} that is so as well, but ${t.house(clue.to)} has no other ${t.digit(clue.digit)} to cross out.`
    case 'no-partner':
      return `${capital(t.cell(clue.cell))}, with ${t.digits(clue.digits)}, is no pivot: it sees no other pair with ${t.one(clue.digit)}.`
    case 'unseen': {
      const how = clue.pivot === undefined ? 'In the same way' : `With ${t.cell(clue.pivot)} as pivot,`
      return `${how} one of ${t.cells(clue.cells)} is ${t.digit(clue.digit)}, but no other ${t.digit(clue.digit)} sees ${clue.cells.length === 2 ? 'both' : 'them all'}.`
    }
    case 'apart':
      return `${capital(t.houses(clue.houses.map(({ house }) => house)))} do not go together: their places for the ${t.digit(clue.digit)} do not see one another.`
    case 'too-short':
      return `To stop once ${t.node(clue.end)} is too early: that and the ${t.digit(clue.first.digit)} in ${t.cells(clue.first.cells)} rule out nothing together.`
    case 'quiet-colours':
      return `The ${t.digit(clue.digit)} can be coloured, too, in ${t.cells(clue.cells)}, but nothing sees both of its colours.`
    case 'given-corner':
      return `${capital(t.cells(clue.cells))} would do for ${t.digits(clue.digits)}, but ${t.cell(clue.given)} is given, so nothing can be exchanged.`
    case 'four-boxes':
      return `${capital(t.cells(clue.cells))} all have ${t.digits(clue.digits)}, but lie in four boxes, which an exchange would upset.`
    default:
      return clue satisfies never
  }
}

function fartherMiss(t: EnglishTerms, clue: FartherMiss): string {
  switch (clue.kind) {
    case 'two-places-left':
      return `In ${t.house(clue.house)} two places are left for the ${t.digit(clue.digit)}, ${t.within(clue.house, clue.cells)}: one too many.`
    case 'two-digits-left':
      return `${capital(t.cell(clue.cell))} can still be ${t.digits(clue.digits, 'or')}: one digit too many.`
    case 'two-cells-open':
      return `${capital(t.house(clue.house))} still has two open cells, ${t.within(clue.house, clue.cells)}.`
    case 'fins-unseen':
      return `${capital(t.houses(clue.base))} would do but for ${t.cells(clue.cells)}, and no other ${t.digit(clue.digit)} in ${t.houses(clue.cover)} sees ${clue.cells.length === 1 ? 'it' : 'both'}.`
    case 'lacking-corner':
      return `${capital(t.cells(clue.cells))} come close with ${t.digits(clue.digits)}, but ${t.cell(clue.cell)} has no ${t.digit(clue.digit)}.`
    case 'no-dead-end':
      return `Supposing ${t.digit(clue.digit)} in ${t.cell(clue.cell)} proves nothing: the singles that follow come to no dead end.`
    case 'nothing-in-common':
      return `${capital(t.cell(clue.cell))}, with ${t.digits(clue.digits)}, does not do: by singles alone its two cases have nothing in common.`
    default:
      return clue satisfies never
  }
}

function largerMiss(t: EnglishTerms, clue: LargerMiss): string {
  switch (clue.kind) {
    case 'unjoined':
      return `${capital(t.cells(clue.cells))} have just ${t.digits(clue.digits)} as well, but no house joins them by either digit.`
    case 'even-turns':
      return `From ${t.cell(clue.cells[0])} to ${t.cell(clue.cells[1])} it is ${count(clue.moves)} moves: these two take the same digit, which strikes nothing.`
    case 'goes-together':
      return `Some ways are left: ${list(clue.fits.map((candidate) => t.candidate(candidate)))} go together, so these stay.`
    case 'has-room':
      return `${capital(t.cells(clue.base))} look like a base as well, but with ${t.cells(clue.targets)} as targets the ${t.digit(clue.digit)} has room elsewhere.`
    case 'one-short':
      return `Leave out ${t.cell(clue.without)}, and it does not come out even: ${count(clue.digits)} digits for ${counted(clue.cells, 'cell')} settle nothing.`
    case 'petals-apart': {
      const petals = clue.petals.map(({ cell, digit }) => `${t.cell(cell)} for the ${t.digit(digit)}`)
      return `${capital(t.cell(clue.stem))} sees ${list(petals)}, but these share no further digit.`
    }
    case 'no-extra':
      return `The ${t.digits(clue.digits)} in ${t.cell(clue.cell)} ${clue.digits.length === 1 ? 'is no extra: it has' : 'are no extras: each has'} two places in ${t.house(clue.house)}, as it should.`
    default:
      return clue satisfies never
  }
}
