import type { Candidate } from '../../grid/board.js'
import type { CellGroup, ChainLink, ChainNode, Premise } from '../../logic/steps/step.js'
import type { Forced } from './consequence.js'
import type { ColourOf, Reason } from './reason.js'

/**
 * What there is to say about a step, as data: one fact, one sentence or two. Facts know cells, digits and houses; the
 * wording tables turn them into a language.
 */
export type Fact =
  | SingleFact
  | LineFact
  | WingFact
  | ChainFact
  | ColourFact
  | SetFact
  | ExchangeFact
  | DenialFact
  | CountFact
  | { readonly kind: 'premise'; readonly premise: Premise }
  /** What the argument is about, where that is far ahead. */
  | { readonly kind: 'watch'; readonly candidates: readonly Candidate[] }
  /** For steps that are no proof: their premises are all that can be said. */
  | { readonly kind: 'cannot-all-hold' }
  | {
      /** What follows, for one reason. */
      readonly kind: 'conclusion'
      readonly effect: 'placed' | 'removed'
      readonly candidates: readonly Candidate[]
      readonly reason: Reason
    }

/** About a digit that has one place, or a cell that has one digit. */
export type SingleFact =
  | { readonly kind: 'last-cell'; readonly house: number; readonly cell: number; readonly digit: number }
  | {
      readonly kind: 'only-candidate'
      readonly cell: number
      readonly digit: number
      /** Placed digits the cell sees, by the house in which it sees them. */
      readonly seen: readonly { readonly house: number; readonly digits: readonly number[] }[]
      /** Digits the cell does not see and that earlier steps removed. */
      readonly struck: readonly number[]
    }
  | {
      readonly kind: 'only-place'
      readonly house: number
      readonly cell: number
      readonly digit: number
      /** Cells where the digit stands and blocks the house's other open cells. */
      readonly blockers: readonly number[]
      /** Open cells of the house from which earlier steps removed the digit. */
      readonly struck: readonly number[]
    }

/** Locked candidates, subsets, fish. */
export type LineFact =
  | {
      readonly kind: 'confined'
      readonly digit: number
      readonly house: number
      readonly cells: readonly number[]
      readonly into: number
    }
  | {
      readonly kind: 'naked-subset' | 'hidden-subset'
      readonly house: number
      readonly cells: readonly number[]
      readonly digits: readonly number[]
    }
  | {
      readonly kind: 'fish'
      readonly digit: number
      readonly base: readonly number[]
      readonly cover: readonly number[]
      readonly fins: readonly number[]
      /** Parallel lines on either side, so that each base line takes a cover line of its own. */
      readonly plain: boolean
      /** Where the base houses have the digit, but for the fins. */
      readonly places: readonly number[]
      /** Places that two or more of the base houses share. */
      readonly shared: readonly number[]
    }

/** About a wing: its pivot, its pincers, and the digit they share. */
export type WingFact =
  | { readonly kind: 'pivot'; readonly cell: number; readonly digits: readonly number[] }
  | {
      readonly kind: 'pincer'
      readonly pivot: number
      readonly cell: number
      /** Digits of the pincer that the pivot can take from it. */
      readonly when: readonly number[]
      readonly gives: number
      /** Where pivot and pincer meet. */
      readonly house: number | undefined
    }
  /** The pivot may have the wing's digit itself. */
  | { readonly kind: 'pivot-itself'; readonly pivot: number; readonly digit: number }
  | {
      /** As many cells as digits, where each digit of `once` fits one cell at most, so that the last is there too. */
      readonly kind: 'wing-count'
      readonly cells: readonly number[]
      readonly digits: readonly number[]
      readonly once: readonly number[]
      readonly digit: number
    }
  /** Cells with the same two candidates. */
  | { readonly kind: 'alike'; readonly cells: readonly number[]; readonly digits: readonly number[] }
  | {
      /** Wherever the house has its digit, one of the cells loses it and takes the other. */
      readonly kind: 'bridge'
      readonly house: number
      readonly digit: number
      readonly gives: number
      readonly ways: readonly {
        readonly places: readonly number[]
        readonly cell: number
        readonly house: number | undefined
      }[]
    }
  /** Cells with the same two candidates, each in a house with the next: the two digits take turns. */
  | {
      readonly kind: 'take-turns'
      readonly cells: readonly number[]
      readonly digits: readonly number[]
      readonly houses: readonly number[]
    }

