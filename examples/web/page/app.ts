import { boardOf } from 'gridreason/photo'
import { checkStage } from './check-stage.js'
import { photoStage } from './photo-stage.js'
import { playStage } from './play-stage.js'

const main = document.querySelector('main')!

function enter(stage: 'photo' | 'check' | 'play', content: HTMLElement): void {
  main.replaceChildren(content)
  for (const step of document.querySelectorAll('.way li')) {
    if (step.getAttribute('data-stage') === stage) step.setAttribute('aria-current', 'step')
    else step.removeAttribute('aria-current')
  }
  scrollTo({ top: 0 })
  // whoever listens to the page hears where it has gone
  main.focus()
}

function start(): void {
  enter(
    'photo',
    photoStage((photo) =>
      enter(
        'check',
        checkStage(photo, (reading) => enter('play', playStage(boardOf(reading), start)), start),
      ),
    ),
  )
}

start()
