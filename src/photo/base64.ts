/** Bytes as text and back, by what Node and browsers both have. */

// A call has room for so many arguments, and more.
const PIECE = 8192

export function toBase64(bytes: Uint8Array): string {
  let text = ''
  for (let at = 0; at < bytes.length; at += PIECE)
    text += String.fromCharCode(...bytes.subarray(at, at + PIECE))
  return btoa(text)
}

export function fromBase64(base64: string): Uint8Array<ArrayBuffer> {
  const text = atob(base64)
  const bytes = new Uint8Array(text.length)
  for (let i = 0; i < bytes.length; i++) bytes[i] = text.charCodeAt(i)
  return bytes
}
