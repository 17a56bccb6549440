import { inForce } from '../../ledger/spans.js'
import { isPesticide } from '../../ledger/treatments.js'
import { ledgerFormat, siteRule } from '../rule.js'
import { baitA, useOn } from './example-ledgers.js'
import { andLater, findingOf, usesOfProducts } from './uses-of-products.js'

export const labelNotInData = siteRule<{ product: string; more: number }>({
  id: 'label-not-in-data',
  title: 'a use could not be held against its label',
  level: 'note',
  judgedOn: 'the day of the use',
  why: 'Place, pest, method and rate are judged by what the label says in data; without it nothing was looked at.',
  remedy:
    'Read the label of that day and write what it says under it: `says: {places: [indoors], pest-groups: [cockroach], methods: [crack-and-crevice]}`, with its `rates`. The printed label decides.',
  source: ledgerFormat,
  actor: 'coordinator',
  gap: true,
  says: ({ product, more }) =>
    `What the label of ${product} says is not entered, so place, pest, method and rate of this use${andLater(more)} were not judged.`,
  *check(view) {
    const uses = usesOfProducts(view, ({ data }, use) => {
      const label = inForce(data.labels, use.day)
      return isPesticide(use) && label !== undefined && label.says === undefined
    })
    for (const use of uses) {
      const { product, first, more } = use
      const labels = product.data.labels ?? []
      const label = inForce(labels, first.day)
      yield {
        args: { product: product.data.name, more },
        ...findingOf(use),
        ...(label
          ? {
              related: [
                {
                  place: { file: product.file, path: ['labels', labels.indexOf(label)] },
                  says: 'the label of that day',
                },
              ],
            }
          : {}),
      }
    }
  },
  failing:
    baitA({ labels: '[{from: 2026-01-05, file: label.txt}]' }) + useOn('12', ' # expect: label-not-in-data'),
  passing: baitA({}) + useOn('12'),
})
