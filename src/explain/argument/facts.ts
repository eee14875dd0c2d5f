import type { Candidate } from '../../grid/board.js'
import type { CaseTree, ChainLink, ChainNode, Premise } from '../../logic/step.js'
import type { Forced } from './consequence.js'

/**
 * What there is to say about a step, as data: one fact, one sentence. Facts know cells, digits and houses; the wording
 * tables turn them into a language.
 */
export type Fact =
  // singles
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
  // locked candidates and subsets
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
  // fish
  | {
      readonly kind: 'fish'
      readonly digit: number
      readonly base: readonly number[]
      readonly cover: readonly number[]
      readonly fins: readonly number[]
    }
  | { readonly kind: 'fish-fins'; readonly digit: number; readonly fins: readonly number[] }
  // wings
  | { readonly kind: 'pivot'; readonly cell: number; readonly digits: readonly number[] }
  | {
      readonly kind: 'pincer'
      readonly pivot: number
      readonly cell: number
      /** Digits of the pincer that the pivot can take from it. */
      readonly when: readonly number[]
      readonly gives: number
    }
  | {
      /** As many cells as digits, where each digit of `once` fits one cell at most. */
      readonly kind: 'wing-count'
      readonly cells: readonly number[]
      readonly digits: readonly number[]
      readonly once: readonly number[]
    }
  | { readonly kind: 'one-of'; readonly nodes: readonly ChainNode[] }
  // chains
  | {
      readonly kind: 'chain-walk'
      /** Some links hold only while one of these is true; empty for a chain that holds as it stands. */
      readonly given: readonly Candidate[]
      readonly start: ChainNode
      readonly startsTrue: boolean
      readonly moves: readonly {
        readonly node: ChainNode
        readonly becomes: boolean
        readonly by: ChainLink['by']
        /** What would spoil the link, and is ruled out where the link is used. */
        readonly fins: readonly Candidate[]
      }[]
    }
  | { readonly kind: 'loop' }
  /** Each of the candidates that the chain was given rules out its end. */
  | { readonly kind: 'end-excluded'; readonly node: ChainNode; readonly given: readonly Candidate[] }
  | { readonly kind: 'self-contradiction'; readonly node: ChainNode; readonly supposed: boolean }
  // colouring
  | {
      readonly kind: 'cluster'
      readonly digit: number | undefined
      /** Position among the step's clusters, from 0. */
      readonly index: number
      readonly one: readonly Candidate[]
      readonly other: readonly Candidate[]
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
    }
  // sets
  | {
      readonly kind: 'set'
      readonly index: number
      readonly cells: readonly number[]
      readonly digits: readonly number[]
    }
  | { readonly kind: 'join'; readonly digit: number; readonly between: readonly [number, number] }
  | { readonly kind: 'stem'; readonly cell: number; readonly digits: readonly number[] }
  /** With this digit in the stem, the set loses it and keeps the other. */
  | {
      readonly kind: 'petal'
      readonly stem: number
      readonly digit: number
      readonly index: number
      readonly keeps: readonly number[]
    }
  // one-solution patterns
  | {
      readonly kind: 'exchange'
      readonly cells: readonly number[]
      readonly digits: readonly number[]
      /** Each cell has its own two of the digits, rather than all of them. */
      readonly pairwise: boolean
    }
  | { readonly kind: 'extras'; readonly extras: readonly Candidate[] }
  | { readonly kind: 'assumes-one-solution' }
  // excluded pairs and triples
  /** In none of these ways can all be true: they see each other, or the cells of `by` would have too few digits left. */
  | {
      readonly kind: 'not-together'
      readonly by: readonly number[]
      readonly ways: readonly (readonly Candidate[])[]
    }
  /** So a candidate is left that no way to fill these cells has. */
  | { readonly kind: 'goes-with-none'; readonly cells: readonly number[] }
  // exocets
  | { readonly kind: 'exocet-base'; readonly base: readonly number[]; readonly digits: readonly number[] }
  /** A digit in the base and in no target would find no room in these lines. */
  | { readonly kind: 'exocet-lines'; readonly targets: readonly number[]; readonly lines: readonly number[] }
  /** So the targets take the digits of the base. */
  | { readonly kind: 'exocet-targets'; readonly base: readonly number[]; readonly targets: readonly number[] }
  // sets over several houses
  /** In these houses the cells have as many digits, each counted once a house, as they are. */
  | {
      readonly kind: 'sector-count'
      readonly cells: readonly number[]
      readonly houses: readonly { readonly house: number; readonly digits: readonly number[] }[]
    }
  // cases
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
      readonly follows: CaseTree['branches'][number]['follows']
      readonly end: 'claim' | 'split' | { readonly contradiction: Premise }
    }
  // anything else
  | { readonly kind: 'premise'; readonly premise: Premise }
  | { readonly kind: 'cannot-all-hold' }
  // what follows
  | { readonly kind: 'placed'; readonly placements: readonly Candidate[] }
  | { readonly kind: 'removed'; readonly removals: readonly Candidate[] }

