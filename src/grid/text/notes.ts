import type { SaidGeometry } from './geometry-line.js'
import type { SheetOptions } from './read-sheet.js'

/** What was said above a grid. */
export interface Notes {
  readonly title: string | undefined
  readonly comments: readonly string[]
  readonly geometry: SaidGeometry | undefined
}

export const NO_NOTES: Notes = { title: undefined, comments: [], geometry: undefined }

/** The order of the grids that the caller or a line above says, 0 where neither does. */
export function orderSaid({ geometry }: Notes, options: SheetOptions): number {
  return options.geometry?.order ?? geometry?.geometry?.order ?? 0
}

/** Comments beyond these above one grid are dropped, so that a file of comments cannot fill the memory. */
const MOST_COMMENTS = 100
const LONGEST_COMMENT = 1000

/** Collects what is said until the next grid begins. */
export class NoteBook {
  private title: string | undefined
  private comments: string[] = []
  geometry: SaidGeometry | undefined

  addComment(comment: string): void {
    if (this.comments.length < MOST_COMMENTS) this.comments.push(comment.slice(0, LONGEST_COMMENT))
  }

  addTitle(title: string): void {
    if (this.title !== undefined) this.addComment(this.title)
    this.title = title.slice(0, LONGEST_COMMENT)
  }

  /** Notes that turned out to stand above no grid. */
  giveBack({ title, comments, geometry }: Notes): void {
    this.title = title
    this.comments = [...comments]
    this.geometry = geometry
  }

  get said(): Notes {
    return { title: this.title, comments: [...this.comments], geometry: this.geometry }
  }

  take(): Notes {
    const { said } = this
    this.giveBack(NO_NOTES)
    return said
  }
}
