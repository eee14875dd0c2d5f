// gridreason/photo: pictures of printed grids to readings. Node only (sharp, tesseract.js).

export { settleCells } from './photo/conclude.js'
// picture, grid, cells
export type { PictureInput, RawPicture } from './photo/decode/decode-picture.js'
// digits
export type { CellPicture, CellScores, DigitReader } from './photo/digits/digit-reader.js'
export { NoGridFound, PictureError } from './photo/errors.js'
export type { GrayImage, Point } from './photo/image.js'
export type { Lattice } from './photo/lattice.js'
// reader
export {
  createPhotoReader,
  type PhotoReader,
  type PhotoReaderOptions,
  type ReadOptions,
} from './photo/reader.js'
export {
  CHECK_REASONS,
  type CheckReason,
  DECIDERS,
  type Decider,
  type DigitChance,
  type Evidence,
  type ReadCell,
  type Reading,
} from './photo/reading.js'
