// What gridreason/photo has on every platform.

export { boardOf } from './board-of.js'
// picture, grid, cells
export { cutCells } from './cells/cut-cells.js'
export { type CellChange, type SettleOptions, settleCells } from './conclude.js'
export type { DecodedPicture, DecodeOptions } from './decode/decode-picture.js'
export type { ColourImage } from './decode/ink-channel.js'
export type {
  CanvasPicture,
  ClosablePicture,
  DrawnPicture,
  ImagePicture,
  PictureInput,
  RawPicture,
  VideoPicture,
} from './decode/picture-input.js'
// digits
export type { CellPicture, CellScores, DigitReader, ReadCellsOptions } from './digits/digit-reader.js'
export { NoGridFound, PictureError } from './errors.js'
export { findLattices } from './find/find-lattices.js'
export type { SeenGrid } from './find/seen-grid.js'
export type { GrayImage, Point } from './image.js'
export type { Lattice } from './lattice.js'
// pictures to look at
export { type OverlayReading, overlaySvg } from './overlay/overlay.js'
export { CELL_KINDS, type CellKind } from './print-or-hand/cell-kinds.js'
// reader
export type { PhotoReader, PhotoReaderOptions, PhotoWeights, ReadOptions } from './reader.js'
export {
  type CellEvidence,
  CHECK_REASONS,
  type CheckReason,
  DECIDERS,
  type Decider,
  type DigitChance,
  type Evidence,
  type ReadCell,
  type ReadEntry,
  type Reading,
  type Readings,
  type ReadMarks,
  type SettledWriting,
} from './reading.js'
export {
  type CellJson as ReadCellJson,
  type ReadingJson,
  readingFromJson,
  readingToJson,
} from './reading-json.js'
export { rectify } from './rectify/rectify.js'
export { GEOMETRY_SOURCES, type GeometrySource } from './shape/grid-shape.js'
export { UNREAD_REASONS, type UnreadGrid, type UnreadReason } from './unread.js'
export type { Weights } from './weights/weights.js'
