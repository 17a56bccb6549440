import type { SiteView } from '../../ledger/site-view.js'
import type { Treatment } from '../../ledger/treatments.js'
import { compareFractions } from '../../measure/fractions.js'
import type { Quantity } from '../../measure/quantities.js'
import { exactly, parseQuantity } from '../../measure/quantities.js'
import { inUnitOf, shown, sumAs, sumsOf } from '../../measure/rates.js'
import type { Method } from '../../records/use-words.js'
import type { Day, Place } from '../../types.js'
import { sprayApplication } from '../example-applications.js'
import { sprayLabel } from '../label-use/example-ledgers.js'
import { ledgerFormat, siteRule } from '../rule.js'

/** Ways of applying that cover floor or ground. Cracks, walls and air have no end where the floor has. */
const onGround: ReadonlySet<Method> = new Set(['broadcast', 'spot', 'drench'])

export const treatedMoreThanArea = siteRule<{ areas: readonly string[]; treated: string; extent: string }>({
  id: 'treated-more-than-area',
  title: 'more was treated than the area is large',
  level: 'warning',
  judgedOn: 'the day of the application, by the extent of the area in site.yaml',
  why: 'Either the area is larger than the ledger has it or less was treated; until that is known no rate can be held against the label.',
  remedy:
    'Measure the area and correct `extent` in site.yaml, or correct the extent in the application. Where walls or ceilings were treated too, say so under `where`, and name the method for what it was.',
  source: ledgerFormat,
  actor: 'technician',
  gap: false,
  says: ({ areas, treated, extent }) =>
    `${treated} is recorded as treated in ${areas.map((area) => `\`${area}\``).join(', ')}, which ${areas.length === 1 ? 'measures' : 'measure'} ${extent} by site.yaml.`,
  *check(view) {
    for (const { areas, treated, extent, at, day } of tooMuch(view))
      yield { args: { areas, treated, extent }, at, from: day, identity: areas }
  },
  failing: `${smallKitchen('2 m2')}${sprayLabel('')}${sprayApplication(
    '2026-03-12',
    'areas: {kitchen: {amount: 0.3 fl oz, extent: 24 ft2, placements: 6, where: corners behind the range}} # expect: treated-more-than-area',
    'amount: 0.3 fl oz',
    'treated-extent: 24 ft2',
  )}`,
  passing: `${smallKitchen('24 ft2')}${sprayLabel('')}${sprayApplication(
    '2026-03-12',
    'areas: {kitchen: {amount: 0.3 fl oz, extent: 24 ft2, placements: 6, where: corners behind the range}}',
    'amount: 0.3 fl oz',
    'treated-extent: 24 ft2',
  )}`,
})

/** The site of the base, with the floor of its kitchen measured. */
function smallKitchen(extent: string): string {
  return `
=== sites/oak/site.yaml
name: Oak School
address: 2 Example Lane
site-manager: [{from: 2026-03-01, who: lind}]
complaint-log: front office
contract: [{from: 2026-03-01, contractor: Invented Pest Services, firm: invented-pest-services, routine-visits: monthly, grace: 5 days, checks: {sticky-trap: monthly}}]
areas:
  kitchen: {kind: kitchen, extent: ${extent}}
  room-1: {kind: classroom, children: yes}
`
}

interface TooMuch {
  readonly areas: readonly string[]
  readonly treated: string
  readonly extent: string
  readonly at: Place
  readonly day: Day
}

function* tooMuch(view: SiteView): Iterable<TooMuch> {
  for (const treatment of view.treatments) {
    const { application, day, at } = treatment
    if (!application || day < view.begins || !onGround.has(treatment.method)) continue
    for (const { areas, treated, place } of partsOf(treatment)) {
      const extents = areas.flatMap((id) => parseQuantity(view.areas.get(id)?.facts.extent ?? '') ?? [])
      const amount = parseQuantity(treated)
      if (!amount || extents.length < areas.length || !isMore(amount, extents)) continue
      const [first] = extents
      const extent = first && shown(inUnitOf(sumAs(sumsOf(extents), first).size, first))
      if (extent) yield { areas, treated, extent, at: at(...place), day }
    }
  }
}

/** Area by area where each tells its extent; else all of them together. */
function partsOf({ application }: Treatment) {
  const areas = Object.entries(application?.areas ?? {})
  const whole = application?.['treated-extent']
  const parts = areas.flatMap(([id, { extent }]) =>
    extent === undefined ? [] : [{ areas: [id], treated: extent, place: ['areas', id, 'extent'] }],
  )
  if (whole === undefined || parts.length === areas.length) return parts
  return [...parts, { areas: areas.map(([id]) => id), treated: whole, place: ['treated-extent'] }]
}

function isMore(treated: Quantity, extents: readonly Quantity[]): boolean {
  const size = exactly(treated)
  const together = sumAs(sumsOf(extents), treated)
  return size !== null && !together.leftOut && compareFractions(size, together.size) > 0
}
