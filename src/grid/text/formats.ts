import type { TextFormat } from './format.js'
import { jsonFormat } from './json-text.js'
import { lineFormat } from './line.js'
import { marksFormat } from './marks.js'
import { rowsFormat } from './rows.js'
import { ruledFormat } from './ruled.js'
import { separatedFormat } from './separated.js'

/** Every way to write a grid as text. A new one is a file beside these and a line here. */
export const TEXT_FORMATS = [
  jsonFormat,
  lineFormat,
  rowsFormat,
  separatedFormat,
  ruledFormat,
  marksFormat,
] as const satisfies readonly TextFormat[]

/** A format that puzzles are read from. */
export type TextFormatName = (typeof TEXT_FORMATS)[number]['name']