/** What makes a candidate true: its cell, its house, or an almost locked set of these cells and digits. */
export type Maker =
  | { readonly kind: 'cell'; readonly cell: number }
  | { readonly kind: 'house'; readonly house: number }
  | {
      readonly kind: 'set'
      readonly cells: readonly number[]
      readonly digits: readonly number[]
      /** What the set is left with, as many digits as cells. */
      readonly left: readonly number[] | undefined
    }
  | { readonly kind: 'premises' }

/** A candidate that comes out true, and by what. */
export interface Made {
  readonly node: ChainNode
  readonly by: Maker
  /** What would spoil it, and is ruled out by what was supposed. */
  readonly fins: readonly Candidate[]
}

/** About the links of a chain. */
export type ChainFact =
  /** Two houses with two parts each for a digit; one part of each lies in the joint house. */
  | {
      readonly kind: 'joined'
      readonly digit: number
      readonly pairs: readonly {
        readonly house: number
        readonly far: readonly number[]
        readonly near: readonly number[]
      }[]
      readonly joint: number
    }
  /** The supposition of a chain: candidates to be removed, of which one is taken to be true. */
  | { readonly kind: 'chain-given'; readonly given: readonly Candidate[] }
  | {
      readonly kind: 'chain-start'
      readonly node: ChainNode
      readonly value: boolean
      /** Ruled out by what was supposed, rather than supposed itself. */
      readonly follows: boolean
      readonly made: Made | undefined
    }
  | {
      readonly kind: 'chain-move'
      readonly off: ChainNode
      /** Where it is ruled out by what came before. */
      readonly by: ChainLink['by']
      readonly made: Made | undefined
    }
  | { readonly kind: 'loop'; readonly by: ChainLink['by']; readonly digit: number }

/** About candidates in two colours, of which one is true. */
export type ColourFact =
  | {
      readonly kind: 'cluster'
      readonly digit: number | undefined
      /** Position among the step's clusters, from 0. */
      readonly index: number
      readonly one: readonly Candidate[]
      readonly other: readonly Candidate[]
      /** The houses of its strong links. */
      readonly houses: readonly number[]
    }
  /** Candidates of two clusters exclude each other, so not both their colours are true. */
  | {
      readonly kind: 'colour-bridge'
      readonly near: ColourOf
      readonly far: ColourOf
      readonly pair: readonly [Candidate, Candidate]
    }
  /** A colour excludes candidates of both colours of another cluster, so it is not the true one. */
  | {
      readonly kind: 'colour-outseen'
      readonly index: number
      readonly colour: 'one' | 'other'
      readonly by: number
    }
  | {
      readonly kind: 'colour-clash'
      readonly index: number
      readonly colour: 'one' | 'other'
      readonly pair: readonly [Candidate, Candidate]
      readonly house: number | undefined
    }

/** About sets of cells with as many digits, or one more. */
export type SetFact =
  /** Almost locked sets, each of which can spare one digit only. */
  | { readonly kind: 'sets'; readonly sets: readonly CellGroup[] }
  /** A set that lacks a digit needs its others: supposed of the first, and due to the set before it of the next. */
  | {
      readonly kind: 'set-needs'
      readonly index: number
      readonly lacks: number
      readonly from: number | undefined
      readonly needs: number
    }
  /** Each of these digits is in one of its two sets at most, so that every set lacks exactly one. */
  | {
      readonly kind: 'set-ring'
      readonly joins: readonly { readonly digit: number; readonly between: readonly [number, number] }[]
    }
  /** Cells where two houses cross and some of the rest of either, with as many digits to hold as they are. */
  | {
      readonly kind: 'crossing-count'
      readonly crossing: readonly number[]
      readonly sides: readonly { readonly cells: readonly number[]; readonly house: number }[]
      readonly once: readonly number[]
      readonly twice: readonly number[]
    }
  | { readonly kind: 'stem'; readonly cell: number; readonly digits: readonly number[] }
  /** With this digit in the stem, the set loses it and needs its others. */
  | {
      readonly kind: 'petal'
      readonly stem: number
      readonly digit: number
      readonly index: number
      readonly set: CellGroup
      readonly keeps: readonly number[]
    }

