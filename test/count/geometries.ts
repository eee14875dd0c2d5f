import { boxedGeometry, type Geometry, regionGeometry, STANDARD } from '../../src/index.js'

// Irregular pieces drawn for these tests: rows of the picture are rows of the grid, equal letters one region.
function jigsaw(name: string, picture: string): Geometry {
  const letters = picture.replace(/\s/g, '')
  const order = [...new Set(letters)]
  return regionGeometry(
    name,
    Array.from(letters, (letter) => order.indexOf(letter)),
  )
}

export const JIGSAW_5 = jigsaw(
  'jigsaw 5',
  `aaaae
   ccaee
   cceeb
   dcbbb
   ddddb`,
)
export const JIGSAW_6 = jigsaw(
  'jigsaw 6',
  `bbaaaa
   bbbaac
   bccccc
   dddeee
   dffefe
   ddfffe`,
)
export const JIGSAW_9 = jigsaw(
  'jigsaw 9',
  `aaabbbccc
   aaabbbccc
   aaabbbccc
   dddeeefff
   dddeeefff
   gddeeefff
   gdghhhiii
   ggghhhiii
   ggghhhiii`,
)
export const DIAGONAL_9 = regionGeometry(
  'boxes and diagonals',
  Array.from({ length: 81 }, (_, cell) => 3 * Math.floor(cell / 27) + Math.floor((cell % 9) / 3)),
  { diagonals: true },
)

/** Small ones first; all kinds of houses among them. */
export const MANY_GEOMETRIES: readonly Geometry[] = [
  boxedGeometry(2, 2),
  JIGSAW_5,
  boxedGeometry(2, 3),
  JIGSAW_6,
  boxedGeometry(2, 4),
  STANDARD,
  JIGSAW_9,
  DIAGONAL_9,
  boxedGeometry(2, 5),
  boxedGeometry(3, 4),
  boxedGeometry(3, 5),
  boxedGeometry(4, 4),
]
