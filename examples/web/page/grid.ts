import { type Board, digitName, layoutOf } from 'gridreason'
import { el } from './dom.js'
import { marksIn } from './game.js'

/** What is shown beside digits and marks. */
export interface Shown {
  readonly houses?: readonly number[]
  readonly cells?: readonly number[]
  readonly wrong?: readonly number[]
}

export interface Grid {
  readonly element: HTMLElement
  selected(): number
  focus(): void
  draw(board: Board, shown: Shown): void
}

/** A grid to be played on: one stop of the tab key, arrows within, and every cell says what it holds. */
export function makeGrid(
  first: Board,
  onKey: (event: KeyboardEvent, cell: number) => void,
  onSelect: () => void,
): Grid {
  const { geometry } = first
  const { order } = geometry
  const { houses, housesOf, peersOf } = layoutOf(geometry)
  const areaOf = Array.from({ length: geometry.cellCount }, (_, cell) =>
    housesOf[cell]!.find((house) => ['box', 'region'].includes(houses[house]!.kind)),
  )
  const columnsOfMarks = Math.ceil(Math.sqrt(order))
  let current = Math.max(0, first.digits.indexOf(0))
  const cells = areaOf.map((area, cell) => {
    const isAtEdge = cell % order === order - 1
    const cellElement = el('div', {
      role: 'gridcell',
      class: [
        'cell',
        first.given[cell] ? 'is-given' : '',
        !isAtEdge && areaOf[cell + 1] !== area ? 'ends-box' : '',
        cell + order < areaOf.length && areaOf[cell + order] !== area ? 'ends-band' : '',
      ].join(' '),
      tabindex: cell === current ? 0 : -1,
      onclick: () => select(cell),
      onfocus: () => select(cell),
      onkeydown: (event: KeyboardEvent) => {
        const row = Math.floor(cell / order)
        const column = cell % order
        const next = {
          ArrowLeft: column > 0 && cell - 1,
          ArrowRight: column < order - 1 && cell + 1,
          ArrowUp: row > 0 && cell - order,
          ArrowDown: row < order - 1 && cell + order,
          Home: row * order,
          End: row * order + order - 1,
        }[event.key]
        if (next === undefined) onKey(event, cell)
        else {
          event.preventDefault()
          if (next !== false) cells[next]!.focus()
        }
      },
    })
    return cellElement
  })
  const element = el('div', { role: 'grid', class: 'grid', 'aria-label': 'Puzzle' })
  for (let row = 0; row < order; row++)
    element.append(
      el('div', { role: 'row', class: 'grid-row' }, ...cells.slice(row * order, (row + 1) * order)),
    )

  function select(cell: number): void {
    if (cell === current) return
    cells[current]!.tabIndex = -1
    current = cell
    cells[cell]!.tabIndex = 0
    if (document.activeElement !== cells[cell]) cells[cell]!.focus()
    onSelect()
  }

  return {
    element,
    selected: () => current,
    focus: () => cells[current]!.focus(),
    draw(board, { houses: lookedAt = [], cells: pattern = [], wrong = [] }) {
      const digit = board.digits[current]!
      const near = new Set(peersOf[current])
      const inHouses = new Set(lookedAt.flatMap((house) => houses[house]!.cells))
      cells.forEach((cellElement, cell) => {
        const own = board.digits[cell]!
        const marks = marksIn(board, cell)
        cellElement.replaceChildren(
          own !== 0 ? digitName(own) : marks.length > 0 ? drawMarks(marks, order, columnsOfMarks) : '',
        )
        const classes: Readonly<Record<string, boolean>> = {
          'is-peer': near.has(cell),
          'is-same': digit !== 0 && own === digit,
          'is-looked-at': inHouses.has(cell),
          'is-pattern': pattern.includes(cell),
          'is-wrong': wrong.includes(cell),
        }
        for (const [name, isOn] of Object.entries(classes)) cellElement.classList.toggle(name, isOn)
        const place = `row ${Math.floor(cell / order) + 1}, column ${(cell % order) + 1}`
        const holds =
          own !== 0
            ? `${board.given[cell] ? 'given ' : ''}${digitName(own)}${wrong.includes(cell) ? ', wrong' : ''}`
            : marks.length > 0
              ? `marks ${marks.map((mark) => digitName(mark)).join(' ')}`
              : 'open'
        cellElement.setAttribute('aria-label', `${place}: ${holds}`)
        cellElement.setAttribute('aria-selected', String(cell === current))
        cellElement.setAttribute('aria-readonly', String(board.given[cell] === 1))
      })
    },
  }
}

function drawMarks(marks: readonly number[], order: number, columns: number): HTMLElement {
  const places = Array.from({ length: order }, (_, i) =>
    el('span', {}, marks.includes(i + 1) ? digitName(i + 1) : ''),
  )
  return el(
    'div',
    {
      class: 'marks',
      style: `grid-template: repeat(${Math.ceil(order / columns)}, 1fr) / repeat(${columns}, 1fr)`,
    },
    ...places,
  )
}
