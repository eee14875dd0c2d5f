// gridreason/photo as browsers get it: the same names as photo.ts.

export {
  createNetworkReader,
  createPhotoReader,
  createTesseractReader,
  decodePicture,
  overlayPng,
  rectifiedPng,
} from './photo/browser.js'
export * from './photo/common.js'
