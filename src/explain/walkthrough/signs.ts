import type { DigitStyle } from '../../grid/digit-names.js'
import { digitName } from '../../grid/digit-names.js'
import { digitsOf } from '../../grid/digits.js'
import { markedCell } from '../../grid/text/marks.js'
import type { FoundStep } from '../../logic/steps/step.js'
import { planPicture } from '../picture/plan.js'
import type { Role } from '../picture/roles.js'

/** A step on a board in characters: each digit that plays a part has a sign behind it. */
export interface SignedBoard {
  /** The text of each cell. */
  readonly texts: readonly string[]
  /** The signs used, in the order in which they are explained. */
  readonly signs: readonly { readonly sign: string; readonly role: Role }[]
}

/** Signs that are the same in all pictures; all other roles take the next of `OTHERS`. */
const OWN: Partial<Readonly<Record<Role, string>>> = { removed: '/', placed: '!' }
const OTHERS = ['*', '^', '~', '=', '%', '$', '@']

export function signedBoard(step: FoundStep, style: DigitStyle): SignedBoard {
  const { before } = step
  const name = (digit: number) => digitName(digit, style)
  const plan = planPicture(step)
  const signs = new Map<Role, string>()
  const signOf = (role: Role): string => {
    const known = signs.get(role) ?? OWN[role]
    const sign = known ?? OTHERS[[...signs.keys()].filter((other) => !(other in OWN)).length] ?? '#'
    signs.set(role, sign)
    return sign
  }
  const signAt = (cell: number, digit: number): string =>
    plan.candidates
      .filter((mark) => mark.cell === cell && mark.digit === digit)
      .map(({ role }) => signOf(role))
      .join('')
  const texts = Array.from(before.digits, (digit, cell) => {
    if (digit === 0) {
      const marks = digitsOf(before.candidates[cell]!).map((mark) => name(mark) + signAt(cell, mark))
      return marks.join('')
    }
    const roles = plan.cells.get(cell) ?? []
    return markedCell(before, cell, name) + roles.map(signOf).join('')
  })
  return { texts, signs: [...signs].map(([role, sign]) => ({ sign, role })) }
}
