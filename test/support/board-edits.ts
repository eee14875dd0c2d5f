import { isNoted } from '../../src/grid/board/ask.js'
import { applyTo, eraseDigit, noteMarks, restoreCandidates } from '../../src/grid/board/edit.js'
import { newBoard } from '../../src/grid/board/make.js'
import type { Board } from '../../src/grid/board.js'
import { type DigitSet, digitBit, digitsOf } from '../../src/grid/digits.js'
import { layoutOf } from '../../src/grid/layout.js'
import type { Puzzle } from '../../src/grid/puzzle.js'

/** Something that a person does to a board. */
export type Edit =
  | { readonly kind: 'place' | 'remove' | 'restore'; readonly cell: number; readonly digit: number }
  | { readonly kind: 'erase' | 'clear'; readonly cell: number }
  | { readonly kind: 'note'; readonly cell: number; readonly marks: DigitSet }

export function edited(board: Board, edit: Edit): Board {
  switch (edit.kind) {
    case 'place':
      return applyTo(board, { placements: [edit], removals: [] })
    case 'remove':
      return applyTo(board, { placements: [], removals: [edit] })
    case 'restore':
      return restoreCandidates(board, [edit])
    case 'erase':
      return eraseDigit(board, edit.cell)
    case 'clear':
      return noteMarks(board, edit.cell, undefined)
    case 'note':
      return noteMarks(board, edit.cell, edit.marks)
  }
}

/** A board as plain lists that go by the rules of the puzzle alone: the reference for `Board`. */
export class ListedBoard {
  readonly puzzle: Puzzle
  readonly digits: number[]
  /** cell -> digits removed by hand. */
  readonly removed: Set<number>[]
  readonly noted: boolean[]

  constructor(puzzle: Puzzle) {
    this.puzzle = puzzle
    this.digits = [...puzzle.givens]
    this.removed = puzzle.givens.map(() => new Set<number>())
    this.noted = puzzle.givens.map(() => true)
  }

  edit(edit: Edit): void {
    const { cell } = edit
    const removed = this.removed[cell]!
    if (edit.kind === 'place') this.digits[cell] = edit.digit
    if (edit.kind === 'remove') removed.add(edit.digit)
    if (edit.kind === 'restore') removed.delete(edit.digit)
    if (edit.kind === 'erase') this.digits[cell] = 0
    if (edit.kind === 'clear') {
      removed.clear()
      this.noted[cell] = false
    }
    if (edit.kind === 'note') {
      this.noted[cell] = true
      for (let digit = 1; digit <= this.puzzle.geometry.order; digit++) {
        if (edit.marks & digitBit(digit)) removed.delete(digit)
        else if (!this.isSeen(cell, digit)) removed.add(digit)
      }
    }
  }

  private isSeen(cell: number, digit: number): boolean {
    return layoutOf(this.puzzle.geometry).houses.some(
      ({ cells }) =>
        cells.includes(cell) && cells.some((other) => other !== cell && this.digits[other] === digit),
    )
  }

  candidatesOf(cell: number): number[] {
    if (this.digits[cell]) return []
    return Array.from({ length: this.puzzle.geometry.order }, (_, i) => i + 1).filter(
      (digit) => !this.removed[cell]!.has(digit) && !this.isSeen(cell, digit),
    )
  }

  /** The fewest edits that lead here from a fresh board, entries last: nothing of them has ever been otherwise. */
  shortestEdits(): Edit[] {
    const edits: Edit[] = []
    for (const [cell, digits] of this.removed.entries()) {
      if (!this.noted[cell]) edits.push({ kind: 'clear', cell })
      for (const digit of digits) edits.push({ kind: 'remove', cell, digit })
    }
    for (const [cell, digit] of this.digits.entries())
      if (digit && !this.puzzle.givens[cell]) edits.push({ kind: 'place', cell, digit })
    return edits
  }
}

/** Where the board differs from the lists, or undefined. */
export function differenceFrom(listed: ListedBoard, board: Board): string | undefined {
  for (const [cell, digit] of listed.digits.entries()) {
    if (board.digits[cell] !== digit) return `cell ${cell} holds ${board.digits[cell]} instead of ${digit}`
    const [found, expected] = [digitsOf(board.candidates[cell]!), listed.candidatesOf(cell)]
    if (found.join() !== expected.join())
      return `cell ${cell} has the candidates ${found} instead of ${expected}`
    const noted = listed.noted[cell]! || listed.removed[cell]!.size > 0
    if (isNoted(board, cell) !== noted)
      return `cell ${cell} is ${noted ? 'noted' : 'blank'} and does not show it`
  }
  return undefined
}

/** All that a board holds, as text that can be compared; its geometry by its houses. */
export function boardText({ geometry, given, digits, candidates, removed, noted }: Board): string {
  const houses = layoutOf(geometry).houses.map(({ cells }) => cells)
  return JSON.stringify({ houses, given, digits, candidates, removed, noted })
}

export function boardAfter(puzzle: Puzzle, edits: readonly Edit[]): Board {
  return edits.reduce(edited, newBoard(puzzle))
}
