import { CATALOGUE } from '../../src/logic/catalogue.js'

/** What a technique cost over many boards. What techniques share is charged to the first that asks for it. */
export interface TechniqueTime {
  readonly name: string
  readonly milliseconds: number
  /** Boards it was tried on. */
  readonly boards: number
  /** Boards on which it found a step. */
  readonly found: number
}

/** Runs `work` with a clock at every technique of the catalogue; the dearest first. */
export function techniqueTimes(work: () => void): TechniqueTime[] {
  const clocks = CATALOGUE.map((technique) => {
    const { find } = technique
    const clock = { name: technique.name, milliseconds: 0, boards: 0, found: 0 }
    const timed: typeof find = (board, report, options) => {
      let found = false
      const from = performance.now()
      find.call(
        technique,
        board,
        (step) => {
          found = true
          return report(step)
        },
        options,
      )
      clock.milliseconds += performance.now() - from
      clock.boards++
      if (found) clock.found++
    }
    Object.assign(technique, { find: timed })
    return { clock, restore: () => Object.assign(technique, { find }) }
  })
  try {
    work()
  } finally {
    for (const { restore } of clocks) restore()
  }
  return clocks.map(({ clock }) => clock).sort((a, b) => b.milliseconds - a.milliseconds)
}
