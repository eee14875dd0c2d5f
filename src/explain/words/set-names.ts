import type { Names } from '../names.js'

/** Letters for sets; those from P on where A to G are digits. */
const SET_LETTERS = 'ABCDEFGHIJKLMNOPQRSTUVWXYZ'
const LETTERED_SET_LETTERS = 'PQRSTUVWXYZ'

/** `A`, `B`, … for the first, second, … set of a step: never the name of a digit, and never twice the same. */
export function setName(index: number, names?: Names): string {
  const lettered = names !== undefined && names.geometry.order > 9 && names.digits === 'letters'
  const letters = lettered ? LETTERED_SET_LETTERS : SET_LETTERS
  const round = Math.floor(index / letters.length)
  return `${letters[index % letters.length]}${round === 0 ? '' : round + 1}`
}
