import { isoOf } from '../../measure/calendar.js'
import { offsetText } from '../../measure/zone.js'
import { ledgerFormat, siteRule } from '../rule.js'
import { timesWorthALook } from './stated-times.js'

interface NotThere extends Record<string, string> {
  time: string
  on: string
  zone: string
  /** Offset the clock has at that time, where only the stated one is wrong. */
  offset: string
}

export const clockTimeNotThere = siteRule<NotThere>({
  id: 'clock-time-not-there',
  title: 'a time was on no clock on that day',
  level: 'error',
  judgedOn: 'the day of the event, in the time zone of the district',
  why: 'Re-entry, notice and who was where are reckoned from these times; one that no clock showed was not read off a clock.',
  remedy:
    'Write the time the clock showed: when it is set forward from 02:00 to 03:00 there is no time between; an offset is that of the zone on the day, such as `06:10-08:00`, and may be left out.',
  source: ledgerFormat,
  actor: 'whoever wrote the record',
  gap: false,
  says: ({ time, on, zone, offset }) =>
    offset === ''
      ? `There was no ${time} on ${on} in ${zone}: the clock was set forward past it.`
      : `There was no ${time} on ${on} in ${zone}: the clock was at ${offset}.`,
  *check(view) {
    const zone = view.district.district.data['time-zone']
    for (const { time, offsets } of timesWorthALook(view)) {
      if (time.offset === undefined ? offsets.length > 0 : offsets.includes(time.offset)) continue
      yield {
        args: {
          time: time.text,
          on: isoOf(time.day),
          zone,
          offset: offsets.map(offsetText).join(' or '),
        },
        at: { file: time.file, path: time.path },
        from: time.day,
        identity: [time.text],
      }
    }
  },
  failing: `
=== sites/oak/visits/2026-03-08-okafor.yaml
purpose: follow-up
by: okafor
time: 02:10 to 03:20 # expect: clock-time-not-there
`,
  passing: `
=== sites/oak/visits/2026-03-08-okafor.yaml
purpose: follow-up
by: okafor
time: 01:50 to 03:20
`,
})
