import fc from 'fast-check'

const JUNK: readonly unknown[] = [
  null,
  true,
  -1,
  0.5,
  17,
  1e9,
  '',
  'x',
  'cell',
  [],
  {},
  [[]],
  { kind: 'cell' },
]

/** Plain data with one thing changed anywhere in it: a part replaced, left out, put in or repeated. */
export function changed(data: unknown): fc.Arbitrary<unknown> {
  return fc
    .tuple(fc.nat(), fc.constantFrom('replace', 'remove', 'add', 'repeat'), fc.constantFrom(...JUNK))
    .map(([seed, how, junk]) => {
      const copy = structuredClone(data)
      const places = placesIn(copy)
      const { owner, key } = places[seed % places.length]!
      if (how === 'replace') owner[key as never] = junk as never
      else if (Array.isArray(owner)) {
        if (how === 'remove') owner.splice(Number(key), 1)
        else owner.push(how === 'add' ? junk : owner[Number(key)])
      } else if (how === 'remove') delete owner[key as never]
      else owner[`${key}2` as never] = junk as never
      return copy
    })
}

type Owner = unknown[] | Record<string, unknown>

function placesIn(data: unknown): { readonly owner: Owner; readonly key: string }[] {
  if (typeof data !== 'object' || data === null) return []
  return Object.entries(data).flatMap(([key, part]) => [{ owner: data as Owner, key }, ...placesIn(part)])
}
