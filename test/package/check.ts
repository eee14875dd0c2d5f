/**
 * The package as its users get it: packed, unpacked beside its dependencies, imported and required, bundled for a
 * browser, and weighed. Run after `npm run build` by `npm run test:package`.
 */
import assert from 'node:assert/strict'
import { execFileSync, spawnSync } from 'node:child_process'
import {
  cpSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { join, resolve } from 'node:path'
import { gzipSync } from 'node:zlib'
import { build } from 'esbuild'
import { checkBundlers } from './bundlers.js'

const root = resolve(import.meta.dirname, '../..')
const KIB = 1024
/** Ceilings in bytes; raise one only in the commit that needs it, and say there what it bought. */
const TARBALL = 1740 * KIB
/** What an app carries for one function alone, or for all of the core: minified and compressed. */
const CARRIED = {
  parsePuzzle: 32 * KIB,
  checkProgress: 10 * KIB,
  countUpToTwo: 8.1 * KIB,
  checkUniqueness: 10.9 * KIB,
  renderSvg: 32.2 * KIB,
  explainStep: 25.4 * KIB,
  solve: 60 * KIB,
  '* as core': 184 * KIB,
}

/** What a page carries that reads photos, without the networks' weights, which come when they are asked for. */
const PHOTO_READER = 60.5 * KIB

/** Of types that a program's check makes for the core. */
const INSTANTIATIONS = 5000

const work = mkdtempSync(join(tmpdir(), 'gridreason-package-'))
try {
  const packed = JSON.parse(
    execFileSync('npm', ['pack', '--json', '--ignore-scripts', '--pack-destination', work], {
      cwd: root,
      encoding: 'utf8',
    }),
  ) as { filename: string; size: number; files: { path: string }[] }[]
  const { filename, size, files } = packed[0]!
  const stray = files
    .map((file) => file.path)
    .filter(
      (path) => !/^(dist\/|package\.json$|README\.md$|LICENSE$|CHANGELOG\.md$|examples\/guides\/)/.test(path),
    )
  assert.deepEqual(stray, [], 'only what users need is packed')
  for (const net of ['digit-net', 'number-net', 'page-net', 'figure-net', 'page-context', 'entry-net'])
    assert.ok(
      files.some(({ path }) => path === `dist/photo/weights/${net}.js`),
      `the weights of ${net} are packed`,
    )
  const pages = files.filter(({ path }) => path.endsWith('.md'))
  for (const { path } of pages) {
    const links = [...readFileSync(join(root, path), 'utf8').matchAll(/\]\(([^)#\s]+)/g)].map(
      ([, link]) => link!,
    )
    const there = (link: string) =>
      files.some((file) => join(root, file.path) === resolve(root, path, '..', link))
    const dead = links.filter((link) => !/^https?:/.test(link) && !there(link))
    assert.deepEqual(dead, [], `no link of ${path} is dead in the package`)
  }
  assert.ok(size <= TARBALL, `tarball ${size} bytes is over its ceiling of ${TARBALL}`)

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
  // An app that has the package alone, without its optional peers.
  const bareModules = join(work, 'bare', 'node_modules')
  mkdirSync(bareModules, { recursive: true })
  cpSync(join(modules, 'gridreason'), join(bareModules, 'gridreason'), { recursive: true })

  const run = (type: 'module' | 'commonjs', source: string, app = 'app') =>
    execFileSync(process.execPath, [`--input-type=${type}`, '-e', source], {
      cwd: join(work, app),
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
      metafile: true,
      logLevel: 'error',
    })
    const { text, contents: bytes } = result.outputFiles[0]!
    return {
      text,
      size: gzipSync(bytes, { level: 9 }).length,
      files: Object.keys(result.metafile.inputs),
    }
  }
  const carried: Record<string, number> = {}
  for (const [name, ceiling] of Object.entries(CARRIED)) {
    const what = /^\w+$/.test(name) ? `{ ${name} }` : name
    const value = /\w+$/.exec(name)![0]
    const { text, size, files } = await bundle(`import ${what} from 'gridreason'; console.log(${value})`)
    assert.ok(size <= ceiling, `${name} carries ${size} bytes, ceiling ${ceiling}`)
    const packages = files.filter((file) => file.includes('node_modules/') && !file.includes('/gridreason/'))
    assert.deepEqual(packages, [], `${name} carries no other package`)
    assert.ok(!text.includes('Streiche'), `${name}: an app that speaks English carries no German`)
    carried[name] = size
  }
  assert.equal(
    run('module', `import { GERMAN } from 'gridreason/german'; console.log(GERMAN.language)`),
    'de',
  )
  assert.equal(
    run(
      'module',
      `import { toJSONSchema } from 'zod'; import { stepSchema } from 'gridreason/schemas'
       console.log(JSON.stringify(toJSONSchema(stepSchema)).includes('gridreason-step-v1'))`,
    ),
    'true',
  )

  // Types of the core need neither those of browsers nor those of Node, and are quick to check.
  writeFileSync(
    join(work, 'bare', 'core.mts'),
    `import { hint, parsePuzzle, solve, type Hint } from 'gridreason'
     export const given: Hint = hint(parsePuzzle('.'.repeat(81)))
     export const { status } = solve(parsePuzzle('.'.repeat(81)), { timeLimit: 5 })`,
  )
  for (const [module, moduleResolution] of [
    ['Node16', 'node16'],
    ['ESNext', 'bundler'],
  ]) {
    const compilerOptions = {
      ...{ module, moduleResolution, target: 'es2022', lib: ['es2023'], types: [] },
      ...{ noEmit: true, strict: true, exactOptionalPropertyTypes: true, skipLibCheck: false },
    }
    writeFileSync(
      join(work, 'bare', 'tsconfig.json'),
      JSON.stringify({ compilerOptions, files: ['core.mts'] }),
    )
    const tsc = join(root, 'node_modules', 'typescript', 'bin', 'tsc')
    const { stdout } = spawnSync(process.execPath, [tsc, '-p', '.', '--extendedDiagnostics'], {
      cwd: join(work, 'bare'),
      encoding: 'utf8',
    })
    assert.doesNotMatch(stdout, /error TS/, `types with ${moduleResolution}: ${stdout}`)
    const instantiations = Number(/Instantiations:\s+(\d+)/.exec(stdout)?.[1])
    assert.ok(
      instantiations <= INSTANTIATIONS,
      `types with ${moduleResolution}: ${instantiations} instantiations`,
    )
  }

  // Without the peers all imports but that of schemas work, raw pixels are read, and what is missing is said.
  assert.equal(
    run(
      'module',
      `import { parsePuzzle } from 'gridreason'; import 'gridreason/batch'
       import { createPhotoReader, createTesseractReader } from 'gridreason/photo'
       const reader = await createPhotoReader()
       const white = { width: 64, height: 64, data: new Uint8Array(64 * 64).fill(255) }
       const dark = { data: new Uint8Array(1600).map((_, i) => (i % 40 > 15 && i % 40 < 25 && i > 400 && i < 1200 ? 0 : 255)) }
       const codes = await Promise.all([
         reader.read(white), reader.read(Uint8Array.of(0xff, 0xd8, 0xff, 0xe0)), createTesseractReader().read([dark]),
       ].map((made) => made.then(() => 'read', ({ code, message }) => code + (/npm install (\\S+)/.exec(message)?.[1] ?? ''))))
       console.log(typeof parsePuzzle, ...codes)`,
      'bare',
    ),
    'function no-grid-found package-missingsharp package-missingtesseract.js',
  )

  // In a browser: photos by the same name, their weights apart, and schemas without a Node built-in.
  const inBrowser = async (contents: string) =>
    build({
      stdin: { contents, resolveDir: join(work, 'app'), loader: 'js' },
      bundle: true,
      minify: true,
      splitting: true,
      format: 'esm',
      platform: 'browser',
      outdir: join(work, 'out'),
      write: false,
      logLevel: 'error',
    })
  const { outputFiles } = await inBrowser(
    `import { createPhotoReader } from 'gridreason/photo'; console.log(createPhotoReader)`,
  )
  const [reader, ...apart] = outputFiles.map(({ contents }) => gzipSync(contents, { level: 9 }).length)
  assert.ok(reader! <= PHOTO_READER, `a photo reader carries ${reader} bytes, ceiling ${PHOTO_READER}`)
  await inBrowser(`import * as schemas from 'gridreason/schemas'; console.log(schemas)`)
  await checkBundlers(join(work, 'app'))

  console.log(`photo reader in a browser, compressed: ${reader}, loaded when asked for: ${apart}`)
  console.log(`package: ${size} bytes packed; carried, compressed: ${JSON.stringify(carried)}`)
} finally {
  rmSync(work, { recursive: true, force: true })
}
