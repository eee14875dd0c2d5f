/**
 * The measured figures that must hold. Runs the benches, each as its users run it, and compares their last line with
 * the bounds below. Data sets beside the project are measured where they are present; a gate whose data is absent says
 * so.
 *
 *     npm run gates          the part that runs with every change
 *     npm run gates:full     more drawn pictures, before something is called done
 */
import { spawnSync } from 'node:child_process'
import { existsSync, mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join, resolve } from 'node:path'

const root = resolve(import.meta.dirname, '..')
const isFull = process.argv.includes('--full')
const shared = resolve(root, '../shared')
const work = mkdtempSync(join(tmpdir(), 'gridreason-gates-'))

type Figures = Readonly<Record<string, number>>

interface Gate {
  readonly name: string
  /** Data beside the project that the gate needs; none for drawn pictures. */
  readonly needs?: string
  run(): Figures
  /** What must hold, each said so that a failure explains itself. */
  readonly bounds: readonly {
    readonly text: string
    readonly holds: (figures: Figures) => boolean
  }[]
}

function npmRun(script: string, ...args: string[]): string {
  const { stdout, stderr, status } = spawnSync('npm', ['run', '--silent', script, '--', ...args], {
    cwd: root,
    encoding: 'utf8',
    maxBuffer: 2 ** 28,
  })
  if (status !== 0) throw new Error(`npm run ${script} ${args.join(' ')} failed:\n${stdout}\n${stderr}`)
  process.stdout.write(stdout)
  return stdout
}

/** The JSON object that a bench prints as its last line. */
function bench(script: string, ...args: string[]): Figures {
  return JSON.parse(
    npmRun(script, ...args)
      .trim()
      .split('\n')
      .at(-1)!,
  ) as Figures
}

function drawn(kind: string, seed: number, count: number, fonts: string): string {
  const dir = join(work, kind)
  npmRun(
    'fixtures',
    ...['--out', dir, '--seed', `${seed}`, '--count', `${count}`, '--kind', kind, '--fonts', fonts],
  )
  return dir
}

const puzzles = (name: string) => join(shared, 'puzzles', name)

