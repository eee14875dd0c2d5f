/** The middle value; of an even count the upper of the two. */
export function median(values: readonly number[]): number {
  return [...values].sort((a, b) => a - b)[values.length >> 1]!
}
