import { hasCandidate } from '../../grid/board/ask.js'
import type { Candidate } from '../../grid/board.js'
import { layoutOf } from '../../grid/layout.js'
import { exclude } from '../../logic/proof/exclude.js'
import type { CaseTree, ChainNode, FoundStep, Pattern } from '../../logic/steps/step.js'
import { chainEnds, isFinned, pairOfTurns } from './argue-chains.js'
import { bridges, colourClash, opposite, outseenBy } from './argue-colouring.js'
import { extrasSubset } from './argue-exchange.js'
import { crossingCount, hasAllPetals, isRing, setEnds } from './argue-sets.js'
import { wingEnds } from './argue-wings.js'
import { followDenial, refuteDenial } from './consequence.js'
import { excludeBy } from './exclusion.js'
import { isPlainFish } from './fish.js'
import type { ColourOf, Reason, Why } from './reason.js'
import { sectorFish, sectorPremises } from './sectors.js'
import { ascending, isIn, placesIn, rulesOut } from './sight.js'

/** A reason for each placement and each removal of a step, in the step's order. */
export function reasonsFor(step: FoundStep): Why[] {
  return [
    ...step.placements.map(({ cell, digit }): Why => {
      const reason = placementReason(step, { cell, digit })
      return { effect: 'placed', cell, digit, reason }
    }),
    ...step.removals.map(({ cell, digit }): Why => {
      const reason =
        removalReason(step, step.pattern, { cell, digit }) ?? fromPremises(step, { cell, digit }, true)
      return { effect: 'removed', cell, digit, reason }
    }),
  ]
}

function placementReason(step: FoundStep, placed: Candidate): Reason {
  if (step.pattern.shape === 'single') return { kind: 'only-choice' }
  if (step.pattern.shape === 'cases') return casesReason(step.pattern.tree)
  if (step.pattern.shape === 'exchange' && step.pattern.extras.length === 1) return { kind: 'only-extra' }
  return endsAt(step, step.pattern, placed) ?? fromPremises(step, placed, false)
}

/** The reason of a digit placed because both ends of a chain, or of a row of sets, are that one candidate. */
function endsAt(step: FoundStep, pattern: Pattern, { cell, digit }: Candidate): Reason | undefined {
  const isPlaced = (node: ChainNode) =>
    node.digit === digit && node.cells.length === 1 && node.cells[0] === cell
  if (pattern.shape === 'chain') {
    const { first, last } = chainEnds(pattern.links) ?? {}
    return first && last && [first, last].every(isPlaced) ? { kind: 'chain-returns' } : undefined
  }
  if (pattern.shape !== 'sets' || !setEnds(step, pattern, digit)?.every(isPlaced)) return undefined
  const { sets } = pattern
  return { kind: 'kept-here', digit, sets: [sets[0]!.cells, sets[sets.length - 1]!.cells] }
}

function casesReason({ split, branches }: CaseTree): Reason {
  if (split.kind === 'suppose') return { kind: 'supposition-fails' }
  const fails = ({ end }: CaseTree['branches'][number]): boolean =>
    end.kind === 'contradiction' || (end.kind === 'split' && end.tree.branches.some(fails))
  return { kind: 'in-every-case', cases: branches.length, someFail: branches.some(fails) }
}

/** The reason that needs no knowledge of the pattern, but for what a count of sectors has shown. */
function fromPremises(step: FoundStep, conclusion: Candidate, removed: boolean): Reason {
  const { pattern } = step
  const premises = [...sectorPremises(step), ...step.premises]
  const extras = pattern.shape === 'exchange' && step.assumes ? pattern.extras : []
  const { geometry } = step.before
  const denial = { supposed: conclusion, isTrue: removed, oneOf: extras }
  const way = followDenial(geometry, premises, denial)
  if (way?.end) return { kind: 'leads-nowhere', forced: way.forced, end: way.end }
  if (way) return { kind: 'leaves-exchange', forced: way.forced }
  const refutation = refuteDenial(geometry, premises, denial)
  return refutation ? { kind: 'every-way-fails', refutation } : { kind: 'premises-fail' }
}

/**
 * The reason as the pattern's own people would give it, or `undefined` when the pattern has none for this candidate.
 */
