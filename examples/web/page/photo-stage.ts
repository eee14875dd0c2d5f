import { createPhotoPool } from 'gridreason/batch'
import type { Reading } from 'gridreason/photo'
import { announce, button, el } from './dom.js'

/** A picture with the grids that were read on it. */
export interface ReadPhoto {
  readonly url: string
  readonly image: ImageBitmap
  readonly readings: readonly Reading[]
}

const SAMPLES = [
  { file: '/samples/front-page.jpg', label: 'A front page' },
  { file: '/samples/half-solved.jpg', label: 'One that is half solved' },
] as const

/** Reads in a thread of its own, so that the page stays alive meanwhile. */
const pool = createPhotoPool({ workers: 1, workerFile: '/photo-worker.js' })

/** Takes or drops a photo; `done` gets what was read. */
export function photoStage(done: (photo: ReadPhoto) => void): HTMLElement {
  const status = el('p', { class: 'soft' }, 'The photo stays on this device.')
  const input = el('input', {
    type: 'file',
    id: 'photo',
    accept: 'image/*',
    onchange: () => input.files?.[0] && take(input.files[0]),
  })
  const drop = el(
    'section',
    {
      class: 'drop',
      'aria-labelledby': 'photo-title',
      ondragover: (event: DragEvent) => {
        event.preventDefault()
        drop.classList.add('is-over')
      },
      ondragleave: () => drop.classList.remove('is-over'),
      ondrop: (event: DragEvent) => {
        event.preventDefault()
        drop.classList.remove('is-over')
        const photo = event.dataTransfer?.files[0]
        if (photo) take(photo)
      },
    },
    el('h2', { id: 'photo-title' }, 'Start from paper'),
    el('p', { class: 'soft' }, 'Any turn, any light you can read it in; what is written in comes along.'),
    el(
      'div',
      { class: 'row' },
      input,
      el('label', { for: 'photo', class: 'button main-choice' }, 'Take or choose a photo'),
    ),
    el('p', { class: 'soft' }, 'or drop one here, or try'),
    el(
      'div',
      { class: 'row' },
      ...SAMPLES.map(({ file, label }) => button(label, async () => take(await (await fetch(file)).blob()))),
    ),
    status,
  )

  async function take(photo: Blob): Promise<void> {
    status.className = 'busy'
    status.textContent = 'Reading the page …'
    announce('Reading the page')
    try {
      const { readings } = await (await pool).read(photo, { timeLimit: 60_000 })
      const image = await createImageBitmap(photo, { imageOrientation: 'from-image' })
      done({ url: URL.createObjectURL(photo), image, readings })
    } catch (error) {
      // each error has a code as well, for pages that have words of their own
      const { message } = error as Error
      status.className = 'trouble'
      status.textContent = message
      announce(message)
    }
  }

  return el('div', { class: 'sheet' }, drop)
}
