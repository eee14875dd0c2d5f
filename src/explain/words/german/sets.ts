import type { SetFact } from '../../argument/facts.js'
import type { Names } from '../../names.js'
import { setName } from '../set-names.js'
import { capital, count, counted, type GermanTerms, list } from './terms.js'

export function setFact(t: GermanTerms, fact: SetFact, names: Names): string {
  const set = (index: number) => setName(index, names)
  switch (fact.kind) {
    case 'sets': {
      const items = fact.sets.map(
        ({ cells, digits }, i) => `${set(i)} ist ${t.cells(cells)} mit ${t.digits(digits)}`,
      )
      return `Menge ${items.join('; ')}. Jede hat eine Ziffer mehr als Zellen, kann also nur eine entbehren.`
    }
    case 'set-needs': {
      const { index, lacks, from, needs } = fact
      return from === undefined
        ? `Angenommen, ${set(index)} hat keine ${t.digit(lacks)}: Dann braucht ${set(index)} die ${t.digit(needs)}.`
        : `Jede ${t.digit(lacks)} in ${set(from)} sieht jede in ${set(index)}, also hat ${set(index)} keine ${t.digit(lacks)} und braucht die ${t.digit(needs)}.`
    }
    case 'set-ring': {
      const pairs = new Set(fact.joins.map(({ between }) => between.toSorted().join()))
      const [{ between }] = fact.joins as typeof fact.joins & readonly [(typeof fact.joins)[number]]
      const shared =
        pairs.size === 1
          ? `${t.digits(fact.joins.map(({ digit }) => digit))} passen je nur in eine von ${set(between[0])} und ${set(between[1])}`
          : list(
              fact.joins.map(
                ({ digit, between: [a, b] }, i) =>
                  `die ${t.digit(digit)}${i === 0 ? ' passt' : ''} nur in eine von ${set(a)} und ${set(b)}`,
              ),
            )
      return `${capital(shared)}. Also fehlt jeder Menge genau eine dieser Ziffern, und alle anderen behält sie.`
    }
    case 'crossing-count': {
      const { crossing, sides, once, twice } = fact
      const cells = [...crossing, ...sides.flatMap((side) => side.cells)].length
      const [one, other] = sides.map((side) => `${t.cells(side.cells)} in ${t.house(side.house)}`)
      const fits = [
        ...(once.length > 0
          ? [`${t.digits(once)} ${once.length === 1 ? 'passt einmal' : 'passen je einmal'} hinein`]
          : []),
        ...(twice.length > 0
          ? [
              `${t.digits(twice)} ${once.length > 0 ? '' : `${twice.length === 1 ? 'passt' : 'passen'} `}zweimal, je einmal auf jeder Seite`,
            ]
          : []),
      ]
      return (
        `Wo sich ${t.houses(sides.map((side) => side.house))} kreuzen, nimm ${t.cells(crossing)}, dazu ${one} und ${other}: ${counted(cells, 'Zelle')}. ` +
        `${capital(fits.join(', '))}: ${count(once.length + 2 * twice.length)} Ziffern, von denen keine fehlen darf.`
      )
    }
    case 'stem':
      return `${capital(t.cell(fact.cell))} ist ${t.digits(fact.digits, 'oder')}.`
    case 'petal':
      return `Bei ${t.digit(fact.digit)} verliert Menge ${set(fact.index)}, ${t.cells(fact.set.cells)} mit ${t.digits(
        fact.set.digits,
      )}, ihre ${t.digit(fact.digit)} und braucht ihre ${t.digits(fact.keeps)}.`
    default:
      return fact satisfies never
  }
}
