import type { Loaded, LoadedEvent } from '../../ledger/loaded.js'
import { dayIn } from '../../ledger/spans.js'
import { isoOf } from '../../measure/calendar.js'
import type { RecordKind } from '../../records/kinds.js'
import type { Finding } from '../rule.js'
import { ledgerFormat, siteRule } from '../rule.js'

interface Disagree extends Record<string, string> {
  key: string
  name: string
  says: string
}

type AnyRecord = Loaded<RecordKind> | LoadedEvent<RecordKind>

/**
 * A paper page may be filled in on the day or after it, never before: an event cannot be noted before it happens.
 * Only an application that is not done carries a day to come in its name.
 */
export const nameAndContentDisagree = siteRule<Disagree>({
  id: 'name-and-content-disagree',
  title: 'the name of the file and the record in it contradict each other',
  level: 'error',
  judgedOn: 'the day of the record',
  why: 'Who did it and on which day are read from the name of the file; if the record says otherwise, no one can tell which is true.',
  remedy:
    'Rename the file to `<date>-<who>.yaml` with the person under `by` (a word to tell two apart comes after it: `2026-03-12-okafor-evening.yaml`), or mend the record.',
  source: ledgerFormat,
  actor: 'whoever wrote the record',
  gap: false,
  says({ key, name, says }) {
    if (key === 'by') return `The name of this file says ${name}, the record says by ${says}.`
    if (key === 'held') return `The name of this file says ${name}, but the review was held on ${says}.`
    return `The paper page was filled in on ${says}, before the day in the name of this file, ${name}.`
  },
  *check(view) {
    for (const record of view.records) yield* disagreements(record)
  },
  *checkDistrict(view) {
    for (const record of view.records) yield* disagreements(record)
    for (const { id, file, data } of view.reviews) {
      if (data.held.startsWith(`${id}-`)) continue
      yield {
        args: { key: 'held', name: id, says: data.held },
        at: { file, path: ['held'] },
        from: dayIn(data.held),
      }
    }
  },
  failing: `
=== sites/oak/visits/2026-03-10-lind.yaml
purpose: follow-up
by: okafor # expect: name-and-content-disagree
on-paper: 2026-03-09 # expect: name-and-content-disagree
`,
  passing: `
=== sites/oak/visits/2026-03-10-okafor.yaml
purpose: follow-up
by: okafor
on-paper: 2026-03-10
`,
})

function* disagreements(record: AnyRecord): Iterable<Finding<Disagree>> {
  if (!('day' in record)) return
  const { file, day, who, data } = record
  if (!('by' in data)) return
  if (who !== data.by && !who.startsWith(`${data.by}-`))
    yield { args: { key: 'by', name: who, says: data.by }, at: { file, path: ['by'] }, from: day }
  const onPaper = 'on-paper' in data ? data['on-paper'] : undefined
  if (onPaper === undefined || dayIn(onPaper) >= day || ('status' in data && data.status !== 'done')) return
  yield {
    args: { key: 'on-paper', name: isoOf(day), says: onPaper },
    at: { file, path: ['on-paper'] },
    from: day,
  }
}
