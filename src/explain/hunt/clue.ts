import type { Candidate } from '../../grid/board.js'
import type { CellGroup, ChainNode } from '../../logic/steps/step.js'

/** A house and where in it something is. */
export interface HouseCells {
  readonly house: number
  readonly cells: readonly number[]
}

/** What is tried from what was looked at first; one for each family of patterns. */
export const WAYS = [
  'fill-house',
  'cross-out',
  'count-digits',
  'one-line',
  'naked-group',
  'hidden-group',
  'lines-alike',
  'lines-but-for-fins',
  'houses-alike',
  'pivot',
  'pivot-of-three',
  'counted-wing',
  'two-houses',
  'cross',
  'same-pair',
  'turns',
  'digit-chain',
  'cell-chain',
  'chain',
  'set-chain',
  'ring',
  'colours',
  'two-colourings',
  'two-sets',
  'row-of-sets',
  'ring-of-sets',
  'blossom',
  'crossing',
  'rectangle',
  'filled-rectangle',
  'loop',
  'last-extras',
  'fill-two',
  'base-and-targets',
  'sectors',
  'cases',
  'suppose',
] as const
export type Way = (typeof WAYS)[number]

/**
 * What there is to say about finding a step, as data: one clue, one sentence or two. All of it is counted on the board
 * that the step was found on.
 */
export type Clue = WhyHere | LookFirst | Try | NearMiss | FartherMiss | LargerMiss | Works

/** What would make one look here. */
export type WhyHere =
  /** The step leaves this cell one candidate: with which it is now. */
  | { readonly kind: 'worth-opening'; readonly cell: number; readonly digits: readonly number[] }
  /** The step leaves this house one place for the digit, of these. */
  | {
      readonly kind: 'worth-settling'
      readonly house: number
      readonly digit: number
      readonly cells: readonly number[]
    }
  /** Of so many houses of the pattern the one with the fewest open cells: these. */
  | {
      readonly kind: 'nearly-full'
      readonly house: number
      readonly cells: readonly number[]
      readonly of: number
    }
  /** Of the digit of the pattern so many stand already. */
  | { readonly kind: 'often-placed'; readonly digit: number; readonly placed: number; readonly order: number }

/** What to look at first. */
export type LookFirst =
  /** All open cells with at most so many candidates. */
  | { readonly kind: 'cells-of-few'; readonly most: number; readonly cells: readonly number[] }
  /** All houses, of one kind or any, in which the digit has from two to so many places. */
  | {
      readonly kind: 'houses-of-few'
      readonly digit: number
      readonly within: 'row' | 'column' | 'any'
      readonly most: number
      readonly houses: readonly HouseCells[]
      /** Not the first thing to look at. */
      readonly isFurther?: boolean
    }
  /** All open cells of the house with at most so many candidates. */
  | {
      readonly kind: 'few-in-house'
      readonly house: number
      readonly most: number
      readonly cells: readonly number[]
    }
  /** All digits with at most so many places in the house. */
  | {
      readonly kind: 'few-places'
      readonly house: number
      readonly most: number
      readonly digits: readonly { readonly digit: number; readonly cells: readonly number[] }[]
    }
  /** All houses whose places for the digit, two at least, lie in another house, too. */
  | {
      readonly kind: 'one-line'
      readonly digit: number
      readonly found: readonly {
        readonly from: number
        readonly to: number
        readonly cells: readonly number[]
      }[]
    }
  /** All boxes (regions) whose places for the digit form a cross: all of them in one row and one column. */
  | {
      readonly kind: 'crosses'
      readonly digit: number
      readonly found: readonly {
        readonly box: number
        readonly row: number
        readonly column: number
        readonly cells: readonly number[]
      }[]
    }
  /** All cells with just these candidates. */
  | { readonly kind: 'alike'; readonly digits: readonly number[]; readonly cells: readonly number[] }
  /** Sets of the house of at most so many cells, each with one digit more than cells. */
  | {
      readonly kind: 'spare-one'
      readonly house: number
      readonly most: number
      readonly sets: readonly { readonly cells: readonly number[]; readonly digits: readonly number[] }[]
    }
  /** How many open cells there are, and all of them that have more than two candidates. */
  | { readonly kind: 'more-than-two'; readonly open: number; readonly cells: readonly number[] }
  /** Where a digit stands already. */
  | { readonly kind: 'stands'; readonly digit: number; readonly cells: readonly number[] }
  /** How many different digits a cell sees. */
  | { readonly kind: 'sees'; readonly cell: number; readonly digits: readonly number[] }
  /** Cells, and what would have too little left without some of their digits: cells with all that they have. */
  | { readonly kind: 'in-sight'; readonly of: readonly number[]; readonly sets: readonly CellGroup[] }
  /** Two open cells of one box in one line, and the digits that they have between them. */
  | { readonly kind: 'base-pair'; readonly cells: readonly number[]; readonly digits: readonly number[] }

/** What to try there, and what comes of it. */
export interface Try {
  readonly kind: 'try'
  readonly way: Way
  /** How many lines or cells make such a pattern. */
  readonly size: number
}

