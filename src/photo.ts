// gridreason/photo: pictures of printed grids to readings. Node only (sharp, tesseract.js).

// picture, grid, cells
export { cutCells } from './photo/cells/cut-cells.js'
export { type SettleOptions, settleCells } from './photo/conclude.js'
export {
  type DecodedPicture,
  type DecodeOptions,
  decodePicture,
} from './photo/decode/decode-picture.js'
export type { ColourImage } from './photo/decode/ink-channel.js'
export type { PictureInput, RawPicture } from './photo/decode/picture-input.js'
// digits
export type { CellPicture, CellScores, DigitReader } from './photo/digits/digit-reader.js'
export { createNetworkReader } from './photo/digits/network-reader.js'
export { createTesseractReader } from './photo/digits/tesseract-reader.js'
export { NoGridFound, PictureError } from './photo/errors.js'
export { findLattices } from './photo/find/find-lattices.js'
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
  type Readings,
} from './photo/reading.js'
export {
  type ReadingJson,
  readingFromJson,
  readingToJson,
} from './photo/reading-json.js'
export { rectify } from './photo/rectify/rectify.js'
export { GEOMETRY_SOURCES, type GeometrySource } from './photo/shape/grid-shape.js'
export { UNREAD_REASONS, type UnreadGrid, type UnreadReason } from './photo/unread.js'
