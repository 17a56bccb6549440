import type { DistrictView } from '../../ledger/district-view.js'
import { getOrMake } from '../../ledger/get-or-make.js'
import type { Loaded } from '../../ledger/loaded.js'
import { dayOfUndated } from '../../ledger/undated.js'
import type { RecordKind } from '../../records/kinds.js'
import { valueAt } from '../../records/value-at.js'
import type { KeyPath } from '../../types.js'
import type { Finding } from '../rule.js'
import { ledgerFormat, siteRule } from '../rule.js'
import type { NamedFile } from './named-files.js'
import { namedFiles } from './named-files.js'

type ChangedArgs = { readonly path: string; readonly now: string; readonly detail: string }

export const fileChanged = siteRule<ChangedArgs>({
  id: 'file-changed',
  title: 'a file is not the one its record was written for',
  level: 'error',
  judgedOn: 'the day the ledger is read',
  why: 'What was done is judged by the label, contract or diagram of its day; a file changed in place rewrites the past.',
  remedy:
    'Put back the file that was recorded; if this is a new one, keep both and add a span with its own `from`, `file` and `sha256`.',
  source: ledgerFormat,
  actor: 'whoever wrote the record',
  gap: false,
  says: ({ path, now, detail }) =>
    now === ''
      ? `The file ${path} cannot be compared with the SHA-256 stated here: it ${detail}.`
      : `The file ${path} does not have the SHA-256 stated here; it has ${now}.`,
  *check(view) {
    yield* changed(namedFiles(view.records, dayOfUndated(view)), view.district)
  },
  *checkDistrict(view) {
    yield* changed(namedFiles(view.records, dayOfUndated(view)), view)
  },
  failing: `
=== products/bait-a/product.yaml
name: Invented Bait A
kind: pesticide
registration: 99999-1
labels:
  - from: 2026-01-05
    file: label.txt
    sha256: c96d412f77bc13bbcb5712d6a47740585ea588e6348487fc755e156cd2162104 # expect: file-changed
sds: [{from: 2026-01-05, file: sds.txt}]
`,
  passing: `
=== products/bait-a/product.yaml
name: Invented Bait A
kind: pesticide
registration: 99999-1
labels:
  - from: 2026-01-05
    file: label.txt
    sha256: 35a6a9b02d776100f779e5855e656b9344a5c4c17131abb26e6f62328400e816
sds: [{from: 2026-01-05, file: sds.txt}]
`,
})

function* changed(
  files: Iterable<NamedFile & { readonly record: Loaded<RecordKind> }>,
  district: DistrictView,
): Iterable<Finding<ChangedArgs>> {
  for (const { record, path, at, from } of files) {
    if (at.path.at(-1) !== 'file' || !district.hasFile(path)) continue
    const beside: KeyPath = [...at.path.slice(0, -1), 'sha256']
    const stated = valueAt(record.data, beside)
    if (typeof stated !== 'string') continue
    const hash = hashOf(district, path)
    if ('sha256' in hash && hash.sha256 === stated) continue
    yield {
      args: {
        path,
        now: 'sha256' in hash ? hash.sha256 : '',
        detail: 'sha256' in hash ? '' : hash.detail,
      },
      at: { file: at.file, path: beside },
      from,
    }
  }
}

type Hash = ReturnType<DistrictView['source']['sha256']>

/** One reading of the ledger hashes each file once, however many records name it. */
const hashes = new WeakMap<DistrictView, Map<string, Hash>>()

function hashOf(district: DistrictView, path: string): Hash {
  const known = hashes.get(district) ?? new Map<string, Hash>()
  hashes.set(district, known)
  return getOrMake(known, path, () => district.source.sha256(path))
}