/** What looks like it, and why it does not do. */
export type NearMiss =
  /** So many cells of the house, and one digit too many. */
  | {
      readonly kind: 'one-digit-too-many'
      readonly cells: readonly number[]
      readonly digits: readonly number[]
    }
  /** So many digits, and one place too many in the house. */
  | {
      readonly kind: 'one-cell-too-many'
      readonly house: number
      readonly digits: readonly number[]
      readonly cells: readonly number[]
    }
  /** So many lines for the digit, and one line across too many. */
  | {
      readonly kind: 'one-line-too-many'
      readonly digit: number
      readonly base: readonly number[]
      readonly cover: readonly number[]
    }
  /** The places for the digit in `from` all lie in `to`, which has no other. */
  | {
      readonly kind: 'nothing-to-strike'
      readonly digit: number
      readonly from: number
      readonly to: number
      readonly cells: readonly number[]
    }
  /** A pivot's digit that no cell with a partner's pair shares with it. */
  | {
      readonly kind: 'no-partner'
      readonly cell: number
      readonly digits: readonly number[]
      readonly digit: number
    }
  /** One of these two is true, and no candidate sees both. */
  | {
      readonly kind: 'unseen'
      readonly digit: number
      readonly cells: readonly number[]
      /** Of a wing. */
      readonly pivot?: number
    }
  /** Two houses with two places each, no place of the one in a house with a place of the other. */
  | { readonly kind: 'apart'; readonly digit: number; readonly houses: readonly [HouseCells, HouseCells] }
  /** The chain stopped here: its end and its start rule out nothing together. */
  | { readonly kind: 'too-short'; readonly first: ChainNode; readonly end: ChainNode }
  /** A cluster of another digit whose colours rule out nothing. */
  | { readonly kind: 'quiet-colours'; readonly digit: number; readonly cells: readonly number[] }
  /** Four cells like a rectangle, one of them given. */
  | {
      readonly kind: 'given-corner'
      readonly cells: readonly number[]
      readonly given: number
      readonly digits: readonly number[]
    }
  /** Four cells like a rectangle, in four boxes. */
  | { readonly kind: 'four-boxes'; readonly cells: readonly number[]; readonly digits: readonly number[] }

/** The rest of what looks like it. */
export type FartherMiss =
  /** Of a house, two places are left for the digit. */
  | {
      readonly kind: 'two-places-left'
      readonly house: number
      readonly digit: number
      readonly cells: readonly number[]
    }
  /** Two digits are left for the cell. */
  | { readonly kind: 'two-digits-left'; readonly cell: number; readonly digits: readonly number[] }
  /** Two cells of the house are open. */
  | { readonly kind: 'two-cells-open'; readonly house: number; readonly cells: readonly number[] }
  /** But for some places the lines would do, and no other candidate in the lines across sees all of these. */
  | {
      readonly kind: 'fins-unseen'
      readonly digit: number
      readonly base: readonly number[]
      readonly cover: readonly number[]
      readonly cells: readonly number[]
    }
  /** Four cells like a rectangle, one of them without one of the digits. */
  | {
      readonly kind: 'lacking-corner'
      readonly cells: readonly number[]
      readonly digits: readonly number[]
      readonly cell: number
      readonly digit: number
    }
  /** Followed by singles, this comes to no dead end. */
  | { readonly kind: 'no-dead-end'; readonly cell: number; readonly digit: number }
  /** Followed by singles, the two candidates of this cell have nothing in common. */
  | { readonly kind: 'nothing-in-common'; readonly cell: number; readonly digits: readonly number[] }

/** What looks like one of the larger patterns. */
export type LargerMiss =
  /** Cells of the same two candidates which no house joins by either. */
  | { readonly kind: 'unjoined'; readonly cells: readonly number[]; readonly digits: readonly number[] }
  /** An even number of moves apart, so that both have the same digit. */
  | { readonly kind: 'even-turns'; readonly cells: readonly [number, number]; readonly moves: number }
  /** A way to fill the cells that leaves enough for all others. */
  | { readonly kind: 'goes-together'; readonly fits: readonly Candidate[] }
  /** Two cells like a base: this digit of theirs has room elsewhere than in these targets. */
  | {
      readonly kind: 'has-room'
      readonly base: readonly number[]
      readonly targets: readonly number[]
      readonly digit: number
    }
  /** The cells counted but for this one: so many cells for so many digits. */
  | {
      readonly kind: 'one-short'
      readonly without: number
      readonly cells: number
      readonly digits: number
    }
  /** A stem with a cell for each of its digits, which have no further digit in common. */
  | { readonly kind: 'petals-apart'; readonly stem: number; readonly petals: readonly Candidate[] }
  /** Digits of the cell that have two places in the house, as all digits are to have. */
  | {
      readonly kind: 'no-extra'
      readonly cell: number
      readonly house: number
      readonly digits: readonly number[]
    }

/** Why this one works: what it has, and what it strikes or places. */
export interface Works {
  readonly kind: 'works'
  readonly way: Way
  /** Cells, digits and houses that make it, as far as the way has them. */
  readonly cells: readonly number[]
  readonly digits: readonly number[]
  readonly houses: readonly number[]
  /** The sets among the cells, for ways that go from set to set. */
  readonly sets: readonly (readonly number[])[]
  /** What the step does. */
  readonly placed: readonly Candidate[]
  readonly struck: readonly Candidate[]
}
