import { firstLookAt, treatedAreas } from '../../ledger/grounds-for-treatment.js'
import { daysOf } from '../../ledger/parameters.js'
import type { SiteView } from '../../ledger/site-view.js'
import { dayIn } from '../../ledger/spans.js'
import { isoOf } from '../../measure/calendar.js'
import type { Citation, Day, Level, Place } from '../../types.js'
import { levelFrom } from '../adopted.js'
import { baitApplication } from '../example-applications.js'
import { lateness } from '../inspection/lapse.js'
import type { Applied } from '../reentry/applications.js'
import { commonPractice, siteRule } from '../rule.js'
import { applicationsToJustify } from './applications-to-justify.js'

const parameter = 'follow-up.days'

export const effectNotLookedAt = siteRule<{ areas: readonly string[]; after: string; by: string }>({
  id: 'effect-not-looked-at',
  title: 'no visit looked at what an application did',
  level: 'warning',
  judgedOn: 'the day of the application',
  why: 'Only a look afterwards tells whether the pest is gone; without it the next application is a guess, and one that does not work is repeated.',
  remedy:
    'Go and look: a visit that inspects the treated area, reads a device there or acts there ends this. Plan the look with the application: `follow-up: {by: 2026-04-02, look: boards K1 to K4}`.',
  source: commonPractice,
  actor: 'technician',
  gap: true,
  parameters: [parameter],
  asks: ({ after }) => `look whether the application of ${after} helped`,
  says: ({ areas, after, by }) =>
    `No visit after ${after} and by ${by} inspected ${areas.map((area) => `\`${area}\``).join(', ')}, read a device there or did anything there, so that the effect of this application is not shown.`,
  *check(view) {
    for (const applied of applicationsToJustify(view)) {
      const term = termOf(view, applied)
      if (!term || applied.areas.every(({ area }) => area === undefined)) continue
      const looked = firstLookAt(view, treatedAreas(applied), applied.day)
      const gone = lastAreaGone(applied)
      if (gone !== undefined && gone <= term.last + 1) continue
      const when = lateness(view, term.last + 1, looked, gone)
      if (!when) continue
      const { last, ...rest } = term
      yield {
        args: { areas: applied.areas.map(({ id }) => id), after: isoOf(applied.day), by: isoOf(last) },
        ...rest,
        ...when,
      }
    }
  },
  failing: baitApplication(
    '2026-03-12',
    'follow-up: {by: 2026-03-18, look: K1} # expect: effect-not-looked-at',
  ),
  passing: `${baitApplication('2026-03-12', 'follow-up: {by: 2026-03-18, look: K1}')}
=== sites/oak/visits/2026-03-18-okafor.yaml
purpose: follow-up
by: okafor
readings: {none: [K1]}
`,
})

interface Term {
  /** Last day in time. */
  readonly last: Day
  readonly at: Place
  readonly level: Level
  readonly sources: readonly Citation[]
}

/** As the record plans it; where it plans nothing that lies ahead of it, as the rulebooks have it. */
function termOf(view: SiteView, { application, day, at }: Applied): Term | undefined {
  const by = application['follow-up']?.by
  if (by !== undefined && dayIn(by) > day)
    return { last: dayIn(by), at: at('follow-up'), level: 'warning', sources: [commonPractice] }
  const advice = view.district.parameters(parameter, day)
  const days = advice && daysOf(advice.value)
  if (!advice || typeof days !== 'number') return undefined
  return {
    last: day + days,
    at: at('areas'),
    level: levelFrom(advice.sources, 'warning'),
    sources: advice.sources,
  }
}

/** First day on which none of the treated areas is part of the site; there is nothing left to look at. */
function lastAreaGone({ areas }: Applied): Day | undefined {
  const last = areas.map(({ area }) => area?.until)
  return last.every((day) => day !== undefined) ? Math.max(...last) + 1 : undefined
}
