import { inspect } from 'node:util'
import { expect, vi } from 'vitest'

export interface RoomTest {
  /** The file and all names, as in `test/grid/digits.test.ts#digit sets have counts`. */
  readonly id: string
  readonly name: string
  /** Up to where the test itself waits for something, it has run when this returns. */
  run(): Promise<void>
}

/** Thrown by what only the test runner proper can do: the test is left out. */
export class NeedsFreshModules extends Error {}

type Body = (...args: never[]) => unknown
interface Hooks {
  readonly before: Body[]
  readonly after: Body[]
}

/**
 * The part of `vitest` that tests of rooms use, for one test file: `describe` and `it` collect instead of running.
 * Names need only tell tests apart.
 */
export class TestCollector {
  readonly tests: RoomTest[] = []
  private readonly file: string
  private readonly ids = new Set<string>()
  private path: readonly string[] = []
  private hooks: readonly Hooks[] = [{ before: [], after: [] }]

  constructor(file: string) {
    this.file = file
  }

  /** What a test file gets when it imports `vitest`. */
  get api(): Readonly<Record<string, unknown>> {
    const it = withEach((name, body) => this.addTest(name, body))
    return {
      it,
      test: it,
      describe: withEach((name, body) => this.addGroup(name, body)),
      beforeEach: (hook: Body) => this.hooks.at(-1)!.before.push(hook),
      afterEach: (hook: Body) => this.hooks.at(-1)!.after.push(hook),
      expect,
      vi: { ...vi, resetModules: needsFreshModules },
    }
  }

  private addGroup(name: string, body: () => unknown): void {
    const { path, hooks } = this
    this.path = [...path, name]
    this.hooks = [...hooks, { before: [], after: [] }]
    body()
    this.path = path
    this.hooks = hooks
  }

  private addTest(name: string, body: () => unknown): void {
    const { hooks } = this
    const full = [...this.path, name].join(' ')
    let unique = full
    for (let n = 2; this.ids.has(unique); n++) unique = `${full} (${n})`
    this.ids.add(unique)
    this.tests.push({
      id: `${this.file}#${unique}`,
      name: unique,
      async run() {
        try {
          // without a turn of others before the body, as long as no hook asks for one
          for (const { before } of hooks) {
            for (const hook of before) {
              const pending = hook()
              if (pending instanceof Promise) await pending
            }
          }
          await body()
        } finally {
          for (const { after } of hooks) for (const hook of after) await hook()
        }
      },
    })
  }
}

function needsFreshModules(): never {
  throw new NeedsFreshModules('vi.resetModules')
}

/** `it` or `describe`, with its `each`: a row that is a list gives several arguments. */
function withEach(add: (name: string, body: () => unknown) => void) {
  const each =
    (table: readonly unknown[]) =>
    (name: string, body: Body): void => {
      table.forEach((row, i) => {
        const args = (Array.isArray(row) ? row : [row]) as never[]
        add(`${name} [${i}] ${label(args[0])}`, () => body(...args))
      })
    }
  return Object.assign((name: string, body: Body) => add(name, body), { each })
}

function label(argument: unknown): string {
  return inspect(argument, { depth: 0, breakLength: Number.POSITIVE_INFINITY }).slice(0, 40)
}
