import { isPesticide } from '../../ledger/treatments.js'
import { sprayApplication } from '../example-applications.js'
import { sprayLabel } from '../label-use/example-ledgers.js'
import { productName } from '../label-use/labelled-treatments.js'
import { commonPractice, siteRule } from '../rule.js'
import { isRepellent } from './sprays.js'

const pest = 'pharaoh-ant'

export const repellentOnPharaohAnts = siteRule<{ product: string }>({
  id: 'repellent-on-pharaoh-ants',
  title: 'a product that drives ants away was used on Pharaoh ants',
  level: 'warning',
  judgedOn: 'the day of the use',
  why: 'A colony of Pharaoh ants that is driven off splits, and each part with a queen starts a new one: a spray turns one nest into several, in rooms that had none.',
  remedy:
    'Leave the trails alone, clean, and put out bait that the workers carry home, as its label says; look again in rooms around this one.',
  source: commonPractice,
  actor: 'technician',
  gap: false,
  says: ({ product }) =>
    `${product} drives insects away, and the record has it used against Pharaoh ants, whose colonies split when they are driven.`,
  *check(view) {
    for (const treatment of view.treatments) {
      const { product } = treatment
      if (treatment.day < view.begins || !product || !isPesticide(treatment)) continue
      if (!treatment.pests.includes(pest) || !isRepellent(product.data)) continue
      yield {
        args: { product: productName(treatment) },
        at: treatment.at('product'),
        from: treatment.day,
      }
    }
  },
  failing: `${sprayLabel('')}${sprayApplication(
    '2026-03-12',
    'pest: pharaoh-ant',
    'product: spray-a # expect: repellent-on-pharaoh-ants',
  )}`,
  passing: `${sprayLabel('')}${sprayApplication('2026-03-12', 'pest: odorous-house-ant')}`,
})
