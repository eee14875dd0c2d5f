import { readFileSync, writeFileSync } from 'node:fs'
import { relative } from 'node:path'

interface TriedMutant {
  readonly fileName: string
  readonly id: string
}
interface RanTest {
  readonly id: string
  readonly name: string
  readonly fileName?: string
}

/** Seconds of work that a run that is broken off may lose. */
const EVERY = 15

/** Stryker writes down what it has found when all is done; this does it on the way, in the same form. */
class KeptResults {
  static readonly inject = ['options'] as const
  private readonly file: string
  private readonly tried: TriedMutant[] = []
  private tests: readonly RanTest[] = []
  private latest = performance.now()

  constructor(options: { readonly incrementalFile: string }) {
    this.file = options.incrementalFile
  }

  onDryRunCompleted({ result }: { readonly result: { readonly tests: readonly RanTest[] } }): void {
    this.tests = result.tests
  }

  onMutantTested(mutant: TriedMutant): void {
    this.tried.push(mutant)
    if (performance.now() - this.latest < 1000 * EVERY) return
    this.latest = performance.now()
    const files = byFile(this.tried, (mutants) => ({ language: 'typescript', mutants }))
    const testFiles = byFile(this.tests, (tests) => ({
      tests: tests.map(({ id, name }) => ({ id, name })),
    }))
    const thresholds = { high: 80, low: 60, break: null }
    writeFileSync(this.file, JSON.stringify({ schemaVersion: '1.0', thresholds, files, testFiles }))
  }
}

function byFile<Part extends { readonly fileName?: string }, Described extends object>(
  parts: readonly Part[],
  describe: (parts: readonly Part[]) => Described,
): Record<string, Described & { readonly source: string }> {
  const names = [...new Set(parts.map(({ fileName }) => fileName!))]
  return Object.fromEntries(
    names.map((name) => [
      relative(process.cwd(), name),
      {
        source: readFileSync(name, 'utf8'),
        ...describe(parts.filter(({ fileName }) => fileName === name)),
      },
    ]),
  )
}

export const strykerPlugins = [{ kind: 'Reporter', name: 'kept', injectableClass: KeptResults }]
