import { readFileSync } from 'node:fs'

/** A standard puzzle of a bench file, and where it stands. */
export interface PuzzleLine {
  readonly file: string
  /** From 1. */
  readonly line: number
  /** 81 numbers, 0 for an empty cell. */
  readonly givens: readonly number[]
  readonly text: string
}

/**
 * Reads files of one puzzle a line: 81 characters, `0 . _ *` for empty; other lines must be blank or start with `#`.
 */
export function readPuzzleLines(files: readonly string[]): PuzzleLine[] {
  return files.flatMap((file) =>
    readFileSync(file, 'utf8')
      .split(/\r?\n/)
      .flatMap((raw, index) => {
        const text = raw.trim()
        if (text === '' || text.startsWith('#')) return []
        const symbols = text.slice(0, 81)
        if (!/^[0-9._*]{81}$/.test(symbols)) {
          throw new Error(
            `${file}, line ${index + 1}: expected 81 digits or dots, found ${JSON.stringify(text)}`,
          )
        }
        const givens = Array.from(symbols, (symbol) => (symbol >= '1' && symbol <= '9' ? Number(symbol) : 0))
        return [{ file, line: index + 1, givens, text: symbols }]
      }),
  )
}
