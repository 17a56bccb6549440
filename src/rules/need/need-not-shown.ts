import { isSeenIn, treatedAreas } from '../../ledger/grounds-for-treatment.js'
import { isoOf } from '../../measure/calendar.js'
import { pestTable } from '../../records/tables.js'
import { baitApplication } from '../example-applications.js'
import { recordAsksFor } from '../reentry/applications.js'
import { commonPractice, siteRule } from '../rule.js'
import { applicationsToJustify, daysBefore, isKnownPest } from './applications-to-justify.js'

const parameter = 'evidence.days'

/** A warning although only custom asks, as in `pest-not-identified`. */
export const needNotShown = siteRule<{
  pests: readonly string[]
  areas: readonly string[]
  since: string
  until: string
}>({
  id: 'need-not-shown',
  title: 'a pesticide was applied, and nothing shows that it was needed',
  level: 'warning',
  judgedOn: 'the day of the application',
  why: 'Where no pest is shown, a pesticide brings its risk and nothing else; this is how a programme slides back into spraying by the calendar.',
  remedy:
    'Write why it was needed: `reason: second catch of nymphs after cleaning`, or what reached the threshold: `threshold: 2 nymphs on K1 on 2026-03-11`. A sighting or a count in a treated area shows it by itself.',
  source: commonPractice,
  actor: 'technician',
  gap: true,
  parameters: [parameter],
  says: ({ pests, areas, since, until }) =>
    `The record does not show why this application was needed: it gives no reason and no count, and none of the visits from ${since} to ${until} shows ${pests.join(' or ')} in ${areas.map((area) => `\`${area}\``).join(', ')}.`,
  *check(view) {
    for (const applied of applicationsToJustify(view)) {
      const { threshold, reason, emergency } = applied.application
      // The statement of an emergency says what the problem was.
      if (threshold !== undefined || reason !== undefined || emergency) continue
      const back = daysBefore(view, applied, parameter)
      // Where a rulebook asks every record for the reason, its absence is told as a record that is not complete.
      if (!back || recordAsksFor(view, applied, 'reason')) continue
      const areas = treatedAreas(applied)
      if (!applied.pests.every((pest) => isKnownPest(view, pest))) continue
      if (applied.pests.some((pest) => isSeenIn(view, pest, areas, back.days))) continue
      yield {
        args: {
          pests: applied.pests.map((pest) => pestTable().get(pest)?.name ?? pest),
          areas: [...areas],
          since: isoOf(back.days.first),
          until: isoOf(back.days.last),
        },
        at: applied.at('product'),
        from: applied.day,
        sources: back.sources,
      }
    }
  },
  failing: baitApplication('2026-03-12', 'product: bait-a # expect: need-not-shown', 'threshold:', 'reason:'),
  passing: `
=== sites/oak/visits/2026-03-10-okafor.yaml
purpose: follow-up
by: okafor
readings: {K1: {german-cockroach: {nymphs: 2}, renewed: yes}}
${baitApplication('2026-03-12', 'threshold:', 'reason:')}`,
})
