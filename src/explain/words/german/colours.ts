import type { ColourFact } from '../../argument/facts.js'
import type { ColourOf } from '../../argument/reason.js'
import { capital, type GermanTerms } from './terms.js'

const COLOUR_NAMES = [
  ['dunkel', 'hell'],
  ['zweitdunkel', 'zweithell'],
] as const

export function colourName({ index, colour }: ColourOf): string {
  const names = COLOUR_NAMES[Math.min(index, COLOUR_NAMES.length - 1)]!
  return colour === 'one' ? names[0] : names[1]
}

function opposite({ index, colour }: ColourOf): ColourOf {
  return { index, colour: colour === 'one' ? 'other' : 'one' }
}

export function colourFact(t: GermanTerms, fact: ColourFact): string {
  switch (fact.kind) {
    case 'cluster': {
      const { digit, index, one, other, houses } = fact
      const [dark, light] = [colourName({ index, colour: 'one' }), colourName({ index, colour: 'other' })]
      const cells = (side: typeof one) =>
        digit === undefined ? t.candidates(side) : t.cells(side.map((candidate) => candidate.cell))
      const where =
        houses.length > 0 && digit !== undefined
          ? `${capital(t.houses(houses))} ${houses.length === 1 ? 'hat' : 'haben je'} nur zwei Plätze für die ${t.digit(digit)}. `
          : ''
      return (
        `${where}Abwechselnd gefärbt sind das ${cells(one)} (${dark}) und ${cells(other)} (${light}): ` +
        `Entweder stimmt alles, was ${dark} ist, oder alles, was ${light} ist.`
      )
    }
    case 'colour-clash':
      return `${capital(t.theCandidates([fact.pair[0]]))} und ${t.theCandidates([fact.pair[1]])} haben dieselbe Farbe${
        fact.house === undefined ? '' : ` und teilen sich ${t.house(fact.house)}`
      }, also ist ${colourName(fact)} falsch und ${colourName(opposite(fact))} wahr.`
    case 'colour-bridge': {
      const [a, b] = fact.pair
      return (
        `${capital(t.theCandidates([a]))} (${colourName(fact.near)}) und ${t.theCandidates([b])} (${colourName(fact.far)}) sehen einander, also stimmen nicht beide Farben: ` +
        `${capital(colourName(opposite(fact.near)))} oder ${colourName(opposite(fact.far))} stimmt.`
      )
    }
    case 'colour-outseen': {
      const [one, other] = (['one', 'other'] as const).map((colour) => colourName({ index: fact.by, colour }))
      return `${capital(colourName(fact))} würde sowohl ${one} als auch ${other} ausschließen, ist also falsch.`
    }
    default:
      return fact satisfies never
  }
}
