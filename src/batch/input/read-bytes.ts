import { constants } from 'node:fs'
import { open } from 'node:fs/promises'
import { throwIfAborted } from '../../errors.js'

/** Milliseconds between two looks at a pipe that is silent. */
const PAUSE = 20

const CHUNK = 65_536

/**
 * The bytes of a file. What is no plain file (a pipe, a device) may be silent for ever, so it is asked for what it has
 * time and again: a read that waits would hold a thread of the program that nothing can free.
 *
 * @throws StoppedError `aborted` when the signal fires
 */
export async function* readBytes(file: string, signal: AbortSignal | undefined): AsyncGenerator<Uint8Array> {
  const handle = await open(file, constants.O_RDONLY | (constants.O_NONBLOCK ?? 0))
  try {
    const status = await handle.stat()
    // Until somebody writes, a pipe says that it is at its end.
    for (let isBegun = !status.isFIFO(); ; ) {
      throwIfAborted(signal)
      const { bytesRead, buffer } = await handle
        .read(Buffer.allocUnsafeSlow(CHUNK), 0, CHUNK, null)
        .catch((error: NodeJS.ErrnoException) => {
          if (error.code !== 'EAGAIN') throw error
          return { bytesRead: SILENT, buffer: undefined }
        })
      if (bytesRead === 0 && isBegun) return
      if (bytesRead !== 0) isBegun = true
      if (buffer && bytesRead > 0) yield buffer.subarray(0, bytesRead)
      else await new Promise((resolve) => setTimeout(resolve, PAUSE))
    }
  } finally {
    await handle.close()
  }
}

const SILENT = -1
