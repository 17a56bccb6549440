import { placeOnLabel } from '../../ledger/labels.js'
import { liesOutdoors } from '../../records/area-kinds.js'
import { labelIsLaw } from '../label-is-law.js'
import { siteRule } from '../rule.js'
import { firstUses, productName, restsOn } from './labelled-treatments.js'

export const placeNotOnLabel = siteRule<{
  product: string
  area: string
  kind: string
  places: string
  forbidden: boolean
}>({
  id: 'place-not-on-label',
  title: 'a product was used in a place that its label does not name',
  level: 'error',
  judgedOn: 'the day of the use; the label in force then',
  why: 'A label is written for places that were tested and judged; elsewhere no one knows what reaches food, skin or lungs, and the law takes the label as it stands.',
  remedy:
    'Hold the record against the printed label. If the data leave a place out, complete `places` in product.yaml; if the label does leave it out, use no more of it there, and ask the coordinator and the maker what the place needs now.',
  source: labelIsLaw,
  actor: 'technician',
  gap: false,
  says: ({ product, area, kind, places, forbidden }) =>
    forbidden
      ? `The label of ${product} excludes places of kind ${kind}; the record shows it used in \`${area}\`.`
      : `The label of ${product} names ${places}; the record shows it used in \`${area}\` (${kind}).`,
  *check(view) {
    for (const { treatment, label } of firstUses(view)) {
      for (const { id, area } of treatment.areas) {
        if (!area) continue
        const { kind } = area.facts
        const on = placeOnLabel(label.says, kind)
        if (on !== 'not named' && on !== 'forbidden') continue
        const forbidden = on === 'forbidden'
        yield {
          args: {
            product: productName(treatment),
            area: id,
            kind: kindInWords(kind),
            places: (label.says.places ?? []).join(', '),
            forbidden,
          },
          at: treatment.application ? { ...treatment.at('areas', id), onKey: true } : treatment.at('product'),
          related: [
            {
              place: label.at(forbidden ? 'not-in' : 'places'),
              says: 'the places, as the register tells them',
            },
          ],
          from: treatment.day,
          identity: [id],
          ...restsOn(treatment),
        }
      }
    }
  },
  failing: `
=== sites/oak/site.yaml
name: Oak School
address: 2 Example Lane
site-manager: [{from: 2026-03-01, who: lind}]
complaint-log: front office
contract: [{from: 2026-03-01, contractor: Invented Pest Services, firm: invented-pest-services, routine-visits: monthly, grace: 5 days, checks: {sticky-trap: monthly}}]
areas:
  kitchen: {kind: kitchen}
  room-1: {kind: classroom, children: yes}
  yard: {kind: playground, children: yes}
=== sites/oak/visits/2026-03-05-okafor.yaml
purpose: routine
by: okafor
time: 06:10 to 06:50
site-manager: lind
complaint-log: read
inspected: [kitchen, room-1, yard]
=== sites/oak/visits/2026-03-20-okafor.yaml
purpose: set-up
by: okafor
set:
  B1: {kind: bait-station, area: yard, for: [pavement-ant], within-reach: no, product: bait-a, bait-added: 1 g} # expect: place-not-on-label
`,
  passing: `
=== sites/oak/visits/2026-03-20-okafor.yaml
purpose: set-up
by: okafor
set:
  B1: {kind: bait-station, area: kitchen, for: [pavement-ant], within-reach: no, product: bait-a, bait-added: 1 g}
`,
})

function kindInWords(kind: Parameters<typeof liesOutdoors>[0]): string {
  const outdoors = liesOutdoors(kind)
  return outdoors === undefined || kind === 'outdoors'
    ? kind
    : `${kind}, ${outdoors ? 'outdoors' : 'indoors'}`
}
