import { baitApplication } from '../../src/rules/example-applications.js'

/**
 * Two schools in their first month, laid over the ledger of the rules' examples, with nothing wrong on 2026-03-20. Every
 * dated list has one span a line, as people lay out what they add to: then two who add to two lists of one record do not
 * touch the same lines.
 */
export const mergeBase = `
=== district.yaml
format: 1
name: Example District
state: OR
address: 1 Example Square
time-zone: America/Los_Angeles
records-begin: 2026-03-01
coordinator:
  - {from: 2026-03-01, who: marsh}
rulebooks:
  - {from: 2026-03-01, rulebook: practice}
  - {from: 2026-03-01, rulebook: us-federal}
calendar:
  - {from: 2025-09-02, until: 2026-06-12}
=== people/okafor.yaml
name: Ada Okafor
roles: [technician, applicator]
firm: invented-pest-services
licences:
  or-applicator:
    number: XX-1
    state: OR
    kind: commercial applicator
    categories: [structural]
    spans:
      - {from: 2025-01-01, until: 2026-12-31}
training:
  kitchens-2026: {on: 2026-01-14, topic: Inspecting school kitchens, hours: 2}
notes: mornings only
=== people/moreno.yaml
name: Eli Moreno
roles: [technician, applicator]
firm: invented-pest-services
licences:
  or-applicator:
    number: XX-2
    state: OR
    kind: commercial applicator
    categories: [structural]
    spans:
      - {from: 2025-01-01, until: 2026-12-31}
training:
  kitchens-2026: {on: 2026-01-14, topic: Inspecting school kitchens, hours: 2}
=== people/reyes.yaml
name: Sol Reyes
roles: [custodian, clerk]
=== firms/invented-pest-services.yaml
name: Invented Pest Services
address: 4 Invented Road
phone: 555-0100
licences:
  or-operator:
    number: XX-7
    state: OR
    kind: operator
    categories: [structural]
    spans:
      - {from: 2025-01-01, until: 2026-12-31}
=== plans/german-cockroach.yaml
spans:
  - from: 2026-03-01
    act-on-one: [kitchen]
    thresholds: {elsewhere: {act-at: 1, per: room}}
    tactics: {clean: {do: clean and dry}, trap: {do: find the source with traps}}
=== products/bait-a/product.yaml
name: Invented Bait A
kind: pesticide
registration: 99999-1
states:
  OR:
    - {from: 2025-01-01}
active-ingredients: {boric-acid: {strength: 5 %}}
formulation: gel
signal-word: caution
restricted-use: no
labels:
  - from: 2026-01-05
    file: label.txt
    says:
      places: [indoors]
      pest-groups: [cockroach, ant]
      methods: [crack-and-crevice, void, bait-placement, in-a-station]
      rates: {placements: {at-most: 1 g, per: placement, methods: [crack-and-crevice, void, bait-placement]}}
sds:
  - {from: 2026-01-05, file: sds.txt}
notes: kept at the district office
=== sites/oak/site.yaml
name: Oak School
address: 2 Example Lane
site-manager:
  - {from: 2026-03-01, who: lind}
complaint-log: front office
contract:
  - {from: 2026-03-01, contractor: Invented Pest Services, firm: invented-pest-services, routine-visits: monthly, grace: 5 days, checks: {sticky-trap: monthly}}
areas:
  kitchen: {kind: kitchen}
  room-1: {kind: classroom, children: yes}
=== sites/elm/site.yaml
name: Elm School
address: 3 Example Lane
site-manager:
  - {from: 2026-03-01, who: lind}
complaint-log: front office
contract:
  - {from: 2026-03-01, contractor: Invented Pest Services, firm: invented-pest-services, routine-visits: monthly, grace: 5 days, checks: {sticky-trap: monthly}}
areas:
  hall: {kind: public}
  store: {kind: storage}
=== sites/oak/visits/2026-03-05-okafor.yaml
purpose: routine
by: okafor
time: 06:10 to 06:50
site-manager: lind
complaint-log: read
inspected: [kitchen, room-1]
set:
  K1: {kind: sticky-trap, area: kitchen, within-reach: no}
  K2: {kind: sticky-trap, area: kitchen, within-reach: no}
  R1: {kind: sticky-trap, area: room-1, within-reach: no}
  R2: {kind: sticky-trap, area: room-1, within-reach: no}
conditions:
  sink-drip: {new: drip under the prep sink, area: kitchen, kind: moisture, gives: water, owner: maintenance, by: 2026-04-20}
  door-gap: {new: gap under the door, area: room-1, kind: structural, gives: harborage, owner: maintenance, by: 2026-04-20}
=== sites/elm/visits/2026-03-05-okafor.yaml
purpose: routine
by: okafor
time: 08:10 to 08:50
site-manager: lind
complaint-log: read
inspected: [hall, store]
set:
  H1: {kind: sticky-trap, area: hall, within-reach: no}
  H2: {kind: sticky-trap, area: hall, within-reach: no}
  T1: {kind: sticky-trap, area: store, within-reach: no}
  T2: {kind: sticky-trap, area: store, within-reach: no}
${baitApplication('2026-03-18')}`
