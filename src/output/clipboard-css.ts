import { cssString } from './html.js'

/** Margins of a printed page, in mm: side by side, head and foot. Wide enough for any office printer. */
export const pageMargins = { sides: 12, head: 12, foot: 15 } as const

/** Height and least width of what is written into, in mm: a gloved hand and a pencil. */
const box = 10

/** Black on white, with frames and words only: it is read by flashlight, and copied. */
export function clipboardCss(footer: string): string {
  return `
@page {
  margin: ${pageMargins.head}mm ${pageMargins.sides}mm ${pageMargins.foot}mm;
  /* An empty box keeps the browser from printing its own date and address there. */
  @top-left { content: ""; }
  @top-center { content: ""; }
  @top-right { content: ""; }
  @bottom-left { content: ${cssString(footer)}; font: 11pt sans-serif; }
  @bottom-right { content: "page " counter(page) " of " counter(pages); font: 11pt sans-serif; }
}
* { box-sizing: border-box; }
html { color: #000; background: #fff; font: 12pt/1.3 Arial, Helvetica, "Liberation Sans", "DejaVu Sans", sans-serif; }
body { max-width: 192mm; margin: 4mm auto; overflow-wrap: anywhere; }
h1 { font-size: 20pt; line-height: 1.15; margin: 0 0 1mm; }
h2 { font-size: 16pt; line-height: 1.15; margin: 0; }
h3 { font-size: 12pt; margin: 3mm 0 1mm; }
h1, h2, h3, caption { break-after: avoid; }
p { margin: 1mm 0; }
ul { margin: 1mm 0; padding-left: 6mm; }
li { margin: 1mm 0; break-inside: avoid; }
.area { border-top: 1mm solid #000; padding: 2mm 0.5mm 0; margin-top: 6mm; }
.area, table.short, .asks { break-inside: avoid; }
.key { font-weight: bold; }
.asks { display: flex; flex-wrap: wrap; align-items: center; gap: 2mm 5mm; margin: 2mm 0; }
.ask { display: flex; align-items: center; gap: 2mm; min-width: 0; }
.ask.words { flex: 1 1 50mm; }
.box { display: inline-block; flex: none; width: ${box}mm; height: ${box}mm; border: 0.5mm solid #000; }
.ask.words .box { flex: 1 1 30mm; }
.ask.number .box { width: 20mm; }
.looks { display: grid; grid-template-columns: 1fr 1fr; gap: 1.5mm 4mm; margin: 1mm 0; padding: 0; list-style: none; }
.looks li { display: flex; align-items: center; gap: 2mm; margin: 0; min-width: 0; }
.looks li > :last-child { min-width: 0; }
table { width: 100%; border-collapse: collapse; table-layout: fixed; margin: 3mm 0 0; }
caption { text-align: left; margin-bottom: 1mm; }
caption strong, th { font-weight: bold; }
thead { display: table-header-group; }
tr { break-inside: avoid; }
th[scope="rowgroup"] { break-after: avoid; }
th, td { border: 0.3mm solid #000; padding: 1mm; text-align: left; vertical-align: top; }
thead th { font-size: 11pt; line-height: 1.15; vertical-align: bottom; hyphens: manual; }
td.write { border: 0.5mm solid #000; height: ${box + 1}mm; }
tbody th span { font-weight: normal; }
tbody th .id { font-size: 14pt; font-weight: bold; }
.cautions { border: 0.5mm solid #000; padding: 1mm 3mm; margin: 3mm 0; }
.cautions h2 { font-size: 12pt; }
@media print { body { max-width: none; margin: 0; } }
`
}
