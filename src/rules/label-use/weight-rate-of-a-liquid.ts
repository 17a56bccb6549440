import type { DistrictView } from '../../ledger/district-view.js'
import type { LabelInForce } from '../../ledger/labels.js'
import { labelInForce, toldLabels } from '../../ledger/labels.js'
import type { SiteView } from '../../ledger/site-view.js'
import { dayIn } from '../../ledger/spans.js'
import type { Treatment } from '../../ledger/treatments.js'
import { isPesticide } from '../../ledger/treatments.js'
import { parseQuantity } from '../../measure/quantities.js'
import { liquidFormulations } from '../../records/use-words.js'
import type { KeyPath, Place } from '../../types.js'
import type { Finding } from '../rule.js'
import { commonPractice, siteRule } from '../rule.js'
import { ratesFor } from './amounts.js'
import { sprayLabel } from './example-ledgers.js'
import { productName } from './labelled-treatments.js'

type WeightArgs = {
  readonly product: string
  readonly amount: string
  /** Of the label, where the record and the label do not measure the same. */
  readonly limit: string
}

export const weightRateOfALiquid = siteRule<WeightArgs>({
  id: 'weight-rate-of-a-liquid',
  title: 'a liquid is measured by weight and its density is not recorded',
  level: 'warning',
  judgedOn: 'the day of the use; for a label the first day it is in force',
  why: 'An ounce on a liquid may mean a fluid ounce: for a liquid denser or lighter than water the two are not the same amount, and a weight cannot be held against a volume without a density.',
  remedy:
    'Write the unit the label prints: `fl oz` for a fluid ounce. If it is a weight, add the density from the label or the safety data sheet to product.yaml: `density: 8.6 lb/gal`.',
  source: commonPractice,
  actor: 'whoever wrote the record',
  gap: false,
  says: ({ product, amount, limit }) =>
    limit === ''
      ? `${product} is a liquid and no density is recorded: ${amount} may be a weight or fluid ounces.`
      : `${product} is a liquid and no density is recorded: ${amount} cannot be held against ${limit} on the label.`,
  *check(view) {
    yield* inUses(view)
  },
  *checkDistrict(view) {
    yield* inLabels(view)
  },
  failing: `${sprayLabel('amount-a-year: 64 oz # expect: weight-rate-of-a-liquid')}`,
  passing: `${sprayLabel('amount-a-year: 64 oz')}`.replace('signal-word', 'density: 8.6 lb/gal\nsignal-word'),
})

type Limit = { readonly text: string; readonly path: KeyPath }

/** Every limit of a label on how much is used. */
function limitsOf({ says }: LabelInForce): Limit[] {
  const rates = Object.entries(says.rates ?? {}).map(([name, rate]) => ({
    text: rate['at-most'],
    path: ['rates', name, 'at-most'],
  }))
  const yearly = says['amount-a-year']
  return yearly === undefined ? rates : [...rates, { text: yearly, path: ['amount-a-year'] }]
}

/** Labels of the register whose limits for a liquid are in ounces. */
function* inLabels(view: DistrictView): Iterable<Finding<WeightArgs>> {
  for (const product of view.products.values()) {
    const { formulation, density, name } = product.data
    if (formulation === undefined || !liquidFormulations.has(formulation) || density !== undefined) continue
    for (const label of toldLabels(product)) {
      if (label.until !== undefined && dayIn(label.until) < view.recordsBegin) continue
      for (const { text, path } of limitsOf(label)) {
        if (isOunces(text))
          yield {
            args: { product: name, amount: text, limit: '' },
            at: label.at(...path),
            from: Math.max(dayIn(label.from), view.recordsBegin),
          }
      }
    }
  }
}

/** Uses of a liquid by weight, or of one whose label limits it by weight: each record once, at the amount. */
function* inUses(view: SiteView): Iterable<Finding<WeightArgs>> {
  const seen = new Set<string>()
  for (const treatment of view.treatments) {
    const { formulation, product, device } = treatment
    if (treatment.day < view.begins || !isPesticide(treatment) || product?.data.density !== undefined)
      continue
    if (formulation === undefined || !liquidFormulations.has(formulation)) continue
    const found = firstDoubtful(treatment)
    if (!found) continue
    // A device that is filled in the same unit again and again is told once.
    const key = device ? `${device.id} ${device.set.day} ${treatment.productId}` : treatment.id
    if (seen.has(key)) continue
    seen.add(key)
    const { text, limit, at } = found
    yield { args: { product: productName(treatment), amount: text, limit }, at, from: treatment.day }
  }
}

/** The first amount that is in ounces, or that measures something else than a limit of the label. */
function firstDoubtful(treatment: Treatment) {
  const amounts = amountsOf(treatment)
  const ounces = amounts.find(({ text }) => isOunces(text))
  if (ounces) return { ...ounces, limit: '' }
  const label = labelInForce(treatment)
  if (!label) return undefined
  const yearly = label.says['amount-a-year']
  const limits = ratesFor(label.says, treatment).map(({ says }) => says['at-most'])
  if (yearly !== undefined) limits.push(yearly)
  for (const amount of amounts) {
    // A limit in ounces is told at the label.
    const limit = limits.find((most) => !isOunces(most) && isOtherMeasure(amount.text, most))
    if (limit !== undefined) return { ...amount, limit }
  }
  return undefined
}

function amountsOf(treatment: Treatment): { readonly text: string; readonly at: Place }[] {
  const whole = treatment.amount === undefined ? [] : [{ text: treatment.amount, at: treatment.at('amount') }]
  return [
    ...whole,
    ...treatment.areas.flatMap(({ id, amount }) =>
      amount === undefined ? [] : [{ text: amount, at: treatment.at('areas', id, 'amount') }],
    ),
  ]
}

/** The one unit of weight that people also say for a volume. */
function isOunces(text: string): boolean {
  return parseQuantity(text)?.unit === 'oz'
}

/** Weight against volume: only a density brings them together. */
function isOtherMeasure(a: string, b: string): boolean {
  const measures = [parseQuantity(a)?.dimension, parseQuantity(b)?.dimension]
  return measures.includes('weight') && measures.includes('volume')
}
