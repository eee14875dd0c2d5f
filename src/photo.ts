// gridreason/photo: pictures of printed grids to readings. Node only (sharp, tesseract.js).

// picture, grid, cells
export { cutCells } from './photo/cells/cut-cells.js'
export { settleCells } from './photo/conclude.js'
export {
  type DecodedPicture,
  type DecodeOptions,
  decodePicture,
  type PictureInput,
  type RawPicture,
} from './photo/decode/decode-picture.js'
export type { ColourImage } from './photo/decode/ink-channel.js'
// digits
export type { CellPicture, CellScores, DigitReader } from './photo/digits/digit-reader.js'
export { createNetworkReader } from './photo/digits/network-reader.js'
export { createTesseractReader } from './photo/digits/tesseract-reader.js'
export { NoGridFound, PictureError } from './photo/errors.js'
export { type FindOptions, findLattices } from './photo/find/find-lattices.js'
export type { GrayImage, Point } from './photo/image.js'
export type { Lattice } from './photo/lattice.js'
// pictures to look at
export { type OverlayReading, overlayPng, overlaySvg, rectifiedPng } from './photo/overlay/overlay.js'
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
export {
  type ReadingJson,
  readingFromJson,
  readingSchema,
  readingToJson,
} from './photo/reading-json.js'
export { rectify } from './photo/rectify/rectify.js'
