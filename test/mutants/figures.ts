import { readFileSync } from 'node:fs'
import { relative } from 'node:path'
import type { Stryker } from '@stryker-mutator/core'
import type { MutantRoom } from './rooms.js'

type MutantResult = Awaited<ReturnType<Stryker['runMutationTest']>>[number]

/** A mutant that no test catches, known by its text, so that the entry stays true when lines move. */
export interface ListedSurvivor {
  readonly file: string
  /** The line it begins on, as written, without the space around it. */
  readonly line: string
  /** `what stands there -> what the mutant puts there`, on one line. */
  readonly change: string
  /** `equivalent`: no input can show the difference. `accepted`: one could, and no test is worth it. */
  readonly kind: 'equivalent' | 'accepted'
  readonly why: string
}

interface SavedResults {
  readonly files: Readonly<Record<string, { readonly source: string }>>
}

export interface RoomFigures {
  readonly mutants: number
  /** Caught by a test, or by the time limit. */
  readonly killed: number
  readonly survived: number
  readonly noCoverage: number
  /** Of those not killed, the ones listed as equivalent; they do not count in the score. */
  readonly equivalent: number
  readonly score: number
  readonly seconds: number
  /** Not killed and not listed: line number, status, and the entry to list it by, less `kind` and `why`. */
  readonly unlisted: readonly string[]
  /** Listed for files of this room, yet killed or gone. */
  readonly outdated: readonly ListedSurvivor[]
}

export function readSurvivorList(): ListedSurvivor[] {
  return JSON.parse(readFileSync(new URL('survivors.json', import.meta.url), 'utf8')) as ListedSurvivor[]
}

/**
 * @param resultsFile what the run has written down, the sources among it: they may have changed since
 * @param whole does the run cover all of the room? Only then can an entry of the list be called outdated.
 */
export function tallyRoom(
  results: readonly MutantResult[],
  resultsFile: string,
  listed: readonly ListedSurvivor[],
  seconds: number,
  whole: boolean,
): RoomFigures {
  const valid = results.filter(({ status }) =>
    ['Killed', 'Timeout', 'Survived', 'NoCoverage'].includes(status),
  )
  const alive = valid.filter(({ status }) => status === 'Survived' || status === 'NoCoverage')
  const lines = new Map<string, string[]>()
  const sources = (JSON.parse(readFileSync(resultsFile, 'utf8')) as SavedResults).files
  const met = new Set<ListedSurvivor>()
  const unlisted: string[] = []
  let equivalent = 0
  for (const mutant of alive) {
    const file = relative(process.cwd(), mutant.fileName)
    const source = lines.get(file) ?? sources[file]!.source.split('\n')
    lines.set(file, source)
    const lineNumber = mutant.location.start.line
    const place = { file, line: source[lineNumber - 1]!.trim(), change: changeOf(mutant, source) }
    const entry = listed.find(
      (known) => known.file === place.file && known.line === place.line && known.change === place.change,
    )
    if (!entry) {
      unlisted.push(`line ${lineNumber}, ${mutant.status}: ${JSON.stringify(place)}`)
      continue
    }
    met.add(entry)
    if (entry.kind === 'equivalent') equivalent++
  }
  const files = new Set(results.map(({ fileName }) => relative(process.cwd(), fileName)))
  const killed = valid.length - alive.length
  return {
    mutants: valid.length,
    killed,
    survived: alive.filter(({ status }) => status === 'Survived').length,
    noCoverage: alive.filter(({ status }) => status === 'NoCoverage').length,
    equivalent,
    score: killed / Math.max(1, valid.length - equivalent),
    seconds,
    unlisted,
    outdated: whole ? listed.filter((entry) => files.has(entry.file) && !met.has(entry)) : [],
  }
}

export function describeRoom(room: MutantRoom, figures: RoomFigures): string {
  const { mutants, killed, survived, noCoverage, equivalent, score, seconds, unlisted, outdated } = figures
  const percent = (share: number) => `${(100 * share).toFixed(1)} %`
  return [
    ...unlisted.map((survivor) => `  not listed: ${survivor}`),
    ...outdated.map(({ file, line, change }) => `  listed, but killed or gone: ${file}: ${line}: ${change}`),
    `${room.name}: ${mutants} mutants, ${killed} killed, ${survived} survived, ${noCoverage} not reached, ` +
      `${equivalent} equivalent; ${percent(score)} of what is not equivalent (target ${percent(room.target)}), ` +
      `${Math.round(seconds)} s`,
  ].join('\n')
}

/** Lines and columns are counted from 1, and the end column is the first one after. */
function changeOf(
  { location: { start, end }, replacement }: MutantResult,
  source: readonly string[],
): string {
  const replaced = source.slice(start.line - 1, end.line)
  replaced[replaced.length - 1] = replaced.at(-1)!.slice(0, end.column - 1)
  replaced[0] = replaced[0]!.slice(start.column - 1)
  return `${onOneLine(replaced.join('\n'))} -> ${onOneLine(replacement)}`
}

function onOneLine(text: string): string {
  const joined = text.replace(/\s+/g, ' ').trim()
  return joined.length > 80 ? `${joined.slice(0, 60)} … ${joined.slice(-15)}` : joined
}
