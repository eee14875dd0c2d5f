import type { Step } from './step.js'

/** Two steps of a technique are the same when they conclude the same from the same premises. */
export function identityOf(step: Step): string {
  const conclusions = [
    ...step.placements.map(({ cell, digit }) => `+${cell}.${digit}`),
    ...step.removals.map(({ cell, digit }) => `-${cell}.${digit}`),
  ].sort()
  const premises = step.premises
    .map((premise) => (premise.kind === 'cell' ? `c${premise.cell}` : `h${premise.house}.${premise.digit}`))
    .sort()
  return `${conclusions.join()}|${premises.join()}`
}

/** Passes each step on once, however often the search comes upon it. */
export function once(report: (step: Step) => boolean): (step: Step) => boolean {
  const seen = new Set<string>()
  return (step) => {
    const identity = identityOf(step)
    if (seen.has(identity)) return false
    seen.add(identity)
    return report(step)
  }
}
