import type { Candidate } from '../../grid/board.js'
import type { ChainNode, Premise } from '../../logic/steps/step.js'
import type { Forced, Refutation } from './consequence.js'

/** A colour of a cluster, named by the cluster's position among the step's clusters. */
export interface ColourOf {
  readonly index: number
  readonly colour: 'one' | 'other'
}

/** One conclusion of a step with its own reason. */
export interface Why {
  readonly effect: 'placed' | 'removed'
  readonly cell: number
  readonly digit: number
  readonly reason: Reason
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
  /** Cover houses of a fish get their digit from the base, unless a fin is true, which the cell sees. */
  | {
      readonly kind: 'covered'
      readonly digit: number
      readonly covers: readonly number[]
      readonly base: readonly number[]
      readonly fins: readonly number[]
      /** As in the fact of the fish. */
      readonly plain: boolean
    }
  /** One of these is true, and none of them leaves room for the candidate. */
  | { readonly kind: 'excluded-by-each'; readonly nodes: readonly ChainNode[] }
  /** The ends of a row of cells differ, and both digits are used there. */
  | { readonly kind: 'ends-differ'; readonly cells: readonly number[]; readonly digits: readonly number[] }
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
  /** The cells keep this digit whatever happens, at these places. */
  | { readonly kind: 'set-keeps'; readonly cells: readonly number[]; readonly digit: number }
  /** Denying the conclusion forces these, and then nothing keeps the pattern from being exchanged. */
  | { readonly kind: 'leaves-exchange'; readonly forced: readonly Forced[] }
  /** Denying the conclusion forces these, one after the other, until the last premise has nothing left. */
  | { readonly kind: 'leads-nowhere'; readonly forced: readonly Forced[]; readonly end: Premise }
  /** Denying the conclusion, each alternative of a premise fails. */
  | { readonly kind: 'every-way-fails'; readonly refutation: Refutation }
  /** Whatever the stem takes, one of these places has the digit. */
  | { readonly kind: 'kept-by-some-set'; readonly digit: number; readonly cells: readonly number[] }
  /** Supposed true, it leaves these cells too few digits. */
  | { readonly kind: 'starves'; readonly cells: readonly number[] }
  /** These cells and the cell's own pair take the same digits, and these cannot take this one. */
  | { readonly kind: 'not-in-pair'; readonly cells: readonly number[]; readonly digit: number }
  /** These houses have the digits among the cells that were counted. */
  | { readonly kind: 'used-in-houses'; readonly houses: readonly number[] }
  /** The one extra that is left. */
  | { readonly kind: 'only-extra' }
  /** Each of so many cases leads to the conclusion, or else some of them fail. */
  | { readonly kind: 'in-every-case'; readonly cases: number; readonly someFail: boolean }
  /** The supposition of the opposite fails. */
  | { readonly kind: 'supposition-fails' }
  /** Of a step that is no proof: denying the conclusion leaves a way out, or nothing follows that can be said. */
  | { readonly kind: 'premises-fail' }
  /** The facts already say it: a single. */
  | { readonly kind: 'only-choice' }

type ByDenial = Extract<Reason, { kind: 'leads-nowhere' | 'leaves-exchange' }>

/**
 * Does more follow from a denial than one sentence with its conclusion can hold? That then comes in a sentence before.
 */
export function isLongDenial(reason: Reason): reason is ByDenial {
  return (reason.kind === 'leads-nowhere' || reason.kind === 'leaves-exchange') && reason.forced.length > 1
}
