/**
 * Looks for banned words and too wide prose in all that is committed, the last part of `npm run lint`: prints each fault
 * with its place, and exits with 1 if there is any.
 */
import { execFileSync } from 'node:child_process'
import { existsSync, readFileSync } from 'node:fs'
import { proseFaults } from './prose.js'

const TEXTS = /\.(?:ts|mjs|cjs|py|as|html|md)$/
/** The list itself, and its test. */
const OWN = /^test\/prose\//

const files = execFileSync('git', ['ls-files'], { encoding: 'utf8' })
  .split('\n')
  .filter((path) => TEXTS.test(path) && !OWN.test(path) && existsSync(path))
let count = 0
for (const path of files)
  for (const { line, says } of proseFaults(path, readFileSync(path, 'utf8'))) {
    console.error(`${path}:${line}: ${says}`)
    count++
  }
console.log(`Prose of ${files.length} files: ${count === 0 ? 'no faults' : `${count} faults`}.`)
if (count > 0) process.exitCode = 1
