import type { DemoFile } from './world.js'

/** The duties the invented district set itself, so that every kind of duty is met in a generated ledger. */
export const rulebookId = 'tarn-hollow'

const says =
  '[trade-name, active-ingredients, registration, location, date, time, reason, coordinator-contact]'
const basis = (section: number) =>
  `source: 'Pest management policy, section ${section}', kind: standard, confidence: read`

export const rulebookFile: DemoFile = {
  path: `rulebooks/${rulebookId}.yaml`,
  text: `title: Pest management policy of the Tarn Hollow School District
jurisdiction: Tarn Hollow School District, which does not exist
state: OR
read-on: 2000-01-01
covers: who may apply what, who is told, signs, re-entry, records
does-not-cover:
  - anything the law asks; that is in the rulebooks of jurisdictions
uses:
  bait-out-of-reach:
    - from: 2000-01-01
      any:
        - {method: [in-a-station]}
        - {formulation: [gel], method: [crack-and-crevice, void]}
      source: Pest management policy, section 4
      kind: standard
      confidence: read
  experimental:
    - from: 2000-01-01
      any:
        - {registered-as: [experimental]}
      source: Pest management policy, section 3
      kind: standard
      confidence: read
notices:
  parents:
    - {from: 2000-01-01, to: parents, reach: all, lead: 72 hours, not-before: 30 days, not-for: [bait-out-of-reach], says: ${says}, ${basis(5)}}
  staff:
    - {from: 2000-01-01, to: staff, reach: all, lead: 72 hours, not-before: 30 days, not-for: [bait-out-of-reach], says: ${says}, ${basis(5)}}
postings:
  signs:
    - {from: 2000-01-01, before: 72 hours, after: 72 hours, size: 8.5 x 11 in, at-the: [each-entrance, treated-area], not-for: [bait-out-of-reach], says: ${says}, ${basis(6)}}
reentry:
  next-morning:
    - {from: 2000-01-01, wait: 7 h, label: if longer, dry: yes, not-for: [bait-out-of-reach], ${basis(7)}}
occupancy:
  pupils-away:
    - {from: 2000-01-01, pupils: none in the building, not-for: [bait-out-of-reach], ${basis(7)}}
emergencies:
  danger:
    - {from: 2000-01-01, notice-within: 24 hours, notice-to: all, statement: signed, prevention: yes, sign-at-start: yes, sign-after: 72 hours, not-for: [bait-out-of-reach], ${basis(5)}}
prohibitions:
  experimental:
    - {from: 2000-01-01, what: use of a product that is registered for trials only, holds-for: [experimental], ${basis(3)}}
records:
  every-application:
    - {from: 2000-01-01, elements: [registration, amount, lot], within: 14 days, ${basis(8)}}
  applications-on-record:
    - {from: 2000-01-01, elements: [registration, amount, amount-in-each-area, start-and-end, certified-applicator, customer-address, lot, equipment, pupils, reason, spot-description, size-of-area], not-for: [bait-out-of-reach], ${basis(8)}}
keeping:
  applications:
    - {from: 2000-01-01, what: applications, keep: 3 years, ${basis(8)}}
licences:
  applicator:
    - {from: 2000-01-01, of: applicator, in-state: yes, supervised: yes, categories: [structural], ${basis(3)}}
  firm:
    - {from: 2000-01-01, of: firm, in-state: yes, ${basis(3)}}
registrations:
  in-state:
    - {from: 2000-01-01, in-state: yes, ${basis(3)}}
approvals:
  coordinator:
    - {from: 2000-01-01, by: [coordinator], good-for: 6 months, not-for: [bait-out-of-reach], ${basis(3)}}
yearly:
  annual-notice:
    - {from: 2000-01-01, what: annual-notice, year: school, days-from-start: 30, to: everyone, lists-products: yes, says: [policy, products-expected, coordinator-contact], ${basis(9)}}
training:
  whoever-applies:
    - {from: 2000-01-01, who: whoever applies, course: school-ipm, every: 1 year, ${basis(10)}}
  coordinator:
    - {from: 2000-01-01, who: coordinator, course: school-ipm, every: 1 year, ${basis(10)}}
`,
}
