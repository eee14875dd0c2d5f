import type { Candidate } from '../../grid/board.js'
import type { DigitStyle } from '../../grid/digit-names.js'
import type { Geometry } from '../../grid/geometry.js'
import type { ChainLink, ChainNode, Premise } from '../../logic/step.js'
import type { Fact } from '../argument/facts.js'
import { setName } from './english-roles.js'
import { capital, count, counted, type EnglishTerms, englishTerms, list } from './english-terms.js'

const COLOUR_NAMES = [
  ['dark', 'light'],
  ['second dark', 'second light'],
] as const

/** Name of a colour of a cluster, as the pictures' legend calls it. */
export function colourName(index: number, colour: 'one' | 'other'): string {
  const names = COLOUR_NAMES[Math.min(index, COLOUR_NAMES.length - 1)]!
  return colour === 'one' ? names[0] : names[1]
}

/** What a link does to the next node: `r1c5 cannot be 7`, `r4c5 must be 2`. */
function move(t: EnglishTerms, node: ChainNode, becomes: boolean, by: ChainLink['by']): string {
  const one = node.cells.length === 1
  const cells = t.cells(node.cells, 'or')
  if (!becomes)
    return one
      ? `${cells} is not ${t.digit(node.digit)}`
      : `no ${t.digit(node.digit)} is in ${t.cells(node.cells)}`
  switch (by.kind) {
    case 'cell':
      return `${cells} is ${t.digit(node.digit)}`
    case 'house':
      return `${t.house(by.house)} has its ${t.digit(node.digit)} in ${cells}`
    case 'set':
      return `the locked set ${t.cells(by.cells)} has its ${t.digit(node.digit)} in ${cells}`
    case 'premises':
      return one ? `${cells} is ${t.digit(node.digit)}` : `one of ${cells} is ${t.digit(node.digit)}`
    default:
      return by satisfies never
  }
}

/** What a move makes use of: the fins are gone. */
function without(t: EnglishTerms, fins: readonly Candidate[]): string {
  return fins.length > 0 ? `without ${t.candidates(fins, 'or')} ` : ''
}

/** A long chain is split into sentences of a few moves each, so that it can be followed with a finger. */
const MOVES_PER_SENTENCE = 4

function chainWalk(t: EnglishTerms, fact: Extract<Fact, { kind: 'chain-walk' }>): string {
  const { given, start, startsTrue, moves } = fact
  const one = start.cells.length === 1
  const cells = t.cells(start.cells, 'or')
  const opening = startsTrue
    ? one
      ? `${cells} is ${t.digit(start.digit)}`
      : `one of ${cells} is ${t.digit(start.digit)}`
    : one
      ? `${cells} is not ${t.digit(start.digit)}`
      : `${start.cells.length === 2 ? 'neither' : 'none'} of ${t.cells(start.cells)} is ${t.digit(start.digit)}`
  const sentences = [
    given.length === 0
      ? `Suppose ${opening}.`
      : `Suppose ${given.length === 1 ? '' : 'any one of these were true: '}${t.candidates(given, 'or')}${given.length === 1 ? ' were true' : ''}. With it, ${opening}.`,
  ]
  for (let i = 0; i < moves.length; i += MOVES_PER_SENTENCE) {
    const part = moves
      .slice(i, i + MOVES_PER_SENTENCE)
      .map(({ node, becomes, by, fins }) => `${without(t, fins)}${move(t, node, becomes, by)}`)
    sentences.push(`Then ${part.join(', so ')}.`)
  }
  return sentences.join(' ')
}

function onlyCandidate(t: EnglishTerms, fact: Extract<Fact, { kind: 'only-candidate' }>): string {
  const seen = fact.seen.map(({ house, digits }) => `${t.digits(digits)} in ${t.house(house)}`)
  const parts: string[] = []
  if (seen.length > 0) parts.push(`it sees ${list(seen)}`)
  if (fact.struck.length > 0) {
    parts.push(
      `${t.digits(fact.struck)} ${fact.struck.length === 1 ? 'has' : 'have'} been removed from it before`,
    )
  }
  return `${t.cell(fact.cell)} has only ${t.digit(fact.digit)} left: ${list(parts)}.`
}

