// gridreason/photo: pictures of printed grids to readings. This is what Node gets; browsers get photo-browser.ts.

export * from './photo/common.js'
export { createTesseractReader } from './photo/digits/tesseract-reader.js'
export { createNetworkReader, createPhotoReader, decodePicture } from './photo/node.js'
export { overlayPng, rectifiedPng } from './photo/overlay/png.js'
