import type { Candidate } from '../../grid/board.js'
import { digitsOf } from '../../grid/digits.js'
import { layoutOf } from '../../grid/layout.js'
import { alternativesOf } from '../../logic/proof/premise-search.js'
import type { ChainLink, ChainNode, FoundStep, Premise } from '../../logic/steps/step.js'
import type { Forced } from '../argument/consequence.js'
import type { Fact, Made } from '../argument/facts.js'

/** What a sentence speaks of, and so what its frame shows for the first time or again. */
export interface Shown {
  readonly cells: readonly number[]
  readonly candidates: readonly Candidate[]
  readonly houses: readonly number[]
  /** Digits placed and candidates struck by it. */
  readonly concluded: readonly Candidate[]
  /** It only says what there is, and no link is explained by it. */
  readonly lists?: boolean
}

class Showing {
  readonly cells: number[] = []
  readonly candidates: Candidate[] = []
  readonly houses: number[] = []
  readonly concluded: Candidate[] = []

  constructor(readonly step: FoundStep) {}

  cell(...cells: readonly number[]): this {
    this.cells.push(...cells)
    return this
  }
  house(...houses: readonly (number | undefined)[]): this {
    this.houses.push(...houses.filter((house) => house !== undefined))
    return this
  }
  candidate(...candidates: readonly Candidate[]): this {
    this.candidates.push(...candidates)
    this.cells.push(...candidates.map(({ cell }) => cell))
    return this
  }
  node(...nodes: readonly ChainNode[]): this {
    for (const { cells, digit } of nodes) this.candidate(...cells.map((cell) => ({ cell, digit })))
    return this
  }
  /** These digits in these cells, where they are candidates. */
  marks(cells: readonly number[], digits: readonly number[]): this {
    for (const cell of cells) {
      const own = digitsOf(this.step.before.candidates[cell]!)
      this.candidate(...digits.filter((digit) => own.includes(digit)).map((digit) => ({ cell, digit })))
      this.cell(cell)
    }
    return this
  }
  all(cells: readonly number[]): this {
    for (const cell of cells) this.marks([cell], digitsOf(this.step.before.candidates[cell]!))
    return this
  }
  premise(premise: Premise): this {
    this.house(premise.kind === 'house' ? premise.house : undefined)
    return this.candidate(...alternativesOf(premise))
  }
  by(by: ChainLink['by']): this {
    if (by.kind === 'house') this.house(by.house)
    if (by.kind === 'set') this.cell(...by.cells)
    return this
  }
  made(made: Made | undefined): this {
    if (!made) return this
    if (made.by.kind === 'set') this.cell(...made.by.cells)
    return this.node(made.node).candidate(...made.fins)
  }
  forced(steps: readonly Forced[]): this {
    for (const step of steps) {
      if ('locked' in step) this.marks(step.locked, step.digits)
      else this.candidate(step.candidate)
    }
    return this
  }
  /** A cell or house with nothing left. */
  fails(premise: Premise): this {
    return premise.kind === 'cell' ? this.cell(premise.cell) : this.house(premise.house)
  }
  conclude(...candidates: readonly Candidate[]): this {
    this.concluded.push(...candidates)
    return this.candidate(...candidates)
  }
}

const LISTS: ReadonlySet<Fact['kind']> = new Set([
  'sets',
  'stem',
  'pivot',
  'alike',
  'chain-given',
  'suppose',
  'watch',
])

/** What the sentence of a fact shows. */
export function shownBy(step: FoundStep, fact: Fact): Shown {
  const { cells, candidates, houses, concluded } = showing(step, fact)
  return { cells, candidates, houses, concluded, lists: LISTS.has(fact.kind) }
}

