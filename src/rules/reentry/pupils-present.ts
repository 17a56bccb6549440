import { timesOf } from '../../ledger/instants.js'
import type { Duty } from '../../ledger/rulebooks-in-force.js'
import type { SiteView } from '../../ledger/site-view.js'
import { dutiesFor } from '../../ledger/use-classes.js'
import type { DutyOf } from '../../records/rulebook-duties.js'
import type { Citation } from '../../types.js'
import { levelOfDuty } from '../adopted.js'
import { labelIsLaw } from '../label-is-law.js'
import type { Outcome } from '../notices/outcome.js'
import type { Finding } from '../rule.js'
import { siteRule } from '../rule.js'
import type { Applied } from './applications.js'
import { appliedPesticides, besideTheHours, levelOfNotShown, recordAsksFor } from './applications.js'
import { spray, underOwnRulebook } from './example-ledgers.js'
import { expectedHours } from './expected-hours.js'
import { labelOnDay } from './label-on-day.js'

type PresentArgs = {
  readonly pupils: 'in the area' | 'elsewhere in the building' | 'not recorded'
  /** No pupils may be elsewhere in the building either, unless the part is separated. */
  readonly separable: boolean
}

export const pupilsPresent = siteRule<PresentArgs>({
  id: 'pupils-present',
  title: 'pupils were, or may have been, where a pesticide was applied',
  level: 'error',
  judgedOn: 'the day of the application',
  why: 'A child breathes and touches more for its weight than the adult who applies; being elsewhere is what protects it.',
  remedy:
    'Apply while no pupils are there. If the record is wrong, mend it: `pupils: none in the building`, or `separated: yes` where the treated part had its own ventilation and was behind smoke or fire doors.',
  source: { kind: 'program', text: 'the section `occupancy` of the rulebooks in force, and the label' },
  actor: 'technician',
  gap: false,
  says: ({ pupils, separable }) => {
    if (pupils === 'not recorded')
      return 'The record does not show where pupils were during this application, which was made when they are expected in the building.'
    const where = `The record shows pupils ${pupils} during this application`
    return separable ? `${where}, and does not show that the treated part was separated.` : `${where}.`
  },
  *check(view) {
    for (const applied of appliedPesticides(view)) {
      const found = judge(view, applied)
      if (found) yield found
    }
  },
  failing: `${underOwnRulebook(`
occupancy:
  pupils-away:
    - {from: 2026-03-01, pupils: none in the building, unless-separated: yes, source: "Invented Pest Act, section 9", kind: law, confidence: read}
`)}${spray(`
pupils: elsewhere in the building # expect: pupils-present
dry: {at: 17:50, by: okafor}
reopened: {at: 18:10, by: lind}
`)}`,
  passing: `${underOwnRulebook(`
occupancy:
  pupils-away:
    - {from: 2026-03-01, pupils: none in the building, unless-separated: yes, source: "Invented Pest Act, section 9", kind: law, confidence: read}
`)}${spray(`
pupils: elsewhere in the building
separated: yes
dry: {at: 17:50, by: okafor}
reopened: {at: 18:10, by: lind}
`)}`,
})

function judge(view: SiteView, applied: Applied): Finding<PresentArgs> | undefined {
  const { pupils, separated } = applied.application
  const duties = dutiesFor(view, 'occupancy', applied)
  if (pupils === undefined) return notRecorded(view, applied, duties)
  const broken = duties.filter(({ says }) => isBroken(says, pupils, separated))
  const sources: Citation[] = broken.map(({ citation }) => citation)
  if (pupils === 'in the area' && labelOnDay(applied)['with-people-present'] === 'no')
    sources.push(labelIsLaw)
  if (sources.length === 0 || pupils === 'none in the building') return undefined
  const separable =
    pupils === 'elsewhere in the building' && broken.every(({ says }) => says['unless-separated'] === 'yes')
  return {
    args: { pupils, separable },
    at: applied.at('pupils'),
    from: applied.day,
    sources,
    level: levelOfDuty(sources),
  }
}

/** Not recorded, it matters where a duty holds and pupils can have been there: outside their hours it is clear. */
function notRecorded(
  view: SiteView,
  applied: Applied,
  duties: readonly Duty<'occupancy'>[],
): Finding<PresentArgs> | undefined {
  if (duties.length === 0 || recordAsksFor(view, applied, 'pupils')) return undefined
  if (isOutsideTheirHours(view, applied)) return undefined
  const sources = duties.map(({ citation }) => citation)
  return {
    args: { pupils: 'not recorded', separable: false },
    at: besideTheHours(applied),
    from: applied.day,
    sources,
    level: levelOfNotShown(sources),
  }
}

function isBroken(
  says: DutyOf<'occupancy'>,
  pupils: NonNullable<Applied['application']['pupils']>,
  separated: 'yes' | undefined,
): boolean {
  if (pupils === 'in the area') return true
  if (pupils === 'none in the building' || says.pupils !== 'none in the building') return false
  return says['unless-separated'] === undefined || separated === undefined
}

/** Whether no pupils are expected at any minute of an application, as far as its hours and theirs are stated. */
export function isOutsideTheirHours(view: SiteView, applied: Applied): boolean {
  const expected = expectedHours(view, applied.day)
  const { start, end } = timesOf(view.district, applied)
  return !expected || end.latest <= expected.start.earliest || expected.end.latest <= start.earliest
}

/** What the record shows of one duty that keeps pupils away. */
export function keptAway(view: SiteView, applied: Applied, says: DutyOf<'occupancy'>): Outcome {
  const { pupils, separated } = applied.application
  if (pupils === undefined) return isOutsideTheirHours(view, applied) ? 'shown' : 'not recorded'
  return isBroken(says, pupils, separated) ? 'not shown' : 'shown'
}