function onlyPlace(t: EnglishTerms, fact: Extract<Fact, { kind: 'only-place' }>): string {
  const parts: string[] = []
  if (fact.blockers.length > 0) {
    const plural = fact.blockers.length > 1
    parts.push(
      `the ${plural ? t.several(fact.digit) : t.digit(fact.digit)} in ${t.cells(fact.blockers)} ${plural ? 'rule' : 'rules'} out ${
        fact.struck.length > 0 ? 'other cells' : 'every other open cell'
      }`,
    )
  }
  if (fact.struck.length > 0) {
    parts.push(`${t.digit(fact.digit)} has been removed from ${t.cells(fact.struck)} before`)
  }
  const because = parts.length > 0 ? `: ${list(parts)}` : ''
  return `In ${t.house(fact.house)}, ${t.digit(fact.digit)} can only go in ${t.cell(fact.cell)}${because}.`
}

function pincer(t: EnglishTerms, fact: Extract<Fact, { kind: 'pincer' }>): string {
  const { cell, pivot, when, gives } = fact
  if (when.length === 0) return `The pincer ${t.cell(cell)} can be ${t.digit(gives)}.`
  return `If the pivot ${t.cell(pivot)} is ${t.digits(when, 'or')}, the pincer ${t.cell(cell)} is ${t.digit(gives)}.`
}

function cluster(t: EnglishTerms, fact: Extract<Fact, { kind: 'cluster' }>): string {
  const dark = colourName(fact.index, 'one')
  const light = colourName(fact.index, 'other')
  const cells = (side: typeof fact.one) =>
    fact.digit === undefined ? t.candidates(side) : t.cells(side.map((candidate) => candidate.cell))
  const links = fact.digit === undefined ? 'strong links' : `strong links on ${t.digit(fact.digit)}`
  return (
    `Along ${links}, ${dark} marks ${cells(fact.one)} and ${light} marks ${cells(fact.other)}: ` +
    'either every candidate of one colour is true, or every candidate of the other.'
  )
}

function caseNumber(path: readonly number[]): string {
  return path.join('.')
}

function extras(t: EnglishTerms, candidates: readonly Candidate[]): string {
  const [first] = candidates
  if (candidates.length === 1) return `Only ${t.candidate(first!)} prevents that.`
  const sameCell = candidates.every(({ cell }) => cell === first?.cell)
  const then = sameCell
    ? `${t.cell(first!.cell)} is ${t.digits(
        candidates.map(({ digit }) => digit),
        'or',
      )}`
    : 'at least one of them is true'
  return `Only ${t.candidates(candidates, 'or')} can prevent that, so ${then}.`
}

function split(t: EnglishTerms, fact: Extract<Fact, { kind: 'split' }>): string {
  const { premise, left, path } = fact
  const all = premise.kind === 'cell' ? premise.digits.length : premise.cells.length
  const rest =
    left.length === all
      ? ''
      : `; only ${t.candidates(left, 'or')} ${left.length === 1 ? 'is' : 'are'} left here`
  return path.length === 0
    ? `Take the cases one by one: ${t.premise(premise)}${rest}.`
    : `Within case ${caseNumber(path)}: ${t.premise(premise)}${rest}.`
}

function branch(t: EnglishTerms, fact: Extract<Fact, { kind: 'branch' }>): string {
  const says = (premise: Premise) =>
    premise.kind === 'cell'
      ? `${t.cell(premise.cell)} has no candidate left`
      : `${t.house(premise.house)} has no place left for ${t.digit(premise.digit)}`
  const follows = fact.follows.map(
    ({ candidate }) => `${t.cell(candidate.cell)} is ${t.digit(candidate.digit)}`,
  )
  const then = follows.length > 0 ? `, then ${follows.join(', then ')}` : ''
  const assumed = `${t.cell(fact.assume.cell)} is ${t.digit(fact.assume.digit)}`
  const head = fact.supposed
    ? `Suppose ${assumed}${then}`
    : `Case ${caseNumber(fact.path)}: ${assumed}${then}`
  if (fact.end === 'claim') return `${head}; the conclusion holds.`
  if (fact.end === 'split') return `${head}; this case divides further.`
  return `${head}; but then ${says(fact.end.contradiction)}, so ${fact.supposed ? 'it is not' : 'this case fails'}.`
}

