import { cssString } from './html.js'

/** Margins of a printed page, in mm: wide enough for any office printer. */
export const pageMargins = { sides: 12, head: 12, foot: 15 } as const

/**
 * The style sheet of reports, for a screen from 360 CSS pixels on and for A4 and Letter. The text, such as the title, goes
 * to the foot of each printed page.
 */
export function reportHtmlCss(footer: string): string {
  return `
@page {
  margin: ${pageMargins.head}mm ${pageMargins.sides}mm ${pageMargins.foot}mm;
  /* An empty box keeps the browser from printing its own date and address there. */
  @top-left { content: ""; }
  @top-center { content: ""; }
  @top-right { content: ""; }
  @bottom-left { content: ${cssString(short(footer))}; font: 8.5pt sans-serif; }
  @bottom-right { content: "page " counter(page) " of " counter(pages); font: 8.5pt sans-serif; }
}
* { box-sizing: border-box; }
html { color: #1a1a1a; background: #fff; color-scheme: light; font: 100%/1.45 Arial, Helvetica, "Liberation Sans", "DejaVu Sans", sans-serif; }
body { margin: 0; }
main { max-width: 76rem; margin: 0 auto; padding: 1rem 1rem 2rem; }
h1, h2, h3, h4, p, li, dt, dd, figcaption { overflow-wrap: anywhere; }
h1 { font-size: 1.6rem; line-height: 1.2; margin: 0 0 0.25rem; }
h2 { font-size: 1.2rem; line-height: 1.25; margin: 0; }
h3 { font-size: 1.05rem; line-height: 1.3; margin: 0; }
h4 { font-size: 1rem; margin: 0; }
p { margin: 0.5rem 0; }
a { color: #12395c; }
ul { margin: 0.5rem 0; padding-left: 1.25rem; }
li { margin: 0.25rem 0; }
code { font-size: 0.95em; background: #eef1f4; padding: 0 0.2em; }
pre { white-space: pre-wrap; overflow-wrap: anywhere; border: 1px solid #8a9096; padding: 0.5rem; font-size: 0.9rem; }
.when, .more, .dashes, .empty { color: #4a4f55; }
.headline { font-size: 1.1rem; font-weight: bold; max-width: 60rem; }
.incomplete { border-left: 0.35rem solid #1a1a1a; padding-left: 0.75rem; font-weight: bold; }
.facts { margin: 0.75rem 0; }
.facts div { margin: 0.25rem 0; }
.facts dt { display: inline; font-weight: bold; }
.facts dt::after { content: ": "; }
.facts dd { display: inline; margin: 0; }
nav { border: 1px solid #c4c8cc; padding: 0.25rem 0.75rem; margin: 1rem 0; }
nav ul { columns: 2 18rem; column-gap: 2rem; }
nav li { break-inside: avoid; margin: 0; padding: 0.25rem 0; }
section, figure, div.table { margin: 1.75rem 0 0; }
.report + .report { margin-top: 3rem; border-top: 0.15rem solid #1a1a1a; padding-top: 1.5rem; }
div.table .chart { margin: 0; }
.scroll { overflow-x: auto; max-width: 100%; position: relative; }
.scroll:focus-visible { outline: 2px solid #12395c; outline-offset: 2px; }
table { border-collapse: collapse; }
caption { text-align: left; padding: 0 0 0.4rem; }
/* The name stays in sight while its table is scrolled. */
caption > * { position: sticky; left: 0; display: inline-block; max-width: min(74rem, calc(100vw - 2rem)); }
figure .scroll caption { font-weight: bold; font-size: 0.9rem; }
th, td { border: 1px solid #c4c8cc; padding: 0.3rem 0.5rem; text-align: left; vertical-align: top; font-size: 0.9rem; }
thead th { background: #eef1f4; vertical-align: bottom; }
tbody th { font-weight: normal; }
tbody tr:nth-child(even) { background: #f7f8fa; }
.number { text-align: right; font-variant-numeric: tabular-nums; }
.long { min-width: 15rem; }
td.tight, tbody th.tight, td.brief, tbody th.brief { white-space: nowrap; }
.drawn { width: 100%; max-width: 33rem; }
svg.drawing { display: block; width: 100%; height: auto; }
.legend { list-style: none; padding: 0; margin: 0.5rem 0; font-size: 0.9rem; }
.legend li { display: flex; gap: 0.5rem; align-items: flex-start; margin: 0.2rem 0; }
.legend svg { flex: none; margin-top: 0.15rem; overflow: visible; }
.legend span { min-width: 0; overflow-wrap: anywhere; }
figcaption { margin-bottom: 0.5rem; font-weight: bold; }
.pair { display: grid; grid-template-columns: minmax(0, 1fr); gap: 1rem; align-items: start; }
@media screen and (min-width: 60rem) {
  .pair { grid-template-columns: minmax(0, 33rem) minmax(0, 1fr); gap: 2rem; }
  .pair.table-first { grid-template-columns: minmax(0, auto) minmax(20rem, 33rem); justify-content: start; }
}
@media print {
  html { font-size: 10pt; }
  main { max-width: none; padding: 0; }
  nav { display: none; }
  h1, h2, h3, h4, caption, figcaption { break-after: avoid; break-inside: avoid; }
  a { color: inherit; text-decoration: none; }
  .scroll { overflow: visible; }
  caption > * { position: static; max-width: none; }
  table { width: 100%; }
  thead { display: table-header-group; }
  tr, .drawn, .legend li, li { break-inside: avoid; }
  th, td { font-size: 9pt; padding: 0.8mm 1.2mm; }
  .long { min-width: 0; }
  td.brief, tbody th.brief { white-space: normal; }
  .drawn { max-width: 120mm; }
  thead th, tbody tr:nth-child(even) { background: none; }
  /* Too wide for the paper: each row is a paragraph, each cell named by its head. */
  .wide, .wide caption, .wide tbody, .wide tr { display: block; }
  .wide thead, .wide br { display: none; }
  .wide tr { border-top: 0.2mm solid #8a9096; padding: 1mm 0; }
  .wide tbody th, .wide tbody td { display: inline; white-space: normal; border: 0; padding: 0; overflow-wrap: anywhere; }
  .wide tbody th { font-weight: bold; }
  .wide td::before { content: " \\2022\\a0" attr(data-head) ": "; color: #4a4f55; }
}
`
}

/** The foot of a page has one line. */
function short(text: string): string {
  const characters = Array.from(text)
  return characters.length <= 90 ? text : `${characters.slice(0, 89).join('')}…`
}
