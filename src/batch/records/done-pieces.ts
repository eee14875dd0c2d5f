import type { RecordPlace } from './grade-record.js'

/** Pieces that are done already, four bytes each: what each was is kept as a fingerprint. */
export class DonePieces {
  /** piece -> fingerprint; 0 for one that is not done */
  private prints = new Uint32Array(1024)
  /** Number of the last piece that is done. */
  last = 0

  add(place: Pick<RecordPlace, 'piece' | 'path' | 'line'>): void {
    const { piece } = place
    if (piece >= this.prints.length) {
      const larger = new Uint32Array(Math.max(piece + 1, 2 * this.prints.length))
      larger.set(this.prints)
      this.prints = larger
    }
    this.prints[piece] = printOf(place)
    this.last = Math.max(this.last, piece)
  }

  remove(piece: number): void {
    if (piece < this.prints.length) this.prints[piece] = 0
    while (this.last > 0 && !this.prints[this.last]) this.last--
  }

  has(piece: number): boolean {
    return (this.prints[piece] ?? 0) !== 0
  }

  /** Is a piece that is done the same as this one? */
  isSame(place: Pick<RecordPlace, 'piece' | 'path' | 'line'>): boolean {
    return this.prints[place.piece] === printOf(place)
  }
}

/** 32 bits of where a piece stands (FNV-1a); never 0. */
function printOf({ path, line }: Pick<RecordPlace, 'path' | 'line'>): number {
  let print = 0x811c9dc5
  const text = `${line ?? ''}:${path}`
  for (let i = 0; i < text.length; i++) print = Math.imul(print ^ text.charCodeAt(i), 0x01000193)
  return (print | 1) >>> 0
}
