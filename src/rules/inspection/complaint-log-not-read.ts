import { commonPractice, siteRule } from '../rule.js'

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
    for (const [at, visit] of view.routineVisits.entries()) {
      const state = visit.data['complaint-log']
      if (state === 'read' || visit.day < view.begins) continue
      const read = view.routineVisits.slice(at + 1).find((later) => later.data['complaint-log'] === 'read')
      yield {
        args: { state: state ?? '' },
        at: { file: visit.file, path: [state === undefined ? 'purpose' : 'complaint-log'] },
        from: visit.day,
        ...(read ? { until: read.day } : {}),
      }
    }
  },
  failing: `
=== sites/oak/visits/2026-03-05-okafor.yaml
purpose: routine # expect: complaint-log-not-read
by: okafor
site-manager: lind
inspected: [kitchen, room-1]
set:
  K1: {kind: sticky-trap, area: kitchen, within-reach: no}
`,
  passing: '',
})
