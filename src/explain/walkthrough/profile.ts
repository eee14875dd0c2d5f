import type { Level } from '../../logic/level.js'
import type { PathStep } from '../../logic/steps/step.js'
import type { TechniqueName } from '../../logic/technique-names.js'
import type { Voice } from '../voice.js'
import type { Block } from './document.js'

/** Which techniques the steps use, how often, and what they ask of a person. */
export function profileTable(steps: readonly PathStep[], voice: Voice): Block[] {
  if (steps.length === 0) return []
  const rows = new Map<TechniqueName, { readonly level: Level; steps: number }>()
  for (const { technique, level } of steps) {
    const row = rows.get(technique)
    if (row) row.steps++
    else rows.set(technique, { level, steps: 1 })
  }
  const { profile, profileColumns } = voice.wording.walkthrough
  return [
    { kind: 'heading', depth: 3, text: profile },
    {
      kind: 'table',
      head: profileColumns,
      rows: [...rows].map(([technique, row]) => [
        voice.wording.technique(technique),
        voice.wording.level(row.level),
        `${row.steps}`,
      ]),
    },
  ]
}
