import type { Loaded } from '../../ledger/loaded.js'
import type { DatedSpan } from '../../ledger/spans.js'
import { siteRule } from '../rule.js'
import type { PaperArgs } from './papers-at-hand.js'
import { andMore, paperGaps } from './papers-at-hand.js'

export const sheetParameter = 'sds.at-hand'

/** The sheets of a product that is used only with one at hand; undefined for other kinds. */
export function sheetsAsked({ data }: Loaded<'product'>): readonly DatedSpan[] | undefined {
  return data.kind === 'pesticide' || data.kind === 'minimum-risk' ? (data.sds ?? []) : undefined
}

export const productWithoutSds = siteRule<PaperArgs>({
  id: 'product-without-sds',
  title: 'a product was used and no safety data sheet of it was at hand',
  level: 'error',
  judgedOn: 'the day of the use',
  why: 'What to do after a splash or a spill stands on the sheet, and it has to be there when that happens.',
  remedy:
    'Ask the maker for the sheet, put it beside product.yaml and enter it from the day it was at hand: `sds: [{from: 2026-03-01, file: sds.pdf}]`.',
  source: {
    kind: 'law',
    text: '29 CFR 1910.1200(g)(1) and (g)(8), from memory: a safety data sheet for each hazardous chemical used, at hand in every shift',
  },
  actor: 'coordinator',
  gap: true,
  parameters: [sheetParameter],
  says: ({ product, more }) =>
    `The register shows no safety data sheet of ${product} in force on the day of this use${andMore(more)}.`,
  *check(view) {
    const gaps = paperGaps(view, sheetParameter, sheetsAsked)
    for (const { product, first, more, until, sources } of gaps)
      yield {
        args: { product: product.data.name, more },
        at: first.at('product'),
        from: first.day,
        ...(until === undefined ? {} : { until }),
        identity: [product.id],
        sources,
      }
  },
  failing: `
=== products/bait-a/product.yaml
name: Invented Bait A
kind: pesticide
registration: 99999-1
labels: [{from: 2026-01-05, file: label.txt, says: {places: [indoors], pest-groups: [cockroach], methods: [in-a-station]}}]
sds: [{from: 2026-01-05, until: 2026-03-19, file: sds.txt}]
=== sites/oak/visits/2026-03-20-okafor.yaml
purpose: set-up
by: okafor
set:
  B1: {kind: bait-station, area: kitchen, for: [german-cockroach], product: bait-a, bait-added: 1 station} # expect: product-without-sds
`,
  passing: `
=== products/bait-a/product.yaml
name: Invented Bait A
kind: pesticide
registration: 99999-1
labels: [{from: 2026-01-05, file: label.txt, says: {places: [indoors], pest-groups: [cockroach], methods: [in-a-station]}}]
sds: [{from: 2026-01-05, until: 2026-03-20, file: sds.txt}]
=== sites/oak/visits/2026-03-20-okafor.yaml
purpose: set-up
by: okafor
set:
  B1: {kind: bait-station, area: kitchen, for: [german-cockroach], product: bait-a, bait-added: 1 station}
`,
})