const gates: readonly Gate[] = [
  {
    name: 'real newspaper photos',
    needs: join(shared, 'photos', 'labels.csv'),
    run: () => bench('bench:photos', '--dir', join(shared, 'photos')),
    bounds: [
      { text: 'every grid is found', holds: ({ photos, gridsFound }) => gridsFound === photos },
      { text: 'at least 132 of 134 are exact', holds: ({ photos, exact }) => exact! >= photos! - 2 },
      { text: 'none is certain but wrong', holds: ({ certainWrong }) => certainWrong === 0 },
      { text: 'at least 128 of 134 are certain', holds: ({ photos, certain }) => certain! >= photos! - 6 },
    ],
  },
  {
    name: 'drawn photographs, typefaces kept aside',
    run: () => bench('bench:photos', '--dir', drawn('photos', 7301, isFull ? 500 : 200, 'kept-aside')),
    bounds: [
      // The aim is 99 %. 12,905 grids of fresh seeds gave 99.0 %; the floor keeps that from slipping.
      { text: 'at least 96 % are exact', holds: ({ photos, exact }) => exact! >= 0.96 * photos! },
      { text: 'none is certain but wrong', holds: ({ certainWrong }) => certainWrong === 0 },
    ],
  },
  {
    name: 'drawn pictures of other things',
    run: () => bench('bench:photos', '--dir', drawn('non-grids', 7302, isFull ? 300 : 120, 'all')),
    bounds: [{ text: 'no grid is reported', holds: ({ gridsFound }) => gridsFound === 0 }],
  },
  {
    name: 'drawn pages with several puzzles',
    run: () => bench('bench:photos', '--dir', drawn('several', 9405, 15, 'kept-aside')),
    bounds: [
      {
        text: 'at least 95 % of the grids are found',
        holds: ({ photos, gridsFound }) => gridsFound! >= 0.95 * photos!,
      },
      { text: 'none is certain but wrong', holds: ({ certainWrong }) => certainWrong === 0 },
    ],
  },
  {
    name: 'drawn screens with pencil marks',
    run: () => bench('bench:photos', '--dir', drawn('screens', 9403, 40, 'kept-aside')),
    bounds: [
      { text: 'at least 95 % are exact', holds: ({ photos, exact }) => exact! >= 0.95 * photos! },
      { text: 'none is certain but wrong', holds: ({ certainWrong }) => certainWrong === 0 },
    ],
  },
  {
    name: 'drawn irregular grids, orders 5 to 9',
    run: () => bench('bench:photos', '--dir', drawn('irregular', 9406, 30, 'kept-aside')),
    // Fresh seeds gave 76 % of 90, with the right regions.
    bounds: [
      { text: 'at least 60 % are exact', holds: ({ photos, exact }) => exact! >= 0.6 * photos! },
      { text: 'none is certain but wrong', holds: ({ certainWrong }) => certainWrong === 0 },
    ],
  },
  {
    name: 'drawn grids of orders 10 to 16',
    run: () => bench('bench:photos', '--dir', drawn('large-orders', 9407, 20, 'kept-aside')),
    // Fresh seeds gave 57 % of 30.
    bounds: [
      { text: 'at least 35 % are exact', holds: ({ photos, exact }) => exact! >= 0.35 * photos! },
      { text: 'none is certain but wrong', holds: ({ certainWrong }) => certainWrong === 0 },
    ],
  },
  {
    name: 'drawn half-solved pages',
    run: () => bench('bench:photos', '--dir', drawn('handwriting', 9404, 30, 'kept-aside')),
    // Fresh seeds gave 69 % of 650: hands kept aside are still taken for print, though never with certainty.
    bounds: [
      { text: 'at least 50 % are exact', holds: ({ photos, exact }) => exact! >= 0.5 * photos! },
      { text: 'none is certain but wrong', holds: ({ certainWrong }) => certainWrong === 0 },
    ],
  },
  {
    name: 'Project Euler, problem 96',
    needs: puzzles('euler96-50.txt'),
    run: () => bench('bench:euler96', puzzles('euler96-50.txt')),
    bounds: [{ text: 'the sum is the published one', holds: ({ sum, published }) => sum === published }],
  },
  {
    name: 'uniqueness checks, 17 clues',
    needs: puzzles('clues17-2000.txt'),
    run: () => bench('bench:count', puzzles('clues17-2000.txt')),
    bounds: [{ text: 'at least 15 times the exact-cover library', holds: ({ ratio }) => ratio! >= 15 }],
  },
  {
    name: 'grades of images',
    needs: puzzles('top95.txt'),
    run: () => bench('bench:grades', puzzles('top95.txt'), '--images', '2', '--no-keys'),
    bounds: [
      {
        text: 'every image has the level, effort and profile of its puzzle',
        holds: ({ images, sameLevel, sameEffort, sameProfile }) =>
          images! > 0 && [sameLevel, sameEffort, sameProfile].every((same) => same === images),
      },
    ],
  },
  {
    name: 'effort and how long people took',
    needs: join(shared, 'human-times', 'times.csv'),
    run: () => bench('bench:grades', '--times', join(shared, 'human-times', 'times.csv')),
    bounds: [
      { text: 'out of fold at least 0.68', holds: ({ rhoOut }) => rhoOut! >= 0.68 },
      { text: 'and 0.76 where 20 people or more solved it', holds: ({ rhoManyOut }) => rhoManyOut! >= 0.76 },
    ],
  },
  {
    name: 'techniques on 50 published puzzles',
    needs: puzzles('euler96-50.txt'),
    run: () => bench('bench:coverage', puzzles('euler96-50.txt')),
    bounds: [
      { text: 'every step is proven', holds: ({ unproven }) => unproven === 0 },
      { text: 'all are solved without cases', holds: ({ puzzles: all, solved }) => solved === all },
    ],
  },
  ...['clues17-2000.txt', 'hard-bank-2000.txt'].map((file) => ({
    name: `techniques on ${file}`,
    needs: puzzles(file),
    run: () => bench('bench:coverage', puzzles(file)),
    bounds: [
      { text: 'every step is proven', holds: ({ unproven }: Figures) => unproven === 0 },
      {
        text: 'at least 99.9 % are solved without cases',
        holds: ({ puzzles: all, solved }: Figures) => solved! >= 0.999 * all!,
      },
      {
        text: 'and without one-solution reasoning',
        holds: ({ puzzles: all, solvedWithoutOneSolution }: Figures) =>
          solvedWithoutOneSolution! >= 0.999 * all!,
      },
    ],
  })),
  {
    name: 'techniques on 95 hard puzzles',
    needs: puzzles('top95.txt'),
    run: () => bench('bench:coverage', puzzles('top95.txt')),
    bounds: [
      { text: 'every step is proven', holds: ({ unproven }) => unproven === 0 },
      {
        text: 'at least 95 % are solved without cases',
        holds: ({ puzzles: all, solved }) => solved! >= 0.95 * all!,
      },
      {
        text: 'and without one-solution reasoning',
        holds: ({ puzzles: all, solvedWithoutOneSolution }) => solvedWithoutOneSolution! >= 0.95 * all!,
      },
    ],
  },
]

let passed = 0
let failed = 0
let skipped = 0
try {
  for (const gate of gates) {
    console.log(`\n-- ${gate.name}`)
    if (gate.needs && !existsSync(gate.needs)) {
      console.log('passed over: its data set is not beside the project')
      skipped++
      continue
    }
    const figures = gate.run()
    for (const { text, holds } of gate.bounds) {
      const ok = holds(figures)
      console.log(`${ok ? 'holds' : 'FAILS'}: ${text}`)
      if (ok) passed++
      else failed++
    }
  }
} finally {
  rmSync(work, { recursive: true, force: true })
}
console.log(`\n${passed} passed, ${failed} failed, ${skipped} skipped`)
process.exitCode = failed === 0 ? 0 : 1
