/**
 * Comma-separated values as RFC 4180 has them: lines end with CRLF, and values with commas, quotes or line ends are
 * quoted.
 */

export function csvLine(values: readonly string[]): string {
  return `${values.map(csvValue).join(',')}\r\n`
}

function csvValue(value: string): string {
  return /[",\r\n]/.test(value) ? `"${value.replaceAll('"', '""')}"` : value
}

/** The values of one line, without its end. Undefined for a quote that stands where none may. */
export function csvValues(line: string): string[] | undefined {
  const values: string[] = []
  for (let at = 0; ; at++) {
    const quoted = line[at] === '"' ? quotedValue(line, at) : undefined
    if (line[at] === '"' && !quoted) return undefined
    const comma = line.indexOf(',', at)
    const plainEnd = comma < 0 ? line.length : comma
    values.push(quoted ? quoted.value : line.slice(at, plainEnd))
    at = quoted ? quoted.end : plainEnd
    if (at >= line.length) return values
    if (line[at] !== ',') return undefined
  }
}

/** The value whose first quote stands at `from`, and where it ends; undefined where it does not. */
function quotedValue(line: string, from: number): { value: string; end: number } | undefined {
  let value = ''
  for (let at = from + 1; ; ) {
    const quote = line.indexOf('"', at)
    if (quote < 0) return undefined
    value += line.slice(at, quote)
    if (line[quote + 1] !== '"') return { value, end: quote + 1 }
    value += '"'
    at = quote + 2
  }
}
