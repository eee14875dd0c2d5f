import { LEVELS, type Level } from './level.js'
import type { Technique } from './technique.js'
import { claiming, pointing } from './techniques/locked.js'
import { fullHouse, hiddenSingle, nakedSingle } from './techniques/singles.js'

/** Every technique, easiest first: `solve` tries them in this order, and names are checked against it. */
export const CATALOGUE: readonly Technique[] = [
  // scan
  fullHouse,
  hiddenSingle,
  nakedSingle,
  // mark
  pointing,
  claiming,
  // pattern
  // chain
  // branch
]

/** A preset is a level: the techniques up to and including it. */
export function techniquesUpTo(level: Level): Technique[] {
  const limit = LEVELS.indexOf(level)
  if (limit < 0) throw new RangeError(`There is no preset "${level}"; choose one of ${LEVELS.join(', ')}.`)
  return CATALOGUE.filter((technique) => LEVELS.indexOf(technique.level) <= limit)
}

/** The names of all techniques, easiest first. */
export const TECHNIQUE_NAMES: readonly string[] = CATALOGUE.map((technique) => technique.name)

/** @throws RangeError when no technique has that name. */
export function techniqueNamed(name: string): Technique {
  const technique = CATALOGUE.find((entry) => entry.name === name)
  if (!technique)
    throw new RangeError(`There is no technique "${name}". Known: ${TECHNIQUE_NAMES.join(', ')}.`)
  return technique
}
