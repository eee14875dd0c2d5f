import {
  type Board,
  checkProgressAsync,
  type FoundStep,
  findRouteAsync,
  HINT_DEPTHS,
  type Hint,
  hintAsync,
  hunt,
  type Route,
  techniqueTitle,
} from 'gridreason'
import { announce, button, el } from './dom.js'
import type { Game } from './game.js'
import type { Shown } from './grid.js'
import { stepFrames } from './step-frames.js'

const DEPTH_LABELS = ['where', 'what', 'which cells', 'why'] as const
/** Milliseconds that a question may take before the page says so. */
const PATIENCE = 20_000

export interface HelpPanel {
  readonly element: HTMLElement
  /** The board has changed: what was said is about another one. */
  clear(): void
}

/** Hints a depth at a time, what is wrong, and the key of the puzzle. */
export function helpPanel(
  game: () => Game,
  show: (shown: Shown) => void,
  follow: (step: FoundStep) => void,
): HelpPanel {
  let depth = -1
  let route: Promise<Route> | undefined
  let asked = 0
  const answer = el('div', { class: 'stack' })
  const more = button('Hint', giveHint, { class: 'main-choice' })
  const element = el(
    'section',
    { class: 'sheet stack', 'aria-labelledby': 'help-title' },
    el('h2', { id: 'help-title' }, 'Ask'),
    el(
      'div',
      { class: 'row' },
      more,
      button('Is anything wrong?', giveProgress),
      button('The key step', giveKey),
    ),
    answer,
  )
  element.classList.add('help')

  function clear(): void {
    asked++
    depth = -1
    more.textContent = 'Hint'
    more.removeAttribute('disabled')
    answer.replaceChildren(
      el('p', { class: 'soft' }, 'A hint says where to look first, and a little more each time you ask.'),
    )
    show({})
  }

  /** Waits for an answer, unless another question has been asked by then. */
  async function whenAnswered<T>(question: Promise<T>, tell: (value: T) => void): Promise<void> {
    const mine = ++asked
    answer.replaceChildren(el('p', { class: 'busy' }, 'Thinking …'))
    try {
      const value = await question
      if (mine === asked) tell(value)
    } catch (error) {
      if (mine === asked) tellSentences([(error as Error).message])
    }
  }

  function giveHint(): void {
    if (depth === -1) show({})
    depth = Math.min(depth + 1, HINT_DEPTHS.length - 1)
    const question: Promise<Hint> = hintAsync(game().board, {
      depth: HINT_DEPTHS[depth]!,
      timeLimit: PATIENCE,
    })
    void whenAnswered(question, tellHint)
  }

  function tellHint(found: Hint) {
    if (found.kind !== 'step' && found.kind !== 'mistake') return tellSentences(found.says)
    const isWhole = depth === HINT_DEPTHS.length - 1
    more.textContent = isWhole ? 'That is all of it' : 'Tell me more'
    more.toggleAttribute('disabled', isWhole)
    const given = el(
      'div',
      { class: 'depths', 'aria-hidden': 'true' },
      ...DEPTH_LABELS.map((label, i) => el('span', { class: i <= depth ? 'is-given-away' : '' }, label)),
    )
    if (found.kind === 'mistake') {
      tellSentences(found.says, given)
      show(depth < 2 ? { houses: found.houses } : { wrong: [...found.wrongDigits, ...found.wrongMarks] })
      return
    }
    show({ houses: found.houses, ...('cells' in found && { cells: found.cells }) })
    if (found.depth !== 'argument') return tellSentences(found.says, given)
    const { step } = found
    tellSentences(
      found.says.slice(0, 2),
      given,
      stepFrames(step),
      button('Do this on my board', () => follow(step)),
    )
  }

  function giveProgress(): void {
    depth = -1
    more.textContent = 'Hint'
    more.removeAttribute('disabled')
    const { puzzle, board } = game()
    void whenAnswered(checkProgressAsync(puzzle, board, { timeLimit: PATIENCE }), (progress) => {
      if (progress.status === 'unsound-puzzle')
        return tellSentences([
          'The puzzle does not have exactly one solution, so right and wrong mean nothing here.',
        ])
      if (progress.status === 'on-track') return tellSentences(['Nothing is wrong so far.'])
      const wrong = [...progress.wrongDigits, ...progress.wrongRemovals].map(({ cell }) => cell)
      show({ wrong })
      const count = wrong.length === 1 ? 'One cell is' : `${wrong.length} cells are`
      tellSentences(
        [`${count} not as the solution has it.`],
        button('Why is this wrong?', () => giveReason(board, wrong)),
      )
    })
  }

  function giveReason(board: Board, wrong: readonly number[]): void {
    void whenAnswered(hintAsync(board, { depth: 'argument', timeLimit: PATIENCE }), (found) => {
      tellSentences(found.says)
      show({ wrong })
    })
  }

  function giveKey(): void {
    depth = -1
    more.textContent = 'Hint'
    more.removeAttribute('disabled')
    route ??= findRouteAsync(game().puzzle, { timeLimit: PATIENCE })
    void whenAnswered(route, (found) => {
      show({})
      if (found.status !== 'solved')
        return tellSentences(['No route by patterns and chains was found through this puzzle.'])
      const [key] = found.keys
      if (key === undefined)
        return tellSentences(['This puzzle needs no key: singles, locked candidates and subsets open it.'])
      const step = found.steps[key]!
      const others = found.keys.length - 1
      answer.replaceChildren(
        el('h3', { class: 'key-title' }, `The key: ${techniqueTitle(step.technique)}`),
        el(
          'p',
          { class: 'soft' },
          `It comes after ${key} easier steps${others > 0 ? `, and ${others} more like it follow` : '; then the rest falls'}.`,
        ),
        stepFrames(step),
        howItIsFound(step),
      )
      announce(`The key is ${techniqueTitle(step.technique)}`)
    })
  }

  function tellSentences(sentences: readonly string[], ...parts: readonly HTMLElement[]) {
    const says = el(
      'ul',
      { class: 'says' },
      ...sentences.map((sentence) => el('li', { class: 'says-sentence' }, sentence)),
    )
    answer.replaceChildren(says, ...parts)
    announce(sentences.at(-1) ?? '')
  }

  clear()
  return { element, clear }
}

function howItIsFound(step: FoundStep): HTMLElement {
  const { sentences } = hunt(step, { pictures: false })
  return el(
    'details',
    {},
    el('summary', {}, 'How would I find it?'),
    el('ol', {}, ...sentences.map((sentence) => el('li', {}, sentence))),
  )
}
