import type { Reading } from 'gridreason/photo'
import { announce, button, el } from './dom.js'

/** A picture with the grids that were read on it. */
export interface ReadPhoto {
  readonly url: string
  readonly image: ImageBitmap
  readonly readings: readonly Reading[]
}

type Answer = { readonly readings: readonly Reading[] } | { readonly trouble: string }

const SAMPLES = [
  { file: '/samples/front-page.jpg', label: 'A front page' },
  { file: '/samples/half-solved.jpg', label: 'One that is half solved' },
] as const

let worker: Worker | undefined

function read(photo: Blob): Promise<Answer> {
  worker ??= new Worker('/photo-worker.js', { type: 'module' })
  const reading = worker
  return new Promise((resolve) => {
    reading.onmessage = ({ data }: MessageEvent<Answer>) => resolve(data)
    reading.onerror = ({ message }) => resolve({ trouble: message })
    reading.postMessage(photo)
  })
}

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
    const answer = await read(photo)
    if ('trouble' in answer) {
      status.className = 'trouble'
      status.textContent = answer.trouble
      announce(answer.trouble)
      return
    }
    const image = await createImageBitmap(photo, { imageOrientation: 'from-image' })
    done({ url: URL.createObjectURL(photo), image, readings: answer.readings })
  }

  return el('div', { class: 'sheet' }, drop)
}
