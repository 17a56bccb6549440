import { groupOf, isInspectedIn, isNamedAtSite, treatedAreas } from '../../ledger/grounds-for-treatment.js'
import type { SiteView } from '../../ledger/site-view.js'
import { isoOf } from '../../measure/calendar.js'
import { pestTable } from '../../records/tables.js'
import type { Citation, Place } from '../../types.js'
import { baitApplication } from '../example-applications.js'
import type { Applied } from '../reentry/applications.js'
import { commonPractice, siteRule } from '../rule.js'
import { applicationsToJustify, daysBefore, isKnownPest } from './applications-to-justify.js'

const parameter = 'evidence.days'

/** A warning although only custom asks: a pesticide among children is no place to guess. */
export const pestNotIdentified = siteRule<{
  pests: readonly string[]
  isUnidentified: boolean
  /** Some of them are such that an inspection of the treated areas would show who saw them. */
  grows: boolean
  since: string
  until: string
}>({
  id: 'pest-not-identified',
  title: 'a pesticide was applied, and nothing shows who identified the pest',
  level: 'warning',
  judgedOn: 'the day of the application',
  why: 'Which product and which place work depends on which animal it is; against the wrong one a pesticide is put among children for nothing.',
  remedy:
    'Write who identified it and how: `identified: {by: okafor, how: nymphs on K3 under a hand lens}`. A sighting of the pest on a visit, or a reading that counts it, shows the same; if nobody knows what it was, say so in the notes and send a specimen next time before anything is applied.',
  source: commonPractice,
  actor: 'technician',
  gap: true,
  parameters: [parameter],
  says: ({ pests, isUnidentified, grows, since, until }) =>
    isUnidentified
      ? 'The target of this application is a pest that was not identified.'
      : `The record does not show who identified ${pests.join(', ')}: neither this application nor a sighting, ${grows ? 'an inspection of the treated areas, ' : ''}a reading or a specimen of this site from ${since} to ${until} does.`,
  *check(view) {
    for (const applied of applicationsToJustify(view)) {
      const found = notShown(view, applied)
      const [first] = found?.pests ?? []
      if (!found || first === undefined) continue
      yield {
        args: {
          pests: found.pests.map((pest) => pestTable().get(pest)?.name ?? pest),
          isUnidentified: found.isUnidentified,
          grows: found.pests.some(growsInPlace),
          since: found.since,
          until: isoOf(applied.day),
        },
        at: placeOf(applied, first),
        from: applied.day,
        sources: found.sources,
      }
    }
  },
  failing: baitApplication(
    '2026-03-12',
    'pest: german-cockroach # expect: pest-not-identified',
    'identified:',
  ),
  passing: `
=== sites/oak/visits/2026-03-10-okafor.yaml
purpose: follow-up
by: okafor
found:
  behind-range: {pest: german-cockroach, area: kitchen, evidence: live, stage: nymphs, count: 2}
${baitApplication('2026-03-12', 'identified:')}`,
})

interface NotShown {
  readonly pests: readonly string[]
  readonly isUnidentified: boolean
  /** First day that was looked back to; empty where that does not matter. */
  readonly since: string
  readonly sources: readonly Citation[]
}

function notShown(view: SiteView, applied: Applied): NotShown | undefined {
  const { pests, application } = applied
  const unknown = pests.filter((pest) => groupOf(pest) === 'unidentified')
  if (unknown.length > 0)
    return { pests: unknown, isUnidentified: true, since: '', sources: [commonPractice] }
  const back = application.identified ? undefined : daysBefore(view, applied, parameter)
  if (!back) return undefined
  const { days, sources } = back
  const inspected = isInspectedIn(view, treatedAreas(applied), days)
  const missing = pests.filter(
    (pest) =>
      isKnownPest(view, pest) && !isNamedAtSite(view, pest, days) && !(inspected && growsInPlace(pest)),
  )
  return { pests: missing, isUnidentified: false, since: isoOf(days.first), sources }
}

/** Weeds, and what lives on plants, walk into no trap: whoever inspected the place saw them. */
function growsInPlace(pest: string): boolean {
  return ['weed', 'plant'].includes(groupOf(pest) ?? '')
}

function placeOf({ application, at }: Applied, pest: string): Place {
  const other = application['also-against']?.indexOf(pest) ?? -1
  return pest === application.pest || other < 0 ? at('pest') : at('also-against', other)
}