function removalReason(step: FoundStep, pattern: Pattern, removed: Candidate): Reason | undefined {
  const { geometry } = step.before
  const { cell, digit } = removed
  const excludedBy = (node: ChainNode) => rulesOut(geometry, removed, node)
  switch (pattern.shape) {
    case 'single':
      return { kind: 'only-choice' }
    case 'locked': {
      const inside = isIn(geometry, pattern.to, cell) && !pattern.cells.includes(cell)
      if (digit !== pattern.digit || !inside) return undefined
      return { kind: 'taken-elsewhere', house: pattern.to, digit, cells: pattern.cells }
    }
    case 'subset': {
      if (pattern.hidden && pattern.cells.includes(cell))
        return { kind: 'cell-reserved', cells: pattern.cells, digits: pattern.digits }
      const holders = pattern.cells.filter((c) => hasCandidate(step.before, c, digit))
      if (pattern.hidden || !pattern.digits.includes(digit) || !excludedBy({ digit, cells: holders }))
        return undefined
      return { kind: 'digits-used', cells: pattern.cells, digits: pattern.digits }
    }
    case 'fish':
      return fishReason(step, pattern, removed)
    case 'wing': {
      const nodes = wingEnds(step, pattern)
      return nodes.every(excludedBy) ? { kind: 'excluded-by-each', nodes } : undefined
    }
    case 'chain':
      return chainReason(step, pattern, digit, excludedBy)
    case 'colouring':
      return colouringReason(step, pattern, removed)
    case 'sets':
      return setsReason(step, pattern, removed, excludedBy)
    case 'exchange': {
      const nodes = pattern.extras.map((extra) => ({ digit: extra.digit, cells: [extra.cell] }))
      if (nodes.length > 0 && nodes.every(excludedBy)) return { kind: 'excluded-by-each', nodes }
      const subset = extrasSubset(step, pattern)
      if (!subset?.digits.includes(digit)) return undefined
      const holders = ascending([...pattern.extras.map((extra) => extra.cell), ...subset.others])
      return holders.includes(cell)
        ? undefined
        : { kind: 'digits-used', cells: holders, digits: subset.digits }
    }
    case 'exclusion': {
      const starved = excludeBy(step, removed)?.starved
      return starved && { kind: 'starves', cells: starved }
    }
    case 'exocet': {
      const others = pattern.base.includes(cell) ? pattern.targets : pattern.base
      const have = others.some((other) => hasCandidate(step.before, other, digit))
      return have ? undefined : { kind: 'not-in-pair', cells: others, digit }
    }
    case 'sectors': {
      const uses = ({ house, digits }: (typeof pattern.houses)[number]) =>
        digits.includes(digit) && isIn(geometry, house, cell)
      const house = pattern.cells.includes(cell) ? undefined : pattern.houses.find(uses)?.house
      return house === undefined ? sectorFish(step, removed) : { kind: 'used-in-houses', houses: [house] }
    }
    case 'premises':
      return undefined
    case 'cases':
      return casesReason(pattern.tree)
    default:
      return pattern satisfies never
  }
}

function chainReason(
  step: FoundStep,
  pattern: Extract<Pattern, { shape: 'chain' }>,
  digit: number,
  excludedBy: (node: ChainNode) => boolean,
): Reason | undefined {
  const pairs: [ChainNode, ChainNode][] = []
  const ends = chainEnds(pattern.links)
  const endsProveOne =
    !isFinned(pattern.links) &&
    pattern.links[0]?.kind === 'strong' &&
    pattern.links[pattern.links.length - 1]?.kind === 'strong'
  if (ends && endsProveOne && !pattern.loop) {
    pairs.push([ends.first, ends.last])
    // a chain with several ends comes to one of them after every strong link
    for (const { kind, to } of pattern.links.slice(1, -1)) if (kind === 'strong') pairs.push([ends.first, to])
  }
  // Along cells that all have the same two digits the chain holds for either digit.
  const digits = pairOfTurns(pattern.links)
  if (ends && endsProveOne && !pattern.loop && digits?.includes(digit)) {
    const cells = ascending([...ends.first.cells, ...ends.last.cells])
    if (excludedBy({ digit, cells })) return { kind: 'ends-differ', cells, digits }
  }
  // Around a loop one end of every link is true, weak links included.
  if (pattern.loop) for (const { from, to } of pattern.links) pairs.push([from, to])
  const nodes = pairs.find((ends) => ends.every(excludedBy))
  if (nodes) return { kind: 'excluded-by-each', nodes }
  // and each of its sets is locked on the digits that are not linked
  for (const { by, from, to } of pattern.loop ? pattern.links : []) {
    if (by.kind !== 'set' || digit === from.digit || digit === to.digit) continue
    const kept = placesIn(step, by.cells, digit)
    if (kept.cells.length > 0 && excludedBy(kept)) return { kind: 'set-keeps', cells: kept.cells, digit }
  }
  const denied = ends && isFinned(pattern.links) && [ends.first, ends.last].every(excludedBy)
  return denied ? { kind: 'chain-denies', end: ends.last } : undefined
}

