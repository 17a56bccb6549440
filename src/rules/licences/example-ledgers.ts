import { baitApplication } from '../example-applications.js'
import { underOwnRulebook } from '../own-rulebook.js'

/** A district that has set itself duties about licences beside the rulebooks of the base; state and sources are invented. */
export const ownRulebook = (duties: string, district = '') => underOwnRulebook(duties, { district })

/** What an invented law says of itself. */
export const inventedAct = 'from: 2020-01-01, kind: law, confidence: read, source: Invented Pest Act section'

/** Gel put into cracks on 2026-03-12, with everything written down that any rule asks for. */
export const gelInCracks = (by = 'okafor', more = '') =>
  baitApplication('2026-03-12', `by: ${by}`, ...(more === '' ? [] : more.split('\n'))).replace(
    '2026-03-12-okafor',
    `2026-03-12-${by.split(' ')[0]}`,
  )

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
