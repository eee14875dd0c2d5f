import { argumentsFuzzer } from './arguments.js'
import { editsFuzzer } from './edits.js'
import { forgeriesFuzzer } from './forgeries.js'
import type { Fuzzer } from './fuzzer.js'
import { limitsFuzzer } from './limits.js'
import { namesFuzzer } from './names.js'
import { picturesFuzzer } from './pictures.js'
import { stepsFuzzer } from './steps.js'
import { textFuzzer } from './text.js'

/** Every fuzzer that `npm run fuzz` runs. */
export const FUZZERS: readonly Fuzzer[] = [
  argumentsFuzzer,
  editsFuzzer,
  forgeriesFuzzer,
  limitsFuzzer,
  namesFuzzer,
  picturesFuzzer,
  stepsFuzzer,
  textFuzzer,
]
