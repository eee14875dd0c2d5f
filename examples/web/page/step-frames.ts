import { type FoundStep, type Frame, frames } from 'gridreason'
import { announce, button, el, isDark, picture } from './dom.js'

/** A step sentence by sentence, to be leafed through. */
export function stepFrames(step: FoundStep): HTMLElement {
  const row: readonly Frame[] = frames(step, { theme: isDark() ? 'dark' : 'light', marks: 'step' })
  let at = 0
  const drawing = el('div')
  const words = el('figcaption')
  const count = el('span', { class: 'soft' })
  const before = button('Back', () => turn(-1))
  const after = button('Next', () => turn(1))
  const draw = () => {
    const { svg, text } = row[at]!
    drawing.replaceChildren(picture(svg, `Picture ${at + 1}: ${text}`))
    words.textContent = text
    count.textContent = `${at + 1} of ${row.length}`
    before.disabled = at === 0
    after.disabled = at === row.length - 1
  }
  const turn = (by: number) => {
    at += by
    draw()
    announce(row[at]!.text)
  }
  draw()
  return el('figure', { class: 'frames' }, drawing, words, el('div', { class: 'row' }, before, after, count))
}
