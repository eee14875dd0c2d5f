/** Deepest nesting of brackets that is parsed; a list of saved boards has five levels. */
export const DEEPEST = 32

/** What the next line must do, going by brackets and commas alone. */
export type JsonState = 'open' | 'complete' | 'broken'

/** Follows the brackets and strings of JSON line by line, so that its end is known without parsing. */
export class JsonScan {
  deepest = 0
  private readonly stack: string[] = []
  private last = ''
  private broken = false

  /** Takes the next line. */
  add(text: string): JsonState {
    let inString = false
    for (let i = 0; i < text.length; i++) {
      const c = text[i]!
      if (inString) {
        if (c === '\\') i++
        else if (c === '"') inString = false
      } else if (c === '"') {
        inString = true
        this.last = c
      } else if (c === '[' || c === '{') {
        if (this.stack.length > 0 && !this.takesValue()) this.broken = true
        this.stack.push(c)
        this.deepest = Math.max(this.deepest, this.stack.length)
        this.last = c
      } else if (c === ']' || c === '}') {
        if (this.stack.pop() !== (c === ']' ? '[' : '{')) this.broken = true
        this.last = c
      } else if (!/\s/.test(c)) this.last = c
    }
    // no string of JSON goes on over the end of a line
    if (inString) this.broken = true
    if (this.broken) return 'broken'
    return this.stack.length === 0 ? 'complete' : 'open'
  }

  /** May a line that begins so come next? */
  maySee(line: string): boolean {
    const first = line.trimStart()[0]
    if (first === undefined) return true
    if (first === '[' || first === '{') return this.takesValue()
    if (/[-\dtfn]/.test(first) && !this.takesValue()) return false
    return /["\]},:\-\dtfn]/.test(first) && !/^\s*[\w.*-]{16,}\s*$/.test(line)
  }

  /** Is it clear that more must come, so that a blank line is no end? */
  get goesOn(): boolean {
    return /[[{,:\]}]/.test(this.last)
  }

  private takesValue(): boolean {
    return this.stack.at(-1) === '[' ? this.last === '[' || this.last === ',' : this.last === ':'
  }
}
