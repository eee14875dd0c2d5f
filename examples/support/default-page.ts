import { readdirSync } from 'node:fs'
import { fileURLToPath } from 'node:url'

/** The picture named on the command line, or the first "photographed" page of the fixtures. */
export function pageFromArguments(): string {
  const named = process.argv[2]
  if (named !== undefined) return named
  const folder = fileURLToPath(new URL('../../fixtures/pages/', import.meta.url))
  const first = readdirSync(folder)
    .filter((name) => name.endsWith('.jpg'))
    .sort()[0]
  if (first === undefined) throw new Error(`There is no page in ${folder}; draw the fixtures first.`)
  return `${folder}${first}`
}
