import type { DistrictView } from '../../ledger/district-view.js'
import { dayOfUndated } from '../../ledger/undated.js'
import type { Finding } from '../rule.js'
import { ledgerFormat, siteRule } from '../rule.js'
import type { NamedFile } from './named-files.js'
import { namedFiles } from './named-files.js'

type MissingArgs = { readonly path: string; readonly detail: string }

export const fileMissing = siteRule<MissingArgs>({
  id: 'file-missing',
  title: 'a file that a record names is not in the ledger',
  level: 'error',
  judgedOn: 'the day the ledger is read',
  why: 'A label, a safety data sheet or a scan that is named and not there cannot be read when someone needs it.',
  remedy:
    'Put the file into the folder of the record (or deeper) and add it to git, or write the name it has; capitals count.',
  source: ledgerFormat,
  actor: 'whoever wrote the record',
  gap: true,
  says: ({ path, detail }) => `The file ${path} ${detail}.`,
  *check(view) {
    yield* missing(namedFiles(view.records, dayOfUndated(view)), view.district)
  },
  *checkDistrict(view) {
    yield* missing(namedFiles(view.records, dayOfUndated(view)), view)
  },
  failing: `
=== products/bait-a/product.yaml
name: Invented Bait A
kind: pesticide
registration: 99999-1
labels: [{from: 2026-01-05, file: label-2026.txt}] # expect: file-missing
sds: [{from: 2026-01-05, file: sds.txt}]
`,
  passing: `
=== products/bait-a/product.yaml
name: Invented Bait A
kind: pesticide
registration: 99999-1
labels: [{from: 2026-01-05, file: label-2026.txt}]
sds: [{from: 2026-01-05, file: sds.txt}]
=== products/bait-a/label-2026.txt
An invented label.
`,
})

function* missing(files: Iterable<NamedFile>, district: DistrictView): Iterable<Finding<MissingArgs>> {
  for (const { path, at, from } of files) {
    if (district.hasFile(path)) continue
    const read = district.source.read(path)
    const detail = 'refused' in read ? read.detail : 'is not one of the files a ledger is made of'
    yield { args: { path, detail }, at, from }
  }
}
