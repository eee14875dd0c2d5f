/** Every way to take one item of each list, the first items first. */
export function* oneOfEach<Item>(lists: readonly (readonly Item[])[]): Generator<readonly Item[]> {
  const [first, ...rest] = lists
  if (!first) yield []
  else for (const item of first) for (const more of oneOfEach(rest)) yield [item, ...more]
}
