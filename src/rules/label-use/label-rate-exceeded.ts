import type { LabelInForce } from '../../ledger/labels.js'
import { measuresOf } from '../../ledger/product-measures.js'
import type { Treatment } from '../../ledger/treatments.js'
import type { Quantity } from '../../measure/quantities.js'
import type { ProductMeasures } from '../../measure/rates.js'
import { heldAgainstRate, inUnitOf, shown, sumAs, sumsOf } from '../../measure/rates.js'
import { labelIsLaw } from '../label-is-law.js'
import { siteRule } from '../rule.js'
import type { LabelRate, UsedOn } from './amounts.js'
import { ratesFor, usedOn } from './amounts.js'
import { labelledTreatments, productName, restsOn } from './labelled-treatments.js'

export const labelRateExceeded = siteRule<{
  product: string
  amount: string
  onWhat: string
  area: string
  used: string
  most: string
  per: string
}>({
  id: 'label-rate-exceeded',
  title: 'more of a product was used than its label allows',
  level: 'error',
  judgedOn: 'the day of the use; the label in force then',
  why: 'The highest rate on the label is the most that was judged safe for those who live with what is left behind; more does not work better.',
  remedy:
    'Hold the figures against the paper they came from and the printed label: undiluted amount, size, placements, and the rate in product.yaml. If they are right, tell the coordinator today, keep people out as the label says, and ask the maker or the state whether cleaning is needed.',
  source: labelIsLaw,
  actor: 'technician',
  gap: false,
  says: ({ product, amount, onWhat, area, used, most, per }) =>
    `${amount} of ${product} ${onWhat}${area === '' ? '' : ` (\`${area}\`)`} is ${used} per ${per}; the label says at most ${most} per ${per}.`,
  *check(view) {
    const within = new Set<string>()
    for (const { treatment, label } of labelledTreatments(view)) {
      const refill = refillOf(treatment, label)
      if (refill !== undefined && within.has(refill)) continue
      let isWithin = true
      const measures = treatment.product && measuresOf(treatment.product)
      for (const rate of ratesFor(label.says, treatment)) {
        for (const { at, area, onWhat, amounts, used } of above(
          usedOn(treatment, rate.says.per),
          rate,
          measures,
        )) {
          isWithin = false
          yield {
            args: {
              product: productName(treatment),
              amount: inAll(amounts),
              onWhat,
              area: area ?? '',
              used: shown(used, rate.most),
              most: rate.says['at-most'],
              per: rate.says.per,
            },
            at,
            related: [{ place: label.at('rates', rate.name), says: 'the rate, as the register tells it' }],
            from: treatment.day,
            identity: [rate.name, area ?? 'in all'],
            ...restsOn(treatment),
          }
        }
      }
      if (isWithin && refill !== undefined) within.add(refill)
    }
  },
  failing: `
=== sites/oak/visits/2026-03-20-okafor.yaml
purpose: set-up
by: okafor
set:
  B1: {kind: bait-station, area: kitchen, for: [german-cockroach], within-reach: no, product: bait-a, bait-added: 1.5 g} # expect: label-rate-exceeded
=== products/bait-a/product.yaml
name: Invented Bait A
kind: pesticide
registration: 99999-1
states: {OR: [{from: 2025-01-01}]}
active-ingredients: {boric-acid: {strength: 5 %}}
formulation: gel
signal-word: caution
restricted-use: no
labels:
  - from: 2026-01-05
    file: label.txt
    says:
      places: [indoors]
      pest-groups: [cockroach, ant]
      methods: [crack-and-crevice, in-a-station]
      rates: {stations: {at-most: 1 g, per: station}}
sds: [{from: 2026-01-05, file: sds.txt}]
`,
  passing: `
=== sites/oak/visits/2026-03-20-okafor.yaml
purpose: set-up
by: okafor
set:
  B1: {kind: bait-station, area: kitchen, for: [german-cockroach], within-reach: no, product: bait-a, bait-added: 1 g}
=== products/bait-a/product.yaml
name: Invented Bait A
kind: pesticide
registration: 99999-1
states: {OR: [{from: 2025-01-01}]}
active-ingredients: {boric-acid: {strength: 5 %}}
formulation: gel
signal-word: caution
restricted-use: no
labels:
  - from: 2026-01-05
    file: label.txt
    says:
      places: [indoors]
      pest-groups: [cockroach, ant]
      methods: [crack-and-crevice, in-a-station]
      rates: {stations: {at-most: 1 g, per: station}}
sds: [{from: 2026-01-05, file: sds.txt}]
`,
})

/** What is above a rate: the areas that are, or, where none is, the whole. */
export function above(
  parts: readonly UsedOn[],
  rate: LabelRate,
  measures: ProductMeasures | undefined,
): (UsedOn & { readonly used: Quantity })[] {
  const over = parts.flatMap((part) => {
    const held = heldAgainstRate(part.amounts, part.on, rate, measures)
    return held?.compared === 1 ? [{ ...part, used: held.used }] : []
  })
  const areas = over.filter(({ area }) => area !== undefined)
  return areas.length > 0 ? areas : over
}

function inAll(amounts: readonly Quantity[]): string {
  const [first] = amounts
  if (!first) return ''
  const { size, leftOut } = sumAs(sumsOf(amounts), first)
  return leftOut ? amounts.map((amount) => shown(amount)).join(' and ') : shown(inUnitOf(size, first))
}

/** What tells two refills of devices apart, as far as a rate goes: most are alike, and one look at each will do. */
function refillOf({ productId, device, areas }: Treatment, { number }: LabelInForce): string | undefined {
  return device && `${productId} ${number} ${device.traps} ${areas[0]?.amount}`
}
