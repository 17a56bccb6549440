import type { Area, SiteView } from '../../ledger/site-view.js'
import { dutiesFor } from '../../ledger/use-classes.js'
import type { AreaKind } from '../../records/area-kinds.js'
import type { Formulation } from '../../records/use-words.js'
import { concentrates } from '../../records/use-words.js'
import type { Applied } from '../reentry/applications.js'
import { labelOnDay } from '../reentry/label-on-day.js'
import { commonPractice, siteRule } from '../rule.js'
import { onTheField } from './example-ledgers.js'
import { spreadOutdoors } from './outdoor-applications.js'

/** What leaves the ground wet, or lies on it until it is watered in; a formulation that is not known may. */
const leavesGroundWet: ReadonlySet<Formulation | undefined> = new Set([
  ...concentrates,
  'ready-to-use-liquid',
  'granule',
  'other',
  undefined,
] as const)
const ground: ReadonlySet<AreaKind> = new Set(['turf', 'playground', 'planting', 'outdoors'])

export const wetGroundNotClosed = siteRule<{ areas: readonly string[] }>({
  id: 'wet-ground-not-closed',
  title: 'ground where children play was treated, and nothing shows that they were kept off',
  level: 'warning',
  judgedOn: 'the day of the application',
  why: 'Children sit on the ground, and their hands go into their mouths; a fence, or flags and someone watching, keep them off until it is dry.',
  remedy:
    'Fence or flag the place until it is dry, as the label says or longer, and write it down: `kept-out: {how: fence, until: dry}`, and who saw it dry: `dry: {at: 17:50, by: okafor}`.',
  source: commonPractice,
  actor: 'technician',
  gap: true,
  says: ({ areas }) =>
    `Children use ${areas.map((area) => `\`${area}\``).join(', ')}; the record shows neither what kept people out after this application nor who saw it dry.`,
  *check(view) {
    for (const applied of spreadOutdoors(view)) {
      const { 'kept-out': keptOut, dry } = applied.application
      if (keptOut || dry || !leavesGroundWet.has(applied.formulation) || isDryAsked(view, applied)) continue
      const areas = applied.areas.filter(({ area }) => area && isPlayedOn(area)).map(({ id }) => id)
      const [first] = areas
      if (first === undefined) continue
      yield {
        args: { areas },
        at: { ...applied.at('areas', first), onKey: true },
        from: applied.day,
      }
    }
  },
  failing: onTheField(
    'areas: {field: {amount: 0.04 fl oz, extent: 3 ft2, placements: 1, where: by the goal}} # expect: wet-ground-not-closed',
    'kept-out:',
    'dry:',
  ),
  passing: onTheField('dry:'),
})

/** Unless the site says otherwise, children are on playgrounds and turf, and elsewhere where it says so. */
function isPlayedOn({ facts: { kind, children } }: Area): boolean {
  if (children !== undefined) return children === 'yes' && ground.has(kind)
  return kind === 'playground' || kind === 'turf'
}

/** Where the label or a rulebook has people wait until it is dry, the rules of re-entry tell that nobody saw it so. */
function isDryAsked(view: SiteView, applied: Applied): boolean {
  return (
    labelOnDay(applied)['keep-out-until-dry'] === 'yes' ||
    dutiesFor(view, 'reentry', applied).some(({ says }) => says.dry === 'yes')
  )
}
