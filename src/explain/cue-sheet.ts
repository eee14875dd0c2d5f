import { argumentError, object } from '../check-arguments.js'
import type { Frame } from './picture/frame-row.js'

/**
 * When each frame comes and what is said with it, in WebVTT, which players of pictures and films read.
 *
 * `cueSheet(frames(step))` begins `WEBVTT`, then `1`, `00:00:00.000 --> 00:00:04.400` and the first sentence.
 *
 * @throws InputError `argument` for what are no frames
 *
 * @example
 * cueSheet(frames(step)).split('\n')[0] // → 'WEBVTT'
 */
export function cueSheet(row: readonly Frame[]): string {
  if (!Array.isArray(row)) throw argumentError('row', 'a list of frames', row)
  for (let i = 0; i < row.length; i++) checkFrame(row[i]!, `row[${i}]`)
  const cues = row.map(
    // an empty line or an arrow would end the cue
    ({ from, to, text }, i) =>
      `${i + 1}\n${time(from)} --> ${time(to)}\n${text.replace(/\s+/g, ' ').replaceAll('-->', '→')}\n`,
  )
  return ['WEBVTT\n', ...cues].join('\n')
}

function checkFrame(frame: Frame, name: string): void {
  object(frame, name)
  const { from, to, text } = frame
  const isTime = (value: unknown) =>
    typeof value === 'number' && value >= 0 && value < Number.POSITIVE_INFINITY
  if (!isTime(from) || !isTime(to) || typeof text !== 'string')
    throw argumentError(name, 'a frame with `from`, `to` and `text`', frame)
}

function time(seconds: number): string {
  const milliseconds = Math.round(seconds * 1000)
  const parts = [3600000, 60000, 1000].map((unit, i) =>
    Math.floor((i === 0 ? milliseconds : milliseconds % [0, 3600000, 60000][i]!) / unit),
  )
  const [hours, minutes, rest] = parts.map((part) => String(part).padStart(2, '0'))
  return `${hours}:${minutes}:${rest}.${String(milliseconds % 1000).padStart(3, '0')}`
}
