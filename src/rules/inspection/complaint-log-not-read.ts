import { commonPractice, siteRule } from '../rule.js'
import { readTheLog, routineVisitsWithout } from './visits-without.js'

export const complaintLogNotRead = siteRule<{ state: string }>({
  id: 'complaint-log-not-read',
  title: 'the complaint log was not read on a routine visit',
  level: 'warning',
  judgedOn: 'the day of the visit',
  why: 'What staff saw between visits stands only in the log; unread, it helps no one.',
  remedy:
    'Read the log on the next visit and write `complaint-log: read`; if it is not where it hangs, find out where.',
  source: commonPractice,
  actor: 'technician',
  gap: true,
  says: ({ state }) =>
    state === ''
      ? 'This routine visit does not say that the complaint log was read.'
      : `The complaint log was ${state} on this routine visit.`,
  *check(view) {
    for (const { visit, lacking } of routineVisitsWithout(view, readTheLog)) {
      const state = visit.data['complaint-log']
      yield {
        args: { state: state ?? '' },
        at: { file: visit.file, path: [state === undefined ? 'purpose' : 'complaint-log'] },
        ...lacking,
      }
    }
  },
  failing: `
=== sites/oak/visits/2026-03-05-okafor.yaml
purpose: routine # expect: complaint-log-not-read
by: okafor
time: 06:10 to 06:50
site-manager: lind
inspected: [kitchen, room-1]
set:
  K1: {kind: sticky-trap, area: kitchen, within-reach: no}
`,
  passing: '',
})
