import { createRequire } from 'node:module'
import { dirname, join } from 'node:path'
import { createWorker, PSM } from 'tesseract.js'
import { CELL_SIZE, type CellPicture } from '../../src/photo/digits/digit-reader.js'

/**
 * tesseract.js as one would use it for printed digits: a warm worker, one character a picture, digits alone allowed.
 */
export async function openCharacterRecogniser() {
  const data = dirname(createRequire(import.meta.url).resolve('@tesseract.js-data/eng/package.json'))
  const worker = await createWorker('eng', 1, {
    langPath: join(data, '4.0.0_best_int'),
    cacheMethod: 'none',
    gzip: true,
  })
  await worker.setParameters({
    tessedit_char_whitelist: '123456789',
    tessedit_pageseg_mode: PSM.SINGLE_CHAR,
  })
  return {
    async recognise(picture: Buffer): Promise<string> {
      const { data: result } = await worker.recognize(picture, {}, { text: true })
      return result.text.trim()
    },
    close: () => worker.terminate(),
  }
}

/** Pixels at each side of a cell picture that the cell's rules may reach. */
const RULES = 6

/** The inside of a cell as a binary PGM file (Netpbm's P5), which takes no time to decode. */
export function insideOfCell({ data }: CellPicture): Buffer {
  const side = CELL_SIZE - 2 * RULES
  const rows = Array.from({ length: side }, (_, y) => {
    const at = (y + RULES) * CELL_SIZE + RULES
    return data.subarray(at, at + side)
  })
  return Buffer.concat([Buffer.from(`P5\n${side} ${side}\n255\n`), ...rows])
}
