import type { Block } from './block.js'
import type { TextLine } from './lines.js'
import type { Notes } from './notes.js'

/** A block of rows with what was said above it. */
export type Part = Omit<Extract<Block, { kind: 'rows' }>, 'kind'> & {
  readonly lines: readonly TextLine[]
  readonly notes: Notes
}

/** Blocks as one, as if nothing stood between them. */
export function joined(parts: readonly Part[]): Part {
  const [first] = parts
  return {
    cut: first!.cut,
    width: parts.find((part) => part.width > 0)?.width ?? 0,
    lines: parts.flatMap((part) => part.lines),
    roles: parts.flatMap((part) => part.roles),
    rows: parts.reduce((sum, part) => sum + part.rows, 0),
    notes: {
      ...first!.notes,
      comments: parts.flatMap((part) => part.notes.comments),
    },
  }
}
