import { isCancelled } from '../../ledger/use-classes.js'
import { siteRule } from '../rule.js'
import { becauseCancelled } from './because-cancelled.js'
import { baitA, useOn } from './example-ledgers.js'
import { andLater, findingOf, usesOfProducts } from './uses-of-products.js'

type CancelledArgs = {
  readonly product: string
  readonly on: string
  readonly useUntil: string
  readonly more: number
}

const federal = {
  kind: 'law',
  text: 'FIFRA, 7 U.S.C. 136d and 136j(a)(2)(J) and (K), from memory: what an order cancels or suspends is used up only as the order says',
} as const

export const productCancelled = siteRule<CancelledArgs>({
  id: 'product-cancelled',
  title: 'a product was used after its registration had ended',
  level: 'error',
  judgedOn: 'the day of the use',
  why: 'A registration is taken away for a reason, and the order says until when the rest may be used up, if at all.',
  remedy:
    'Read the order. Where it gives a day until which stocks may be used up, enter it: `cancelled: {on: 2025-11-03, use-until: 2026-12-31}`. Else set the rest aside and ask the state how it is returned.',
  source: federal,
  actor: 'coordinator',
  gap: false,
  says: ({ product, on, useUntil, more }) =>
    useUntil === ''
      ? `The register shows that the registration of ${product} ended on ${on}, with no later day for using it up; this use${andLater(more)} came after that.`
      : `The register shows that the registration of ${product} ended on ${on} and that ${useUntil} was the last day for using it up; this use${andLater(more)} came after that.`,
  *check(view) {
    for (const use of usesOfProducts(view, (_, treatment) => isCancelled(treatment))) {
      const { product, first } = use
      const { on = '', 'use-until': useUntil = '' } = product.data.cancelled ?? {}
      yield {
        args: { product: product.data.name, on, useUntil, more: use.more },
        ...findingOf(use),
        related: [
          {
            place: { file: product.file, path: ['cancelled'], onKey: true },
            says: 'the end of its registration',
          },
        ],
        sources: [federal, ...becauseCancelled(view, first).map(({ citation }) => citation)],
      }
    }
  },
  failing:
    baitA({ cancelled: '{on: 2025-11-03, use-until: 2026-03-11}' }) +
    useOn('12', ' # expect: product-cancelled'),
  passing: baitA({ cancelled: '{on: 2025-11-03, use-until: 2026-03-12}' }) + useOn('12'),
})
