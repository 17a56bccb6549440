import { groupOf, isStepShown } from '../../ledger/grounds-for-treatment.js'
import { isoOf } from '../../measure/calendar.js'
import { baitApplication } from '../example-applications.js'
import type { Applied } from '../reentry/applications.js'
import { commonPractice, siteRule } from '../rule.js'
import { applicationsToJustify, daysBefore } from './applications-to-justify.js'

const parameter = 'tried-first.days'

/** A warning although only custom asks, as in `pest-not-identified`. */
export const nothingTriedFirst = siteRule<{
  areas: readonly string[]
  since: string
  until: string
}>({
  id: 'nothing-tried-first',
  title: 'nothing without a pesticide is shown before one was applied',
  level: 'warning',
  judgedOn: 'the day of the application',
  why: 'Food, water and a way in bring pests back whatever is applied; a pesticide comes after cleaning, closing and trapping, or beside them.',
  remedy:
    'Write what was tried: `tried-first: vacuumed, leak mended`; or that you looked for something to correct and there was nothing: `nothing-to-correct: yes`. An action, a repair or a condition reported in a treated area shows it by itself.',
  source: commonPractice,
  actor: 'technician',
  gap: true,
  parameters: [parameter],
  says: ({ areas, since, until }) =>
    `The records from ${since} to ${until} show nothing done without a pesticide in ${areas.map((area) => `\`${area}\``).join(', ')} before this application, and no fault looked for or reported there.`,
  *check(view) {
    for (const applied of applicationsToJustify(view)) {
      const { 'tried-first': tried, 'nothing-to-correct': nothing } = applied.application
      if (tried !== undefined || nothing !== undefined || isStingingEmergency(applied)) continue
      const back = daysBefore(view, applied, parameter)
      if (!back || isStepShown(view, applied, back.days)) continue
      yield {
        args: {
          areas: applied.areas.map(({ id }) => id),
          since: isoOf(back.days.first),
          until: isoOf(back.days.last),
        },
        at: applied.at('product'),
        from: applied.day,
        sources: back.sources,
      }
    }
  },
  failing: baitApplication('2026-03-12', 'product: bait-a # expect: nothing-tried-first', 'tried-first:'),
  passing: `
=== sites/oak/visits/2026-03-10-okafor.yaml
purpose: follow-up
by: okafor
actions:
  vacuumed: {did: vacuumed below and behind the range, tactic: vacuuming, why: corrective, area: kitchen}
${baitApplication('2026-03-12', 'tried-first:')}`,
})

/** Insects that sting leave no time to try something milder first. */
function isStingingEmergency({ application, pests }: Applied): boolean {
  return application.emergency !== undefined && pests.every((pest) => groupOf(pest) === 'stinging')
}
