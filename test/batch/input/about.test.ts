import { expect, it } from 'vitest'
import { aboutPuzzle } from '../../../src/batch/input/about.js'

it.each([
  ['Tuesday', { title: 'Tuesday' }],
  ['No. 1,234', { number: '1234' }],
  ['Puzzle 7', { number: '7' }],
  ['Nr. 1.234 – mittel', { number: '1234', title: 'mittel' }],
  ['12. Foxglove', { number: '12', title: 'Foxglove' }],
  ['12 Angry Foxes', { title: '12 Angry Foxes' }],
  ['(12)', { number: '12' }],
  ['#12 Foxglove by Ottoline Crake', { number: '12', title: 'Foxglove', setter: 'Ottoline Crake' }],
  ['The Foxglove, by O. van der Crake', { title: 'The Foxglove', setter: 'O. van der Crake' }],
  ['7 Ottoline Crake 2026-11-30', { title: '7 Ottoline Crake', date: '2026-11-30' }],
  ['Monday, 30 November 2026 · No. 17', { number: '17', date: '2026-11-30' }],
  ['November 3rd, 2026', { date: '2026-11-03' }],
  ['Sonntag, 1. März 2026, gestellt von Barnaby Moss', { date: '2026-03-01', setter: 'Barnaby Moss' }],
  ['30.11.2026', { date: '2026-11-30' }],
  ['30/11/2026', { date: '2026-11-30' }],
  ['11/30/2026', { date: '2026-11-30' }],
  // which is the day is not said
  ['03/04/2026', { title: '03/04/2026' }],
  ['31 April 2026', { title: '31 April 2026' }],
  ['Stand by me', { title: 'Stand by me' }],
  ['By the river', { title: 'By the river' }],
  ['Room for 2 in the 2020s', { title: 'Room for 2 in the 2020s' }],
] as const)('%s', (heading, about) => {
  expect(aboutPuzzle(heading, [])).toEqual(about)
})

it('takes what a heading does not say from comments, but no title', () => {
  expect(aboutPuzzle('Puzzle 7', ['Set by Barnaby Moss', '2026-12-01', 'Puzzle 9', 'a fine one'])).toEqual({
    number: '7',
    setter: 'Barnaby Moss',
    date: '2026-12-01',
  })
  expect(aboutPuzzle(undefined, [])).toEqual({})
})

it('says nothing where several setters share a file', () => {
  const comment = 'Set by Ottoline Crake (Monday to Thursday) and Barnaby Moss (Friday to Sunday).'
  expect(aboutPuzzle(undefined, [comment])).toEqual({})
})
