import { type CellChange, overlaySvg, type Reading, settleCells } from 'gridreason/photo'
import { announce, button, el, picture } from './dom.js'
import type { ReadPhoto } from './photo-stage.js'

/** Shows what was read over the photo, and asks about the cells that are in doubt. */
export function checkStage(
  photo: ReadPhoto,
  play: (reading: Reading) => void,
  back: () => void,
): HTMLElement {
  const { image, url, readings } = photo
  let reading = readings[0]!
  const element = el('div', { class: 'columns' })
  draw()
  return element

  function draw(): void {
    const overlay = picture(overlaySvg({ width: image.width, height: image.height }, [reading]))
    const figure = el(
      'div',
      { class: 'photo' },
      el('img', { src: url, alt: 'Your photo, with the grid and the digits that were read drawn on it' }),
      overlay,
    )
    element.replaceChildren(
      el('section', { class: 'sheet stack', 'aria-label': 'Photo' }, figure),
      el('section', { class: 'sheet stack', 'aria-labelledby': 'check-title' }, ...questions()),
    )
  }

  function questions(): (Node | string)[] {
    const { order } = reading.puzzle.geometry
    const choices = reading.doubtful.map((cell) => ({ cell, choice: choiceFor(reading, cell) }))
    const place = (cell: number) => `Row ${Math.floor(cell / order) + 1}, column ${(cell % order) + 1}`
    const settled = () => {
      if (choices.length === 0) return play(reading)
      const next = settleCells(
        reading,
        choices.map(({ cell, choice }) => changeFor(cell, choice.value)),
      )
      if (next.status === 'certain') return play(next)
      reading = next
      draw()
      announce(verdictOf(next))
    }
    return [
      el('h2', { id: 'check-title' }, choices.length === 0 ? 'Read with certainty' : 'Please look at this'),
      readings.length > 1 && whichGrid(),
      el('p', {}, verdictOf(reading)),
      choices.length > 0 &&
        el(
          'ul',
          { class: 'doubts' },
          ...choices.map(({ cell, choice }) =>
            el('li', { class: 'doubt' }, cutOut(image, reading, cell), el('label', {}, place(cell), choice)),
          ),
        ),
      el(
        'div',
        { class: 'row' },
        button(choices.length === 0 ? 'Play' : 'This is right', settled, { class: 'main-choice' }),
        choices.length > 0 && button('Play it as it was read', () => play(reading)),
        button('Another photo', back),
      ),
    ].filter((part) => part !== false)
  }

  function whichGrid(): HTMLElement {
    const choice = el(
      'select',
      {
        onchange: () => {
          reading = readings[Number(choice.value)]!
          draw()
        },
      },
      ...readings.map((one, i) => el('option', { value: i, selected: one === reading }, `Grid ${i + 1}`)),
    )
    return el('label', { class: 'row' }, 'Which grid?', choice)
  }
}

function verdictOf({ verdict, doubtful }: Reading): string {
  const solutions = {
    unique: 'As it stands the puzzle has exactly one solution.',
    many: 'As it stands the puzzle has several solutions: a given may be missing or misread.',
    none: 'As it stands the puzzle has no solution: a given is misread, or misprinted.',
    undecided: 'It was not worked out how many solutions there are.',
  }[verdict.kind]
  const cells = doubtful.length === 1 ? 'One cell is in doubt.' : `${doubtful.length} cells are in doubt.`
  return doubtful.length === 0 ? solutions : `${cells} ${solutions}`
}

function choiceFor({ cells, puzzle }: Reading, cell: number): HTMLSelectElement {
  const { digit, entry } = cells[cell]!
  const digits = Array.from({ length: puzzle.geometry.order }, (_, i) => i + 1)
  const now = digit ? `printed ${digit}` : entry.digit ? `written ${entry.digit}` : 'nothing'
  return el(
    'select',
    {},
    ...['nothing', ...digits.map((d) => `printed ${d}`), ...digits.map((d) => `written ${d}`)].map((value) =>
      el('option', { value, selected: value === now }, value),
    ),
  )
}

function changeFor(cell: number, value: string): CellChange {
  const [kind, digit] = value.split(' ')
  if (kind === 'printed') return { cell, digit: Number(digit) }
  return { cell, entry: Number(digit ?? 0), ...(kind === 'nothing' && { digit: 0 }) }
}

/** The cell as the photo shows it, turned upright. */
function cutOut(image: ImageBitmap, { cells, turns }: Reading, cell: number): HTMLCanvasElement {
  const { bounds } = cells[cell]!
  const xs = bounds.map(({ x }) => x)
  const ys = bounds.map(({ y }) => y)
  const [left, top] = [Math.min(...xs), Math.min(...ys)]
  const side = Math.max(Math.max(...xs) - left, Math.max(...ys) - top)
  const canvas = el('canvas', { width: 160, height: 160, role: 'img', 'aria-label': 'The cell on the photo' })
  const context = canvas.getContext('2d')!
  context.translate(80, 80)
  context.rotate((turns * Math.PI) / 2)
  context.drawImage(image, left - side * 0.1, top - side * 0.1, side * 1.2, side * 1.2, -80, -80, 160, 160)
  return canvas
}
