import { GridreasonError } from '../../src/index.js'

/**
 * Says what is wrong with a picture or a file, by its code and what to do next, and ends the program; passes on what is
 * a mistake of the program.
 */
export function endWithTrouble(error: unknown): never {
  if (!(error instanceof GridreasonError)) throw error
  console.error(`${error.code}: ${error.message}`)
  process.exit(1)
}
