import type { Block, Role } from './block.js'
import type { TextLine } from './lines.js'
import { NO_NOTES, type Notes } from './notes.js'
import { LONGEST_ROW, profileOf } from './profile.js'

/** A block of rows with what was said above it. */
export type Part = Omit<Extract<Block, { kind: 'rows' }>, 'kind'> & {
  readonly lines: readonly TextLine[]
  readonly notes: Notes
  /** Drawn lines parted it from others of its block. */
  readonly isPiece?: true | undefined
  /** A drawn line of its block stands right above it, no longer than the rows: bands of one grid are parted so. */
  readonly isBelowDrawn?: boolean | undefined
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

/** Parts of equal width, when every one of them is whole: grids of several orders without a break. */
export function byWidth(part: Part): Part[] | undefined {
  const { lines, roles, cut, notes } = part
  const parts: Part[] = []
  let from = 0
  let width = 0
  for (let i = 0; i <= lines.length; i++) {
    const here = i === lines.length ? -1 : roles[i] === 'drawn' ? width : profileOf(lines[i]!).widths[cut]
    if (here === width) continue
    if (i > 0) {
      const own = roles.slice(from, i).map((role): Role => (role === 'drawn' ? role : 'row'))
      const rows = own.filter((role) => role === 'row').length
      if (width < 4 || width > LONGEST_ROW || rows % width !== 0) return undefined
      parts.push({
        cut,
        width,
        rows,
        lines: lines.slice(from, i),
        roles: own,
        notes: from === 0 ? notes : NO_NOTES,
      })
    }
    from = i
    width = here
  }
  return parts.length > 1 ? parts : undefined
}
