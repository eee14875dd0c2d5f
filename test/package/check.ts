/**
 * The package as its users get it: packed, unpacked beside its dependencies, imported and required, bundled for a
 * browser, and weighed. Run after `npm run build` by `npm run test:package`.
 */
import assert from 'node:assert/strict'
import { execFileSync } from 'node:child_process'
import { mkdirSync, mkdtempSync, readdirSync, rmSync, symlinkSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join, resolve } from 'node:path'
import { build } from 'esbuild'

const root = resolve(import.meta.dirname, '../..')
const KIB = 1024
/** Ceilings in bytes, bundles minified; raise one only in the commit that needs it, and say there what it bought. */
const CEILINGS = { tarball: 840 * KIB, coreMinified: 500 * KIB }
/** Bytes that an app bundles for one function alone. */
const ALONE = {
  parsePuzzle: 166 * KIB,
  checkProgress: 29 * KIB,
  countUpToTwo: 24 * KIB,
  checkUniqueness: 31 * KIB,
  renderSvg: 148 * KIB,
  explainStep: 152 * KIB,
  solve: 170 * KIB,
}

const work = mkdtempSync(join(tmpdir(), 'gridreason-package-'))
try {
  const packed = JSON.parse(
    execFileSync('npm', ['pack', '--json', '--pack-destination', work], { cwd: root, encoding: 'utf8' }),
  ) as { filename: string; size: number; files: { path: string }[] }[]
  const { filename, size, files } = packed[0]!
  const stray = files
    .map((file) => file.path)
    .filter((path) => !/^(dist\/|package\.json$|README\.md$|LICENSE$|CHANGELOG\.md$)/.test(path))
  assert.deepEqual(stray, [], 'only what users need is packed')
  for (const weights of ['dist/photo/digits/digit-net.bin', 'dist/photo/find/page-net.bin'])
    assert.ok(
      files.some(({ path }) => path === weights),
      `${weights} is packed`,
    )
  assert.ok(size <= CEILINGS.tarball, `tarball ${size} bytes is over its ceiling of ${CEILINGS.tarball}`)

  const modules = join(work, 'app', 'node_modules')
  mkdirSync(join(modules, 'gridreason'), { recursive: true })
  execFileSync('tar', [
    'xzf',
    join(work, filename),
    '-C',
    join(modules, 'gridreason'),
    '--strip-components=1',
  ])
  for (const name of readdirSync(join(root, 'node_modules'))) {
    if (name !== 'gridreason' && !name.startsWith('.'))
      symlinkSync(join(root, 'node_modules', name), join(modules, name))
  }

  const run = (type: 'module' | 'commonjs', source: string) =>
    execFileSync(process.execPath, [`--input-type=${type}`, '-e', source], {
      cwd: join(work, 'app'),
      encoding: 'utf8',
      stdio: ['ignore', 'pipe', 'inherit'],
    }).trim()

  // The puzzle is the example printed in Project Euler, problem 96 (from memory).
  const task = `
    const puzzle = core.parsePuzzle('..3.2.6..9..3.5..1..18.64....81.29..7.......8..67.82....26.95..8..2.3..9..5.1.3..')
    const path = core.solve(puzzle)
    console.log(core.checkUniqueness(puzzle).kind, path.status, path.steps.every((s) => core.verifyStep(s.before, s).proven),
      typeof photo.createPhotoReader, typeof batch.gradeFolder)`
  const expected = 'unique solved true function function'
  assert.equal(
    run(
      'module',
      `import * as core from 'gridreason'; import * as photo from 'gridreason/photo'; import * as batch from 'gridreason/batch'; ${task}`,
    ),
    expected,
  )
  const [major = 0, minor = 0] = process.versions.node.split('.').map(Number)
  if (major > 20 || minor >= 19) {
    assert.equal(
      run(
        'commonjs',
        `const core = require('gridreason'); const photo = require('gridreason/photo'); const batch = require('gridreason/batch'); ${task}`,
      ),
      expected,
    )
  } else console.log(`note: Node ${process.versions.node} cannot require an ES module; require was not tried`)

  // A browser bundler must find no Node built-in in the core, and drop what an app does not use.
  const bundle = async (contents: string) => {
    const result = await build({
      stdin: { contents, resolveDir: join(work, 'app'), loader: 'js' },
      bundle: true,
      minify: true,
      format: 'esm',
      platform: 'browser',
      write: false,
      logLevel: 'error',
    })
    return result.outputFiles[0]!.contents.length
  }
  const whole = await bundle(`import * as core from 'gridreason'; console.log(core)`)
  const german = (
    await build({
      stdin: {
        contents: `import { explainStep } from 'gridreason'; console.log(explainStep)`,
        resolveDir: join(work, 'app'),
        loader: 'js',
      },
      bundle: true,
      format: 'esm',
      platform: 'browser',
      write: false,
      logLevel: 'error',
    })
  ).outputFiles[0]!.text.includes('Streiche')
  assert.ok(!german, 'an app that speaks English carries no German')
  assert.equal(
    run('module', `import { GERMAN } from 'gridreason/german'; console.log(GERMAN.language)`),
    'de',
  )
  assert.ok(
    whole <= CEILINGS.coreMinified,
    `the whole core is ${whole} bytes minified, ceiling ${CEILINGS.coreMinified}`,
  )
  const alone: Record<string, number> = {}
  for (const [name, ceiling] of Object.entries(ALONE)) {
    const bytes = await bundle(`import { ${name} } from 'gridreason'; console.log(${name})`)
    assert.ok(bytes <= ceiling, `${name} alone brings ${bytes} bytes, ceiling ${ceiling}`)
    alone[name] = bytes
  }

  console.log(`package: ${size} bytes packed; core ${whole} minified; alone: ${JSON.stringify(alone)}`)
} finally {
  rmSync(work, { recursive: true, force: true })
}
