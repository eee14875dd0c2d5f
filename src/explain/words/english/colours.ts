import type { ColourFact } from '../../argument/facts.js'
import type { ColourOf } from '../../argument/reason.js'
import { capital, type EnglishTerms } from './terms.js'

const COLOUR_NAMES = [
  ['dark', 'light'],
  ['second dark', 'second light'],
] as const

/** Name of a colour of a cluster, as the pictures' legend calls it. */
export function colourName({ index, colour }: ColourOf): string {
  const names = COLOUR_NAMES[Math.min(index, COLOUR_NAMES.length - 1)]!
  return colour === 'one' ? names[0] : names[1]
}

function opposite({ index, colour }: ColourOf): ColourOf {
  return { index, colour: colour === 'one' ? 'other' : 'one' }
}

export function colourFact(t: EnglishTerms, fact: ColourFact): string {
  switch (fact.kind) {
    case 'cluster': {
      const { digit, index, one, other, houses } = fact
      const [dark, light] = [colourName({ index, colour: 'one' }), colourName({ index, colour: 'other' })]
      const cells = (side: typeof one) =>
        digit === undefined ? t.candidates(side) : t.cells(side.map((candidate) => candidate.cell))
      const are = (side: typeof one) => (side.length === 1 ? 'is' : 'are')
      const where =
        houses.length > 0 && digit !== undefined
          ? `${capital(t.houses(houses))} ${houses.length === 1 ? 'has' : 'each have'} just two places for ${t.digit(digit)}. `
          : ''
      return (
        `${where}Coloured in turn, ${cells(one)} ${are(one)} ${dark} and ${cells(other)} ${are(other)} ${light}: ` +
        `all that is ${dark} is true, or all that is ${light}.`
      )
    }
    case 'colour-clash':
      return `${capital(t.theCandidates([fact.pair[0]]))} and ${t.theCandidates([fact.pair[1]])} have the same colour${
        fact.house === undefined ? '' : ` and share ${t.house(fact.house)}`
      }, so ${colourName(fact)} is false and ${colourName(opposite(fact))} true.`
    case 'colour-bridge': {
      const [a, b] = fact.pair
      return (
        `${capital(t.theCandidates([a]))} (${colourName(fact.near)}) and ${t.theCandidates([b])} (${colourName(fact.far)}) see each other, so not both these colours are true: ` +
        `${colourName(opposite(fact.near))} or ${colourName(opposite(fact.far))} is.`
      )
    }
    case 'colour-outseen': {
      const [one, other] = (['one', 'other'] as const).map((colour) => colourName({ index: fact.by, colour }))
      return `${capital(colourName(fact))} would rule out both ${one} and ${other}, so it is false.`
    }
    default:
      return fact satisfies never
  }
}
