import { describe, expect, it } from 'vitest'
import { verifyStep } from '../../src/logic/proof/proof.js'
import { TECHNIQUE_NAMES } from '../../src/logic/technique-names.js'
import { Confirmer, type Sample, samplesOf } from '../support/confirm.js'
import { randomPuzzle } from '../support/random-boards.js'

/** Random puzzles of consecutive seeds; their boards have nearly every technique. */
const FIRST_SEED = 610_000
const PUZZLES = 6
/**
 * Seeds of puzzles with what is rare: a unique rectangle of type 3, a sashimi jellyfish, a hidden quad, unique
 * rectangles of type 2, 4 and 5, a unique loop, an exocet, a grave with several extras, an avoidable rectangle.
 */
const RARE = [610_042, 610_013, 610_014, 610_024, 610_032, 612_553, 610_029, 610_039, 610_105, 610_245]

// `npm run bench:confirm` asks the same of more than 500 boards.
describe('every conclusion of every instance of every technique', () => {
  it('is implied, says a general SAT library; with one solution assumed, the counted solution agrees', () => {
    const seeds = [...Array.from({ length: PUZZLES }, (_, i) => FIRST_SEED + i), ...RARE]
    const samples: Sample[] = seeds.flatMap((seed) => samplesOf(randomPuzzle(seed), `seed ${seed}`, 2))
    const conclusions = new Map<string, number>()
    for (const sample of samples) {
      const confirmer = new Confirmer(sample)
      for (const name of TECHNIQUE_NAMES) {
        const found = confirmer.confirm(name)
        expect(found.refuted, `${name}, ${sample.name}`).toEqual([])
        conclusions.set(name, (conclusions.get(name) ?? 0) + found.conclusions)
        for (const step of found.steps.slice(0, 3))
          expect(verifyStep(sample.board, step), `${name}, ${sample.name}`).toEqual({ proven: true })
      }
    }
    expect(TECHNIQUE_NAMES.filter((name) => !conclusions.get(name))).toEqual([])
  }, 240_000)
})
