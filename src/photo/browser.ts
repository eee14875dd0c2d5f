import { needsNode } from '../errors.js'
import { type DecodedPicture, type DecodeOptions, decodeOn } from './decode/decode-picture.js'
import type { PictureInput } from './decode/picture-input.js'
import type { DigitReader } from './digits/digit-reader.js'
import { networkReader } from './digits/network-reader.js'
import { BROWSER } from './platform/browser.js'
import { type PhotoReader, type PhotoReaderOptions, photoReader } from './reader.js'
import type { Weights } from './weights/weights.js'

// What `node.ts` has, and says more of, for browsers.

export async function createPhotoReader(options: PhotoReaderOptions = {}): Promise<PhotoReader> {
  return photoReader(BROWSER, options)
}

export async function decodePicture(
  source: PictureInput,
  options: DecodeOptions = {},
): Promise<DecodedPicture> {
  return decodeOn(BROWSER, source, options)
}

export function createNetworkReader(weights?: Weights): DigitReader {
  return networkReader(weights, BROWSER.readUrl)
}

export function createTesseractReader(): never {
  throw needsNode('createTesseractReader', 'createNetworkReader reads digits')
}

export async function overlayPng(): Promise<never> {
  throw needsNode('overlayPng', 'lay the picture of overlaySvg over the photo')
}

export async function rectifiedPng(): Promise<never> {
  throw needsNode('rectifiedPng', 'draw what rectify gives')
}
