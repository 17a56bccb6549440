import { clean } from './clean.js'

/**
 * Text from a record as text of a page, in an element or in a quoted attribute: never markup. Its lines are one
 * paragraph, and control characters become visible.
 */
export function escapeHtml(text: string): string {
  return clean(text.replace(/\s*[\r\n]+\s*/g, ' ')).replace(
    /[&<>"']/g,
    (character) => `&#${character.charCodeAt(0)};`,
  )
}

/**
 * Text from a record as a quoted string of a style sheet. Whatever is no plain letter, digit or blank is written as
 * its number, so that nothing can end the string, the sheet or the element that it stands in.
 */
export function cssString(text: string): string {
  const plain = clean(text).replace(
    /[^A-Za-z0-9 ]/gu,
    (character) => `\\${(character.codePointAt(0) ?? 0).toString(16)} `,
  )
  return `"${plain}"`
}

export interface HtmlPage {
  /** Text of a record, not yet escaped. */
  readonly title: string
  /** A style sheet; what it holds of records went through `cssString`. */
  readonly css: string
  /** Markup; what it holds of records went through `escapeHtml`. */
  readonly body: string
}

/** A page that stands alone: no script, nothing fetched, and the browser is told to allow neither. */
export function htmlPage({ title, css, body }: HtmlPage): string {
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">
<title>${escapeHtml(title)}</title>
<style>
${css.trim()}
</style>
</head>
<body>
${body.trim()}
</body>
</html>
`
}
