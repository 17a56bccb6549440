import { underOwnRulebook } from '../own-rulebook.js'

/** Ledgers of the examples of this family, laid over the base: an invented act that asks for a yearly notice. */

/** The district under a rulebook of its own, with records from the first day of the school year 2025-2026. */
export const underYearlyDuty = (facts: string, more = '') => `${underOwnRulebook(
  `
yearly:
  annual-notice:
    - {from: 2025-09-02, what: annual-notice, year: school, ${facts}, source: "Invented Pest Act, section 12", kind: law, confidence: read}
`,
  { begins: '2025-09-02' },
).replace('rulebook: own}', `rulebook: own}${more === '' ? '' : ` ${more}`}`)}=== sites/oak/site.yaml
name: Oak School
address: 2 Example Lane
from: 2026-03-01
site-manager: [{from: 2026-03-01, who: lind}]
complaint-log: front office
contract: [{from: 2026-03-01, contractor: Invented Pest Services, firm: invented-pest-services, routine-visits: monthly, grace: 5 days, checks: {sticky-trap: monthly}}]
areas:
  kitchen: {kind: kitchen}
  room-1: {kind: classroom, children: yes}
`

/** What the coordinator sent for that school year. */
export const annualNotice = (facts: string, day = '2025-09-04') => `
=== filings/${day}-marsh.yaml
by: marsh
what: annual-notice
year: 2025-2026
${facts.trim()}
`
