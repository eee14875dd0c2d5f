import type { Candidate } from '../../grid/board.js'

/** Candidates named together: digits that stand in the same cells, with these cells. */
export function gathered(candidates: readonly Candidate[]): { digits: number[]; cells: number[] }[] {
  const cellsOf = new Map<number, number[]>()
  for (const { cell, digit } of candidates) {
    const cells = cellsOf.get(digit)
    if (cells) cells.push(cell)
    else cellsOf.set(digit, [cell])
  }
  const groups = new Map<string, { digits: number[]; cells: number[] }>()
  for (const [digit, cells] of cellsOf) {
    const own = [...cells].sort((a, b) => a - b)
    const group = groups.get(own.join())
    if (group) group.digits.push(digit)
    else groups.set(own.join(), { digits: [digit], cells: own })
  }
  return [...groups.values()]
}

/** Houses that have the same digits, named together. */
export function alikeHouses(
  houses: readonly { readonly house: number; readonly digits: readonly number[] }[],
): { houses: number[]; digits: readonly number[] }[] {
  const groups = new Map<string, { houses: number[]; digits: readonly number[] }>()
  for (const { house, digits } of houses) {
    const group = groups.get(digits.join())
    if (group) group.houses.push(house)
    else groups.set(digits.join(), { houses: [house], digits })
  }
  return [...groups.values()]
}

/** Pairs of digits in two cells, as blocks: any of these in the first goes with any of those in the second. */
export function pairBlocks(
  pairs: readonly (readonly [Candidate, Candidate])[],
): (readonly [Candidate[], Candidate[]])[] {
  const seconds = new Map<number, Candidate[]>()
  for (const [{ digit }, second] of pairs) seconds.set(digit, [...(seconds.get(digit) ?? []), second])
  const blocks = new Map<string, readonly [Candidate[], Candidate[]]>()
  for (const [digit, own] of seconds) {
    const first = pairs.find(([one]) => one.digit === digit)![0]
    const key = own.map((second) => second.digit).join()
    const block = blocks.get(key)
    if (block) block[0].push(first)
    else blocks.set(key, [[first], own])
  }
  return [...blocks.values()]
}
