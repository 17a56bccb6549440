import { cssString } from './html.js'

/** What the packet needs beside the style sheet of reports. The text goes to the head of each printed page. */
export function reviewHtmlCss(header: string): string {
  return `
@page {
  @top-right { content: ${cssString(header)}; font: 8.5pt sans-serif; }
}
.packet > header { max-width: 76rem; margin: 1rem auto; padding: 0 1rem; }
.packet > nav { max-width: 74rem; margin: 1rem auto; padding: 0.25rem 0.75rem; }
.packet > nav ol { columns: 2 18rem; column-gap: 2rem; margin: 0.5rem 0; padding-left: 2rem; }
.packet > nav li { padding: 0.25rem 0; break-inside: avoid; }
@media screen and (max-width: 76rem) { .packet > nav { margin: 1rem; } }
.skip { position: absolute; left: 0; top: 0; padding: 0.5rem 1rem; background: #12395c; color: #fff; transform: translateY(-120%); }
.skip:focus { transform: none; z-index: 1; }
/* Told once for the whole page, in its head. */
.packet .report .when, .packet .report .dashes { display: none; }
.part + .report, .report + .part, .behind + .part, .behind + .report, .part + .part { margin-top: 3rem; border-top: 0.15rem solid #1a1a1a; padding-top: 1.5rem; }
.behind { margin: 1.25rem 0 0; color: #4a4f55; font-size: 0.9rem; }
.command code { font-size: 1.1rem; }
.part h3 { margin-top: 1rem; }
.plan { margin: 1rem 0; }
.plan svg { max-width: 100%; height: auto; }
#improve ol { padding-left: 2rem; }
.asks div { margin: 0.75rem 0; }
.asks dt { font-weight: bold; }
.asks .line { margin: 0; height: 1.8rem; border-bottom: 1px solid #1a1a1a; }
table.blank { width: 100%; }
table.blank caption { font-weight: bold; }
table.blank tbody tr { background: none; }
table.blank td { height: 3rem; border-color: #1a1a1a; }
table.blank td:nth-of-type(2) { width: 40%; }
.unseen { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); white-space: nowrap; }
@media screen and (max-width: 40rem) {
  /* On a phone a decision is a block, each of its lines under its name. */
  table.blank, table.blank caption, table.blank tbody, table.blank tr, table.blank th, table.blank td { display: block; }
  table.blank thead { display: none; }
  table.blank td:nth-of-type(2) { width: auto; }
  table.blank td::before { content: attr(data-head); color: #4a4f55; }
}
@media print {
  .skip { display: none; }
  /* A row laid out as a paragraph breaks like one. */
  .packet .wide th, .packet .wide td { white-space: normal; }
  .packet > header, .packet > nav { max-width: none; padding: 0; margin: 0 0 4mm; }
  .packet > nav { display: block; border: 0; }
  main > .report:first-of-type, #decide, #read { break-before: page; border-top: 0; }
  h2, h3, .headline { break-inside: avoid; }
  .headline { break-before: avoid; }
  .report > .headline { break-after: avoid; }
  .asks div, table.blank tr { break-inside: avoid; }
  table.blank td { height: 14mm; }
  .asks .line { height: 9mm; }
}
`
}
