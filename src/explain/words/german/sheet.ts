import type { SheetWording } from '../wording.js'
import { list } from './terms.js'
import { GERMAN_TITLES } from './titles.js'

export const germanSheet: SheetWording = {
  title: (techniques) => (techniques.length === 1 ? `Übungen: ${GERMAN_TITLES[techniques[0]!]}` : 'Übungen'),
  task: (techniques) =>
    techniques.length > 1
      ? `In jeder Stellung steckt eines davon: ${list(
          techniques.map((name) => GERMAN_TITLES[name]),
          'oder',
        )}.`
      : 'Der nächste Schritt ist in jeder Stellung von dieser Art. Wo ist er, und was folgt daraus?',
  position: (number) => `Stellung ${number}`,
  hints: 'Wo man hinsehen kann',
  answers: 'Lösungen',
}
