import type { PictureWording } from '../wording.js'
import { englishRole } from './roles.js'
import { englishRule } from './rule.js'
import { titleOf } from './technique-title.js'
import { counted } from './terms.js'

/** What pictures say; alone, so that an app that draws carries nothing else. */
export const ENGLISH_PICTURES: PictureWording = {
  language: 'en',
  technique: titleOf,
  role: englishRole,
  rule: englishRule,
  picture: {
    strongLink: 'strong link',
    weakLink: 'weak link',
    thenLink: 'makes true',
    given: 'given',
    found: 'digit found',
    title: (technique) =>
      technique === undefined ? 'Number-place grid' : `${technique} on a number-place grid`,
    description: (order, given, found, open) =>
      `A grid of ${order} rows and ${order} columns with ${counted(given, 'given')}, ${counted(
        found,
        'digit found',
        'digits found',
      )} and ${counted(open, 'open cell')}.`,
  },
}
