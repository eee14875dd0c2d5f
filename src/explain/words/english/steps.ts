import type { StepWording } from '../wording.js'
import { englishFact } from './facts.js'
import { englishReason } from './reasons.js'
import { titleOf } from './technique-title.js'

/** What is said of steps; alone, so that an app that explains steps carries nothing else. */
export const ENGLISH_STEPS: StepWording = {
  technique: titleOf,
  fact: englishFact,
  reason: englishReason,
}
