import { describe, expect, it } from 'vitest'
import { boxedGeometry, type Geometry } from '../../../src/grid/geometry.js'
import { parsePuzzle } from '../../../src/grid/text/parse.js'
import { formatPuzzle } from '../../../src/grid/text/write.js'
import { A, B, faultOf, read, rows, text, values } from './reading.js'

const FRAME = formatPuzzle(parsePuzzle(A), { style: 'ruled' }).split('\n')
const SMALL = [
  ...['+-----+-----+', '| 1 . | . . |', '| . . | 2 . |', '+-----+-----+', '| . 3 | . . |', '| . . | . 4 |'],
  '+-----+-----+',
]

/** A text, what is said about it, and the geometry that is asked for. */
const MESSAGES: Readonly<Record<string, readonly [string, string, Geometry?]>> = {
  'frame that has lost a row': [
    text(FRAME.toSpliced(2, 1)),
    'Line 11: found 8 rows of 9 cells between the rules; expected 9 rows.',
  ],
  'frame with a row too many': [
    text(FRAME.toSpliced(2, 0, FRAME[2]!)),
    'Line 13: found 10 rows of 9 cells between the rules; expected 9 rows.',
  ],
  'rows of one cell between rules': [
    text(new Array<string>(17).fill('|1|')),
    'Line 17: found 17 rows of cells between the rules; expected 4 to 16.',
  ],
  'frame of another order than is asked for': [
    text(FRAME),
    'Line 12: found 9 rows of cells between the rules; expected 6.',
    boxedGeometry(3, 2),
  ],
  'a rule too many on a row': [
    text(SMALL.with(4, '| . 3 | . | . |')),
    'Line 5: found 4 vertical rules; expected 3 as on line 2, or walls at even steps that close off pieces of 4 cells.',
  ],
  'a cell too many between two rules': [
    text(SMALL.with(1, '| 1 . . | . . |')),
    'Line 2: found 3 cells between two vertical rules; expected 2, each with a digit or a mark.',
  ],
  'a blank cell where others have a mark': [
    text(SMALL.map((line) => line.replaceAll('.', ' ')).with(1, '| 1 . |     |')),
    'Line 2: found 0 cells between two vertical rules; expected 2, each with a digit or a mark.',
  ],
  'groups of unequal length': [
    text(new Array<string>(6).fill('...|..|.')),
    'Line 1: found 3 cells between two vertical rules; expected 2, each with a digit or a mark.',
  ],
  'rules below every third row of four': [
    text('|.|.|.|.|', '---------', '|.|.|.|1|', '|.|.|.|.|', '---------', '|.|.|.|.|'),
    'Line 1: found rules that cut unequal pieces; expected boxes of one size.',
  ],
  'boxes of four cells in a grid of six': [
    text('12|34|56', '..|..|..', '--+--+--', '..|..|..', '..|..|..', '--+--+--', '..|..|..', '1.|..|..'),
    'Line 1: found rules round boxes 2 high and 2 wide; expected boxes of 6 cells.',
  ],
  'a space that is wider than the others': [
    text(SMALL.map((line) => line.replaceAll('.', ' ')).with(1, '| 1  |     |')),
    'Line 2, column 7: found 0 of 2 cells in a space of 5 characters; expected 4 characters between rules on every line, so that a space can stand for an empty cell.',
  ],
  'digits between two columns': [
    text('| 1 2 |     |', '|     |  3  |', '|     | 4   |', '|1    |   2 |'),
    'Line 1: found digits that stand in no even columns; expected 2 cells between rules; write 0 . _ or * for an empty cell.',
  ],
  'a line that ends early': [
    text('12|34', '34|1', '21|43', '43|21'),
    'Line 2: found a line that is shorter than the others; expected 2 cells between grid lines; write 0 . _ or * for an empty cell.',
  ],
  'groups that differ from row to row': [
    text('12 34', '3 412', '21 43', '43 21'),
    'Line 2: found groups of 1 3 cells; expected groups of 2 2 as on line 1 (write 0 . _ or * for an empty cell, not a space).',
  ],
  'groups that differ, with a drawn line': [
    text('12 34', '3 412', '-----', '21 43', '43 21'),
    'Line 2: found groups of 1 3 cells; expected groups of 2 2 as on line 1 (write 0 . _ or * for an empty cell, not a space).',
  ],
  'a row with another separator': [
    text(values(A, ',').with(4, values(A, ', ')[4]!)),
    'Line 5: found a row with another separator, or another mark for empty cells, than the rows above it; expected one separator and one mark in a grid, and a break between grids.',
  ],
  'five rows of nine': [
    text(rows(A).slice(0, 5)),
    'Line 5: found 5 lines of 9 cells; expected 9 lines, and a break between grids.',
  ],
  'one row': [rows(A)[0]!, 'Line 1: found 1 line of 9 cells; expected 9 lines, and a break between grids.'],
  'ten rows': [
    text(rows(A), '111111111'),
    'Line 10: found 10 lines of 9 cells; expected 9 lines, and a break between grids.',
  ],
  'two cells too many on a row': [
    text(rows(A).with(4, `${rows(A)[4]}12`)),
    'Line 5, column 12: found 11 cells; expected 9 on each of 9 lines (write 0 . _ or * for an empty cell, not a space).',
  ],
  'two cells in place of a row': [
    text(rows(A).with(4, '1 2')),
    'Line 5, column 4: found 2 cells; expected 9 on each of 9 lines (write 0 . _ or * for an empty cell, not a space).',
  ],
  'a heading within a grid': [
    text(rows(A).slice(0, 3), 'Half', rows(A).slice(3)),
    'Line 5: found a heading between 3 and 6 rows; expected 9 rows, in one piece or in equal bands.',
  ],
  'eighteen cells on each line': [
    text(rows(A).map((row) => row + row)),
    'Line 1: found 9 lines of 18 cells; expected all cells of a grid on one line, or rows of 4 to 16 cells, one grid below the other.',
  ],
  'sixteen symbols, half of them large': [
    text('1234567812345678', '1234123412341234'),
    'Line 1: found lines of 16 symbols that may be 4×4 grids or rows of a 16×16 grid; expected the option geometry, which says so.',
  ],
  'sixteen symbols, one of them a digit': [
    text(new Array<string>(8).fill('1...............')),
    'Line 1: found lines of 16 symbols that may be 4×4 grids or rows of a 16×16 grid; expected the option geometry, which says so.',
  ],
  'a line of one symbol': [
    'x'.repeat(81),
    'Line 1: found "xxxxxxxxxxxxxxxxxxxxxxxx…", a line of one symbol; expected cells with digits (an empty grid on one line is written with 0 or .).',
  ],
  'an empty list': ['[]', 'Line 1: found an empty list; expected 81 values for a 9×9 grid.'],
  'a list of five values': ['[1,2,3,4,5]', 'Line 1: found a list of 5 values; expected 81 for a 9×9 grid.'],
  'lists in lists': ['[[[[[1]]]]]', 'Line 1: found lists in lists in lists; expected a list of grids.'],
  'a short row in a list': [
    JSON.stringify(
      rows(A)
        .map((row) => [...row])
        .with(3, ['1']),
    ),
    'Line 1: found row 4 of the list with 1 value; expected 9 in each of 9 rows.',
  ],
  'a short string in a list': [
    JSON.stringify(rows(A).with(2, '12')),
    'Line 1: found row 3 of the list with 2 values; expected 9 in each of 9 rows.',
  ],
  'a list of eight rows': [JSON.stringify(rows(A).slice(1)), 'Line 1: found 8 rows of 9 values; expected 9.'],
  'a list of fifteen rows of sixteen': [
    JSON.stringify(new Array(15).fill(new Array(16).fill(9))),
    'Line 1: found 15 rows of a 16×16 grid; expected 16.',
  ],
  'a wrong value in a list': [
    JSON.stringify([...A].with(3, 'z')),
    'Line 1, column 1: found "z"; expected 1 to 9, or one of 0 . _ * x o - ? for all empty cells.',
  ],
  'a list of one short line': [
    JSON.stringify([A.slice(1)]),
    'Line 1: found a list of 80 values; expected 81 for a 9×9 grid.',
  ],
  'JSON of another kind': [
    '{"a":1}',
    'Line 1: found JSON that is no puzzle (Saved puzzle at "type": found undefined; expected "puzzle".); expected a saved puzzle or board.',
  ],
  'JSON that ends early': ['[1,2', 'Line 1, column 5: found the end of unfinished JSON; expected the rest.'],
  'JSON with a comma too many': [
    '[1,2,]',
    'Line 1, column 6: found "]" in what should be JSON; expected a value.',
  ],
  'JSON without a colon': [
    '{"a" 1}',
    'Line 1, column 6: found "1" in what should be JSON; expected a name in quotes and a colon.',
  ],
  'JSON with text after it': [
    '[1,1] 2',
    'Line 1, column 7: found "2" in what should be JSON; expected nothing after it.',
  ],
  'JSON with the wrong bracket': [
    '[1}',
    'Line 1, column 3: found "}" in what should be JSON; expected a comma or ].',
  ],
  'a geometry without a grid': [
    '# geometry: 3x2',
    'Line 1: found a geometry with no grid below it; expected the grid it is of.',
  ],
  'a geometry that is no word': [
    text('# geometry: 3x', A),
    'Line 1: found the geometry "3x"; expected the height and width of the boxes (`# geometry: 3x2`) or a map of regions, with or without `diagonals`.',
  ],
  'a geometry of too few regions': [
    text('# geometry: regions 11/22', A),
    'Line 1: found a geometry that cannot be (A region map has order × order numbers with order 4 to 16; this one has 4.); expected the height and width of the boxes (`# geometry: 3x2`) or a map of regions, with or without `diagonals`.',
  ],
  'a geometry beside another': [
    text('# geometry: 1x9', A),
    'Line 1: found the geometry "1x9"; expected "3x3", the geometry asked for.',
    boxedGeometry(3, 3),
  ],
  'a geometry beside another drawing': [
    text('# geometry: 1x9', FRAME),
    'Line 3: found a drawing of boxes 3 high and 3 wide; expected the pieces of the geometry "1x9"; hand in the other geometry, or none.',
  ],
  'a geometry of another order': [
    text('# geometry: 2x2', A),
    'Line 2, column 1: found 81 characters; expected 16 for the geometry "2x2".',
  ],
  'an order without boxes': [
    '.'.repeat(25),
    'Line 1: a grid of 5×5 cells has no usual boxes; hand in a geometry made by regionGeometry.',
  ],
  'an order with two shapes of boxes': [
    '.'.repeat(36),
    'Line 1: found a grid of 6×6 cells; expected boxes of 2x3 or 3x2 (height x width), and nothing says which. Hand in the option geometry, draw the boxes, or write a line such as "# geometry: 2x3" above the grid.',
  ],
  'an order with four shapes of boxes': [
    '.'.repeat(144),
    'Line 1: found a grid of 12×12 cells; expected boxes of 2x6, 3x4, 4x3 or 6x2 (height x width), and nothing says which. Hand in the option geometry, draw the boxes, or write a line such as "# geometry: 2x6" above the grid.',
  ],
  'a value too few': [
    text(values(A, ';').with(3, '1;2;3;4;5;6;7;8')),
    'Line 4, column 15: found 8 values with ";" between; expected 9 on each of 9 lines.',
  ],
  'a value too few on one line': [
    [...A.slice(1)].join(','),
    'Line 1: found 80 values with "," between; expected 81 for a 9×9 grid (or another square number up to 256).',
  ],
  'a value too few between spaces': [
    [...A.slice(1)].join(' '),
    'Line 1: found 80 values; expected 81 for a 9×9 grid (or another square number up to 256).',
  ],
  'a value that is lost': [
    text(values(A, ',').with(3, '0,,8,1,0,2,9,0,0')),
    'Line 4, column 3: found no value, and "0" for an empty cell on line 1; expected one way to write an empty cell.',
  ],
  'a value out of range': [
    text(values(A, ',').with(6, '10,0,2,6,0,9,5,0,0')),
    'Line 7, column 1: found "10"; expected 1 to 9, or one of 0 . _ * x o - ? for all empty cells.',
  ],
  'a word for a value': [
    text(values(A, '\t').with(0, 'NaN\t0\t3\t0\t2\t0\t6\t0\t0')),
    'Line 1, column 1: found "NaN"; expected 1 to 9, or one of 0 . _ * x o - ? for all empty cells.',
  ],
  'a letter on a line': [
    `${A.slice(0, 40)}k${A.slice(41)}`,
    'Line 1, column 41: found "k"; expected 1 to 9, or one of 0 . _ * x o - ? for all empty cells.',
  ],
  'two marks on a line': [
    A.replace('0', 'x'),
    'Line 1, column 1: found "x"; expected 1 to 9, or one of 0 . _ * x o - ? for all empty cells.',
  ],
  'a grid twice on a line': [
    `${A} ${A}`,
    'Line 1, column 83: found a second grid of 81 cells on the line; expected one grid a line, or a puzzle and its solution.',
  ],
  'two grids on a line': [
    `${A} ${B}`,
    'Line 1, column 83: found a second grid of 81 cells on the line; expected one grid a line, or a puzzle and its solution.',
  ],
  '80 characters': [
    A.slice(1),
    'Line 1, column 1: found 80 characters; expected 81 for a 9×9 grid (16 for 4×4, 36 for 6×6, … 256 for 16×16).',
  ],
  '80 characters, with a geometry': [
    A.slice(1),
    'Line 1, column 1: found 80 characters; expected 81 for the geometry "3x3".',
    boxedGeometry(3, 3),
  ],
  '80 characters in groups': [
    rows(A).join(' ').slice(1),
    'Line 1, column 10: found 9 characters in a row; expected 81 for a 9×9 grid (16 for 4×4, 36 for 6×6, … 256 for 16×16) without a break (write 0 . _ or * for an empty cell, not a space).',
  ],
  '80 characters beside a number': [
    `${A.slice(1)} 1234567890123`,
    'Line 1, column 1: found 80 characters in a row; expected 81 for a 9×9 grid (16 for 4×4, 36 for 6×6, … 256 for 16×16) without a break (write 0 . _ or * for an empty cell, not a space).',
  ],
  'zeros and dots above order nine': [
    `0${'.'.repeat(255)}`,
    'Line 1, column 1: found 0 here and "." for an empty cell elsewhere; expected one mark for empty cells, so that 0 is no digit.',
  ],
  'pencil marks out of range': [
    text('15 2 3 4', '1 2 3 42', '12 34 13 4', '13 2 4 !'),
    'Line 1, column 1: found "15"; expected a digit (1 to 4), candidates in ascending order such as 124, +5 for a placed digit, 4? for a single candidate, ! for none, or 0 . _ * for a cell without marks.',
  ],
  'a table of HTML': [
    '<table><tr><td>1</td></tr></table>',
    'Line 1: found a table of HTML; expected the text of the page alone.',
  ],
  'rows with words before them': [
    text(rows(A).map((row) => `Zeile ${row}`)),
    'Line 1: found 9 lines of words with 9 cells after them; expected rows without words, or with a number or a letter before each.',
  ],
  'UTF-16': [
    [...A].join('\0'),
    'The input is text in UTF-16; expected plain text in UTF-8: save it as UTF-8, or decode it as UTF-16 before handing it in.',
  ],
  'a zip archive': [
    'PK\u0003\u0004aaaa',
    'The input is a zip archive; expected plain text in UTF-8: unpack it first.',
  ],
}

describe('what is said of', () => {
  it.each(Object.keys(MESSAGES))('%s', async (name) => {
    const [input, message, geometry] = MESSAGES[name]!
    expect(await read(input, geometry)).toEqual([message])
    expect(faultOf(input, geometry)).toBe(message)
  })
})
