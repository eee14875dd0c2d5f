import {
  boardToJson,
  boxedGeometry,
  CoverageCounter,
  findSteps,
  formatStep,
  gradePuzzle,
  layoutOf,
  mirroring,
  newBoard,
  parsePuzzle,
  pathToJson,
  puzzleToJson,
  STANDARD,
  solve,
} from '../../src/index.js'

const aBoard = newBoard(parsePuzzle('1'.padEnd(81, '.')))

/** What is handed in where something else is expected, each with a name for the report. */
export const JUNK: readonly (readonly [string, unknown])[] = [
  ['undefined', undefined],
  ['null', null],
  ['true', true],
  ['0', 0],
  ['1', 1],
  ['-1', -1],
  ['1.5', 1.5],
  ['NaN', Number.NaN],
  ['a large number', 1e9],
  ['a bigint', 10n],
  ['a symbol', Symbol('junk')],
  ['an empty string', ''],
  ['a string', 'junk'],
  ['{}', {}],
  ['an object without a prototype', Object.create(null)],
  ['[]', []],
  ['[undefined]', [undefined]],
  ['[null]', [null]],
  ['[1]', [1]],
  ['a list with a hole', new Array(1)],
  ['["junk"]', ['junk']],
  ['[{}]', [{}]],
  ['a function', () => undefined],
  ['a Date', new Date(0)],
  ['a Map', new Map()],
  ['a geometry without a key', { ...STANDARD, key: undefined }],
  ['a geometry with the key of another', { ...STANDARD, key: '2x2' }],
  ['a geometry with another order', { ...STANDARD, order: 4 }],
  ['a geometry', boxedGeometry(2, 2)],
  ['a copy of a geometry', JSON.parse(JSON.stringify(boxedGeometry(2, 2)))],
  ['a puzzle of one cell', { geometry: STANDARD, givens: [1] }],
  ['a puzzle with a digit out of range', { geometry: STANDARD, givens: new Array(81).fill(10) }],
  ['a puzzle on no geometry', { geometry: { ...STANDARD, regions: [] }, givens: new Array(81).fill(0) }],
  ['saved data of a puzzle without cells', { ...puzzleToJson(parsePuzzle('1'.padEnd(81, '.'))), givens: [] }],
  ['a board on another geometry', { ...aBoard, geometry: boxedGeometry(2, 2) }],
  ['a board with other candidates than are left', { ...aBoard, candidates: aBoard.digits }],
  ['a board without its digits', { ...aBoard, digits: undefined }],
]

/** May this value stand here, though it is none of the usual ones? */
export type Allows = (value: unknown) => boolean

/** An argument: a value that is right, what else may stand there, and for options what each may be. */
export interface Argument {
  readonly good: unknown
  readonly allows: Allows
  readonly options?: Readonly<Record<string, Allows>>
}

export const never: Allows = () => false
export const whole =
  (least: number, most = Number.POSITIVE_INFINITY): Allows =>
  (value) =>
    Number.isInteger(value) && (value as number) >= least && (value as number) <= most
export const amount =
  (least: number): Allows =>
  (value) =>
    typeof value === 'number' && value >= least
export const anyString: Allows = (value) => typeof value === 'string'
export const flag: Allows = (value) => typeof value === 'boolean'
export const emptyList: Allows = (value) => Array.isArray(value) && value.length === 0
const isList: Allows = (value) => Array.isArray(value)
const isBare: Allows = (value) =>
  typeof value === 'object' && value !== null && Object.keys(value).length === 0
/** What JavaScript takes for options without any: an object that has none. */
export const noOptions: Allows = (value) =>
  value === undefined ||
  (typeof value === 'object' && value !== null && !Array.isArray(value) && Object.keys(value).length === 0)

export const arg = (good: unknown, allows: Allows = never): Argument => ({ good, allows })
export const optional = (good: unknown, allows: Allows = never): Argument => ({
  good,
  allows: (value) => value === undefined || allows(value),
})
export const options = (known: Readonly<Record<string, Allows>>, good: object = {}): Argument => ({
  good,
  allows: Object.keys(good).length === 0 ? noOptions : never,
  options: known,
})

const GEOMETRY_JUNK = JUNK.filter(([name]) => /^a (copy of a )?geometry$/.test(name)).map(
  ([, value]) => value,
)

