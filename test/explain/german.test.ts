import { describe, expect, it } from 'vitest'
import { ERROR_CODES, InputError } from '../../src/errors.js'
import { ENGLISH } from '../../src/explain/words/english/index.js'
import { GERMAN } from '../../src/explain/words/german/index.js'
import { STANDARD } from '../../src/grid/geometry.js'
import type { Unproven } from '../../src/logic/proof/proof.js'

const names = { geometry: STANDARD, digits: 'letters', cells: 'short' } as const

describe('German', () => {
  it('says every error in a message of its own, with its place', () => {
    const said = ERROR_CODES.map((code) => GERMAN.error(new InputError(code, 'an error')))
    expect(new Set(said).size).toBe(ERROR_CODES.length)
    const error = new InputError('text-symbol', 'an error', { place: { line: 3, column: 7 } })
    expect(GERMAN.error(error)).toMatch(/^Zeile 3, Zeichen 7: Ein Zeichen passt nicht hierher\./)
    expect(ENGLISH.error(error)).toBe('an error')
  })

  it('says why a step is not proven', () => {
    const claim = { kind: 'removal', candidate: { cell: 0, digit: 4 } } as const
    const assignment = [{ cell: 10, digit: 4 }]
    const missing: Unproven = { kind: 'missing-link', claim, assignment }
    expect(GERMAN.unproven(missing, names)).toBe(
      'Dass r1c1 nicht 4 ist, folgt nicht: Alles Genannte gälte auch mit 4 in r2c2.',
    )
    expect(ENGLISH.unproven(missing, names)).toBe(
      'That r1c1 is not 4 does not follow: all that the step names would also hold with 4 in r2c2.',
    )
    expect(GERMAN.unproven({ kind: 'no-conclusion' }, names)).toMatch(/setzt keine Ziffer/)
  })

  it('says the rule and where to look with the right articles', () => {
    expect(GERMAN.rule(names)).toBe(
      'Jede Zeile, jede Spalte und jeder 3×3-Block enthält jede der Ziffern 1 bis 9 genau einmal.',
    )
    expect(GERMAN.hint.look(names, [0, 1, 18])).toBe('Sieh dir die Zeilen 1 und 2 und Block 1 an.')
    expect(GERMAN.hint.look(names, [18, 19])).toBe('Sieh dir die Blöcke 1 und 2 an.')
  })
})
