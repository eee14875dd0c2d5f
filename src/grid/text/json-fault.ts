/** Where a text stops being JSON, and what should stand there. */
export interface JsonFault {
  /** From 0; the length of the text where it ends too early. */
  readonly at: number
  readonly expected: string
}

const SPACE = /[ \t\n\r]*/y
/** Control characters end a string before its quote. */
const STRING = /"(?:[^"\\\p{Cc}]|[\x7f-\x9f]|\\(?:["\\/bfnrt]|u[0-9a-fA-F]{4}))*"/uy
const PLAIN = /-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][-+]?\d+)?(?![\w.])|(?:true|false|null)\b/y

/** The first fault of a text that is no JSON; engines do not say where every fault is. */
export function jsonFault(text: string): JsonFault | undefined {
  const open: ('[' | '{')[] = []
  let at = 0
  const takes = (pattern: RegExp) => {
    pattern.lastIndex = at
    const length = pattern.exec(text)?.[0].length ?? 0
    at += length
    return length > 0
  }
  const next = () => {
    takes(SPACE)
    return text[at]
  }
  const isKey = () => next() === '"' && takes(STRING) && next() === ':'
  let mayClose = false
  for (;;) {
    const container = open.at(-1)
    // a value, with its key in an object, or the end of an empty list or object
    const first = next()
    if (mayClose && (first === ']' || first === '}') && (first === ']') === (container === '[')) {
      open.pop()
      at++
    } else {
      if (container === '{') {
        if (!isKey())
          return { at, expected: text[at] === undefined ? 'the rest' : 'a name in quotes and a colon' }
        at++
      }
      const begin = next()
      if (begin === '[' || begin === '{') {
        open.push(begin)
        at++
        mayClose = true
        continue
      }
      if (!takes(STRING) && !takes(PLAIN))
        return { at, expected: begin === undefined ? 'the rest' : 'a value' }
    }
    // what follows a value: the ends of lists and objects, then a comma
    for (;;) {
      const after = next()
      const last = open.at(-1)
      if (last === undefined) return after === undefined ? undefined : { at, expected: 'nothing after it' }
      if (after !== (last === '[' ? ']' : '}')) break
      open.pop()
      at++
    }
    if (text[at] !== ',') {
      const end = open.at(-1) === '[' ? ']' : '}'
      return { at, expected: text[at] === undefined ? 'the rest' : `a comma or ${end}` }
    }
    at++
    mayClose = false
  }
}