const aPuzzle = parsePuzzle(
  '5...6.....6.1.27..4...7...3.....95.4..4..7...2..3......8..2....7....3.9..3...42..',
)
const path = solve(aPuzzle)
const halfway = solve(aPuzzle, { preset: 'mark' }).board
const stuck = solve(aPuzzle).board
const step = findSteps(halfway, { limit: 1 })[0]!
const transform = mirroring(STANDARD)
const grade = gradePuzzle(aPuzzle)

const puzzle = arg(aPuzzle)
const board = arg(halfway)
const source = arg(aPuzzle)
export const geometry = arg(STANDARD, (value) => GEOMETRY_JUNK.includes(value))
const cell = arg(0, whole(0, 80))
const digit = arg(1, whole(1, 9))
const foundStep = arg(step)
const aTransform = arg(transform)

const LIMITS = { signal: never, timeLimit: amount(0) }
const BUDGET = { ...LIMITS, nodeBudget: whole(0) }
const TECHNIQUES: Allows = emptyList
const CHOICE = {
  preset: never,
  techniques: TECHNIQUES,
  oneSolution: flag,
  maxLinks: whole(1),
}
const KNOWN = { known: emptyList, oneSolution: flag, maxLinks: whole(1) }
/** A function may name cells; how, is seen when it is called. */
const VOICE = { wording: never, digits: never, cells: (value: unknown) => typeof value === 'function' }
const PARSE = { geometry: geometry.allows, format: never }

export type Entries = Readonly<Record<string, readonly Argument[]>>

