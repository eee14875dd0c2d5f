import type { OptionChecks } from '../check-arguments.js'
import { techniqueNamed, techniquesUpTo } from '../logic/catalogue.js'
import type { Level } from '../logic/level.js'
import { CHOICE_CHECKS, type Choice } from '../logic/solving/choice.js'
import type { Step } from '../logic/steps/step.js'
import type { TechniqueName } from '../logic/technique-names.js'
import { WORKADAY_TECHNIQUES } from './workaday.js'

/** Techniques by name. */
export type Techniques = readonly TechniqueName[]

/** What a route is chosen by. */
export const ROUTE_AIMS = ['one-key', 'fewest-hard', 'easiest', 'shortest'] as const
/** What a route is chosen for. */
export type RouteAim = (typeof ROUTE_AIMS)[number]

/** Which steps a route may be made of. */
export interface RouteRules {
  /**
   * Techniques beyond the workaday ones that a step may use, easiest first: a key is sought in this order. Overrules
   * `preset`.
   */
  readonly techniques?: Techniques
  /** Techniques up to and including this level; `chain` when left out. */
  readonly preset?: Level
  /** What counts as everyday work and never as a key. Singles, locked candidates and subsets when left out. */
  readonly workaday?: Techniques
  /** Techniques that must not be used. */
  readonly avoid?: Techniques
  /** Techniques that must all be seen among the keys. */
  readonly show?: Techniques
  /** Longest chain, in links, as for `findSteps`. */
  readonly maxLinks?: number
  /** May steps rest on the puzzle having one solution? As for `findSteps`. */
  readonly oneSolution?: boolean
}

const techniques = CHOICE_CHECKS.techniques

/** For the public entries that take rules. */
export const RULE_CHECKS: OptionChecks<RouteRules> = {
  ...CHOICE_CHECKS,
  workaday: techniques,
  avoid: techniques,
  show: techniques,
}

/** The rules of a route, every default filled in. */
export interface ResolvedRules {
  readonly workaday: Techniques
  /** What a key may be of: those that must be shown first, then the others, easiest first. */
  readonly beyond: Techniques
  readonly show: Techniques
  readonly oneSolution: boolean | undefined
  readonly maxLinks: number | undefined
  isKey(step: Pick<Step, 'technique'>): boolean
}

/**
 * The rules of a route by what a choice of techniques allows: what of it counts as everyday work, and what a key may be
 * of. Without techniques or a preset they are those of `findRoute`.
 *
 * @throws InputError `argument` for a name that is no technique's
 */
export function rulesFor({ techniques, preset, maxLinks, oneSolution }: Choice): RouteRules {
  const allowed = techniques ? namesOf(techniques) : techniquesUpTo(preset ?? 'chain').map(({ name }) => name)
  const everyday: ReadonlySet<string> = new Set(WORKADAY_TECHNIQUES)
  return {
    workaday: allowed.filter((name) => everyday.has(name)),
    techniques: allowed.filter((name) => !everyday.has(name)),
    ...(maxLinks !== undefined && { maxLinks }),
    ...(oneSolution !== undefined && { oneSolution }),
  }
}

/** @throws InputError `argument` for a name that is no technique's */
export function resolveRules(rules: RouteRules): ResolvedRules {
  const avoid = new Set<string>(namesOf(rules.avoid ?? []))
  const workaday = namesOf(rules.workaday ?? WORKADAY_TECHNIQUES).filter((name) => !avoid.has(name))
  const isWorkaday = new Set<string>(workaday)
  const show = namesOf(rules.show ?? []).filter((name) => !isWorkaday.has(name))
  const allowed = rules.techniques
    ? namesOf(rules.techniques)
    : techniquesUpTo(rules.preset ?? 'chain').map(({ name }) => name)
  const beyond = [...new Set([...show, ...allowed])].filter(
    (name) => !avoid.has(name) && !isWorkaday.has(name),
  )
  return {
    workaday,
    beyond,
    show,
    oneSolution: rules.oneSolution,
    maxLinks: rules.maxLinks,
    isKey: ({ technique }) => !isWorkaday.has(technique),
  }
}

function namesOf(names: Techniques): TechniqueName[] {
  return names.map((name) => techniqueNamed(name).name)
}

/** What a search on a board of the route needs to hand on to `findSteps` and `solve`. */
export function choiceOf({ oneSolution, maxLinks }: ResolvedRules, techniques: Techniques): Choice {
  return {
    techniques,
    ...(oneSolution !== undefined && { oneSolution }),
    ...(maxLinks !== undefined && { maxLinks }),
  }
}