/** Patterns that would have a second solution. */
export type ExchangeFact =
  | {
      readonly kind: 'exchange'
      readonly cells: readonly number[]
      readonly digits: readonly number[]
      /**
       * `same`: all cells share the digits; `own`: each has two of its own; `placed`: some are filled already; `board`:
       * every open cell.
       */
      readonly manner: 'same' | 'own' | 'placed' | 'board'
      readonly extras: readonly Candidate[]
    }
  | { readonly kind: 'extras'; readonly extras: readonly Candidate[] }
  /** Cells with extras act as one cell, which makes a naked subset with others. */
  | {
      readonly kind: 'extras-subset'
      readonly house: number
      readonly extras: readonly Candidate[]
      readonly others: readonly number[]
      readonly digits: readonly number[]
    }
  | { readonly kind: 'assumes-one-solution' }

/** Cells that have fewer digits left than they are, and all that they have had between them. */
export interface Starved extends CellGroup {
  /** They have come up before. */
  readonly isNamed: boolean
}

/** A conclusion denied, and what becomes of it. */
export type DenialFact =
  /** One of these is supposed to be true. */
  | { readonly kind: 'suppose'; readonly candidates: readonly Candidate[] }
  | { readonly kind: 'suppose-not'; readonly candidate: Candidate }
  /** What follows from the supposition, one after the other, and what has nothing left at last. */
  | {
      readonly kind: 'follows'
      readonly forced: readonly Forced[]
      readonly end: Premise | 'exchange'
    }
  | {
      /** What the supposition takes from cells: by sight, or because other cells would have too few digits left. */
      readonly kind: 'takes'
      readonly ways: readonly { readonly out: readonly Candidate[]; readonly by: Starved | undefined }[]
    }
  /** What is left of two cells goes together in no way. */
  | {
      readonly kind: 'pairs-fail'
      readonly ways: readonly {
        readonly pairs: readonly (readonly [Candidate, Candidate])[]
        readonly by: Starved | undefined
      }[]
    }
  /** Cells that have too few digits left. */
  | { readonly kind: 'starved'; readonly cells: readonly number[]; readonly left: readonly number[] }
  | {
      readonly kind: 'split'
      readonly premise: Premise
      /** Alternatives that the cases around have not ruled out. */
      readonly left: readonly Candidate[]
      readonly path: readonly number[]
    }
  | {
      readonly kind: 'branch'
      /** Which case of which split, from 1: `[2, 1]` is the first case within the second. */
      readonly path: readonly number[]
      /** The only case of its split: a candidate supposed true to see it fail. */
      readonly supposed: boolean
      readonly assume: Candidate
      readonly follows: readonly Forced[]
      readonly end:
        | 'split'
        /** The case leads to the conclusion: these of its candidates rule out what is to be removed. */
        | { readonly by: readonly Candidate[]; readonly removed: readonly Candidate[] }
        /** A premise with nothing left, or cells left with nothing but digits that can be exchanged. */
        | { readonly contradiction: Premise | 'exchange' }
        /** From here on it is word for word as in an earlier case. */
        | { readonly like: readonly number[] }
    }

/** Arguments that count. */
export type CountFact =
  | { readonly kind: 'exocet-base'; readonly base: readonly number[]; readonly digits: readonly number[] }
  /** Digits of the base in no target would have to stand in each of the lines, and have too few lines across there. */
  | {
      readonly kind: 'exocet-lines'
      readonly digits: readonly number[]
      readonly targets: readonly number[]
      readonly lines: readonly number[]
      readonly across: readonly number[]
      /** Another one of these has been named before. */
      readonly further: boolean
    }
  | { readonly kind: 'exocet-targets'; readonly base: readonly number[]; readonly targets: readonly number[] }
  /** In these houses the cells have as many digits, each counted once a house, as they are. */
  | {
      readonly kind: 'sector-count'
      readonly cells: readonly number[]
      readonly houses: readonly { readonly house: number; readonly digits: readonly number[] }[]
    }