function showing(step: FoundStep, fact: Fact): Showing {
  const show = new Showing(step)
  switch (fact.kind) {
    case 'last-cell':
      return show.house(fact.house).conclude(fact)
    case 'only-candidate': {
      const { houses } = layoutOf(step.before.geometry)
      for (const { house, digits } of fact.seen)
        show.cell(...houses[house]!.cells.filter((cell) => digits.includes(step.before.digits[cell]!)))
      return show.conclude(fact)
    }
    case 'only-place':
      return show
        .house(fact.house)
        .cell(...fact.blockers)
        .conclude(fact)
    case 'confined':
      return show.house(fact.house, fact.into).marks(fact.cells, [fact.digit])
    case 'naked-subset':
    case 'hidden-subset':
      return show.house(fact.house).marks(fact.cells, fact.digits)
    case 'fish': {
      const { pattern } = step
      const cells = pattern.shape === 'fish' ? [...pattern.cells, ...pattern.fins] : fact.fins
      return show.house(...fact.base, ...fact.cover).marks(cells, [fact.digit])
    }
    case 'pivot':
    case 'stem':
      return show.marks([fact.cell], fact.digits)
    case 'pincer':
      return show.marks([fact.pivot], fact.when).marks([fact.cell], [...fact.when, fact.gives])
    case 'pivot-itself':
      return show.marks([fact.pivot], [fact.digit])
    case 'wing-count':
    case 'alike':
      return show.marks(fact.cells, fact.digits)
    case 'bridge':
      for (const { places, cell } of fact.ways)
        show.marks(places, [fact.digit]).marks([cell], [fact.digit, fact.gives])
      return show.house(fact.house)
    case 'take-turns':
      return show.marks(fact.cells, fact.digits)
    case 'joined':
      for (const { house, far, near } of fact.pairs) show.house(house).marks([...far, ...near], [fact.digit])
      return show
    case 'chain-given':
      return show.candidate(...fact.given)
    case 'chain-start':
      return show.node(fact.node).made(fact.made)
    case 'chain-move':
      return show.node(fact.off).by(fact.by).made(fact.made)
    case 'loop':
      return show.by(fact.by)
    case 'cluster':
      return show.candidate(...fact.one, ...fact.other)
    case 'colour-bridge':
    case 'colour-clash':
      return show.candidate(...fact.pair)
    case 'colour-outseen': {
      const { pattern } = step
      const clusters = pattern.shape === 'colouring' ? pattern.clusters : []
      return show.candidate(...(clusters[fact.index]?.[fact.colour] ?? []))
    }
    case 'sets':
      for (const { cells, digits } of fact.sets) show.marks(cells, digits)
      return show
    case 'set-needs': {
      const sets = step.pattern.shape === 'sets' ? step.pattern.sets : []
      const [own, from] = [sets[fact.index], fact.from === undefined ? undefined : sets[fact.from]]
      if (from) show.marks(from.cells, [fact.lacks])
      return own ? show.marks(own.cells, [fact.lacks, fact.needs]) : show
    }
    case 'set-ring': {
      const sets = step.pattern.shape === 'sets' ? step.pattern.sets : []
      for (const { digit, between } of fact.joins)
        for (const i of between) show.marks(sets[i]?.cells ?? [], [digit])
      return show
    }
    case 'crossing-count':
      for (const { cells, house } of fact.sides) show.house(house).all(cells)
      return show.all(fact.crossing)
    case 'petal':
      return show.marks([fact.stem], [fact.digit]).marks(fact.set.cells, fact.set.digits)
    case 'exchange':
      if (fact.manner === 'board' || fact.manner === 'own') show.candidate(...fact.extras)
      return show.marks(fact.cells, fact.digits)
    case 'extras':
      return show.candidate(...fact.extras)
    case 'extras-subset':
      return show
        .house(fact.house)
        .candidate(...fact.extras)
        .marks(fact.others, fact.digits)
    case 'watch':
      return show.candidate(...fact.candidates)
    case 'assumes-one-solution':
    case 'cannot-all-hold':
      return show
    case 'suppose':
      return show.candidate(...fact.candidates)
    case 'suppose-not':
      return show.candidate(fact.candidate)
    case 'follows':
      if (fact.end !== 'exchange') show.fails(fact.end)
      return show.forced(fact.forced)
    case 'takes':
      for (const { out, by } of fact.ways) show.candidate(...out).all(by?.cells ?? [])
      return show
    case 'pairs-fail':
      for (const { pairs, by } of fact.ways) show.candidate(...pairs.flat()).all(by?.cells ?? [])
      return show
    case 'starved':
      return show.marks(fact.cells, fact.left)
    case 'split':
      return show.premise(fact.premise)
    case 'branch': {
      const { end } = fact
      if (typeof end === 'object' && 'contradiction' in end && end.contradiction !== 'exchange')
        show.fails(end.contradiction)
      return show.candidate(fact.assume).forced(fact.follows)
    }
    case 'exocet-base':
      return show.marks(fact.base, fact.digits)
    case 'exocet-lines':
      return show.house(...fact.lines).marks(fact.targets, fact.digits)
    case 'exocet-targets': {
      const digits = step.pattern.shape === 'exocet' ? step.pattern.digits : []
      return show.marks([...fact.base, ...fact.targets], digits)
    }
    case 'sector-count':
      return show.house(...fact.houses.map(({ house }) => house)).all(fact.cells)
    case 'premise':
      return show.premise(fact.premise)
    case 'conclusion': {
      const { reason } = fact
      if (reason.kind === 'leads-nowhere' || reason.kind === 'leaves-exchange') show.forced(reason.forced)
      if (reason.kind === 'leads-nowhere') show.fails(reason.end)
      return show.conclude(...fact.candidates)
    }
    default:
      return fact satisfies never
  }
}
