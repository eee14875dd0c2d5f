import type { Role } from '../picture/roles.js'

/** Legend names of the roles. */
export const ROLE_NAMES: Readonly<Record<Role, string>> = {
  placed: 'digit placed by this step',
  removed: 'candidate removed',
  house: 'house looked at',
  target: 'house acted on',
  blocker: 'digit that blocks',
  pattern: 'part of the pattern',
  pivot: 'pivot',
  pincer: 'pincer',
  base: 'base house',
  cover: 'cover house',
  fin: 'fin',
  end: 'end of the chain',
  link: 'inside the chain',
  'colour-one': 'dark colour',
  'colour-other': 'light colour',
  'second-one': 'second dark colour',
  'second-other': 'second light colour',
  'set-one': 'set A',
  'set-two': 'set B',
  'set-more': 'further sets',
  stem: 'stem',
  exchange: 'exchangeable digits',
  extra: 'extra candidate',
  case: 'case',
}
