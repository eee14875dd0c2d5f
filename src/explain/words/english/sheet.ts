import type { SheetWording } from '../wording.js'
import { titleOf } from './technique-title.js'
import { list } from './terms.js'

export const englishSheet: SheetWording = {
  title: (techniques) => (techniques.length === 1 ? `Exercises: ${titleOf(techniques[0]!)}` : 'Exercises'),
  task: (techniques) =>
    techniques.length > 1
      ? `Each position has one of these to be found: ${list(techniques.map(titleOf), 'or')}.`
      : 'The next step in each position is of this kind. Where is it, and what follows from it?',
  position: (number) => `Position ${number}`,
  hints: 'Where to look',
  answers: 'Answers',
}
