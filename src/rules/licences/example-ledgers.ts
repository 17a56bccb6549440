/** A district that has set itself duties about licences beside the rulebooks of the base; state and sources are invented. */
export const ownRulebook = (duties: string, district = '') => `
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
  - {from: 2026-03-01, rulebook: own}
calendar: [{from: 2025-09-02, until: 2026-06-12}]
${district.trim()}
=== rulebooks/own.yaml
title: Invented pest law
jurisdiction: Oregon, invented
state: OR
read-on: 2026-03-01
covers: licences
does-not-cover: [everything else]
${duties.trim()}
`

/** What an invented law says of itself. */
export const inventedAct = 'from: 2020-01-01, kind: law, confidence: read, source: Invented Pest Act section'

/** Gel put into cracks on 2026-03-12, with everything written down that any rule asks for. */
export const gelInCracks = (by = 'okafor', more = '') => `
=== sites/oak/applications/2026-03-12-${by.split(' ')[0]}.yaml
by: ${by}
${more === '' ? '' : `${more}\n`}status: done
product: bait-a
pest: german-cockroach
areas: {kitchen: {amount: 2 g, placements: 8, where: hinge voids of the dish machine, within-reach: no}}
method: crack-and-crevice
formulation: gel
amount: 2 g
time: 15:40 to 16:05
equipment: bait gun
lot: L-2211
pupils: none in the building
identified: {by: okafor, how: nymphs on K1 under a hand lens}
threshold: 2 nymphs on K1 on 2026-03-11
reason: second catch of nymphs after cleaning
tried-first: cleaned, vacuumed, leak mended
chosen-because: no milder product takes nymphs in closed voids
dry: {at: 16:05, by: okafor}
reopened: {at: 16:30, by: lind}
follow-up: {by: 2026-04-02, look: K1}
`

export interface ExampleLicence {
  readonly state?: string
  readonly category?: string
  readonly from?: string
  readonly until?: string
  readonly certified?: 'yes' | 'no'
}

/** Ada Okafor, with another licence than in the base, or with none. */
export const okafor = (licence?: ExampleLicence) =>
  personWith('okafor', 'Ada Okafor', 'firm: invented-pest-services', licence)

export const vale = (licence?: ExampleLicence) => personWith('vale', 'Petra Vale', '', licence)

function personWith(id: string, name: string, more: string, licence?: ExampleLicence): string {
  const { state = 'OR', category = 'structural', from = '2025-01-01', until = '2026-12-31' } = licence ?? {}
  const certified = licence?.certified === undefined ? '' : `\n    certified: ${licence.certified}`
  return `
=== people/${id}.yaml
name: ${name}
roles: [technician, applicator]
${more}
${
  licence
    ? `licences:
  ${id}-licence:
    number: XX-${id.length}
    state: ${state}
    kind: invented licence${certified}
    categories: [${category}]
    spans: [{from: ${from}, until: ${until}}]
`
    : ''
}`
}
