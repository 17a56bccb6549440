import type { LoadedEvent } from '../../ledger/loaded.js'
import { dayIn } from '../../ledger/spans.js'
import { isoOf } from '../../measure/calendar.js'
import type { Day } from '../../types.js'
import { baitApplication } from '../example-applications.js'
import { lateness } from '../inspection/lapse.js'
import { ledgerFormat, siteRule } from '../rule.js'

export const plannedDayPassed = siteRule<{ last: string; isRainDate: boolean }>({
  id: 'planned-day-passed',
  title: 'the day of a planned application has passed',
  level: 'warning',
  judgedOn: 'the day it was planned for, or the last day it could be put off to',
  why: 'Nothing is asked of an application that is only planned: if it was made, nobody looks at who was told, how much was used and who came back when.',
  remedy:
    'If it was made, write `status: done` and what was used, in a record with the day it was made; if not, write `status: cancelled` and why: `cancelled: source found and removed`.',
  source: ledgerFormat,
  actor: 'technician',
  gap: true,
  asks: () => 'record whether the planned application was made',
  says: ({ last, isRainDate }) =>
    `This application was planned for ${last}${isRainDate ? ', the last of its other days,' : ''} at the latest; the record does not show whether it was made or cancelled.`,
  *check(view) {
    for (const planned of view.applications) {
      if (planned.data.status !== 'planned' || planned.day < view.begins) continue
      const last = lastDayOf(planned)
      const when = lateness(view, last + 1)
      if (!when) continue
      yield {
        args: { last: isoOf(last), isRainDate: last > planned.day },
        at: { file: planned.file, path: ['status'] },
        ...when,
      }
    }
  },
  failing: baitApplication('2026-03-19', 'status: planned # expect: planned-day-passed'),
  passing: baitApplication('2026-03-20', 'status: planned'),
})

function lastDayOf({ day, data }: LoadedEvent<'application'>): Day {
  return Math.max(day, ...(data['rain-dates'] ?? []).map(dayIn))
}
