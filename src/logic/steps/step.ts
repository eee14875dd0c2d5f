import type { Board, Candidate, Conclusion } from '../../grid/board.js'
import type { Level } from '../level.js'
import type { TechniqueName } from '../technique-names.js'

/**
 * One disjunction that holds on the board as it stands.
 *
 * - `cell`: this cell takes one of these digits (all its candidates, or its placed digit);
 * - `house`: this house takes the digit in one of these cells (all its places, or the cell where it stands).
 */
export type Premise =
  | {
      readonly kind: 'cell'
      readonly cell: number
      readonly digits: readonly number[]
    }
  | {
      readonly kind: 'house'
      readonly house: number
      readonly digit: number
      readonly cells: readonly number[]
    }

/**
 * A claim (placements, removals) plus its premises. Plain data: it can be saved as JSON and checked later, on the
 * board it was found on, by `verifyStep`, which knows no technique by name.
 */
export interface Step extends Conclusion {
  /** Name of the technique as the trade uses it: `xy-wing`. */
  readonly technique: TechniqueName
  readonly level: Level
  /** Minimal: drop one and the proof breaks. */
  readonly premises: readonly Premise[]
  /** Set when the deduction rests on the puzzle having exactly one solution; checked by a rule of its own. */
  readonly assumes?: 'one-solution'
  /** What people look at: explained in words and drawn by `explain/`, never used as proof. */
  readonly pattern: Pattern
}

/** A step together with the board it was found on: what `findSteps` returns, and what can be explained and drawn. */
export interface FoundStep extends Step {
  readonly before: Board
}

/** A step of a solving path. */
export interface PathStep extends FoundStep {
  /** Indices of earlier steps of the path whose conclusions made this step's premises true, ascending. */
  readonly restsOn: readonly number[]
}

/** One end of a link: candidates that are true together or not at all ("one of these" for groups and sets). */
export interface ChainNode {
  readonly digit: number
  /** One cell; more for a grouped link. */
  readonly cells: readonly number[]
}

/** A link of a chain. Strong: if one end is false the other is true. Weak: not both are true. */
export interface ChainLink {
  readonly from: ChainNode
  readonly to: ChainNode
  readonly kind: 'strong' | 'weak'
  /** Where the link holds: a house, a cell, or an almost locked set of these cells. */
  readonly by:
    | { readonly kind: 'cell'; readonly cell: number }
    | { readonly kind: 'house'; readonly house: number }
    | { readonly kind: 'set'; readonly cells: readonly number[] }
    | { readonly kind: 'premises' }
  /**
   * Of a strong link: candidates of its cell, house or set that would spoil it. Every candidate to be removed rules
   * them out, so that the link holds together with it.
   */
  readonly fins?: readonly Candidate[]
}

/** An almost locked set, or any group of cells with its digits. */
export interface CellGroup {
  readonly cells: readonly number[]
  readonly digits: readonly number[]
}

/** Candidates of different cells that cannot all be true. */
export interface Excluded {
  readonly candidates: readonly Candidate[]
  /** The cells that would be left with too few digits; none where the candidates see each other. */
  readonly by: readonly number[]
}

/**
 * The shape a person sees. Techniques share shapes, so a new technique rarely needs a new one; `explain/` has words and
 * a drawing for each shape and a fallback built from the premises alone.
 */
export type Pattern =
  /**
   * The last open cell of a house (`full-house`), the only candidate of a cell (`cell`), or the only place (`house`).
   */
  | {
      readonly shape: 'single'
      readonly cell: number
      readonly digit: number
      readonly house?: number
    }
  /** A digit confined, within `from`, to cells of `to`. */
  | {
      readonly shape: 'locked'
      readonly digit: number
      readonly from: number
      readonly to: number
      readonly cells: readonly number[]
    }
  /** n cells and n digits of one house that belong together; hidden when the digits, not the cells, are confined. */
  | {
      readonly shape: 'subset'
      readonly hidden: boolean
      readonly house: number
      readonly cells: readonly number[]
      readonly digits: readonly number[]
    }
  /** Base houses whose places for the digit lie in the cover houses, but for the fins. */
  | {
      readonly shape: 'fish'
      readonly digit: number
      readonly base: readonly number[]
      readonly cover: readonly number[]
      readonly cells: readonly number[]
      readonly fins: readonly number[]
    }
  /** A pivot with its pincers; `digit` is what the pincers share. */
  | {
      readonly shape: 'wing'
      readonly pivot: number
      readonly pincers: readonly number[]
      readonly digit: number
    }
  /** Alternating links from the first to the last; a loop when the last meets the first. */
  | {
      readonly shape: 'chain'
      readonly links: readonly ChainLink[]
      readonly loop: boolean
    }
  /** Candidates in two opposite colours: all of one or all of the other are true. */
  | {
      readonly shape: 'colouring'
      /** Clusters of a digit (or several): the two colours of each. */
      readonly clusters: readonly {
        readonly one: readonly Candidate[]
        readonly other: readonly Candidate[]
      }[]
      readonly links: readonly ChainLink[]
    }
  /** Groups of cells (almost locked sets) joined by shared digits. */
  | {
      readonly shape: 'sets'
      readonly sets: readonly CellGroup[]
      /** Digits that can be in only one of two sets. */
      readonly joins: readonly {
        readonly digit: number
        readonly between: readonly [number, number]
      }[]
      readonly stem?: number
    }
  /**
   * Cells whose digits could be exchanged for a second solution (rectangles, loops), and the extras that prevent it.
   */
  | {
      readonly shape: 'exchange'
      readonly cells: readonly number[]
      readonly digits: readonly number[]
      readonly extras: readonly Candidate[]
      readonly links: readonly ChainLink[]
    }
  /** Two or three cells, and every way to fill them that a removed candidate would need, each of them impossible. */
  | {
      readonly shape: 'exclusion'
      readonly cells: readonly number[]
      readonly excluded: readonly Excluded[]
    }
  /** Two base cells whose two digits are those of two target cells, as `lines` have no room for them otherwise. */
  | {
      readonly shape: 'exocet'
      readonly base: readonly number[]
      readonly targets: readonly number[]
      /** The digits that the base may have. */
      readonly digits: readonly number[]
      readonly lines: readonly number[]
    }
  /** Cells with as many digits to share, counted once in each of these houses, as there are cells. */
  | {
      readonly shape: 'sectors'
      readonly cells: readonly number[]
      readonly houses: readonly {
        readonly house: number
        readonly digits: readonly number[]
      }[]
    }
  /** Nothing to see but the premises. */
  | { readonly shape: 'premises' }
  /** Every alternative of one premise (or one candidate on and off) followed to the same end; the tree is the proof. */
  | { readonly shape: 'cases'; readonly tree: CaseTree }

/** One candidate taken to be true, to see it fail: a split with that one branch. */
export interface Supposition {
  readonly kind: 'suppose'
  readonly cell: number
  readonly digit: number
}

/**
 * Proof by cases: try each alternative of the split, but for those that the cases around it have ruled out; in each,
 * singles follow until the claim or a contradiction is reached.
 */
export interface CaseTree {
  readonly split: Premise | Supposition
  readonly branches: readonly {
    readonly assume: Candidate
    /** Singles that follow, in order, each from the premise that forces it. */
    readonly follows: readonly {
      readonly candidate: Candidate
      readonly premise: Premise
    }[]
    readonly end:
      | { readonly kind: 'contradiction'; readonly premise: Premise }
      | { readonly kind: 'claim' }
      | { readonly kind: 'split'; readonly tree: CaseTree }
  }[]
}
