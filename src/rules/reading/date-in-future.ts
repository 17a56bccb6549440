import { isoOf } from '../../measure/calendar.js'
import { fileRule, ledgerFormat } from '../rule.js'

export const dateInFuture = fileRule<{ today: string }>({
  id: 'date-in-future',
  title: 'an event is dated after today',
  level: 'error',
  judgedOn: 'today; never with --as-of, which ends the picture on that day',
  why: 'A visit that has not happened would count as one that has.',
  remedy: 'Mend the date in the file name; only an application may be planned ahead, with `status: planned`.',
  source: ledgerFormat,
  actor: 'whoever wrote the record',
  gap: false,
  says: ({ today }) => `This event is dated after today, ${today}.`,
  judge(fault) {
    if (fault.kind !== 'future') return undefined
    return { args: { today: isoOf(fault.today) }, at: { file: fault.file, path: [] } }
  },
  failing: `
=== sites/oak/visits/2026-03-25-okafor.yaml
purpose: callback # expect: date-in-future
by: okafor
`,
  passing: `
=== sites/oak/applications/2026-03-25-okafor.yaml
by: okafor
status: planned
product: bait-a
pest: german-cockroach
method: crack-and-crevice
areas: {kitchen: {}}
`,
})
