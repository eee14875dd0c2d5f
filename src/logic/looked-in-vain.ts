import type { Facts } from './facts.js'

/**
 * Where a technique looked in vain. Along a path candidates only go. So where every premise of a step would have to come
 * from certain cells, houses or digits, and none of these has changed since, looking again would be in vain again.
 *
 * A place is any number the technique chooses; its stamp is the greatest of what the premises come from (`Stamps`).
 */
export class LookedInVain {
  private readonly stamps: number[] = []

  at(place: number, stamp: number): boolean {
    return this.stamps[place] === stamp
  }

  note(place: number, stamp: number): void {
    this.stamps[place] = stamp
  }
}

/** The stamp of all that a cell sees. */
export function stampAround({ board, stamps }: Facts, cell: number): number {
  const houses = board.geometry.housesOf[cell]!
  let greatest = 0
  for (let i = 0; i < houses.length; i++) greatest = Math.max(greatest, stamps.ofHouse[houses[i]!]!)
  return greatest
}
