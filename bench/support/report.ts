/** Prints rows under headings, numbers to the right. */
export function printTable(
  headings: readonly string[],
  rows: readonly (readonly (string | number)[])[],
): void {
  const texts = [headings, ...rows.map((row) => row.map(String))]
  const widths = headings.map((_, column) => Math.max(...texts.map((row) => row[column]!.length)))
  for (const [index, row] of texts.entries()) {
    const cells = row.map((text, column) => {
      const isNumber = index > 0 && typeof rows[index - 1]![column] === 'number'
      return isNumber || (index === 0 && typeof rows[0]?.[column] === 'number')
        ? text.padStart(widths[column]!)
        : text.padEnd(widths[column]!)
    })
    console.log(cells.join('  ').trimEnd())
    if (index === 0) console.log(widths.map((width) => '-'.repeat(width)).join('  '))
  }
}

/** The last line of a bench: one JSON object for machines. */
export function printResult(result: Readonly<Record<string, unknown>>): void {
  console.log(JSON.stringify(result))
}

/** Rounds to so many digits that matter: 12345.6 with 3 is 12300. */
export function significant(value: number, digits = 4): number {
  return Number(value.toPrecision(digits))
}

/** The value below which the share `p` (0 to 1) of the values lies; `sorted` ascending and not empty. */
export function percentile(sorted: ArrayLike<number>, p: number): number {
  return sorted[Math.min(sorted.length - 1, Math.floor(p * sorted.length))]!
}
