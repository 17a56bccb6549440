import { baitApplication } from '../example-applications.js'

/** Ledgers of the examples of this family, laid over the base: an invented act, and gel put into cracks in the kitchen. */

export const inventedAct = (section: number) =>
  `from: 2026-03-01, kind: law, confidence: read, source: "Invented Pest Act, section ${section}"`

/** Parents and staff are told 72 hours before, with two facts. */
export const noticeDuties = `
notices:
  parents: [{${inventedAct(3)}, to: parents, reach: all, lead: 72 hours, says: [trade-name, date]}]
  staff: [{${inventedAct(3)}, to: staff, reach: all, lead: 72 hours, says: [trade-name, date]}]
`

/** Signs hang from 72 hours before until 72 hours after. */
export const postingDuties = `
postings:
  signs: [{${inventedAct(4)}, before: 72 hours, after: 72 hours, size: 8.5 x 11 in, at-the: [treated-area, each-entrance], says: [trade-name, date]}]
`

/** In an emergency notice and sign follow at once. */
export const emergencyDuty = `
emergencies:
  emergency: [{${inventedAct(5)}, notice-within: 24 hours, or-next-school-morning: yes, notice-to: all, says: [trade-name, emergency-problem], statement: signed, prevention: yes, sign-at-start: yes, sign-after: 72 hours}]
`

/** Gel put into cracks after school on Thursday 2026-03-12, with everything written down that any rule asks for. */
export const gelInCracks = (more = '', product = 'product: bait-a') =>
  `${baitApplication('2026-03-12', product).trimEnd()}\n${more.trim()}\n`

/** A record of a notice or of signs about that application. */
export const noticeOf = (day: string, body: string, application = 'application: 2026-03-12-okafor') => `
=== sites/oak/notices/${day}-marsh.yaml
by: marsh
${application}
${body.trim()}
`

/** Signs as the duties above ask for them, taken down 72 hours after the end; one line can be put in place of another. */
export const signs = (replaced: Readonly<Record<string, string>> = {}) => {
  const lines = {
    places: 'places: [kitchen door, main entrance, north entrance]',
    at: 'at: 07:30',
    'at-the': 'at-the: [treated-area, each-entrance]',
    size: 'size: 8.5 x 11 in',
    says: 'says: [trade-name, date]',
    'taken-down': 'taken-down: 2026-03-15',
    'taken-down-at': 'taken-down-at: 16:05',
    ...replaced,
  }
  return `posted:\n${Object.values(lines)
    .filter((line) => line !== '')
    .map((line) => `  ${line}\n`)
    .join('')}`
}

/** Nests cannot wait: the statement of an emergency. */
export const statedEmergency = (signed = ', signed: 2026-03-12') =>
  `emergency: {problem: nymphs in the serving line at lunch, why: meals cannot be given out elsewhere, prevention: drains looked at every week, decided-by: marsh${signed}}`
