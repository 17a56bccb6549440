import { timesOf } from '../../ledger/instants.js'
import type { SiteView } from '../../ledger/site-view.js'
import { isoOf, weekdayOf } from '../../measure/calendar.js'
import { durationText } from '../../measure/reentry.js'
import type { Day } from '../../types.js'
import { siteRule } from '../rule.js'
import type { Applied } from './applications.js'
import { appliedPesticides, besideTheHours, levelOfNotShown } from './applications.js'
import { spray, underOwnRulebook } from './example-ledgers.js'
import { expectedHours } from './expected-hours.js'
import { longestOf, requiredWaits } from './required-waits.js'

type ReopeningArgs = {
  readonly wait: string
  readonly who: 'people' | 'pupils'
  /** When pupils are expected before the time is over; empty where they are not, or no hours are stated. */
  readonly expected: string
}

export const reopeningNotRecorded = siteRule<ReopeningArgs>({
  id: 'reopening-not-recorded',
  title: 'the record does not show when an area was opened again',
  level: 'warning',
  judgedOn: 'the day of the application',
  why: 'Whether people stayed out for the time that is asked can be shown only by who opened the area, and when.',
  remedy:
    'Ask whoever opened it and add `reopened: {at: 06:30, by: lind}`, with `on: 2026-03-13` when that was a later day.',
  source: { kind: 'program', text: 'the section `reentry` of the rulebooks in force, and the label' },
  actor: 'site manager',
  gap: true,
  says: ({ wait, who, expected }) =>
    `After this application ${who} stay out for ${wait}, and the record does not show when the area was opened again${expected === '' ? '.' : `; pupils are expected ${expected}, before that time is over.`}`,
  *check(view) {
    for (const applied of appliedPesticides(view)) {
      if (applied.application.reopened) continue
      const waits = requiredWaits(view, applied)
      const longest = longestOf(waits)
      if (!longest) continue
      const sources = waits.map(({ citation }) => citation)
      yield {
        args: {
          wait: durationText(longest.minutes),
          who: longest.by === 'label' ? 'people' : 'pupils',
          expected: expectedWithin(view, applied, longest.minutes),
        },
        at: besideTheHours(applied),
        from: nextWorkingDay(applied.day + Math.ceil(longest.minutes / minutesPerDay)) + 1,
        sources,
        level: levelOfNotShown(sources),
      }
    }
  },
  failing: `${underOwnRulebook(`
reentry:
  wait:
    - {from: 2026-03-01, wait: 7 h, label: if longer, source: "Invented Pest Act, section 8", kind: law, confidence: read}
`)}${spray(`
time: 17:10 to 17:30 # expect: reopening-not-recorded
pupils: none in the building
dry: {at: 17:50, by: okafor}
`).replace('time: 17:10 to 17:30\n', '')}`,
  passing: `${underOwnRulebook(`
reentry:
  wait:
    - {from: 2026-03-01, wait: 7 h, label: if longer, source: "Invented Pest Act, section 8", kind: law, confidence: read}
`)}${spray(`
pupils: none in the building
dry: {at: 17:50, by: okafor}
reopened: {on: 2026-03-13, at: 06:30, by: lind}
`)}`,
})

const minutesPerDay = 1440

/** An area that was closed for the night or the weekend is opened, and written down, on the next working day. */
function nextWorkingDay(day: Day): Day {
  let next = day
  while (weekdayOf(next) > 5) next++
  return next
}

/** When pupils are expected before a wait is over, as far as hours are stated: at the end itself, or later. */
function expectedWithin(view: SiteView, applied: Applied, minutes: number): string {
  const { end } = timesOf(view.district, applied)
  const lastDay = applied.day + Math.ceil(minutes / minutesPerDay) + 1
  for (let day = applied.day; day <= lastDay; day++) {
    const hours = expectedHours(view, day)
    if (hours?.startsAt === undefined || hours.end.earliest <= end.latest) continue
    if (hours.start.latest >= end.earliest + minutes) return ''
    return `on ${isoOf(day)} from ${hours.startsAt}`
  }
  return ''
}
