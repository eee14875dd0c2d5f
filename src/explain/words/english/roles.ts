import type { Names } from '../../names.js'
import type { Role } from '../../picture/roles.js'
import { setName } from '../set-names.js'

/** The legend's name of a role. */
export function englishRole(role: Role, names?: Names): string {
  if (role === 'set-one') return `set ${setName(0, names)}`
  if (role === 'set-two') return `set ${setName(1, names)}`
  return ROLE_NAMES[role]
}

const ROLE_NAMES: Readonly<Record<Exclude<Role, 'set-one' | 'set-two'>, string>> = {
  placed: 'digit placed by this step',
  removed: 'candidate removed',
  house: 'house to look at',
  target: 'house acted on',
  blocker: 'digit that blocks',
  pattern: 'part of the pattern',
  pivot: 'pivot',
  pincer: 'pincer',
  shared: 'digit the pincers share',
  base: 'house that needs the digit',
  cover: 'house with room for one',
  fin: 'fin',
  start: 'start of the chain',
  end: 'end of the chain',
  link: 'linked candidate',
  'link-true': 'linked, comes out true',
  'linking-set': 'locked set that links',
  'colour-one': 'dark colour',
  'colour-other': 'light colour',
  'second-one': 'second dark colour',
  'second-other': 'second light colour',
  'set-more': 'further sets',
  join: 'digit that joins sets',
  keeps: 'digit that a set keeps',
  stem: 'stem',
  'to-fill': 'cell to be filled',
  'base-cell': 'base cell',
  'target-cell': 'target cell',
  exchange: 'exchangeable digits',
  extra: 'extra candidate',
  split: 'cell split into cases',
  supposed: 'supposed',
  follows: 'follows from it',
  case: 'supposed in a case',
  'forced-one': 'follows in case 1',
  'forced-two': 'follows in case 2',
  'forced-more': 'follows in a further case',
  failed: 'nothing is left here',
}
