interface Styled {
  readonly parentElement: Styled | null
}
interface Page {
  readonly document: {
    readonly documentElement: { readonly scrollWidth: number }
    querySelectorAll(selector: string): Iterable<Styled>
  }
  readonly innerWidth: number
  getComputedStyle(element: Styled): { readonly color: string; readonly backgroundColor: string }
}

/**
 * For `evaluate` of a page: how far it reaches beyond its window, and the contrast of what is to be read, as the Web
 * Content Accessibility Guidelines count it. Runs in the page, so it reaches for nothing outside itself.
 */
export function legibility(): { readonly over: number; readonly contrasts: readonly number[] } {
  const { document, innerWidth, getComputedStyle } = globalThis as unknown as Page
  const luminance = (colour: string) => {
    const [r, g, b] = colour.match(/[\d.]+/g)!.map((part) => {
      const share = Number(part) / 255
      return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4
    }) as [number, number, number]
    return 0.2126 * r + 0.7152 * g + 0.0722 * b
  }
  const ground = (element: Styled | null): string => {
    const own = element ? getComputedStyle(element).backgroundColor : 'rgb(255, 255, 255)'
    return /, 0\)$/.test(own) ? ground(element!.parentElement) : own
  }
  const read = document.querySelectorAll('h1, h2, h3, p, figcaption, .cell, button:not(:disabled), .way li')
  return {
    over: document.documentElement.scrollWidth - innerWidth,
    contrasts: [...read].map((element) => {
      const [lighter, darker] = [getComputedStyle(element).color, ground(element)]
        .map(luminance)
        .sort((a, b) => b - a) as [number, number]
      return (lighter + 0.05) / (darker + 0.05)
    }),
  }
}
