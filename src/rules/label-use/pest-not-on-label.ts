import { pestOnLabel } from '../../ledger/labels.js'
import { pestTable } from '../../records/tables.js'
import type { KeyPath } from '../../types.js'
import { siteRule } from '../rule.js'
import type { LabelledTreatment } from './labelled-treatments.js'
import { firstUses, leftOpenByFederalLaw, productName } from './labelled-treatments.js'

export const pestNotOnLabel = siteRule<{ product: string; pests: readonly string[] }>({
  id: 'pest-not-on-label',
  title: 'a product was used against a pest that its label does not name',
  level: 'warning',
  judgedOn: 'the day of the use; the label in force then',
  why: 'Whether it works on a pest that the label does not name is not known. Federal law lets a product be used against such a pest where the label names the place and does not confine it to its own pests (7 U.S.C. 136(ee), from memory); labels and states can be stricter.',
  remedy:
    'Hold the record against the printed label: complete `pests` or `pest-groups` in product.yaml if the data leave one out. Otherwise see whether the label confines use to the pests it names, and what the state asks.',
  source: leftOpenByFederalLaw,
  actor: 'technician',
  gap: false,
  says: ({ product, pests }) =>
    `The label of ${product}, as the register tells it, does not name ${pests.join(' or ')}.`,
  *check(view) {
    for (const use of firstUses(view)) {
      for (const { pests, path } of pestsNotNamed(use))
        yield {
          args: {
            product: productName(use.treatment),
            pests: pests.map((pest) => pestTable().get(pest)?.name ?? pest),
          },
          at: use.treatment.at(...path),
          from: use.treatment.day,
          identity: pests,
        }
    }
  },
  failing: `
=== sites/oak/visits/2026-03-20-okafor.yaml
purpose: set-up
by: okafor
set:
  B1: {kind: bait-station, area: kitchen, for: [german-cockroach, silverfish], within-reach: no, product: bait-a, bait-added: 1 g} # expect: pest-not-on-label
`,
  passing: `
=== sites/oak/visits/2026-03-20-okafor.yaml
purpose: set-up
by: okafor
set:
  B1: {kind: bait-station, area: kitchen, for: [german-cockroach, ant], within-reach: no, product: bait-a, bait-added: 1 g}
`,
})

/** Target pests that a label does not name, with the key that names each. */
export function pestsNotNamed({ treatment, label }: LabelledTreatment): {
  readonly pests: readonly string[]
  readonly path: KeyPath
}[] {
  const { application, device, pests } = treatment
  const isMissing = (pest: string) => pestOnLabel(label.says, pest) === 'not named'
  if (application) {
    const keys: KeyPath[] = pests.map((_, n) => (n === 0 ? ['pest'] : ['also-against', n - 1]))
    return pests.flatMap((pest, n) =>
      isMissing(pest) && pests.indexOf(pest) === n ? [{ pests: [pest], path: keys[n] ?? [] }] : [],
    )
  }
  const missing = pests.filter(isMissing)
  // What a device is for by its kind alone is a list of what it may be for: one of them named is enough.
  const enough = device?.setFacts.for === undefined && missing.length < pests.length
  return missing.length === 0 || enough ? [] : [{ pests: missing, path: ['product'] }]
}
