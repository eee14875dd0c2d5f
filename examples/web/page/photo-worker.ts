/** Reads photos in a thread of its own, so that the page stays alive meanwhile. */
import { createPhotoReader } from 'gridreason/photo'

const reader = createPhotoReader()

addEventListener('message', async ({ data }: MessageEvent<Blob>) => {
  try {
    postMessage({ readings: (await (await reader).read(data, { timeLimit: 60_000 })).readings })
  } catch (error) {
    // errors lose their class between threads; what a person is shown is the message
    postMessage({ trouble: error instanceof Error ? error.message : String(error) })
  }
})
