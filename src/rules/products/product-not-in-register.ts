import type { DistrictView } from '../../ledger/district-view.js'
import type { Loaded, LoadedEvent } from '../../ledger/loaded.js'
import { districtResolver } from '../../ledger/resolve.js'
import type { RecordKind } from '../../records/kinds.js'
import { nearest } from '../../records/nearest.js'
import type { Day } from '../../types.js'
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
    yield* unknownProducts(view.records, view.district, view.begins)
  },
  *checkDistrict(view) {
    yield* unknownProducts(view.records, view, view.recordsBegin)
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

function* unknownProducts(
  records: Iterable<Loaded<RecordKind> | LoadedEvent<RecordKind>>,
  district: DistrictView,
  begins: Day,
): Iterable<Finding<RegisterArgs>> {
  const resolver = districtResolver(district)
  for (const record of records) {
    for (const { role, value, path, onKey } of record.mentions) {
      if (role.role !== 'reference' || role.to !== 'product' || resolver.exists('product', value)) continue
      yield {
        args: { product: value, meant: nearest(value, resolver.known('product')) ?? '' },
        at: { file: record.file, path, onKey },
        from: 'day' in record ? record.day : begins,
      }
    }
  }
}
