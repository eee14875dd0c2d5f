import { oneOf } from '../../../check-arguments.js'
import { TECHNIQUE_NAMES, type TechniqueName } from '../../../logic/technique-names.js'

/**
 * Pieces of a technique's kebab-case name that are not plain words: initials, and words whose hyphen stays. The longest
 * piece wins, so `finned-x-wing` is `Finned X-wing` and `als-xy-wing` is `ALS-XY-wing` without a line of their own.
 */
const PIECES: Readonly<Record<string, string>> = {
  'als-xy-wing': 'ALS-XY-wing',
  'als-xz': 'ALS-XZ',
  als: 'ALS',
  'bug-plus-one': 'BUG+1',
  'bug-1': 'BUG+1',
  bug: 'BUG',
  'sue-de-coq': 'Sue de Coq',
  'two-string': 'two-string',
  'multi-sector': 'multi-sector',
  'multi-colouring': 'multi-colouring',
  'wxyz-wing': 'WXYZ-wing',
  'xyz-wing': 'XYZ-wing',
  'xy-wing': 'XY-wing',
  'x-wing': 'X-wing',
  'w-wing': 'W-wing',
  'xy-chain': 'XY-chain',
  'x-chain': 'X-chain',
  franken: 'Franken',
}

const checkName = oneOf(TECHNIQUE_NAMES, 'the name of a technique (see TECHNIQUE_NAMES)')

/**
 * The display name of a technique in English: `xy-wing` → `XY-wing`, `finned-swordfish` → `Finned swordfish`.
 *
 * @throws InputError `argument` when no technique has that name
 *
 * @example
 * techniqueTitle('xy-wing') // → 'XY-wing'
 */
export function techniqueTitle(name: TechniqueName): string {
  checkName(name, 'technique')
  return titleOf(name)
}

/** The same for any name in kebab case. */
export function titleOf(name: string): string {
  const words = name.split('-')
  const out: string[] = []
  for (let i = 0; i < words.length; ) {
    let taken = 1
    let piece = words[i]!
    for (let end = words.length; end > i; end--) {
      const known = PIECES[words.slice(i, end).join('-')]
      if (known !== undefined) {
        piece = known
        taken = end - i
        break
      }
    }
    out.push(piece)
    i += taken
  }
  const title = out.join(' ')
  return title.charAt(0).toUpperCase() + title.slice(1)
}
