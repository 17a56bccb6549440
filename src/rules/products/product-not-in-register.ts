import type { UnresolvedNames } from '../../ledger/unresolved.js'
import { unresolvedIn, unresolvedInDistrict } from '../../ledger/unresolved.js'
import { nearest } from '../../records/nearest.js'
import type { Finding } from '../rule.js'
import { ledgerFormat, siteRule } from '../rule.js'

type RegisterArgs = { readonly product: string; readonly meant: string }

export const productNotInRegister = siteRule<RegisterArgs>({
  id: 'product-not-in-register',
  title: 'a product is not in the register',
  level: 'error',
  judgedOn: 'the day of the record',
  why: 'What the label and the safety data sheet of a product say can be looked up only through the register.',
  remedy:
    'Write the id of a product that is there, or add it as products/<id>/product.yaml with its label and safety data sheet beside it.',
  source: ledgerFormat,
  actor: 'whoever wrote the record',
  gap: true,
  says: ({ product, meant }) =>
    `There is no product \`${product}\` in the register${meant === '' ? '.' : `; did you mean \`${meant}\`?`}`,
  *check(view) {
    yield* unknownProducts(unresolvedIn(view))
  },
  *checkDistrict(view) {
    yield* unknownProducts(unresolvedInDistrict(view))
  },
  failing: `
=== sites/oak/visits/2026-03-20-okafor.yaml
purpose: set-up
by: okafor
set:
  B1: {kind: bait-station, area: kitchen, for: [german-cockroach], product: bait-aa, bait-added: 1 station} # expect: product-not-in-register
`,
  passing: `
=== sites/oak/visits/2026-03-20-okafor.yaml
purpose: set-up
by: okafor
set:
  B1: {kind: bait-station, area: kitchen, for: [german-cockroach], product: bait-a, bait-added: 1 station}
`,
})

function* unknownProducts({ names, resolver }: UnresolvedNames): Iterable<Finding<RegisterArgs>> {
  for (const { record, day, to, name, path, onKey } of names) {
    if (to !== 'product') continue
    yield {
      args: { product: name, meant: nearest(name, resolver.known('product')) ?? '' },
      at: { file: record.file, path, onKey },
      from: day,
    }
  }
}
