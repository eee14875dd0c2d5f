import type { Candidate } from '../../grid/board.js'
import type { FoundStep, Pattern } from '../../logic/steps/step.js'
import type { Fact } from '../argument/facts.js'
import type { Reason, Why } from '../argument/reason.js'
import type { Quarry } from '../hunt/quarry.js'
import type { PlanBuilder } from '../picture/plan-builder.js'
import * as cases from './cases.js'
import * as chain from './chain.js'
import * as colouring from './colouring.js'
import * as exchange from './exchange.js'
import * as exclusion from './exclusion.js'
import * as exocet from './exocet.js'
import * as fish from './fish.js'
import * as locked from './locked.js'
import * as premises from './premises.js'
import * as sectors from './sectors.js'
import * as sets from './sets.js'
import * as single from './single.js'
import type { Shape, Story } from './story.js'
import * as subset from './subset.js'
import * as wing from './wing.js'

type Table<Part extends keyof Story<Shape>> = { readonly [S in Shape]: Story<S>[Part] }

// Tables of their own, so that a bundler leaves out what an app does not use: words without pictures, for one.

const FACTS: Table<'facts'> = {
  single: single.facts,
  locked: locked.facts,
  subset: subset.facts,
  fish: fish.facts,
  wing: wing.facts,
  chain: chain.facts,
  colouring: colouring.facts,
  sets: sets.facts,
  exchange: exchange.facts,
  exclusion: exclusion.facts,
  exocet: exocet.facts,
  sectors: sectors.facts,
  premises: premises.facts,
  cases: cases.facts,
}

const REASONS: Table<'reason'> = {
  single: single.reason,
  locked: locked.reason,
  subset: subset.reason,
  fish: fish.reason,
  wing: wing.reason,
  chain: chain.reason,
  colouring: colouring.reason,
  sets: sets.reason,
  exchange: exchange.reason,
  exclusion: exclusion.reason,
  exocet: exocet.reason,
  sectors: sectors.reason,
  premises: premises.reason,
  cases: cases.reason,
}

const PLANS: Table<'plan'> = {
  single: single.plan,
  locked: locked.plan,
  subset: subset.plan,
  fish: fish.plan,
  wing: wing.plan,
  chain: chain.plan,
  colouring: colouring.plan,
  sets: sets.plan,
  exchange: exchange.plan,
  exclusion: exclusion.plan,
  exocet: exocet.plan,
  sectors: sectors.plan,
  premises: premises.plan,
  cases: cases.plan,
}

const CLUES: Table<'clues'> = {
  single: single.clues,
  locked: locked.clues,
  subset: subset.clues,
  fish: fish.clues,
  wing: wing.clues,
  chain: chain.clues,
  colouring: colouring.clues,
  sets: sets.clues,
  exchange: exchange.clues,
  exclusion: exclusion.clues,
  exocet: exocet.clues,
  sectors: sectors.clues,
  premises: premises.clues,
  cases: cases.clues,
}

const PLACED: Partial<Table<'placed'>> = {
  single: single.reason,
  chain: chain.placed,
  sets: sets.placed,
  exchange: exchange.placed,
  cases: cases.reason,
}

const HOUSES: Partial<Table<'houses'>> = {
  single: single.houses,
  locked: locked.houses,
  subset: subset.houses,
  fish: fish.houses,
}

// In each of these, the compiler does not see that a table's entry gets a pattern of its own shape.

/** The facts of a step's pattern, in the order in which they are said, without conclusions. */
export function shapeFacts(step: FoundStep, reasons: readonly Why[]): Fact[] {
  const facts = FACTS[step.pattern.shape] as Story<Shape>['facts']
  return facts(step, step.pattern, reasons)
}

/** Why a candidate goes or a digit is placed, by the pattern; undefined when it has no reason for this one. */
export function shapeReason(
  step: FoundStep,
  candidate: Candidate,
  effect: Why['effect'],
): Reason | undefined {
  const { pattern } = step
  const reason = (effect === 'removed' ? REASONS : PLACED)[pattern.shape] as Story<Shape>['placed']
  return reason?.(step, pattern, candidate)
}

/** Draws who plays which part in the pattern. */
export function planShape(picture: PlanBuilder, step: FoundStep, reasons: () => readonly Why[]): void {
  const plan = PLANS[step.pattern.shape] as Story<Shape>['plan']
  plan(picture, step, step.pattern, reasons)
}

/** How the pattern is found. */
export function shapeClues(step: FoundStep): Quarry {
  const clues = CLUES[step.pattern.shape] as Story<Shape>['clues']
  return clues(step, step.pattern)
}

/** The houses that the pattern itself names, if it does. */
export function shapeHouses(pattern: Pattern): readonly number[] | undefined {
  const houses = HOUSES[pattern.shape] as Story<Shape>['houses']
  return houses?.(pattern)
}
