/**
 * How far a lead can be trusted: of readings with at least this margin and no other reason to check, how many are
 * right?
 *
 *     npm run bench:photos -- --dir DRAWN --json OUT && npm run bench:calibration -- OUT…
 *
 * Only drawn photographs of typefaces kept aside from training may set the thresholds of src/photo/certainty.ts.
 */
import { readFileSync } from 'node:fs'

interface PhotoRecord {
  readonly exact: boolean
  readonly reasons: readonly string[]
  readonly margin: number | null
}

const files = process.argv.slice(2)
if (files.length === 0) {
  console.error('Name the JSON files that bench:photos wrote with --json.')
  process.exit(2)
}
const records = files.flatMap(
  (file) => (JSON.parse(readFileSync(file, 'utf8')) as { records: PhotoRecord[] }).records,
)
const candidates = records.filter(
  ({ margin, reasons }) => margin !== null && reasons.every((reason) => reason === 'close-rival'),
)
console.log(`${records.length} photos, ${candidates.length} with no reason to check but a close rival`)
console.log('margin at least | called certain | right | wrong')
const table = [0, 0.5, 1, 2, 3, 4, 5, 6, 7, 8, 10, 12, 15, 20].map((margin) => {
  const certain = candidates.filter((record) => record.margin! >= margin)
  const right = certain.filter(({ exact }) => exact).length
  const row = { margin, certain: certain.length, right, wrong: certain.length - right }
  console.log(
    `${String(margin).padStart(15)} | ${String(row.certain).padStart(14)} | ${String(right).padStart(5)} | ${String(row.wrong).padStart(5)}`,
  )
  return row
})
console.log(JSON.stringify({ photos: records.length, table }))
