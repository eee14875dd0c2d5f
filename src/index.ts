// gridreason: what apps import. No Node built-ins here.

// count
export { type Backbone, backbone, backboneAsync } from './count/backbone.js'
export { type CountBudget, DEFAULT_NODE_BUDGET, type StopReason } from './count/budget.js'
export { checkUniqueness, checkUniquenessAsync, type Verdict } from './count/check-uniqueness.js'
export { type Conflict, smallestConflict, smallestConflictAsync } from './count/conflict.js'
export {
  type CountOptions,
  countSolutions,
  countSolutionsAsync,
  type SolutionCount,
  type SolutionList,
  solutionsOf,
  solutionsOfAsync,
} from './count/count-solutions.js'
export { countUpToTwo, countUpToTwoAsync } from './count/count-up-to-two.js'
export {
  type DigitSwap,
  type Distinction,
  type DistinguishOptions,
  distinguishingCells,
  distinguishingCellsAsync,
  type OpenCell,
} from './count/distinguish.js'
export { type RandomSolutionOptions, randomSolution, randomSolutionAsync } from './count/random-solution.js'
export { type RedundantGivens, redundantGivens, redundantGivensAsync } from './count/redundant-givens.js'
// errors
export {
  ERROR_CODES,
  type ErrorCode,
  type ErrorPlace,
  GridreasonError,
  InputError,
  type Signal,
  StoppedError,
} from './errors.js'
export type { Consequence, Forced, Refutation } from './explain/argument/consequence.js'
export type {
  ChainFact,
  ColourFact,
  CountFact,
  DenialFact,
  ExchangeFact,
  Fact,
  LineFact,
  Made as MadeLink,
  Maker as LinkMaker,
  SetFact,
  SingleFact,
  Starved as StarvedCells,
  WingFact,
} from './explain/argument/facts.js'
export type { ColourOf, Reason } from './explain/argument/reason.js'
// explain
export { cellGroups, parseCells } from './explain/cell-names.js'
export { cueSheet } from './explain/cue-sheet.js'
export { type ExplainOptions, type Explanation, explainStep } from './explain/explain-step.js'
export { type FramesOptions, frames } from './explain/frames.js'
export {
  type ArgumentHint,
  type CellsHint,
  HINT_DEPTHS,
  type Hint,
  type HintDepth,
  type HintOptions,
  hint,
  hintAsync,
  type LookHint,
  type MethodHint,
  type StepHint,
} from './explain/hint.js'
export type {
  Clue,
  FartherMiss,
  HouseCells,
  LargerMiss,
  LookFirst,
  NearMiss,
  Try as WhatToTry,
  WhyHere,
  Works as WhyItWorks,
} from './explain/hunt/clue.js'
export { type Hunt, type HuntOptions, hunt } from './explain/hunt.js'
export type { MistakeHint, ShortMistakeHint, WholeMistakeHint } from './explain/mistake-hint.js'
export type { CellNaming, Names } from './explain/names.js'
export { conclusionNotation, linkNotation } from './explain/notation.js'
export { parseLinkNotation, type WrittenLinks } from './explain/parse-notation.js'
export { FRAME_SHAPES, type FrameShape } from './explain/picture/frame-page.js'
export type { Frame } from './explain/picture/frame-row.js'
export { ROLES, type Role } from './explain/picture/roles.js'
export { THEMES, type ThemeName } from './explain/picture/theme.js'
export { renderSvg, type SvgOptions } from './explain/render-svg.js'
export type { VoiceOptions } from './explain/voice.js'
export {
  type ReadPuzzle,
  WALKTHROUGH_FORMATS,
  WALKTHROUGH_VERSIONS,
  type WalkthroughFormat,
  type WalkthroughOptions,
  type WalkthroughVersion,
  walkthrough,
  walkthroughAsync,
} from './explain/walkthrough.js'
export { ENGLISH } from './explain/words/english/index.js'
export { techniqueTitle } from './explain/words/english/technique-title.js'
export type {
  HintWording,
  NotesWording,
  SheetWording,
  WalkthroughWording,
  Wording,
} from './explain/words/wording.js'
// grade
export {
  type Coverage,
  CoverageCounter,
  coverage,
  indispensableTechniques,
  indispensableTechniquesAsync,
  mergeCoverage,
  type TechniqueCoverage,
} from './grade/coverage.js'
export { stepEffort } from './grade/effort.js'
export {
  type Bottleneck,
  compareGrades,
  type Grade,
  type Key as GradeKey,
  parseGrade,
} from './grade/grade.js'
export { type GradeOptions, gradePuzzle, gradePuzzleAsync } from './grade/grade-puzzle.js'
// grid
export {
  type BoardContradiction,
  contradictionOf,
  hasCandidate,
  isNoted,
  openCount,
  placesIn,
  puzzleOf,
} from './grid/board/ask.js'
export { applyTo, eraseDigit, noteMarks, restoreCandidates } from './grid/board/edit.js'
export { type BoardParts, boardFromMarks, boardFromParts, newBoard } from './grid/board/make.js'
export type { Board, Candidate, Conclusion } from './grid/board.js'
export {
  type CanonicalForm,
  type CanonicalOptions,
  canonicalForm,
  canonicalFormAsync,
  canonicalKey,
  canonicalKeyAsync,
  type Deduped,
  dedupePuzzles,
  dedupePuzzlesAsync,
} from './grid/canonical.js'
// grid
export { canonicalBoardKey, canonicalBoardKeyAsync } from './grid/canonical-board.js'
export { DIGIT_STYLES, type DigitStyle, digitName } from './grid/digit-names.js'
export { digitCount, digitsOf } from './grid/digit-sets.js'
export { type DigitSet, digitSet } from './grid/digits.js'
export {
  boxedGeometry,
  cellName,
  type Geometry,
  type RegionOptions,
  regionGeometry,
  STANDARD,
  usualGeometry,
} from './grid/geometry.js'
export {
  type BoardJson,
  boardFromJson,
  boardToJson,
  type PuzzleJson,
  puzzleFromJson,
  puzzleToJson,
} from './grid/json.js'
export { HOUSE_KINDS, type House, type HouseKind, type Layout, layoutOf } from './grid/layout.js'
export { type Clash, findClashes, makePuzzle, type Puzzle } from './grid/puzzle.js'
export {
  followedBy,
  type GridTransform,
  inverse,
  lineSwap,
  makeTransform,
  mirroring,
  quarterTurn,
  randomTransform,
  relabelling,
  squareSymmetries,
  transformBoard,
  transformCandidate,
  transformConclusion,
  transformPuzzle,
  transposition,
} from './grid/symmetry.js'
export type { TextFormatName } from './grid/text/formats.js'
export {
  type ParsedBoard,
  type ParsedPuzzle,
  parseBoard,
  parsePuzzle,
  safeParseBoard,
  safeParsePuzzle,
} from './grid/text/parse.js'
export type { ParseOptions } from './grid/text/read-sheet.js'
export {
  type BoardEntry,
  type EntryPlace,
  type PuzzleEntry,
  type ReadOptions,
  readBoards,
  readPuzzles,
  type TextChunks,
} from './grid/text/stream.js'
export { type FormatOptions, formatPuzzle } from './grid/text/write.js'
// lessons
export type { Exercise } from './lessons/exercise.js'
export { exerciseSheet, type SheetExercise, type SheetOptions } from './lessons/exercise-sheet.js'
export { type ExerciseOptions, findExercises } from './lessons/find-exercises.js'
export type { Known } from './lessons/known.js'
export { type NeedsOptions, needsTechnique, needsTechniqueAsync } from './lessons/needs-technique.js'
export {
  type Graded,
  type GradedRecord,
  PICK_ORDERS,
  type PickOrder,
  type PickQuery,
  pick,
  pickAsync,
} from './lessons/pick.js'
export type { Opened } from './lessons/positions.js'
export type { PuzzleItem, PuzzleSource, SourcePlace, Unread } from './lessons/starts.js'
// limits
export type { Limits, StoppedBy } from './limits.js'
// logic
export { type ClaimVerdict, checkClaim, checkClaimAsync, type OwnClaim } from './logic/claims/check-claim.js'
export {
  checkProgress,
  checkProgressAsync,
  type JudgedProgress,
  type Progress,
  type ProgressOptions,
} from './logic/claims/check-progress.js'
export { type Claim, claimsOf } from './logic/claims/claim.js'
export type { Mistake } from './logic/claims/mistakes.js'
export { LEVELS, type Level } from './logic/level.js'
export type { ExchangeFault } from './logic/proof/one-solution.js'
export type { PremiseFault } from './logic/proof/premise-holds.js'
export {
  type StepVerdict,
  type Unproven,
  type VerifyOptions,
  verifyStep,
  verifyStepAsync,
} from './logic/proof/proof.js'
export type { Choice } from './logic/solving/choice.js'
export { cutBack, setUp } from './logic/solving/dependencies.js'
export {
  type FindStepsOptions,
  findSteps,
  findStepsAsync,
  nextStep,
  nextStepAsync,
  stepsOf,
  stepsOfAsync,
} from './logic/solving/find.js'
export { type RankedStep, type RankOptions, rankSteps, rankStepsAsync } from './logic/solving/rank.js'
export { type SolveOptions, type SolvePath, solve, solveAsync } from './logic/solving/solve.js'
export type { Malformation } from './logic/steps/malformation.js'
export {
  type Ending as PathEnding,
  type PathJson,
  pathFromJson,
  pathToJson,
  type SavedStep,
} from './logic/steps/path-json.js'
export type {
  CaseTree,
  CellGroup,
  ChainLink,
  ChainNode,
  Excluded as ExcludedCandidates,
  FoundStep,
  PathStep,
  Pattern,
  Premise,
  Step,
  Supposition,
} from './logic/steps/step.js'
export { formatStep, parseStep, type StepResult, safeParseStep } from './logic/steps/step-json.js'
export { TECHNIQUE_NAMES, type TechniqueName } from './logic/technique-names.js'
// route
export {
  findRoute,
  findRouteAsync,
  type Route,
  type RouteLine,
  type RouteOptions,
  type RouteSearch,
} from './route/find-route.js'
export { keyStep } from './route/key-step.js'
export type { Chapter } from './route/lay-out.js'
export {
  ROUTE_AIMS,
  type RouteAim,
  type RouteRules,
  type Techniques as TechniqueChoice,
} from './route/rules.js'
export {
  type Opener,
  type OpenersOptions,
  openers,
  openersAsync,
  proofsOf,
  proofsOfAsync,
  type WishOptions,
} from './route/wishes.js'
export { WORKADAY_TECHNIQUES } from './route/workaday.js'