/** Arguments of every function of the core. */
export const CORE: Entries = {
  // route
  findRoute: [
    arg(stuck),
    options({
      ...CHOICE,
      ...LIMITS,
      workaday: emptyList,
      avoid: emptyList,
      show: emptyList,
      aim: never,
      alternatives: whole(0),
    }),
  ],
  keyStep: [arg(path.steps, emptyList)],
  openers: [arg(stuck), options({ ...CHOICE, ...LIMITS, workaday: emptyList, limit: whole(0) })],
  proofsOf: [
    arg(stuck),
    arg({ kind: 'removal', candidate: { cell: 0, digit: 1 } }),
    options({ ...CHOICE, ...LIMITS }),
  ],
  // lessons
  findExercises: [
    arg(
      aPuzzle.givens.join(''),
      // a list of strings is text in pieces
      (value) =>
        anyString(value) ||
        emptyList(value) ||
        value instanceof Map ||
        (isList(value) && typeof (value as unknown[])[0] === 'string'),
    ),
    arg('x-wing'),
    options({
      ...KNOWN,
      ...VOICE,
      ...LIMITS,
      instances: whole(1),
      needed: flag,
      finishes: flag,
      count: whole(0),
      window: whole(1),
      onUnread: (value) => typeof value === 'function',
    }),
  ],
  exerciseSheet: [
    arg([{ answer: step }], emptyList),
    options({ ...VOICE, title: anyString, perPage: (value) => value === 1, hints: flag, theme: never }),
  ],
  needsTechnique: [source, arg('x-wing'), options({ ...KNOWN, ...LIMITS })],
  pick: [
    arg(
      [{ grade }],
      // what has no grade is passed over
      (value) =>
        emptyList(value) || value instanceof Map || (isList(value) && isBare((value as unknown[])[0])),
    ),
    options({
      ...KNOWN,
      ...LIMITS,
      key: emptyList,
      level: emptyList,
      effort: noOptions,
      uses: emptyList,
      avoids: emptyList,
      needs: never,
      order: never,
      count: whole(0),
    }),
  ],
  // count
  backbone: [puzzle, options(BUDGET)],
  checkUniqueness: [puzzle, options(BUDGET)],
  countSolutions: [puzzle, options({ ...BUDGET, limit: amount(0) })],
  countUpToTwo: [
    arg(aPuzzle.givens),
    optional(STANDARD),
    { ...options(BUDGET), allows: (value) => noOptions(value) || whole(0)(value) },
  ],
  distinguishingCells: [puzzle, options({ ...BUDGET, limit: amount(2) })],
  randomSolution: [
    puzzle,
    options({ ...BUDGET, seed: whole(Number.NEGATIVE_INFINITY), fair: flag }, { seed: 1 }),
  ],
  redundantGivens: [puzzle, options(BUDGET)],
  smallestConflict: [puzzle, options(BUDGET)],
  solutionsOf: [puzzle, options({ ...BUDGET, limit: amount(0) }, { limit: 1 })],
  // explain
  cellGroups: [
    geometry,
    arg([0, 1], (value) => emptyList(value) || (isList(value) && String(value) === '1')),
  ],
  conclusionNotation: [
    geometry,
    arg([{ cell: 0, digit: 1 }], emptyList),
    arg([], emptyList),
    optional('letters'),
  ],
  cueSheet: [arg([], emptyList)],
  explainStep: [foundStep, options(VOICE)],
  frames: [
    foundStep,
    options({
      ...VOICE,
      theme: never,
      shape: never,
      width: (value) => typeof value === 'number' && value > 0,
      marks: never,
      title: anyString,
      wordsPerMinute: (value) => typeof value === 'number' && value >= 1 && value <= 1000,
    }),
  ],
  hint: [source, options({ ...CHOICE, ...VOICE, depth: never, route: never, ...LIMITS })],
  hunt: [
    foundStep,
    options({
      ...VOICE,
      theme: never,
      shape: never,
      width: (value) => typeof value === 'number' && value > 0,
      marks: never,
      title: anyString,
      wordsPerMinute: (value) => typeof value === 'number' && value >= 1 && value <= 1000,
      pictures: flag,
    }),
  ],
  linkNotation: [geometry, arg([], emptyList), optional(false, flag), optional('letters')],
  parseCells: [geometry, arg('r1c1', (value) => value === '')],
  parseLinkNotation: [geometry, arg('(3)r1c1=(3)r1c5')],
  renderSvg: [
    board,
    options({
      ...VOICE,
      step: never,
      placed: emptyList,
      marks: never,
      unused: never,
      theme: never,
      legend: flag,
      title: anyString,
      width: (value) => typeof value === 'number' && value > 0,
    }),
  ],
  techniqueTitle: [arg('x-wing')],
  walkthrough: [
    arg(solve(stuck)),
    options({
      ...CHOICE,
      ...BUDGET,
      ...VOICE,
      format: never,
      title: anyString,
      version: never,
      onlyWhatMatters: flag,
    }),
  ],
  // grade
  compareGrades: [arg(grade), arg(grade)],
  mergeCoverage: [arg([], (value) => emptyList(value) || value instanceof Map)],
  coverage: [arg([grade], (value) => emptyList(value) || value instanceof Map)],
  gradePuzzle: [puzzle, options({ ...CHOICE, ...BUDGET, route: flag })],
  indispensableTechniques: [puzzle, options({ ...CHOICE, ...LIMITS })],
  parseGrade: [arg(grade)],
  stepEffort: [foundStep],
  // grid
  applyTo: [board, arg({ placements: [], removals: [] })],
  boardFromMarks: [puzzle, arg(aPuzzle.givens), arg(new Array(81).fill(511))],
  boardFromParts: [puzzle, arg(halfway)],
  contradictionOf: [board],
  eraseDigit: [board, arg(aPuzzle.givens.indexOf(0), whole(0, 80))],
  hasCandidate: [board, arg(0, () => true), arg(1, () => true)],
  isNoted: [board, cell],
  newBoard: [puzzle],
  noteMarks: [board, arg(aPuzzle.givens.indexOf(0), whole(0, 80)), optional(7, whole(0, 511))],
  openCount: [board],
  placesIn: [board, arg(0, whole(0, 26)), digit],
  puzzleOf: [board],
  restoreCandidates: [board, arg([], emptyList)],
  boardFromJson: [arg(boardToJson(halfway))],
  boardToJson: [board],
  boxedGeometry: [arg(3, whole(1)), arg(3, whole(1))],
  canonicalBoardKey: [board, options({ ...LIMITS, nodeBudget: whole(0) })],
  canonicalForm: [puzzle, options({ ...LIMITS, nodeBudget: whole(0) })],
  canonicalKey: [puzzle, options({ ...LIMITS, nodeBudget: whole(0) })],
  cellName: [geometry, cell],
  dedupePuzzles: [
    arg([aPuzzle], (value) => emptyList(value) || value instanceof Map),
    options({ ...LIMITS, nodeBudget: whole(0) }),
  ],
  digitCount: [arg(5, whole(0, 0xffff))],
  digitName: [digit, optional('letters')],
  digitSet: [
    arg(
      [1, 2],
      (value) => emptyList(value) || (isList(value) && String(value) === '1') || value instanceof Map,
    ),
  ],
  digitsOf: [arg(5, whole(0, 0xffff))],
  findClashes: [arg(STANDARD), arg(aPuzzle.givens)],
  followedBy: [aTransform, aTransform],
  formatPuzzle: [
    source,
    options({ style: never, empty: never, separator: never, geometryLine: flag, digits: never }),
  ],
  inverse: [aTransform],
  layoutOf: [geometry],
  lineSwap: [arg(STANDARD), arg([1, 0, 2, 3, 4, 5, 6, 7, 8]), optional([0, 1, 2, 3, 4, 5, 6, 7, 8])],
  makePuzzle: [arg(aPuzzle.givens), optional(STANDARD)],
  makeTransform: [arg(STANDARD), arg(STANDARD), arg(transform.cellTo), optional(transform.digitTo)],
  mirroring: [geometry],
  parseBoard: [arg(aPuzzle.givens.join('')), options(PARSE)],
  parsePuzzle: [arg(aPuzzle.givens.join('')), options(PARSE)],
  puzzleFromJson: [arg(puzzleToJson(aPuzzle))],
  puzzleToJson: [puzzle],
  quarterTurn: [geometry],
  randomTransform: [geometry, arg(1, whole(Number.NEGATIVE_INFINITY))],
  readBoards: [
    arg(['1'], (value) => anyString(value) || emptyList(value) || value instanceof Map || isList(value)),
    options({ ...PARSE, ...LIMITS }),
  ],
  readPuzzles: [
    arg(['1'], (value) => anyString(value) || emptyList(value) || value instanceof Map || isList(value)),
    options({ ...PARSE, ...LIMITS }),
  ],
  regionGeometry: [
    arg('jigsaw', anyString),
    arg(layoutOf(STANDARD).housesOf.map(([, , box]) => box! - 18)),
    options({ diagonals: flag }),
  ],
  relabelling: [arg(STANDARD), arg(transform.digitTo)],
  safeParseBoard: [arg(aPuzzle.givens.join(''), anyString), options(PARSE)],
  safeParsePuzzle: [arg(aPuzzle.givens.join(''), anyString), options(PARSE)],
  squareSymmetries: [geometry],
  transformBoard: [board, aTransform],
  transformCandidate: [arg({ cell: 0, digit: 1 }), aTransform],
  transformConclusion: [arg({ placements: [], removals: [] }), aTransform],
  transformPuzzle: [puzzle, aTransform],
  transposition: [geometry],
  usualGeometry: [arg(9, whole(0))],
  // logic
  checkClaim: [
    board,
    options({ placed: emptyList, removed: emptyList, technique: never, because: () => true }),
    options(LIMITS),
  ],
  checkProgress: [puzzle, board, options({ ...LIMITS, history: emptyList })],
  claimsOf: [arg({ placements: [], removals: [] })],
  cutBack: [arg(path.steps, emptyList), optional([0], isList)],
  findSteps: [
    arg(stuck),
    options({ ...CHOICE, ...LIMITS, avoid: emptyList, limit: whole(0), allLengths: flag }),
  ],
  formatStep: [foundStep],
  nextStep: [board, options({ ...CHOICE, ...LIMITS })],
  parseStep: [arg(JSON.parse(formatStep(step)))],
  pathFromJson: [arg(pathToJson(path))],
  pathToJson: [arg(path)],
  rankSteps: [arg([step], emptyList), options({ ...LIMITS, preset: never, oneSolution: flag })],
  safeParseStep: [arg(JSON.parse(formatStep(step)), () => true)],
  setUp: [arg(path.steps), arg(3, whole(0, path.steps.length - 1))],
  solve: [source, options({ ...CHOICE, ...LIMITS })],
  stepsOf: [
    arg(stuck),
    options({ ...CHOICE, ...LIMITS, avoid: emptyList, limit: whole(0), allLengths: flag }),
  ],
  verifyStep: [board, arg(step, () => true), options({ ...LIMITS, budget: whole(0) })],
}

export interface Methods {
  /** Of the class itself. */
  readonly fixed: Entries
  /** Of a value of the class. */
  readonly own: Entries
  readonly make: () => object
}

/** Methods of the classes of the core. */
export const METHODS: Readonly<Record<string, Methods>> = {
  CoverageCounter: {
    fixed: {},
    own: { add: [arg(grade)], addCoverage: [arg(new CoverageCounter().result)] },
    make: () => new CoverageCounter(),
  },
}
