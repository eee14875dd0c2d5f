import type { Unproven } from '../../../logic/proof/proof.js'
import type { Names } from '../../names.js'
import { capital, type GermanTerms, germanTerms } from './terms.js'

/** Why a step is not proven, in a sentence. */
export function germanUnproven(because: Unproven, names: Names): string {
  const t = germanTerms(names)
  switch (because.kind) {
    case 'malformed':
      return `Der Schritt ergibt in diesem Gitter keinen Sinn: ${because.where} ${TROUBLES[because.trouble]}.`
    case 'no-conclusion':
      return 'Der Schritt setzt keine Ziffer und streicht keinen Kandidaten.'
    case 'not-a-candidate':
      return `Dass ${claimed(t, because.claim)}, ist hier kein Schluss: Diesen Kandidaten hat das Gitter nicht.`
    case 'premise-fails': {
      const parts = [
        ...(because.unmentioned.length > 0
          ? [`das Gitter hat auch ${t.candidates(because.unmentioned)}`]
          : []),
        ...(because.ruledOut.length > 0
          ? [`das Gitter hat nicht mehr ${t.candidates(because.ruledOut)}`]
          : []),
      ]
      return `Es stimmt nicht: ${capital(t.premise(because.premise))}${parts.length > 0 ? `; ${parts.join(', und ')}` : ''}.`
    }
    case 'missing-link':
      return `Dass ${claimed(t, because.claim)}, folgt nicht: Alles Genannte gälte auch mit ${t.candidates(because.assignment)}.`
    case 'no-exchange':
      return 'Der Schritt beruht darauf, dass das Rätsel nur eine Lösung hat, nennt aber keine Zellen, die sich auf zwei Arten füllen ließen.'
    case 'given-in-exchange':
      return `${capital(t.cell(because.cell))} ist vorgegeben, also lassen sich die genannten Zellen nicht auf zwei Arten füllen.`
    case 'not-exchangeable':
      return `Dass ${claimed(t, because.claim)}, folgt nicht: Mit ${t.candidates(because.assignment)} ließen sich die Zellen nicht anders füllen.`
    case 'budget-spent':
      return `Ob ${claimed(t, because.claim)}, ist unbekannt: Der Beweis wurde zu aufwendig. Erlaube mehr Aufwand.`
    case 'time-limit':
      return `Ob ${claimed(t, because.claim)}, ist unbekannt: Die Zeit war vorher um. Erlaube mehr Zeit.`
    default:
      return because satisfies never
  }
}

/** With its verb at the end, as after `dass` and `ob`. */
function claimed(
  t: GermanTerms,
  {
    kind,
    candidate,
  }: {
    readonly kind: 'placement' | 'removal'
    readonly candidate: { readonly cell: number; readonly digit: number }
  },
): string {
  return `${t.cell(candidate.cell)} ${kind === 'placement' ? '' : 'nicht '}${t.digit(candidate.digit)} ist`
}

const TROUBLES = {
  'not-a-list': 'ist keine Liste',
  'not-a-cell': 'ist keine Zelle',
  'not-a-digit': 'ist keine Ziffer',
  'not-a-house': 'ist kein Haus',
  'unknown-kind': 'ist von unbekannter Art',
  twice: 'ist doppelt genannt',
  empty: 'ist leer',
} as const
