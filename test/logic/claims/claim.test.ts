import { describe, expect, it } from 'vitest'
import { InputError } from '../../../src/errors.js'
import { boxedGeometry, STANDARD } from '../../../src/grid/geometry.js'
import { assertOnBoard, type Claim, candidateList, claimsOf } from '../../../src/logic/claims/claim.js'

const claim = (cell: unknown, digit: unknown, kind: unknown = 'removal') => [
  { kind, candidate: { cell, digit } },
]
const check = (claims: unknown, geometry = STANDARD) => assertOnBoard(geometry, claims as readonly Claim[])

/** The error's code and message. */
function errorOf(run: () => unknown): string {
  try {
    run()
  } catch (error) {
    if (error instanceof InputError) {
      // what the message says in a sentence stands apart, too
      expect(error.message).toContain(`found ${error.found}; expected ${error.expected}.`)
      return `${error.code}: ${error.message}`
    }
    throw error
  }
  return 'none'
}

describe('claims from outside', () => {
  it('may name any cell and digit of the geometry', () => {
    for (const kind of ['placement', 'removal'])
      for (const [cell, digit] of [
        [0, 1],
        [80, 9],
      ])
        expect(errorOf(() => check(claim(cell, digit, kind)))).toBe('none')
    expect(errorOf(() => check([]))).toBe('none')
    expect(errorOf(() => check(claim(15, 4), boxedGeometry(2, 2)))).toBe('none')
  })

  it.each<[unknown, string]>([
    [undefined, 'Entries: found undefined; expected a list.'],
    ['all', 'Entries: found all; expected a list.'],
    [{ length: 0 }, 'Entries: found an object; expected a list.'],
    [null, 'Entries: found null; expected a list.'],
    [[...claim(0, 1), null], 'Entries[1].kind: found undefined; expected placement or removal.'],
    [claim(0, 1, 'guess'), 'Entries[0].kind: found guess; expected placement or removal.'],
    [[{ kind: 'removal' }], 'Entries[0].candidate.cell: found undefined; expected a cell from 0 to 80.'],
    [claim(-1, 1), 'Entries[0].candidate.cell: found -1; expected a cell from 0 to 80.'],
    [claim(81, 1), 'Entries[0].candidate.cell: found 81; expected a cell from 0 to 80.'],
    [claim(0.5, 1), 'Entries[0].candidate.cell: found 0.5; expected a cell from 0 to 80.'],
    [claim('3', 1), 'Entries[0].candidate.cell: found 3; expected a cell from 0 to 80.'],
    [claim(0, 0), 'Entries[0].candidate.digit: found 0; expected a digit from 1 to 9.'],
    [claim(0, 10), 'Entries[0].candidate.digit: found 10; expected a digit from 1 to 9.'],
    [claim(0, {}), 'Entries[0].candidate.digit: found an object; expected a digit from 1 to 9.'],
  ])('%j is refused, with the place', (claims, message) => {
    expect(errorOf(() => check(claims))).toBe(`claim-shape: ${message}`)
  })

  it('are held to the geometry in hand', () => {
    expect(errorOf(() => check(claim(16, 1), boxedGeometry(2, 2)))).toMatch(/0 to 15/)
    expect(errorOf(() => check(claim(0, 5), boxedGeometry(2, 2)))).toMatch(/1 to 4/)
  })

  it('may come as a list of candidates, or not at all', () => {
    const list = [{ cell: 1, digit: 2 }]
    expect(candidateList('placed', list)).toBe(list)
    expect(candidateList('placed', undefined)).toEqual([])
    expect(errorOf(() => candidateList('placed', 'r1c1' as never))).toBe(
      'claim-shape: Entries.placed: found r1c1; expected a list of candidates.',
    )
    expect(errorOf(() => candidateList('removed', null as never))).toMatch(/\.removed: found null/)
  })
})

it('a conclusion claims its placements, then its removals', () => {
  const [one, two, three] = [1, 2, 3].map((digit) => ({ cell: 4, digit })) as [never, never, never]
  expect(claimsOf({ placements: [one], removals: [two, three] })).toEqual([
    { kind: 'placement', candidate: one },
    { kind: 'removal', candidate: two },
    { kind: 'removal', candidate: three },
  ])
})
