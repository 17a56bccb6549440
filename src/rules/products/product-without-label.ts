import type { Loaded } from '../../ledger/loaded.js'
import type { DatedSpan } from '../../ledger/spans.js'
import type { Citation } from '../../types.js'
import { labelIsLaw } from '../label-is-law.js'
import { commonPractice, siteRule } from '../rule.js'
import type { PaperArgs } from './papers-at-hand.js'
import { andMore, paperGaps } from './papers-at-hand.js'

const minimumRisk: Citation = {
  kind: 'law',
  text: '40 CFR 152.25(f), from memory: a minimum-risk product is exempt only while its label names every ingredient and its maker',
}

export const labelParameter = 'label.at-hand'

/** The labels of a product that is used only with one; undefined for other kinds. */
export function labelsAsked({ data }: Loaded<'product'>): readonly DatedSpan[] | undefined {
  return isApplied(data.kind) ? (data.labels ?? []) : undefined
}

export const productWithoutLabel = siteRule<PaperArgs>({
  id: 'product-without-label',
  title: 'a product was used and no label of it was in force',
  level: 'error',
  judgedOn: 'the day of the use',
  why: 'The label is the law: where, against what and how much a product may be used stands only there.',
  remedy:
    'Put the label of the container that was used beside product.yaml and enter it from the day that container came into use: `labels: [{from: 2026-03-01, file: label.pdf}]`. Without the label at hand a product is not used.',
  source: labelIsLaw,
  actor: 'coordinator',
  gap: true,
  parameters: [labelParameter],
  says: ({ product, more }) =>
    `The register shows no label of ${product} in force on the day of this use${andMore(more)}.`,
  *check(view) {
    const gaps = paperGaps(view, labelParameter, labelsAsked)
    for (const { product, first, more, until, sources } of gaps)
      yield {
        args: { product: product.data.name, more },
        at: first.at('product'),
        from: first.day,
        ...(until === undefined ? {} : { until }),
        identity: [product.id],
        ...restsOn(product.data.kind, sources),
      }
  },
  failing: `
=== products/bait-a/product.yaml
name: Invented Bait A
kind: pesticide
registration: 99999-1
labels: [{from: 2026-01-05, until: 2026-03-19, file: label.txt}]
sds: [{from: 2026-01-05, file: sds.txt}]
=== sites/oak/visits/2026-03-20-okafor.yaml
purpose: set-up
by: okafor
set:
  B1: {kind: bait-station, area: kitchen, for: [german-cockroach], product: bait-a, bait-added: 1 station} # expect: product-without-label
`,
  passing: `
=== products/bait-a/product.yaml
name: Invented Bait A
kind: pesticide
registration: 99999-1
labels: [{from: 2026-01-05, until: 2026-03-20, file: label.txt, says: {places: [indoors], pest-groups: [cockroach], methods: [in-a-station]}}]
sds: [{from: 2026-01-05, file: sds.txt}]
=== sites/oak/visits/2026-03-20-okafor.yaml
purpose: set-up
by: okafor
set:
  B1: {kind: bait-station, area: kitchen, for: [german-cockroach], product: bait-a, bait-added: 1 station}
`,
})

function isApplied(kind: string): boolean {
  return kind === 'pesticide' || kind === 'minimum-risk' || kind === 'living-agent'
}

/** What the duty rests on. Living agents are outside the pesticide law (40 CFR 152.20(a), from memory): practice asks. */
function restsOn(kind: string, sources: readonly Citation[]) {
  if (kind === 'living-agent') return { level: 'warning' as const, sources: [commonPractice] }
  return { sources: kind === 'minimum-risk' ? [minimumRisk] : sources }
}
