/**
 * The whole number that an argument gives; ends the program with a word about it where it is none, or less than
 * `least`.
 */
export function wholeNumber(argument: string, text: string, least = 0): number {
  const value = /^-?\d+$/.test(text) ? Number(text) : Number.NaN
  if (Number.isSafeInteger(value) && value >= least) return value
  console.error(`--${argument} is "${text}"; it takes a whole number, ${least} or more.`)
  return process.exit(2)
}
