import { isoOf } from '../../measure/calendar.js'
import { offsetText } from '../../measure/zone.js'
import { ledgerFormat, siteRule } from '../rule.js'
import { timesWorthALook } from './stated-times.js'

export const clockTimeAmbiguous = siteRule<{
  time: string
  on: string
  zone: string
  first: string
  second: string
}>({
  id: 'clock-time-ambiguous',
  title: 'a time was on the clock twice on that day',
  level: 'warning',
  judgedOn: 'the day of the event, in the time zone of the district',
  why: 'Between the two lies an hour: enough to make re-entry too early or a notice too late.',
  remedy: 'Write which of the two it was by its offset, such as `01:30-07:00`.',
  source: ledgerFormat,
  actor: 'whoever wrote the record',
  gap: false,
  says: ({ time, on, zone, first, second }) =>
    `In ${zone} it was ${time} twice on ${on}: first ${time}${first}, later ${time}${second}.`,
  *check(view) {
    const zone = view.district.district.data['time-zone']
    for (const { time, offsets } of timesWorthALook(view)) {
      const [first, second] = offsets
      if (time.offset !== undefined || first === undefined || second === undefined) continue
      yield {
        args: {
          time: time.text,
          on: isoOf(time.day),
          zone,
          first: offsetText(first),
          second: offsetText(second),
        },
        at: { file: time.file, path: time.path },
        from: time.day,
        identity: [time.text],
      }
    }
  },
  failing: `
=== sites/oak/visits/2025-11-02-okafor.yaml
purpose: follow-up
by: okafor
time: 01:30 to 02:20 # expect: clock-time-ambiguous
`,
  passing: `
=== sites/oak/visits/2025-11-02-okafor.yaml
purpose: follow-up
by: okafor
time: 01:30-08:00 to 02:20
`,
})
