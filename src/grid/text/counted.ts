/** `1 line`, `3 lines`: a number of things as a message says it. */
export function counted(count: number, thing: string, things = `${thing}s`): string {
  return `${count} ${count === 1 ? thing : things}`
}
