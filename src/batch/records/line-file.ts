import { createWriteStream } from 'node:fs'
import { open } from 'node:fs/promises'
import { Readable } from 'node:stream'
import { pipeline } from 'node:stream/promises'
import { GridreasonError } from '../../errors.js'
import { chunksOf, recordLines } from './record-lines.js'
import { outputError } from './record-sink.js'

/** Writes lines, which have no line ends in them, into a file of their own. */
export async function writeLines(
  file: string,
  lines: Iterable<string> | AsyncIterable<string>,
): Promise<void> {
  await pipeline(Readable.from(inBlocks(lines), { objectMode: false }), createWriteStream(file)).catch(
    (cause) => {
      throw cause instanceof GridreasonError ? cause : outputError(file, cause)
    },
  )
}

const BLOCK = 64 * 1024

/** Lines with their ends, many at a time. */
async function* inBlocks(lines: Iterable<string> | AsyncIterable<string>): AsyncGenerator<string> {
  let block = ''
  for await (const line of lines) {
    block += `${line}\n`
    if (block.length > BLOCK) {
      yield block
      block = ''
    }
  }
  if (block !== '') yield block
}

/** The lines of a file that `writeLines` wrote. */
export async function* readLines(file: string): AsyncGenerator<string> {
  const handle = await open(file)
  try {
    for await (const { text } of recordLines(chunksOf(handle, BLOCK), false)) yield text
  } finally {
    await handle.close()
  }
}