/** A colour of a cluster, named by the cluster's position among the step's clusters. */
export interface ColourOf {
  readonly index: number
  readonly colour: 'one' | 'other'
}

/** Why one candidate goes, or why one digit is placed. */
export type Reason =
  /** The house has its digit somewhere among these cells. */
  | {
      readonly kind: 'taken-elsewhere'
      readonly house: number
      readonly digit: number
      readonly cells: readonly number[]
    }
  /** The cell sees all cells of a naked subset that takes the digit. */
  | { readonly kind: 'digits-used'; readonly cells: readonly number[]; readonly digits: readonly number[] }
  /** The cell belongs to a hidden subset and takes one of its digits. */
  | { readonly kind: 'cell-reserved'; readonly cells: readonly number[]; readonly digits: readonly number[] }
  /** A cover house of a fish, outside the base, seeing every fin. */
  | {
      readonly kind: 'covered'
      readonly cover: number
      readonly base: readonly number[]
      readonly fins: readonly number[]
    }
  /** One of these is true, and none of them leaves room for the candidate. */
  | { readonly kind: 'excluded-by-each'; readonly nodes: readonly ChainNode[] }
  /** Two colours of which one is true both exclude the candidate. */
  | {
      readonly kind: 'sees-both-colours'
      readonly one: ColourOf & Candidate
      readonly other: ColourOf & Candidate
    }
  /** With the candidate a chain leads to this end, which the candidate rules out. */
  | { readonly kind: 'chain-denies'; readonly end: ChainNode }
  /** Without the candidate a chain leads to it. */
  | { readonly kind: 'chain-returns' }
  /** One of these two sets keeps the digit, and both have it in the cell alone. */
  | {
      readonly kind: 'kept-here'
      readonly digit: number
      readonly sets: readonly [readonly number[], readonly number[]]
    }
  /** The candidate has a colour that would hold twice in one house or cell. */
  | { readonly kind: 'false-colour'; readonly index: number; readonly colour: 'one' | 'other' }
  /** The set keeps this digit whatever happens. */
  | { readonly kind: 'set-keeps'; readonly cells: readonly number[]; readonly digit: number }
  /** Denying the conclusion forces these, and then nothing keeps the pattern from being exchanged. */
  | {
      readonly kind: 'leaves-exchange'
      readonly forced: readonly Forced[]
    }
  /** Denying the conclusion forces these, one after the other, until the last premise has nothing left. */
  | {
      readonly kind: 'leads-nowhere'
      readonly forced: readonly Forced[]
      readonly end: Premise
    }
  /** Whatever the stem takes, one of these sets keeps the digit. */
  | { readonly kind: 'kept-by-some-set'; readonly digit: number; readonly cells: readonly number[] }
  /** No way to fill these other cells has it. */
  | { readonly kind: 'goes-with-none'; readonly cells: readonly number[] }
  /** These cells and the cell's own pair take the same digits, and these cannot take this one. */
  | { readonly kind: 'not-in-pair'; readonly cells: readonly number[]; readonly digit: number }
  /** The house has its digit among the cells of the set. */
  | {
      readonly kind: 'used-in-house'
      readonly house: number
      readonly digit: number
      readonly cells: readonly number[]
    }
  /** Every case leads to the conclusion or fails. */
  | { readonly kind: 'in-every-case' }
  /** The supposition of the opposite fails. */
  | { readonly kind: 'supposition-fails' }
  /** Denying the conclusion leaves no way to satisfy all premises at once. */
  | { readonly kind: 'premises-fail' }
  /** The facts already say it: a single. */
  | { readonly kind: 'only-choice' }
