type Child = Node | string | false | undefined

/** An element with attributes and children; `on…` are listeners, `false` leaves an attribute or child out. */
export function el<Name extends keyof HTMLElementTagNameMap>(
  name: Name,
  attributes: Readonly<Record<string, unknown>> = {},
  ...children: readonly Child[]
): HTMLElementTagNameMap[Name] {
  const element = document.createElement(name)
  for (const [key, value] of Object.entries(attributes)) {
    if (value === false || value === undefined) continue
    if (typeof value === 'function') element.addEventListener(key.slice(2), value as EventListener)
    else element.setAttribute(key, value === true ? '' : String(value))
  }
  element.append(
    ...children.filter((child): child is Node | string => child !== false && child !== undefined),
  )
  return element
}

export function button(label: string, press: () => void, attributes: Readonly<Record<string, unknown>> = {}) {
  return el('button', { type: 'button', onclick: press, ...attributes }, label)
}

/** Speaks to those who listen to the page. */
export function announce(text: string): void {
  document.querySelector('#announcement')!.textContent = text
}

/** An SVG document of the library as an element of the page. */
export function picture(svg: string, label?: string): SVGSVGElement {
  const drawn = new DOMParser().parseFromString(svg, 'image/svg+xml')
    .documentElement as unknown as SVGSVGElement
  if (label === undefined) drawn.setAttribute('aria-hidden', 'true')
  else {
    drawn.setAttribute('role', 'img')
    drawn.setAttribute('aria-label', label)
  }
  return drawn
}

export function isDark(): boolean {
  return matchMedia('(prefers-color-scheme: dark)').matches
}
