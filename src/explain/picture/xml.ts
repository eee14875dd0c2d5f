/**
 * Text for an XML or HTML document: the five special characters are spelt out, and control characters that XML 1.0
 * does not allow become the replacement character.
 */
export function escapeText(text: string): string {
  let out = ''
  // Walking by code points leaves lone halves of surrogate pairs to stand alone, where they can be recognised.
  for (const character of text) {
    const code = character.codePointAt(0)!
    out += SPECIAL[character] ?? (allowedInXml(code) ? character : '\ufffd')
  }
  return out
}

const SPECIAL: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
}

/** The `Char` production of XML 1.0. */
function allowedInXml(code: number): boolean {
  if (code < 0x20) return code === 0x9 || code === 0xa || code === 0xd
  return code <= 0xd7ff || (code >= 0xe000 && code <= 0xfffd) || code >= 0x10000
}

export type Attributes = Readonly<Record<string, string | number | undefined>>

/** A number as pictures need it: two decimals at most. */
export function short(value: number): string {
  return String(Math.round(value * 100) / 100)
}

/** An element; children are markup already made by this module. */
export function element(name: string, attributes: Attributes, ...children: readonly string[]): string {
  let open = name
  for (const [key, value] of Object.entries(attributes)) {
    if (value !== undefined)
      open += ` ${key}="${typeof value === 'number' ? short(value) : escapeText(value)}"`
  }
  return children.length === 0 ? `<${open}/>` : `<${open}>${children.join('')}</${name}>`
}
