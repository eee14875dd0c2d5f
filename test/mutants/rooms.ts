/** A part of the sources whose tests are tried with mutants, and the tests that have to catch them. */
export interface MutantRoom {
  readonly name: string
  /** Globs of the sources to change. */
  readonly sources: readonly string[]
  /**
   * Globs of the test files, quickest first: the first that fails ends a mutant's run, and only tests that reach it run
   * at all. Long property tests are left out, as a mutant that survives would have to sit through them, and tests of
   * time.
   */
  readonly tests: readonly string[]
  /** Names of tests in these files that are left out nevertheless. */
  readonly leftOut?: RegExp
  /** Share of the mutants, equivalent ones left aside, that must be killed. */
  readonly target: number
}

export const MUTANT_ROOMS: readonly MutantRoom[] = [
  {
    name: 'proof',
    sources: [
      'src/logic/proof/proof.ts',
      'src/logic/proof/premise-search.ts',
      'src/logic/proof/premise-holds.ts',
      'src/logic/steps/malformation.ts',
      'src/logic/claims/claim.ts',
    ],
    tests: [
      'test/logic/claims/claim.test.ts',
      'test/logic/proof/premise-holds.test.ts',
      'test/logic/steps/malformation.test.ts',
      'test/logic/proof/premise-search-ways.test.ts',
      'test/logic/proof/proof.test.ts',
      'test/logic/*fault*.test.ts',
      'test/logic/proof/one-solution.test.ts',
      'test/logic/proof/premise-search.test.ts',
    ],
    target: 0.9,
  },
  {
    name: 'exchange',
    sources: ['src/logic/proof/one-solution.ts', 'src/logic/uniqueness/**/*.ts'],
    tests: [
      'test/logic/uniqueness/**/*.test.ts',
      'test/logic/proof/one-solution.test.ts',
      'test/logic/proof/proof.test.ts',
      'test/logic/*fault*.test.ts',
    ],
    target: 0.85,
  },
  {
    name: 'count',
    sources: ['src/count/**/*.ts', '!src/count/kernel9/wasm-bytes.ts'],
    tests: [
      'test/count/budget.test.ts',
      'test/count/hitting-set.test.ts',
      'test/count/kernel9/**/*.test.ts',
      'test/count/general-search-nodes.test.ts',
      'test/count/engine-choice.test.ts',
      'test/count/order-four.test.ts',
      'test/count/conflict.test.ts',
      'test/count/spent.test.ts',
      // last, since a test that waits is not broken off
      'test/count/entries.test.ts',
    ],
    target: 0.85,
  },
  {
    name: 'board',
    sources: ['src/grid/board.ts', 'src/grid/board/**/*.ts', 'src/grid/digits.ts'],
    tests: ['test/grid/digits.test.ts', 'test/grid/board-rules.test.ts', 'test/grid/board-checks.test.ts'],
    target: 0.85,
  },
  {
    name: 'text',
    sources: ['src/grid/text/**/*.ts'],
    tests: [
      'test/grid/text/parse.test.ts',
      'test/grid/text/marks.test.ts',
      'test/grid/text/layouts.test.ts',
      'test/grid/text/classes.test.ts',
      'test/grid/text/**/*.test.ts',
    ],
    leftOut:
      /any (text|lines) at all|one character lost|of any shape|grows with|of any length|pipe|timers|a time limit/,
    target: 0.85,
  },
  {
    name: 'photo',
    sources: ['src/photo/decide/**/*.ts', 'src/photo/certainty.ts', 'src/photo/conclude.ts'],
    tests: ['test/photo/decide/**/*.test.ts', 'test/photo/certainty.test.ts', 'test/photo/conclude*.test.ts'],
    target: 0.85,
  },
]
