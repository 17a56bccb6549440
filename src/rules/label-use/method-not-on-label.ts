import { methodOnLabel } from '../../ledger/labels.js'
import { siteRule } from '../rule.js'
import { firstUses, leftOpenByFederalLaw, productName } from './labelled-treatments.js'

export const methodNotOnLabel = siteRule<{ product: string; method: string; methods: string }>({
  id: 'method-not-on-label',
  title: 'a product was applied in a way that its label does not name',
  level: 'warning',
  judgedOn: 'the day of the use; the label in force then',
  why: 'Rates and cautions of a label are written for the ways of applying that it names. Federal law lets another way be used where the label does not prohibit it (7 U.S.C. 136(ee), from memory); labels and states can be stricter.',
  remedy:
    'Hold the record against the printed label: complete `methods` in product.yaml if the data leave one out, correct `method` if it was another. Otherwise see whether the label prohibits it, and what the state asks.',
  source: leftOpenByFederalLaw,
  actor: 'technician',
  gap: false,
  says: ({ product, method, methods }) =>
    `The label of ${product}, as the register tells it, names ${methods}; the record shows ${method}.`,
  *check(view) {
    for (const { treatment, label } of firstUses(view)) {
      if (methodOnLabel(label.says, treatment.method) !== 'not named') continue
      yield {
        args: {
          product: productName(treatment),
          method: treatment.method,
          methods: (label.says.methods ?? []).join(', '),
        },
        at: treatment.at('method'),
        related: [{ place: label.at('methods'), says: 'the methods, as the register tells them' }],
        from: treatment.day,
      }
    }
  },
  failing: `
=== sites/oak/visits/2026-03-20-okafor.yaml
purpose: set-up
by: okafor
set:
  B1: {kind: bait-station, area: kitchen, for: [german-cockroach], within-reach: no, product: spray-a, bait-added: 1 fl oz} # expect: method-not-on-label
`,
  passing: `
=== sites/oak/visits/2026-03-20-okafor.yaml
purpose: set-up
by: okafor
set:
  B1: {kind: bait-station, area: kitchen, for: [german-cockroach], within-reach: no, product: bait-a, bait-added: 1 g}
`,
})
