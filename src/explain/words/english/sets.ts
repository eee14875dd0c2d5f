import type { SetFact } from '../../argument/facts.js'
import type { Names } from '../../names.js'
import { setName } from '../set-names.js'
import { capital, count, type EnglishTerms, list } from './terms.js'

export function setFact(t: EnglishTerms, fact: SetFact, names: Names): string {
  const set = (index: number) => setName(index, names)
  switch (fact.kind) {
    case 'sets': {
      const items = fact.sets.map(
        ({ cells, digits }, i) => `${set(i)} is ${t.cells(cells)} with ${t.digits(digits)}`,
      )
      return `Set ${items.join('; ')}. Each has one digit more than cells, so it can do without one digit only.`
    }
    case 'set-needs': {
      const { index, lacks, from, needs } = fact
      const needed = `needs its ${t.digit(needs)}`
      return from === undefined
        ? `Suppose ${set(index)} has no ${t.digit(lacks)}: then it ${needed}.`
        : `The ${t.several(lacks)} of ${set(from)} and ${set(index)} all see one another, so ${set(index)} has no ${t.digit(lacks)} and ${needed}.`
    }
    case 'set-ring': {
      const pairs = new Set(fact.joins.map(({ between }) => between.toSorted().join()))
      const [{ between }] = fact.joins as typeof fact.joins & readonly [(typeof fact.joins)[number]]
      const shared =
        pairs.size === 1
          ? `${t.digits(fact.joins.map(({ digit }) => digit))} each fit in only one of ${set(between[0])} and ${set(between[1])}`
          : list(
              fact.joins.map(
                ({ digit, between: [a, b] }, i) =>
                  `${t.digit(digit)} ${i === 0 ? 'fits in' : 'in'} only one of ${set(a)} and ${set(b)}`,
              ),
            )
      return `${capital(shared)}. So each set lacks exactly one of these digits and keeps all its others.`
    }
    case 'crossing-count': {
      const { crossing, sides, once, twice } = fact
      const cells = [...crossing, ...sides.flatMap((side) => side.cells)].length
      const [one, other] = sides.map((side) => `${t.cells(side.cells)} in ${t.house(side.house)}`)
      const fits = [
        ...(once.length > 0
          ? [
              `${t.digits(once)} ${once.length === 1 ? 'fits' : 'fit'} in them once${once.length === 1 ? '' : ' each'}`,
            ]
          : []),
        ...(twice.length > 0
          ? [
              `${t.digits(twice)} ${once.length > 0 ? '' : `${twice.length === 1 ? 'fits' : 'fit'} in them `}twice, once on either side`,
            ]
          : []),
      ]
      return (
        `Where ${t.houses(sides.map((side) => side.house))} cross, take ${t.cells(crossing)}, with ${one} and ${other}: ${count(cells)} cells. ` +
        `${capital(fits.join(', '))}: ${count(once.length + 2 * twice.length)} digits, so none of them can be spared.`
      )
    }
    case 'stem':
      return `${capital(t.cell(fact.cell))} is ${t.digits(fact.digits, 'or')}.`
    case 'petal':
      return `If it is ${t.digit(fact.digit)}, set ${set(fact.index)}, ${t.cells(fact.set.cells)} with ${t.digits(fact.set.digits)}, loses its ${t.digit(
        fact.digit,
      )} and needs its ${t.digits(fact.keeps)}.`
    default:
      return fact satisfies never
  }
}
