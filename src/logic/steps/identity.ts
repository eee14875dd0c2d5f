import type { Step } from './step.js'

/** Two steps of a technique are the same when they conclude the same from the same premises. */
export function identityOf(step: Step): string {
  return `${conclusionsOf(step).join()}|${premiseKey(step)}`
}

export function conclusionsOf({ placements, removals }: Step): string[] {
  return [
    ...placements.map(({ cell, digit }) => `+${cell}.${digit}`),
    ...removals.map(({ cell, digit }) => `-${cell}.${digit}`),
  ].sort()
}

function premiseKey({ premises }: Step): string {
  return premises
    .map((premise) => (premise.kind === 'cell' ? `c${premise.cell}` : `h${premise.house}.${premise.digit}`))
    .sort()
    .join()
}

/** The steps without those that conclude from the same premises a part only of what another does. */
export function withoutPartial<Found extends Step>(steps: readonly Found[]): Found[] {
  const byPremises = new Map<string, Found[]>()
  for (const step of steps) {
    const key = premiseKey(step)
    const same = byPremises.get(key)
    if (same) same.push(step)
    else byPremises.set(key, [step])
  }
  const partial = new Set<Found>()
  for (const same of byPremises.values()) {
    if (same.length === 1) continue
    const concluded = same.map((step) => new Set(conclusionsOf(step)))
    for (let i = 0; i < same.length; i++) {
      const own = concluded[i]!
      if (concluded.some((other) => other.size > own.size && [...own].every((one) => other.has(one))))
        partial.add(same[i]!)
    }
  }
  return partial.size === 0 ? [...steps] : steps.filter((step) => !partial.has(step))
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
