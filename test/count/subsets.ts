/** All ways to choose so many of these items, each in their order. */
export function* subsets<T>(items: readonly T[], size: number, from = 0): Generator<T[]> {
  if (size === 0) yield []
  else
    for (let i = from; i <= items.length - size; i++)
      for (const rest of subsets(items, size - 1, i + 1)) yield [items[i]!, ...rest]
}
