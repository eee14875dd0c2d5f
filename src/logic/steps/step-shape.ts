import type { Candidate } from '../../grid/board.js'
import * as shape from '../../shape.js'
import { LEVELS } from '../level.js'
import { TECHNIQUE_NAMES } from '../technique-names.js'
import type { CaseTree, CellGroup, ChainLink, ChainNode, Pattern, Premise, Step } from './step.js'

// Whether the numbers make sense on a board, and whether the step is true, is for `verifyStep`.

const number = shape.whole()
const numbers = shape.list(number)
export const candidateShape: shape.Shape<Candidate> = shape.object<Candidate>({ cell: number, digit: number })
const candidates = shape.list(candidateShape)

const premise = shape.cases<Premise, 'kind'>('kind', {
  cell: { cell: number, digits: numbers },
  house: { house: number, digit: number, cells: numbers },
})

const chainNode = shape.object<ChainNode>({ digit: number, cells: numbers })
const links = shape.list(
  shape.object<ChainLink>({
    from: chainNode,
    to: chainNode,
    kind: shape.name(['strong', 'weak']),
    by: shape.cases<ChainLink['by'], 'kind'>('kind', {
      cell: { cell: number },
      house: { house: number },
      set: { cells: numbers },
      premises: {},
    }),
    fins: shape.optional(candidates),
  }),
)
const cellGroup = shape.object<CellGroup>({ cells: numbers, digits: numbers })

type Branch = CaseTree['branches'][number]

const caseTree: shape.Shape<CaseTree> = shape.later(() => caseTreeParts)
const caseTreeParts: shape.Shape<CaseTree> = shape.object<CaseTree>({
  split: shape.cases<CaseTree['split'], 'kind'>('kind', {
    cell: { cell: number, digits: numbers },
    house: { house: number, digit: number, cells: numbers },
    suppose: { cell: number, digit: number },
  }),
  branches: shape.list(
    shape.object<Branch>({
      assume: candidateShape,
      follows: shape.list(shape.object<Branch['follows'][number]>({ candidate: candidateShape, premise })),
      end: shape.cases<Branch['end'], 'kind'>('kind', {
        contradiction: { premise },
        claim: {},
        split: { tree: caseTree },
      }),
    }),
  ),
})

type PatternOf<S extends Pattern['shape']> = Extract<Pattern, { readonly shape: S }>

export const patternShape: shape.Shape<Pattern> = shape.cases<Pattern, 'shape'>('shape', {
  single: { cell: number, digit: number, house: shape.optional(number) },
  locked: { digit: number, from: number, to: number, cells: numbers },
  subset: { hidden: shape.flag, house: number, cells: numbers, digits: numbers },
  fish: { digit: number, base: numbers, cover: numbers, cells: numbers, fins: numbers },
  wing: { pivot: number, pincers: numbers, digit: number },
  chain: { links, loop: shape.flag },
  colouring: {
    clusters: shape.list(
      shape.object<PatternOf<'colouring'>['clusters'][number]>({ one: candidates, other: candidates }),
    ),
    links,
  },
  sets: {
    sets: shape.list(cellGroup),
    joins: shape.list(
      shape.object<PatternOf<'sets'>['joins'][number]>({
        digit: number,
        between: shape.tuple<readonly [number, number]>(number, number),
      }),
    ),
    stem: shape.optional(number),
  },
  exchange: { cells: numbers, digits: numbers, extras: candidates, links },
  exclusion: {
    cells: numbers,
    excluded: shape.list(
      shape.object<PatternOf<'exclusion'>['excluded'][number]>({ candidates, by: numbers }),
    ),
  },
  exocet: { base: numbers, targets: numbers, digits: numbers, lines: numbers },
  sectors: {
    cells: numbers,
    houses: shape.list(
      shape.object<PatternOf<'sectors'>['houses'][number]>({ house: number, digits: numbers }),
    ),
  },
  premises: {},
  cases: { tree: caseTree },
})

export const techniqueShape = shape.name(TECHNIQUE_NAMES, 'the name of a technique')
export const levelShape = shape.name(LEVELS)

/** The parts of a step, for what is a step and more. */
export const STEP_PARTS = {
  technique: techniqueShape,
  level: levelShape,
  placements: candidates,
  removals: candidates,
  premises: shape.list(premise),
  assumes: shape.optional(shape.only('one-solution')),
  pattern: patternShape,
}

export const stepShape: shape.Shape<Step> = shape.object<Step>(STEP_PARTS)
