import type { Fact } from '../../argument/facts.js'
import type { Names } from '../../names.js'
import { chainFact } from './chains.js'
import { colourFact } from './colours.js'
import { countFact } from './counts.js'
import { denialFact } from './denials.js'
import { exchangeFact } from './exchanges.js'
import { lineFact, singleFact } from './lines.js'
import { germanConclusion } from './reasons.js'
import { setFact } from './sets.js'
import { capital, germanTerms } from './terms.js'
import { wingFact } from './wings.js'

/** Each fact as a German sentence or two. */
export function germanFact(fact: Fact, names: Names): string {
  const t = germanTerms(names)
  switch (fact.kind) {
    case 'last-cell':
    case 'only-candidate':
    case 'only-place':
      return singleFact(t, fact, names)
    case 'confined':
    case 'naked-subset':
    case 'hidden-subset':
    case 'fish':
      return lineFact(t, fact, names)
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
      return `Im Blick behalten: ${t.theCandidates(fact.candidates)}.`
    case 'premise':
      return `${capital(t.premise(fact.premise))}.`
    case 'cannot-all-hold':
      return 'Wäre der Schluss falsch, könnte das nicht alles zugleich gelten.'
    case 'conclusion':
      return germanConclusion(fact, names)
    default:
      return fact satisfies never
  }
}
