/**
 * The ledger every example stands on: one school in its first month, with nothing wrong on 2026-03-20. It is as
 * small as a ledger without problems can be.
 */
export const baseAsOf = '2026-03-20'

export const baseLedger = `
=== district.yaml
format: 1
name: Example District
state: OR
address: 1 Example Square
time-zone: America/Los_Angeles
records-begin: 2026-03-01
coordinator: [{from: 2026-03-01, who: marsh}]
rulebooks:
  - {from: 2026-03-01, rulebook: practice}
  - {from: 2026-03-01, rulebook: us-federal}
calendar: [{from: 2025-09-02, until: 2026-06-12}]
=== people/marsh.yaml
name: Ines Marsh
roles: [coordinator]
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
    spans: [{from: 2025-01-01, until: 2026-12-31}]
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
    spans: [{from: 2025-01-01, until: 2026-12-31}]
=== people/lind.yaml
name: Tor Lind
roles: [site-manager, custodian]
=== plans/german-cockroach.yaml
spans:
  - from: 2026-03-01
    act-on-one: [kitchen]
    thresholds: {elsewhere: {act-at: 1, per: room}}
    tactics: {clean: {do: clean and dry}, trap: {do: find the source with traps}}
=== plans/house-mouse.yaml
spans:
  - from: 2026-03-01
    act-on-one: [everywhere]
    tactics: {close: {do: close the gap}, trap: {do: snap traps along the run}}
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
  - from: 2026-01-05
    file: label.txt
    says:
      places: [indoors]
      pest-groups: [cockroach, ant]
      methods: [crack-and-crevice, void, bait-placement, in-a-station]
      rates: {placements: {at-most: 1 g, per: placement, methods: [crack-and-crevice, void, bait-placement]}}
sds: [{from: 2026-01-05, file: sds.txt}]
=== products/bait-a/label.txt
An invented label.
=== products/bait-a/sds.txt
An invented safety data sheet.
=== products/spray-a/product.yaml
name: Invented Spray A
kind: pesticide
registration: 99999-2
states: {OR: [{from: 2025-01-01}]}
active-ingredients: {deltamethrin: {strength: 0.06 %}}
formulation: ready-to-use-liquid
signal-word: caution
restricted-use: no
labels:
  - from: 2026-01-05
    file: label.txt
    says:
      places: [indoors, outdoors]
      pest-groups: [cockroach, ant, stinging]
      methods: [crack-and-crevice, spot, perimeter]
      rates: {area: {at-most: 1 fl oz, per: 1 ft2}}
      keep-out-until-dry: yes
sds: [{from: 2026-01-05, file: sds.txt}]
=== products/spray-a/label.txt
An invented label.
=== products/spray-a/sds.txt
An invented safety data sheet.
=== sites/oak/site.yaml
name: Oak School
address: 2 Example Lane
site-manager: [{from: 2026-03-01, who: lind}]
complaint-log: front office
contract: [{from: 2026-03-01, contractor: Invented Pest Services, firm: invented-pest-services, routine-visits: monthly, grace: 5 days, checks: {sticky-trap: monthly}}]
areas:
  kitchen: {kind: kitchen}
  room-1: {kind: classroom, children: yes}
=== sites/oak/visits/2026-03-05-okafor.yaml
purpose: routine
by: okafor
time: 06:10 to 06:50
site-manager: lind
complaint-log: read
inspected: [kitchen, room-1]
set:
  K1: {kind: sticky-trap, area: kitchen, within-reach: no}
`

/** Splits `=== path` text into files. A line \`=== path (delete)\` takes a file of the base away. */
export function filesOf(ledgerText: string): Map<string, string | null> {
  const files = new Map<string, string | null>()
  for (const part of ledgerText.split(/^=== /m).slice(1)) {
    const end = part.indexOf('\n')
    const heading = part.slice(0, end).trim()
    const deleted = / \(delete\)$/.exec(heading)
    files.set(deleted ? heading.slice(0, deleted.index) : heading, deleted ? null : part.slice(end + 1))
  }
  return files
}

/** The base with an example laid over it. */
export function ledgerWith(example: string): Map<string, string> {
  const files = new Map<string, string>()
  for (const layer of [filesOf(baseLedger), filesOf(example)]) {
    for (const [path, text] of layer) {
      if (text === null) files.delete(path)
      else files.set(path, text)
    }
  }
  return files
}
