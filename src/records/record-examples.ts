import type { RecordKind } from './kinds.js'

/** A small complete record, as a person would write it, and the path it would have in a ledger. */
export interface RecordExample {
  readonly file: string
  readonly text: string
}

/**
 * One example of every kind, all of one invented district and linked with one another. The field reference shows
 * them, and `doorsweep new` takes from them what an optional field can look like.
 */
export const recordExamples: Readonly<Record<RecordKind, RecordExample>> = {
  district: {
    file: 'district.yaml',
    text: `
format: 1
name: Alder Fork School District
time-zone: America/Los_Angeles
records-begin: 2024-08-01
coordinator:
  - {from: 2024-08-01, who: marsh}
rulebooks:
  - {from: 2024-08-01, rulebook: practice}
  - {from: 2024-08-01, rulebook: us-federal}
calendar:
  - from: 2025-09-02
    until: 2026-06-12
    closed: {winter-break: 2025-12-22 to 2026-01-02}
occupied:
  - {from: 2024-08-01, days: [mon, tue, wed, thu, fri], hours: 07:00 to 17:00}
policies:
  ipm-policy: {title: Integrated pest management policy, adopted: 2024-06-18}
annual-review: {due-month: 6}
unanswered-complaint-days: 5
`,
  },
  person: {
    file: 'people/okafor.yaml',
    text: `
name: Ada Okafor
roles: [technician, applicator]
employer: Invented Pest Services
firm: invented-pest-services
phone: 555-0100
licences:
  or-commercial:
    number: 00-1234
    state: OR
    kind: commercial applicator
    categories: [structural]
    spans:
      - {from: 2024-01-01, until: 2025-12-31}
      - {from: 2026-01-01, until: 2027-12-31} # a renewal adds a line, it changes none
training:
  kitchens-2026: {on: 2026-01-14, topic: Inspecting school kitchens, hours: 2}
`,
  },
  firm: {
    file: 'firms/invented-pest-services.yaml',
    text: `
name: Invented Pest Services
address: 4 Invented Road, Alder Fork
phone: 555-0100
licences:
  or-operator:
    number: XX-7001
    state: OR
    kind: commercial operator
    categories: [structural]
    spans:
      - {from: 2025-01-01, until: 2026-12-31}
`,
  },
  product: {
    file: 'products/bait-a/product.yaml',
    text: `
name: Invented Bait A
kind: pesticide
registration: 99999-1
maker: Invented Products
states:
  OR: [{from: 2024-01-01}]
active-ingredients:
  boric-acid: {strength: 5 %, mode-of-action: 8D}
formulation: gel
signal-word: caution
restricted-use: no
labels:
  - from: 2024-03-01
    file: label-2024-03.pdf
    revision: rev. 03/24
    says: # what the label says, in data; the printed label decides
      places: [indoors]
      pest-groups: [cockroach]
      methods: [crack-and-crevice, bait-placement]
      rates: {placements: {at-most: 0.5 g, per: placement}}
      out-of-reach: yes
sds:
  - {from: 2024-03-01, file: sds-2024-03.pdf, revised: 2024-02-10, sections: [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16]}
`,
  },
  plan: {
    file: 'plans/german-cockroach.yaml',
    text: `
title: German cockroach
spans:
  - from: 2024-08-01
    act-on-one: [kitchen, food-storage]
    thresholds:
      classroom: {act-at: 2, per: room, checks: 2}
      elsewhere: {act-at: 3, per: trap-week}
    tactics: # in the order they are tried
      clean-and-dry: {do: Clean under and behind equipment; mend leaks; empty bins nightly}
      vacuum: {do: Vacuum the harborage, from-count: 2}
      bait: {do: Gel bait in cracks where children cannot reach it, from-count: 4}
    checks: {sticky-trap: 28 days}
`,
  },
  rulebook: {
    file: 'rulebooks/alder-fork.yaml',
    text: `
title: Duties the district set itself
jurisdiction: Alder Fork School District
read-on: 2026-01-10
covers: how often traps are checked, and what parents and staff are told before a spray
does-not-cover: [state law, what labels say]
parameters:
  check.sticky-trap:
    - {from: 2024-08-01, value: 14 days, source: 'IPM policy of 2024-06-18, section 4', kind: standard, confidence: read}
uses:
  bait-out-of-reach:
    - from: 2024-08-01
      any: [{method: [in-a-station]}, {formulation: [gel], method: [crack-and-crevice, void]}]
      source: 'IPM policy of 2024-06-18, section 7'
      kind: standard
      confidence: read
notices:
  parents:
    - {from: 2024-08-01, to: parents, reach: all, lead: 72 hours, not-for: [bait-out-of-reach], source: 'IPM policy of 2024-06-18, section 7', kind: standard, confidence: read}
`,
  },
  wording: {
    file: 'wordings/aviso.yaml',
    text: `
language: es
for: [parents, staff]
heading: Aviso sobre el uso de un plaguicida
opening: Este es un aviso sobre el uso de un plaguicida en {school}.
opening-in-emergency: Este es un aviso sobre el uso urgente de un plaguicida en {school}.
lines:
  trade-name: "Producto: {trade-name}"
  registration: "Número de registro de la EPA: {registration}"
  location: "Lugar: {location}"
  date: "Fecha: {date}"
  time: "Hora: {time}"
  reason: "Motivo: {reason}"
  coordinator-contact: "Preguntas: {coordinator-contact}"
cautions: La etiqueta del producto es la ley y rigen las normas locales. Este aviso no autoriza ninguna aplicación.
`,
  },
  site: {
    file: 'sites/ottermere/site.yaml',
    text: `
name: Ottermere Elementary
address: 12 Invented Lane
site-manager:
  - {from: 2024-08-01, who: lind}
complaint-log: front office, beside the key board
hours: 06:30 to 18:00
diagram: {file: diagram.svg, scale: 1 in = 20 ft, unit: ft}
contract:
  - from: 2024-08-01
    contractor: Invented Pest Services
    routine-visits: monthly
    grace: 5 days
    checks: {sticky-trap: monthly}
    complaint-days: 2
areas:
  kitchen: {kind: kitchen, extent: 900 ft2, keys: ring 3, outline: [[0, 0], [30, 0], [30, 30], [0, 30]]}
  dock: {kind: loading-dock}
  room-12: {kind: classroom, children: yes}
  custodial: {kind: custodial}
  boiler-room: {kind: utility, let-in-by: custodian on duty}
runs:
  dock-wall: {along: north wall of the dock, devices: [D1, D2]}
`,
  },
  visit: {
    file: 'sites/ottermere/visits/2026-03-12-okafor.yaml',
    text: `
purpose: routine
by: okafor
time: 06:10 to 06:50
site-manager: lind
complaint-log: read
answers: {2026-03-10-reyes: two snap traps set; nothing caught yet}
inspected: [kitchen, dock, room-12, custodial]
no-entry: {boiler-room: no key}
set:
  S1: {kind: snap-trap, area: room-12, secured: yes, within-reach: no, while-pupils-away: yes}
moved:
  K2: {area: kitchen, within-reach: no}
taken-up: {K9: store room closed}
readings:
  none: [K1, K2, K9] # looked at, nothing there
  K3: {german-cockroach: {nymphs: 4, adults: 1}, renewed: yes}
  K4: {unusable: missing, renewed: yes}
  D1: {bait-taken: some, bait-added: 1 block, product: block-x, lot: L-2211}
  D2: {no-access: pallets in front}
found:
  behind-dish-machine: {pest: house-mouse, area: kitchen, evidence: droppings, age: fresh, cleaned: yes}
  small-flies: {pest: unidentified, area: kitchen, evidence: live, looks: '3 mm, brown, humped back'}
conditions:
  sink-drip: {new: drip under prep sink, area: kitchen, kind: moisture, gives: water, owner: maintenance, by: 2026-03-26}
actions:
  vacuumed-channel: {did: vacuumed the cable channel, tactic: vacuuming, why: corrective, area: kitchen, pest: german-cockroach}
recommended: empty the classroom bins nightly
`,
  },
  application: {
    file: 'sites/ottermere/applications/2026-04-02-okafor.yaml',
    text: `
by: okafor
status: done
product: bait-a
pest: german-cockroach
areas:
  kitchen: {amount: 4.5 g, placements: 12, where: hinge voids of the dish machine}
method: crack-and-crevice
formulation: gel
amount: 4.5 g
time: 15:40 to 16:05
equipment: bait gun
lot: L-2211
pupils: none in the building
reason: second catch of nymphs after cleaning
tried-first: cleaned, vacuumed, leak mended
dry: {at: 16:05, by: okafor}
reopened: {at: 16:30, by: lind}
follow-up: {by: 2026-04-16, look: boards K1 to K4}
`,
  },
  complaint: {
    file: 'sites/ottermere/complaints/2026-03-10-reyes.yaml',
    text: `
by: reyes
from: staff
at: 08:20
area: room-12
pest: house-mouse
says: small black droppings in the paper drawer
`,
  },
  repair: {
    file: 'sites/ottermere/repairs/2026-03-20-reyes.yaml',
    text: `
by: reyes
mends: [sink-drip]
done: new P-trap under the prep sink
area: kitchen
owner: maintenance
order: WO-118
cost: 84 USD
openings:
  dock: door sweep, 3/8 in gap
`,
  },
  notice: {
    file: 'sites/ottermere/notices/2026-03-30-marsh.yaml',
    text: `
by: marsh
application: 2026-04-02-okafor
sent:
  to: all parents
  at: 09:15
  how: email
  recipients: 312
  list-of: 2026-03-02
  list-kept-by: reyes
  says: [trade-name, active-ingredients, location, date, time, reason, coordinator-contact]
posted:
  places: [main entrance, kitchen door]
  at-the: [each-entrance, treated-area]
  at: 14:00
  size: 8.5 x 11 in
  says: [trade-name, location, date, reason]
  taken-down: 2026-04-06
`,
  },
  incident: {
    file: 'sites/ottermere/incidents/2026-03-12-okafor.yaml',
    text: `
by: okafor
kind: child-at-bait
at: 06:30
area: dock
what: a child reached a station that was not locked; nothing was touched
people: 1
device: D1
did: station locked; label and safety data sheet read; nurse told
told: [site manager, school nurse]
`,
  },
  storage: {
    file: 'sites/ottermere/storage/2026-03-12-okafor.yaml',
    text: `
by: okafor
places:
  custodial-cupboard:
    area: custodial
    locked: yes
    ventilated: yes
    items:
      gel-1: {product: bait-a, amount: 24 g, lot: L-2211, opened: 2026-02-03}
      spray-1: {what: 'half a can of wasp spray, no label', unauthorized: yes, disposed: household hazardous waste day}
`,
  },
  specimen: {
    file: 'sites/ottermere/specimens/2026-03-12-okafor.yaml',
    text: `
by: okafor
sighting: 2026-03-12-okafor/small-flies
area: kitchen
kept: alcohol vial 14, coordinator office
sent-to: county extension office
sent-on: 2026-03-13
determined: {as: fungus-gnat, by: county extension office, on: 2026-03-18, sure: likely}
`,
  },
  education: {
    file: 'education/2026-03-05-marsh.yaml',
    text: `
by: marsh
kind: talk
topic: why food stays out of classrooms
audience: teachers
people: 23
sites: [ottermere]
`,
  },
  filing: {
    file: 'filings/2025-09-03-marsh.yaml',
    text: `
by: marsh
what: annual-notice
year: 2025-2026
to: everyone
products: [bait-a]
says: [policy, products-expected, coordinator-contact, labels-and-sds-available]
where: district web site, facilities page
`,
  },
  review: {
    file: 'reviews/2026.yaml',
    text: `
held: 2026-06-10
by: marsh
present: [coordinator, maintenance head, kitchen manager, contractor]
findings:
  kitchen-drains: drains cleaned too rarely
decisions:
  door-sweeps: {what: door sweeps on all dock doors, who: reyes, by: 2026-08-28}
`,
  },
  exception: {
    file: 'exceptions/log-in-boxes.yaml',
    text: `
rule: complaint-log-not-read
site: ottermere
by: marsh
why: the front office is in boxes until the painters are done; complaints are taken by telephone
from: 2026-03-02
until: 2026-03-27
`,
  },
}
