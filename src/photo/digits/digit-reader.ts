/**
 * One cell as a digit reader sees it: the cell's square cut out along the lattice with a margin of
 * `CELL_MARGIN` of its side on every side (so rules are visible at the border), `CELL_SIZE` pixels square,
 * grey 0..255, paper about 255 and ink about 0 after local contrast has been evened out.
 */
export const CELL_SIZE = 40
export const CELL_MARGIN = 0.1

/** Larger digits are printed as numbers of two figures, or as letters. */
export const LARGEST_FIGURE = 9

/** The picture of one cell. */
export interface CellPicture {
  readonly data: Uint8Array
}

/** What a reader makes of one cell. */
export interface CellScores {
  /**
   * Probabilities that the cell shows no full figure (index 0) or the digit d (index d), whoever put it there; they sum
   * to 1.
   */
  readonly digits: Float32Array
  /** 0..1: how likely ink in this cell is handwriting or small pencil marks; 0 from a reader that cannot tell. */
  readonly handwritten: number
}

/** What a digit reader is handed besides the cells. */
export interface ReadCellsOptions {
  readonly signal?: AbortSignal
}

/** A digit reader: the one thing a new way of reading digits has to be. */
export interface DigitReader {
  readonly name: string
  /** Scores for each cell, in order. Loads what it needs on first use. */
  read(cells: readonly CellPicture[], options?: ReadCellsOptions): Promise<CellScores[]>
  /** The same, taking more time over each cell for a better answer: asked for doubtful cells, if the reader has it. */
  readClosely?(cells: readonly CellPicture[], options?: ReadCellsOptions): Promise<CellScores[]>
  /** Lets go of what the reader holds. */
  close(): Promise<void>
}
