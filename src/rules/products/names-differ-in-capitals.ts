import { dayOfUndated } from '../../ledger/undated.js'
import { districtRule, ledgerFormat } from '../rule.js'

/** Names that a disk may take for one: with capitals made small, and accents written in one way. */
const asOneDisk = (path: string) => path.normalize('NFC').toLowerCase()

export const namesDifferInCapitals = districtRule<{ other: string }>({
  id: 'names-differ-in-capitals',
  title: 'two files have names that differ only in capitals or in how an accent is written',
  level: 'warning',
  judgedOn: 'the day the ledger is read',
  why: 'Many disks take the two names for one: whoever fetches the ledger there gets one of the files, and the other is lost without a word.',
  remedy:
    'Give one of them another name, with `git mv` where it is committed, and write that name where a record names the file.',
  source: ledgerFormat,
  actor: 'whoever wrote the record',
  gap: false,
  says: ({ other }) => `Many disks take this name and ${other} for one.`,
  *check(view) {
    // In order of path, in which capitals come first: the problem is told at the odder name. A record of such a name is stray.
    const first = new Map<string, string>()
    for (const path of view.otherFiles) {
      const name = asOneDisk(path)
      const odd = first.get(name)
      if (odd === undefined) first.set(name, path)
      else
        yield {
          args: { other: path },
          at: { file: odd, path: [] },
          related: [{ place: { file: path, path: [] }, says: 'the other file' }],
          from: dayOfUndated(view),
          identity: [path],
        }
    }
  },
  failing: `
=== products/bait-a/Label.txt
An invented label, scanned. # expect: names-differ-in-capitals
`,
  passing: `
=== products/bait-a/label-scanned.txt
An invented label, scanned.
`,
})
