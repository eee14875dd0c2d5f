/**
 * What a cell, a candidate or a house does in a step. Each role has its own mark, hatching or stroke, so that a
 * picture reads without colour; the wording tables name them for the legend.
 */
export const ROLES = [
  'placed',
  'removed',
  'house',
  'target',
  'blocker',
  'pattern',
  'pivot',
  'pincer',
  'shared',
  'base',
  'cover',
  'fin',
  'start',
  'end',
  'link',
  'link-true',
  'linking-set',
  'colour-one',
  'colour-other',
  'second-one',
  'second-other',
  'set-one',
  'set-two',
  'set-more',
  'join',
  'keeps',
  'stem',
  'to-fill',
  'base-cell',
  'target-cell',
  'exchange',
  'extra',
  'split',
  'supposed',
  'follows',
  'case',
  'forced-one',
  'forced-two',
  'forced-more',
  'failed',
] as const
/** What a candidate does in a step, as pictures show it. */
export type Role = (typeof ROLES)[number]

/** The role of a set by its place among those of a step. */
export function setRole(index: number): Role {
  return (['set-one', 'set-two'] as const)[index] ?? 'set-more'
}
