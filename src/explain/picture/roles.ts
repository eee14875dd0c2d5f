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
  'base',
  'cover',
  'fin',
  'end',
  'link',
  'linking-set',
  'colour-one',
  'colour-other',
  'second-one',
  'second-other',
  'set-one',
  'set-two',
  'set-more',
  'stem',
  'to-fill',
  'base-cell',
  'target-cell',
  'exchange',
  'extra',
  'split',
  'case',
  'forced-one',
  'forced-two',
  'forced-more',
] as const
export type Role = (typeof ROLES)[number]
