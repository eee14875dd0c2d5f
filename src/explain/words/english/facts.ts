import type { Fact } from '../../argument/facts.js'
import type { Names } from '../../names.js'
import { chainFact } from './chains.js'
import { colourFact } from './colours.js'
import { countFact } from './counts.js'
import { denialFact } from './denials.js'
import { exchangeFact } from './exchanges.js'
import { lineFact, singleFact } from './lines.js'
import { englishConclusion } from './reasons.js'
import { setFact } from './sets.js'
import { capital, englishTerms } from './terms.js'
import { wingFact } from './wings.js'

/** Each fact as an English sentence or two. */
export function englishFact(fact: Fact, names: Names): string {
  const t = englishTerms(names)
  switch (fact.kind) {
    case 'last-cell':
    case 'only-candidate':
    case 'only-place':
      return singleFact(t, fact, names)
    case 'confined':
    case 'naked-subset':
    case 'hidden-subset':
    case 'fish':
      return lineFact(t, fact)
    case 'pivot':
    case 'pincer':
    case 'pivot-itself':
    case 'wing-count':
    case 'alike':
    case 'bridge':
    case 'take-turns':
      return wingFact(t, fact)
    case 'joined':
    case 'chain-given':
    case 'chain-start':
    case 'chain-move':
    case 'loop':
      return chainFact(t, fact)
    case 'cluster':
    case 'colour-bridge':
    case 'colour-outseen':
    case 'colour-clash':
      return colourFact(t, fact)
    case 'sets':
    case 'set-needs':
    case 'set-ring':
    case 'crossing-count':
    case 'stem':
    case 'petal':
      return setFact(t, fact, names)
    case 'exchange':
    case 'extras':
    case 'extras-subset':
    case 'assumes-one-solution':
      return exchangeFact(t, fact)
    case 'suppose':
    case 'suppose-not':
    case 'follows':
    case 'takes':
    case 'pairs-fail':
    case 'starved':
    case 'split':
    case 'branch':
      return denialFact(t, fact)
    case 'exocet-base':
    case 'exocet-lines':
    case 'exocet-targets':
    case 'sector-count':
      return countFact(t, fact)
    case 'watch':
      return `Watch ${t.theCandidates(fact.candidates)}.`
    case 'premise':
      return `${capital(t.premise(fact.premise))}.`
    case 'cannot-all-hold':
      return 'If the conclusion were false, these could not all hold at once.'
    case 'conclusion':
      return englishConclusion(fact, names)
    default:
      return fact satisfies never
  }
}
