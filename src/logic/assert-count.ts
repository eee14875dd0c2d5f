/** @throws RangeError unless the option is left out, a whole number, `least` or more, or without bound */
export function assertCount(option: string, value: number | undefined, least: number): void {
  if (value === undefined || value === Number.POSITIVE_INFINITY) return
  if (!Number.isInteger(value) || value < least)
    throw new RangeError(`\`${option}\` is ${value}; it takes a whole number, ${least} or more.`)
}
