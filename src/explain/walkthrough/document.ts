import type { Board, Candidate } from '../../grid/board.js'
import type { FoundStep } from '../../logic/steps/step.js'

/** A walkthrough before it is HTML or Markdown: plain text and boards, nothing escaped yet. */
export type Block =
  | {
      readonly kind: 'heading'
      readonly depth: 1 | 2 | 3
      readonly text: string
      /** Anchor for `see step 12`. */
      readonly anchor?: string
    }
  | { readonly kind: 'text'; readonly text: string; readonly tone?: 'lead' | 'small' | 'notation' }
  | { readonly kind: 'list'; readonly items: readonly string[]; readonly tone?: 'small' | 'singles' }
  | {
      readonly kind: 'table'
      readonly head: readonly string[]
      readonly rows: readonly (readonly string[])[]
    }
  | {
      readonly kind: 'board'
      readonly board: Board
      readonly step?: FoundStep
      /** Digits to be seen as new. */
      readonly placed?: readonly Candidate[]
      readonly marks: 'all' | 'none'
    }
  /** What is shown and what is said at one point of a talk; `picture` is SVG. */
  | {
      readonly kind: 'cue'
      readonly number: number
      readonly show: string
      readonly say: readonly string[]
      readonly picture?: string
    }
  /** How a step is found and why it works, picture by picture. Text alone has no use for them. */
  | { readonly kind: 'frames'; readonly step: FoundStep }
  /** What a reader opens who wants it; on paper it is open, or only where it was opened before. */
  | {
      readonly kind: 'fold'
      readonly summary: string
      readonly onPaper: boolean
      readonly blocks: readonly Block[]
    }
  /** Sections next to each other, as many as there is room for. */
  | { readonly kind: 'row'; readonly blocks: readonly Block[] }
  /** Text and picture that belong side by side and on one page. */
  | {
      readonly kind: 'section'
      readonly tone: 'front' | 'singles' | 'pattern' | 'key' | 'end' | 'plain'
      readonly blocks: readonly Block[]
    }

export interface WalkthroughDocument {
  readonly title: string
  readonly language: string
  readonly blocks: readonly Block[]
}
