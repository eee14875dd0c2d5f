import { CATALOGUE } from '../../src/logic/catalogue.js'
import type { Step } from '../../src/logic/steps/step.js'
import type { Report } from '../../src/logic/technique.js'

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
    const { find, search } = technique
    const clock = { name: technique.name, milliseconds: 0, boards: 0, found: 0 }
    const heard = (report: Report) => {
      let isFirst = true
      clock.boards++
      return (step: Step) => {
        if (isFirst) clock.found++
        isFirst = false
        return report(step)
      }
    }
    const timedFind: typeof find = (board, report, options) => {
      const from = performance.now()
      find.call(technique, board, heard(report), options)
      clock.milliseconds += performance.now() - from
    }
    // slow techniques are asked for their search, which pauses: only its own turns count
    const timedSearch: typeof search =
      search &&
      function* (board, report, options, watch) {
        const task = search(board, heard(report), options, watch)
        for (;;) {
          const from = performance.now()
          const { done } = task.next()
          clock.milliseconds += performance.now() - from
          if (done) return
          yield
        }
      }
    Object.assign(technique, timedSearch ? { search: timedSearch } : { find: timedFind })
    return { clock, restore: () => Object.assign(technique, search ? { search } : { find }) }
  })
  try {
    work()
  } finally {
    for (const { restore } of clocks) restore()
  }
  return clocks.map(({ clock }) => clock).sort((a, b) => b.milliseconds - a.milliseconds)
}
