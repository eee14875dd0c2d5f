/** Relative luminance and contrast as WCAG 2.2 defines them. */
function channels(colour: string): [number, number, number] {
  const [r, g, b] = [1, 3, 5].map((at) => Number.parseInt(colour.slice(at, at + 2), 16) / 255)
  return [r!, g!, b!]
}

function luminance(rgb: readonly number[]): number {
  const [r, g, b] = rgb.map((c) => (c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4))
  return 0.2126 * r! + 0.7152 * g! + 0.0722 * b!
}

/** From 1 (none) to 21; `opacity` is that of the first over the second. */
export function contrast(colour: string, ground: string, opacity = 1): number {
  const under = channels(ground)
  const mixed = channels(colour).map((c, i) => c * opacity + under[i]! * (1 - opacity))
  const [light, dark] = [luminance(mixed), luminance(under)].sort((a, b) => b - a)
  return (light! + 0.05) / (dark! + 0.05)
}
