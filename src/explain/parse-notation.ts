import { string } from '../check-arguments.js'
import { InputError } from '../errors.js'
import { checkGeometry, type Geometry } from '../grid/geometry.js'
import { cellNumber } from '../grid/text/symbols.js'
import type { ChainLink, ChainNode } from '../logic/steps/step.js'
import { parseCells } from './cell-names.js'

/** Links as they are written: their kinds and ends, without the houses, sets and fins behind them. */
export interface WrittenLinks {
  readonly links: readonly Pick<ChainLink, 'kind' | 'from' | 'to'>[]
  readonly loop: boolean
}

/**
 * Reads what `linkNotation` writes, in either style of digits.
 *
 * ```ts
 * parseLinkNotation(STANDARD, '(3=7)r1c1-(7)r1c5')
 * // links: strong from 3 to 7 in r1c1, weak from there to 7 in r1c5; loop: false
 * ```
 *
 * @throws InputError `text-symbol` for a text that is no such notation, `argument` for what is no text
 */
export function parseLinkNotation(geometry: Geometry, text: string): WrittenLinks {
  checkGeometry(geometry)
  string(text, 'text')
  const loop = text.endsWith(LOOP)
  const body = loop ? text.slice(0, -LOOP.length) : text
  return { links: body.split('; ').flatMap((chain) => linksOf(geometry, chain)), loop }
}

const LOOP = ' loop'
/** Digits in a bracket, their cells, and the sign of the link that follows. */
const NODE = /^\(([\dA-Ga-g=]+)\)([rc\d,]+?)([=-]|$)/

function linksOf(geometry: Geometry, chain: string): WrittenLinks['links'][number][] {
  const links: WrittenLinks['links'][number][] = []
  let from: ChainNode | undefined
  let kind: ChainLink['kind'] = 'strong'
  for (let rest = chain; rest !== ''; ) {
    const [whole, digits, names, sign] = NODE.exec(rest) ?? []
    if (whole === undefined) throw notLinks(chain)
    const cells = parseCells(geometry, names!)
    for (const [i, symbol] of digits!.split('=').entries()) {
      const digit = cellNumber(symbol, geometry.order) ?? 0
      if (digit < 1 || digit > geometry.order) throw notLinks(chain)
      const to = { digit, cells }
      // digits of one bracket are joined within their cells
      if (from) links.push({ kind: i > 0 ? 'strong' : kind, from, to })
      from = to
    }
    kind = sign === '-' ? 'weak' : 'strong'
    rest = rest.slice(whole.length)
    // a sign leads to another node
    if (rest === '' && sign !== '') throw notLinks(chain)
  }
  if (links.length === 0) throw notLinks(chain)
  return links
}

function notLinks(found: string): InputError {
  const shown = found.length > 40 ? `${found.slice(0, 40)}…` : found
  const expected = 'links such as (3=7)r1c1-(7)r1c5=(7)r4c5'
  return new InputError('text-symbol', `"${shown}" is no notation of links; expected ${expected}.`, {
    found: shown,
    expected,
  })
}