function notTogether(t: EnglishTerms, { by, ways }: Extract<Fact, { kind: 'not-together' }>): string {
  const together = list(
    ways
      .map((candidates) => list(candidates.map((candidate) => t.candidate(candidate))))
      .map((way) => `(${way})`),
    'or',
  )
  return by.length === 0
    ? `No combination of candidates that see each other is possible: ${together}.`
    : `${capital(t.cells(by))} would have too few digits left with ${together}.`
}

function sectorCount(t: EnglishTerms, { cells, houses }: Extract<Fact, { kind: 'sector-count' }>): string {
  const places = houses.map(({ house, digits }) => `${t.digits(digits)} in ${t.house(house)}`)
  return (
    `The ${counted(cells.length, 'cell')} ${t.cells(cells)} have ${places.join('; ')} to share: ` +
    `exactly as many as there are cells, so all of these are used there.`
  )
}

/** Each fact as one English sentence (a chain's walk as a few). */
export function englishFact(fact: Fact, geometry: Geometry, style?: DigitStyle): string {
  const t = englishTerms(geometry, style)
  const set = (index: number) => setName(index, geometry, style)
  switch (fact.kind) {
    case 'last-cell':
      return `${t.cell(fact.cell)} is the last open cell of ${t.house(fact.house)}, and ${t.digit(fact.digit)} is the digit missing there.`
    case 'only-candidate':
      return onlyCandidate(t, fact)
    case 'only-place':
      return onlyPlace(t, fact)
    case 'confined':
      return `In ${t.house(fact.house)}, ${t.digit(fact.digit)} can only go in ${t.cells(fact.cells, 'or')}, and ${
        fact.cells.length === 2 ? 'both cells' : 'all these cells'
      } lie in ${t.house(fact.into)}.`
    case 'naked-subset':
      return `In ${t.house(fact.house)}, ${t.cells(fact.cells)} have only ${t.digits(fact.digits)} between them: ${count(
        fact.cells.length,
      )} cells for ${count(fact.digits.length)} digits, so these digits are used up there.`
    case 'hidden-subset':
      return `In ${t.house(fact.house)}, ${t.digits(fact.digits)} can only go in ${t.cells(fact.cells)}: ${count(
        fact.digits.length,
      )} digits for ${count(fact.cells.length)} cells, so nothing else fits there.`
    case 'fish':
      return `${capital(t.houses(fact.base))} ${fact.fins.length > 0 ? 'would ' : ''}have ${
        fact.base.length > 1 ? 'their' : 'its'
      } ${t.several(fact.digit)} only in ${t.houses(fact.cover)}${
        fact.fins.length > 0 ? `, were it not for ${t.cells(fact.fins)}` : ''
      }: ${counted(fact.base.length, 'base house')} for ${counted(fact.cover.length, 'cover house')}, so the ${t.several(
        fact.digit,
      )} of the cover houses stand where base and cover cross.`
    case 'fish-fins':
      return `Either ${fact.fins.length === 1 ? 'the fin' : 'one of the fins'} ${t.cells(fact.fins, 'or')} is ${t.digit(
        fact.digit,
      )}, or the fish holds; what both rule out can be removed.`
    case 'pivot':
      return `The pivot ${t.cell(fact.cell)} is ${t.digits(fact.digits, 'or')}.`
    case 'pincer':
      return pincer(t, fact)
    case 'wing-count':
      return `${t.cells(fact.cells)} have only ${t.digits(fact.digits)} between them, and each of ${t.digits(
        fact.once,
      )} can stand there once at most, because its places see each other.`
    case 'one-of':
      return `So ${t.oneOf(fact.nodes)}.`
    case 'chain-walk':
      return chainWalk(t, fact)
    case 'loop':
      return 'The last link leads back to the start: the chain is a continuous loop, and of every two linked ends exactly one is true.'
    case 'end-excluded':
      return `But ${fact.given.length === 1 ? 'it' : 'each of them'} rules out ${t.node(fact.node)} as well, so ${fact.given.length === 1 ? 'it is' : 'they are'} false.`
    case 'self-contradiction':
      return fact.supposed
        ? `Supposing ${t.node(fact.node)} leads to its opposite, so it is false.`
        : `If ${t.node(fact.node)} were false, the chain would make it true, so it is true.`
    case 'cluster':
      return cluster(t, fact)
    case 'colour-clash':
      return `${capital(colourName(fact.index, fact.colour))} cannot be the true colour: ${t.candidate(
        fact.pair[0],
      )} and ${t.candidate(fact.pair[1])} exclude each other.`
    case 'colour-bridge': {
      const [a, b] = fact.pair
      const near = colourName(fact.near.index, fact.near.colour)
      const far = colourName(fact.far.index, fact.far.colour)
      const nearOther = colourName(fact.near.index, fact.near.colour === 'one' ? 'other' : 'one')
      const farOther = colourName(fact.far.index, fact.far.colour === 'one' ? 'other' : 'one')
      return `${t.candidate(a)} (${near}) and ${t.candidate(b)} (${far}) exclude each other, so ${nearOther} or ${farOther} is true.`
    }
    case 'colour-outseen':
      return `${capital(colourName(fact.index, fact.colour))} would rule out both ${colourName(fact.by, 'one')} and ${colourName(
        fact.by,
        'other',
      )}, so it cannot be the true colour.`
    case 'set':
      return `Set ${set(fact.index)} is ${t.cells(fact.cells)} with ${t.digits(fact.digits)}: ${counted(
        fact.cells.length,
        'cell',
      )} and ${counted(fact.digits.length, 'digit')}${
        fact.digits.length !== fact.cells.length + 1
          ? ''
          : fact.index === 0
            ? ', an almost locked set: once it loses one of its digits, it has to take all the others'
            : ', almost locked too'
      }.`
    case 'join':
      return `${t.digit(fact.digit)} can be in only one of the sets ${set(fact.between[0])} and ${setName(
        fact.between[1],
      )}, because all its places there see each other.`
    case 'stem':
      return `The stem ${t.cell(fact.cell)} is ${t.digits(fact.digits, 'or')}.`
    case 'petal':
      return `If it is ${t.digit(fact.digit)}, set ${set(fact.index)} loses its ${t.digit(fact.digit)} and keeps its ${t.digits(
        fact.keeps,
      )}.`
    case 'exchange':
      return fact.pairwise
        ? `Without the extras, ${t.cells(fact.cells)} would have two candidates each, and all of them could be swapped to give a second solution.`
        : `If ${t.cells(fact.cells)} held nothing but ${t.digits(fact.digits)}, these digits could be swapped there to give a second solution.`
    case 'extras':
      return extras(t, fact.extras)
    case 'assumes-one-solution':
      return 'This rests on the puzzle having exactly one solution.'
    case 'not-together':
      return notTogether(t, fact)
    case 'goes-with-none':
      return `So ${t.cells(fact.cells)} cannot be filled with any of the candidates that are removed.`
    case 'exocet-base':
      return `The base cells ${t.cells(fact.base)} take two of ${t.digits(fact.digits)}.`
    case 'exocet-lines':
      return `If a digit of the base were in neither of the targets ${t.cells(fact.targets)}, ${t.houses(
        fact.lines,
      )} would not have room for it.`
    case 'exocet-targets':
      return `So the targets ${t.cells(fact.targets)} take the same two digits as the base ${t.cells(fact.base)}.`
    case 'sector-count':
      return sectorCount(t, fact)
    case 'split':
      return split(t, fact)
    case 'branch':
      return branch(t, fact)
    case 'premise':
      return `${capital(t.premise(fact.premise))}.`
    case 'cannot-all-hold':
      return 'If the conclusion were false, these could not all hold at once.'
    case 'placed':
      return `So ${list(fact.placements.map(({ cell, digit }) => `${t.cell(cell)} is ${t.digit(digit)}`))}.`
    case 'removed':
      return `So ${t.removals(fact.removals)}.`
    default:
      return fact satisfies never
  }
}