function colouringReason(
  step: FoundStep,
  pattern: Extract<Pattern, { shape: 'colouring' }>,
  removed: Candidate,
): Reason | undefined {
  const { geometry } = step.before
  const { clusters } = pattern
  const seenIn = ({ index, colour }: ColourOf) => {
    const candidate = clusters[index]![colour].find((member) => exclude(geometry, member, removed))
    return candidate && { index, colour, ...candidate }
  }
  const seesBoth = (a: ColourOf, b: ColourOf): Reason | undefined => {
    const one = seenIn(a)
    const other = seenIn(b)
    return one && other && { kind: 'sees-both-colours', one, other }
  }
  for (const [index, cluster] of clusters.entries()) {
    for (const colour of ['one', 'other'] as const) {
      const within = cluster[colour].some((c) => c.cell === removed.cell && c.digit === removed.digit)
      const isFalse =
        colourClash(geometry, cluster[colour]) ?? outseenBy(geometry, clusters, index, colour) !== undefined
      if (within && isFalse) return { kind: 'false-colour', index, colour }
    }
    const both = seesBoth({ index, colour: 'one' }, { index, colour: 'other' })
    if (both) return both
  }
  for (const { near, far } of bridges(geometry, clusters)) {
    const both = seesBoth(opposite(near), opposite(far))
    if (both) return both
  }
  return undefined
}

function setsReason(
  step: FoundStep,
  pattern: Extract<Pattern, { shape: 'sets' }>,
  removed: Candidate,
  excludedBy: (node: ChainNode) => boolean,
): Reason | undefined {
  const { digit } = removed
  const { sets, joins, stem } = pattern
  const nodes = sets.map(({ cells }) => placesIn(step, cells, digit))
  const seen = nodes.map((node) => node.cells.length > 0 && excludedBy(node))
  const ends = setEnds(step, pattern, digit)
  const crossing = crossingCount(step, pattern)
  if (crossing) {
    const own = crossing.twice.includes(digit)
      ? crossing.sides.map(({ cells }) => cells)
      : [sets.flatMap((set) => set.cells)]
    const kept = own
      .map((cells) => placesIn(step, cells, digit))
      .find((node) => node.cells.length > 0 && excludedBy(node))
    return kept && { kind: 'set-keeps', cells: kept.cells, digit }
  }
  if (ends) return ends.every(excludedBy) ? { kind: 'excluded-by-each', nodes: ends } : undefined
  if (stem !== undefined && seen.every(Boolean) && hasAllPetals(step, pattern, stem))
    return { kind: 'kept-by-some-set', digit, cells: ascending(nodes.flatMap((node) => node.cells)) }
  if (!isRing(pattern)) return undefined
  const joinsOf = sets.map((_, i) => joins.filter(({ between }) => between.includes(i)))
  const join = joins.find((own) => own.digit === digit && own.between.every((i) => seen[i]))
  if (join) return { kind: 'excluded-by-each', nodes: join.between.map((i) => nodes[i]!) }
  const keeper = seen.findIndex((is, i) => is && joinsOf[i]!.every((own) => own.digit !== digit))
  return keeper < 0 ? undefined : { kind: 'set-keeps', cells: nodes[keeper]!.cells, digit }
}

function fishReason(
  step: FoundStep,
  pattern: Extract<Pattern, { shape: 'fish' }>,
  { cell, digit }: Candidate,
): Reason | undefined {
  const { geometry } = step.before
  const { base, cover, fins } = pattern
  const covers = cover.filter((house) => isIn(geometry, house, cell))
  const inBase = base.some((house) => isIn(geometry, house, cell))
  const seesFins = fins.every((fin) => layoutOf(geometry).arePeers(fin, cell))
  if (digit !== pattern.digit || covers.length === 0 || inBase || !seesFins) return undefined
  const plain = isPlainFish(step, pattern)
  return { kind: 'covered', digit, covers: covers.slice(0, 1), base, fins, plain }
}
