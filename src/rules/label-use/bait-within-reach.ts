import type { DeviceHistory } from '../../ledger/device-history.js'
import { labelInForce } from '../../ledger/labels.js'
import type { SiteView } from '../../ledger/site-view.js'
import type { Treatment } from '../../ledger/treatments.js'
import { isPesticide } from '../../ledger/treatments.js'
import type { Level } from '../../types.js'
import { labelIsLaw } from '../label-is-law.js'
import type { Placement } from '../placement/placements.js'
import { placementsOf } from '../placement/placements.js'
import type { Finding } from '../rule.js'
import { siteRule } from '../rule.js'
import { labelledTreatments, productName, restsOn } from './labelled-treatments.js'

type ReachArgs = {
  readonly product: string
  readonly what: string
  readonly area: string
  readonly resists: 'no' | 'not recorded' | 'no station'
}

export const baitWithinReach = siteRule<ReachArgs>({
  id: 'bait-within-reach',
  title: 'bait lies within reach of children against its label',
  level: 'error',
  judgedOn:
    'the day of the application, or the days the device stood so; the label in force when it was baited',
  why: 'Children put into their mouths what they find. A label that keeps bait out of their reach was passed on that condition.',
  remedy:
    'Take it away or close the place off now, then put it where children cannot reach, or into a station that keeps them from the bait, and record it: `moved: {B1: {within-reach: no}}`, or `tamper-resistant: yes` where the station was set.',
  source: labelIsLaw,
  actor: 'technician',
  gap: false,
  says: ({ product, what, area, resists }) =>
    `The label has ${product} out of reach of children or in a tamper-resistant station; ${what} in \`${area}\` is recorded as within reach${
      resists === 'no station'
        ? ''
        : resists === 'no'
          ? ', in a station that is not tamper-resistant'
          : ', and the record does not show whether the station is tamper-resistant'
    }.`,
  *check(view) {
    yield* applications(view)
    yield* devices(view)
  },
  failing: `
=== products/bait-a/product.yaml
name: Invented Bait A
kind: pesticide
registration: 99999-1
states: {OR: [{from: 2025-01-01}]}
active-ingredients: {boric-acid: {strength: 5 %}}
formulation: gel
signal-word: caution
restricted-use: no
labels:
  - {from: 2026-01-05, file: label.txt, says: {places: [indoors], pest-groups: [cockroach, ant], methods: [crack-and-crevice, in-a-station], rates: {all: {at-most: 1 g, per: placement}}, out-of-reach: yes}}
sds: [{from: 2026-01-05, file: sds.txt}]
=== sites/oak/visits/2026-03-10-okafor.yaml
purpose: set-up
by: okafor
set:
  B1: {kind: bait-station, area: kitchen, for: [german-cockroach], within-reach: no, product: bait-a, bait-added: 1 g}
  B2: {kind: bait-station, area: room-1, for: [german-cockroach], within-reach: yes, tamper-resistant: no, product: bait-a, bait-added: 1 g} # expect: bait-within-reach
`,
  passing: `
=== products/bait-a/product.yaml
name: Invented Bait A
kind: pesticide
registration: 99999-1
states: {OR: [{from: 2025-01-01}]}
active-ingredients: {boric-acid: {strength: 5 %}}
formulation: gel
signal-word: caution
restricted-use: no
labels:
  - {from: 2026-01-05, file: label.txt, says: {places: [indoors], pest-groups: [cockroach, ant], methods: [crack-and-crevice, in-a-station], rates: {all: {at-most: 1 g, per: placement}}, out-of-reach: yes}}
sds: [{from: 2026-01-05, file: sds.txt}]
=== sites/oak/visits/2026-03-10-okafor.yaml
purpose: set-up
by: okafor
set:
  B1: {kind: bait-station, area: kitchen, for: [german-cockroach], within-reach: no, product: bait-a, bait-added: 1 g}
  B2: {kind: bait-station, area: room-1, for: [german-cockroach], within-reach: yes, tamper-resistant: yes, product: bait-a, bait-added: 1 g}
`,
})

function* applications(view: SiteView): Iterable<Finding<ReachArgs>> {
  for (const { treatment, label } of labelledTreatments(view)) {
    if (!treatment.application || label.says['out-of-reach'] !== 'yes') continue
    for (const { area, resists } of withinReachIn(treatment)) {
      yield {
        args: { product: productName(treatment), what: 'what was put out', area, resists },
        at: treatment.at('areas', area, 'within-reach'),
        from: treatment.day,
        identity: [area],
        ...levelled(treatment, resists),
      }
    }
  }
}

/** Areas in which an application put something within reach, not in a station that is shown to keep children out. */
export function withinReachIn({ application, method, formulation }: Treatment): {
  readonly area: string
  readonly resists: ReachArgs['resists']
}[] {
  const inStation = method === 'in-a-station' || formulation === 'bait-station'
  return Object.entries(application?.areas ?? {}).flatMap(([area, facts]) => {
    const resists = inStation ? (facts['tamper-resistant'] ?? 'not recorded') : 'no station'
    return facts['within-reach'] !== 'yes' || resists === 'yes' ? [] : [{ area, resists }]
  })
}

/** How far what a device is keeps children from the bait in it. */
export function resistanceOf({ kind, setFacts }: DeviceHistory): 'yes' | ReachArgs['resists'] {
  const isStation = kind === 'bait-station' || kind === 'termite-station'
  return isStation ? (setFacts['tamper-resistant'] ?? 'not recorded') : 'no station'
}

function* devices(view: SiteView): Iterable<Finding<ReachArgs>> {
  for (const placement of placementsOf(view)) {
    const { device, stand, facts } = placement
    if (facts['within-reach'] !== 'yes') continue
    const resists = resistanceOf(device)
    const bait = resists === 'yes' ? undefined : baitIn(view, placement)
    if (!bait || resists === 'yes') continue
    yield {
      args: { product: productName(bait), what: device.id, area: stand.area, resists },
      at: { file: stand.from.visit.file, path: [...stand.from.path, 'within-reach'] },
      from: Math.max(placement.from, bait.day),
      ...(placement.until === undefined ? {} : { until: placement.until }),
      identity: [device.id],
      ...levelled(bait, resists),
    }
  }
}

/** Bait in a device as it stood that its label keeps out of reach: what was in it when it came there, or was put in then. */
function baitIn(view: SiteView, { device, from, until }: Placement): Treatment | undefined {
  const fillings = view.treatments.filter((treatment) => treatment.device === device)
  const first = fillings.findLast(({ day }) => day <= from)
  const later = fillings.filter(({ day }) => day > from && (until === undefined || day < until))
  return [...(first ? [first] : []), ...later].find(
    (filling) => isPesticide(filling) && labelInForce(filling)?.says['out-of-reach'] === 'yes',
  )
}

/** A station that may be one that children cannot open is not certain to break the label. */
function levelled(treatment: Treatment, resists: ReachArgs['resists']) {
  const rests = restsOn(treatment)
  return resists === 'not recorded' ? { ...rests, level: 'warning' satisfies Level as Level } : rests
}
