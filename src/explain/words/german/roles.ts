import type { Names } from '../../names.js'
import type { Role } from '../../picture/roles.js'
import { setName } from '../set-names.js'

/** The legend's name of a role. */
export function germanRole(role: Role, names?: Names): string {
  if (role === 'set-one') return `Menge ${setName(0, names)}`
  if (role === 'set-two') return `Menge ${setName(1, names)}`
  return ROLE_NAMES[role]
}

const ROLE_NAMES: Readonly<Record<Exclude<Role, 'set-one' | 'set-two'>, string>> = {
  placed: 'hier gesetzte Ziffer',
  removed: 'gestrichener Kandidat',
  house: 'Haus, auf das es ankommt',
  target: 'Haus, in dem gestrichen wird',
  blocker: 'Ziffer, die sperrt',
  pattern: 'Teil des Musters',
  pivot: 'Angelpunkt',
  pincer: 'Flügel',
  shared: 'gemeinsame Ziffer der Flügel',
  base: 'Haus, das die Ziffer braucht',
  cover: 'Haus mit Platz für eine',
  fin: 'Flosse',
  start: 'Anfang der Kette',
  end: 'Ende der Kette',
  link: 'verknüpfter Kandidat',
  'link-true': 'verknüpft, wird wahr',
  'linking-set': 'Menge, die verknüpft',
  'colour-one': 'dunkle Farbe',
  'colour-other': 'helle Farbe',
  'second-one': 'zweite dunkle Farbe',
  'second-other': 'zweite helle Farbe',
  'set-more': 'weitere Mengen',
  join: 'verbindet Mengen',
  keeps: 'bleibt in einer Menge',
  stem: 'Stiel',
  'to-fill': 'zu füllende Zelle',
  'base-cell': 'Basiszelle',
  'target-cell': 'Zielzelle',
  exchange: 'vertauschbare Ziffern',
  extra: 'überzähliger Kandidat',
  split: 'Zelle der Fallunterscheidung',
  supposed: 'angenommen',
  follows: 'folgt daraus',
  case: 'in einem Fall angenommen',
  'forced-one': 'folgt in Fall 1',
  'forced-two': 'folgt in Fall 2',
  'forced-more': 'folgt in einem weiteren Fall',
  failed: 'hier bleibt nichts',
}
