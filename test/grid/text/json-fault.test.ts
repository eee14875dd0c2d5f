import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { jsonFault } from '../../../src/grid/text/json-fault.js'
import { SEED } from '../arbitraries.js'

describe('jsonFault', () => {
  it.each([
    ['', 0, 'the rest'],
    ['[1,2', 4, 'the rest'],
    ['[1,,2]', 3, 'a value'],
    ['[1,]', 3, 'a value'],
    ['[,1]', 1, 'a value'],
    ['[1 2]', 3, 'a comma or ]'],
    ['[[1],\n[2]\n[3]]', 10, 'a comma or ]'],
    ['[1}', 2, 'a comma or ]'],
    ['{"a":1]', 6, 'a comma or }'],
    ['{"a" 1}', 5, 'a name in quotes and a colon'],
    ['{a:1}', 1, 'a name in quotes and a colon'],
    ['{"a":1,}', 7, 'a name in quotes and a colon'],
    ['{"a"', 4, 'the rest'],
    ['{"a":', 5, 'the rest'],
    ['[1] x', 4, 'nothing after it'],
    ['[01]', 1, 'a value'],
    ['[1.]', 1, 'a value'],
    ['["a\nb"]', 1, 'a value'],
    ['[NaN]', 1, 'a value'],
  ])('finds the place in %j', (text, at, expected) => {
    expect(jsonFault(text)).toEqual({ at, expected })
  })

  it('agrees with JSON.parse on what is JSON', () => {
    const piece = fc.constantFrom(
      ...['[', ']', '{', '}', ',', ':', '"a"', '"', '1', '-0.5e3', '01', 'true', 'null', 'x', ' ', '\n'],
    )
    const damaged = fc.tuple(fc.json(), fc.nat(), piece).map(([text, at, other]) => {
      const from = at % (text.length + 1)
      return text.slice(0, from) + other + text.slice(from + 1)
    })
    fc.assert(
      fc.property(
        fc.oneof(
          fc.json(),
          damaged,
          fc.array(piece).map((pieces) => pieces.join('')),
        ),
        (text) => {
          let isJson = true
          try {
            JSON.parse(text)
          } catch {
            isJson = false
          }
          expect(jsonFault(text) === undefined).toBe(isJson)
        },
      ),
      { seed: SEED, numRuns: 3000 },
    )
  })
})
