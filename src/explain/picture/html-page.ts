import { escapeText } from './xml.js'

export interface HtmlPage {
  /** As BCP 47 has it, such as `en`. */
  readonly language: string
  readonly title: string
  /** CSS for the whole page. */
  readonly style: string
  /** Markup of what the page says. */
  readonly body: string
  /** Class of the element around it; none when left out. */
  readonly mainClass?: string
}

/** A whole document in one file, for a browser or for print. */
export function htmlPage({ language, title, style, body, mainClass }: HtmlPage): string {
  return `<!doctype html>
<html lang="${escapeText(language)}">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${escapeText(title)}</title>
<style>${style}</style>
</head>
<body>
<main${mainClass ? ` class="${escapeText(mainClass)}"` : ''}>
${body}
</main>
</body>
</html>
`
}
