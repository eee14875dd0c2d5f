import { type Board, openCount } from 'gridreason'
import { announce, button, el } from './dom.js'
import { erase, follow, type Game, newGame, noteAll, redo, toggleMark, undo, write } from './game.js'
import { makeGrid, type Shown } from './grid.js'
import { helpPanel } from './help-panel.js'

/** The board, its tools, and help beside it. */
export function playStage(first: Board, back: () => void): HTMLElement {
  let game = newGame(first)
  let isMarking = false
  let shown: Shown = {}
  const { order } = first.geometry

  const grid = makeGrid(first, onKey, draw)
  function change(next: Game): void {
    if (next === game) return
    game = next
    help.clear()
    const open = openCount(game.board)
    announce(open === 0 ? 'The grid is full' : '')
  }

  function put(digit: number, asMark = isMarking): void {
    const cell = grid.selected()
    change(asMark ? toggleMark(game, cell, digit) : write(game, cell, digit))
  }

  function onKey(event: KeyboardEvent, cell: number): void {
    const digit = /^(?:Digit|Numpad)([1-9])$/.exec(event.code)?.[1]
    const isCommand = event.ctrlKey || event.metaKey
    if (isCommand && event.key.toLowerCase() === 'z') change(event.shiftKey ? redo(game) : undo(game))
    else if (isCommand || event.altKey) return
    else if (digit && Number(digit) <= order) put(Number(digit), isMarking !== event.shiftKey)
    else if (['Backspace', 'Delete', '0'].includes(event.key)) change(erase(game, cell))
    else if (event.key.toLowerCase() === 'm') mark(!isMarking)
    else return
    event.preventDefault()
  }

  const marking = button('Marks', () => mark(!isMarking), { 'aria-pressed': false })
  function mark(on: boolean): void {
    isMarking = on
    marking.setAttribute('aria-pressed', String(on))
    announce(on ? 'Digits are written as marks' : 'Digits are written in full')
  }
  const undoing = button('Undo', () => change(undo(game)))
  const redoing = button('Redo', () => change(redo(game)))

  function draw(): void {
    grid.draw(game.board, shown)
    undoing.disabled = game.past.length === 0
    redoing.disabled = game.future.length === 0
  }

  const help = helpPanel(
    () => game,
    (next) => {
      shown = next
      draw()
    },
    (step) => change(follow(game, step)),
  )

  const pad = el(
    'div',
    { class: 'pad', role: 'group', 'aria-label': 'Digits' },
    ...Array.from({ length: order }, (_, i) => button(String(i + 1), () => put(i + 1))),
  )
  const tools = el(
    'div',
    { class: 'tools', role: 'group', 'aria-label': 'Tools' },
    marking,
    button('All marks', () => change(noteAll(game))),
    button('Erase', () => change(erase(game, grid.selected()))),
    undoing,
    redoing,
    button('New photo', back),
  )
  draw()
  return el(
    'div',
    { class: 'columns' },
    el(
      'section',
      { class: 'sheet stack', 'aria-label': 'Board' },
      grid.element,
      pad,
      tools,
      el(
        'p',
        { class: 'soft' },
        'On the grid: arrows move, digits write, Shift with a digit marks, Ctrl+Z undoes.',
      ),
    ),
    help.element,
  )
}
