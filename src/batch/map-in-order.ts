/**
 * Runs an asynchronous function over a source, `width` at a time, and yields the results in the order of the source.
 * Reads ahead no further than that, so neither an endless source nor a slow reader fills the memory.
 */
export async function* mapInOrder<T, R>(
  source: AsyncIterable<T> | Iterable<T>,
  width: number,
  run: (item: T) => Promise<R>,
): AsyncGenerator<R> {
  const pending: Promise<R>[] = []
  for await (const item of source) {
    const result = run(item)
    // Whoever awaits it below hears of a rejection; until then it must not count as unhandled.
    result.catch(() => undefined)
    pending.push(result)
    if (pending.length >= width) yield await pending.shift()!
  }
  while (pending.length > 0) yield await pending.shift()!
}
