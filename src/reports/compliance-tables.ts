import { getOrMake } from '../ledger/get-or-make.js'
import { isoOf } from '../measure/calendar.js'
import type { Column, Row, Table } from '../types.js'
import { clauseAlone } from './clause-alone.js'
import type { Application, DutyOfApplication } from './compliance-collect.js'
import type { Outcome } from './outcomes.js'
import { listInWords } from './outcomes.js'

function dutiesOf({ duties }: Application, outcome: Outcome): DutyOfApplication[] {
  return duties.filter((duty) => duty.outcome === outcome)
}

/** `oak, 2026-03-12, Invented Bait A, by okafor`; for bait in devices with how many they were. */
export function nameOf({ site, day, productName, by, devices }: Application): string {
  const where =
    devices.length === 0 ? '' : ` in ${devices.length === 1 ? devices[0] : `${devices.length} devices`}`
  return `${site}, ${isoOf(day)}, ${productName}${where}, by ${by}`
}

/** What a clause is cited by: what it says stands in full among the clauses. */
function shortClause({ citation }: Pick<DutyOfApplication, 'citation'>): string {
  return clauseAlone(citation.text)
}

/** What is shown or not, with the devices it is of and the fields that are absent. */
function whyOf({ why, devices, absent, outcome }: DutyOfApplication): string {
  const which = devices.length === 0 ? '' : ` (${listInWords(devices, 'devices')})`
  const fields = outcome === 'cannot be checked' && absent.length > 0 ? ` [absent: ${absent.join(', ')}]` : ''
  return `${why}${which}${fields}`
}

export function treatmentsTable(applications: readonly Application[], empty: string): Table {
  return {
    id: 'treatments',
    title: 'Applications, and bait put into devices',
    columns: [
      { id: 'application', title: 'application', for: 'people' },
      { id: 'site', title: 'site', for: 'work' },
      { id: 'day', title: 'day', for: 'work' },
      { id: 'by', title: 'by', for: 'work' },
      { id: 'product', title: 'product', for: 'work' },
      { id: 'product-name', title: 'name of product', for: 'work' },
      { id: 'how', title: 'how', for: 'work' },
      { id: 'devices', title: 'devices', for: 'work' },
      { id: 'told', title: 'of the duties', for: 'people' },
      { id: 'shown', title: 'shown', decimals: 0, for: 'work' },
      { id: 'not-shown', title: 'not shown', decimals: 0, for: 'work' },
      { id: 'not-checked', title: 'cannot be checked', decimals: 0, for: 'work' },
      { id: 'not-applicable', title: 'not applicable', decimals: 0, for: 'work' },
      { id: 'what-is-not-shown', title: 'what is not shown' },
    ],
    rows: applications.map((application): Row => {
      const { site, day, by, product, productName, how, devices, file, duties } = application
      const open = duties.filter(({ outcome }) => outcome === 'not shown').map(({ duty }) => duty)
      return {
        cells: {
          application: nameOf(application),
          told: openFirst
            .map((outcome) => `${dutiesOf(application, outcome).length} ${outcome}`)
            .filter((text) => !text.startsWith('0 '))
            .join(', '),
          site,
          day: isoOf(day),
          by,
          product,
          'product-name': productName,
          how,
          devices: devices.join(' ') || null,
          shown: dutiesOf(application, 'shown').length,
          'not-shown': open.length,
          'not-checked': dutiesOf(application, 'cannot be checked').length,
          'not-applicable': dutiesOf(application, 'not applicable').length,
          'what-is-not-shown': open.length === 0 ? null : [...new Set(open)].join('; '),
        },
        records: [file],
      }
    }),
    empty,
  }
}

const openFirst: readonly Outcome[] = ['not shown', 'cannot be checked', 'shown', 'not applicable']

/** Application by application, of each what is open first. */
function everyDuty(applications: readonly Application[]) {
  return applications.flatMap((application) =>
    openFirst.flatMap((outcome) => dutiesOf(application, outcome).map((duty) => ({ application, duty }))),
  )
}

/** Every duty held against every application, each a row. */
export function dutiesTable(applications: readonly Application[], empty: string): Table {
  return {
    id: 'duties',
    title: 'Every duty held against every application',
    columns: [
      { id: 'site', title: 'site' },
      { id: 'day', title: 'day' },
      { id: 'by', title: 'by' },
      { id: 'product', title: 'product' },
      { id: 'how', title: 'how' },
      { id: 'section', title: 'section' },
      { id: 'rulebook', title: 'rulebook' },
      { id: 'name', title: 'name' },
      { id: 'duty', title: 'duty' },
      { id: 'clause', title: 'clause' },
      { id: 'kind', title: 'kind of source' },
      { id: 'outcome', title: 'outcome' },
      { id: 'why', title: 'what the record shows or lacks' },
      { id: 'absent', title: 'absent fields' },
      { id: 'devices', title: 'devices' },
    ],
    rows: everyDuty(applications).map(({ application, duty }): Row => {
      const { site, day, by, product, how, file } = application
      const { section, rulebook, name, citation, outcome, why, absent, devices, records } = duty
      return {
        cells: {
          site,
          day: isoOf(day),
          by,
          product,
          how,
          section,
          rulebook,
          name,
          duty: duty.duty,
          clause: citation.text,
          kind: citation.kind,
          outcome,
          why,
          absent: absent.join('; ') || null,
          devices: (devices.length > 0 ? devices : application.devices).join(' ') || null,
        },
        records: [...new Set([file, ...records])],
      }
    }),
    empty,
    for: 'work',
  }
}

const ofDuties: readonly Column[] = [
  { id: 'duty', title: 'duty, and its clause' },
  { id: 'why', title: 'what the record shows or lacks' },
]

/** What a reader looks at first: every duty that is not shown, and every one that cannot be checked. */
export function openTable(
  applications: readonly Application[],
  outcome: 'not shown' | 'cannot be checked',
): Table {
  const isOpen = outcome === 'not shown'
  return {
    id: isOpen ? 'not-shown' : 'cannot-be-checked',
    title: isOpen ? 'What the records do not show' : 'What cannot be checked, and for want of what',
    columns: ofDuties,
    rows: grouped(applications, (application) =>
      dutiesOf(application, outcome).map((duty) => ({
        duty: `${duty.duty} (${duty.citation.text})`,
        why: whyOf(duty),
      })),
    ),
    empty: 'Nothing.',
    for: 'people',
  }
}

export function shownTable(applications: readonly Application[]): Table {
  return {
    id: 'shown',
    title: 'What the records show',
    columns: ofDuties,
    rows: grouped(applications, (application) =>
      dutiesOf(application, 'shown').map((duty) => ({
        duty: `${duty.duty} (${shortClause(duty)})`,
        why: whyOf(duty),
      })),
    ),
    empty: 'Nothing.',
    for: 'people',
  }
}

/** One row for each application and reason, with the duties it is the reason for and their clauses. */
export function notApplicableTable(applications: readonly Application[]): Table {
  return {
    id: 'not-applicable',
    title: 'What does not apply, and why',
    columns: [
      { id: 'duty', title: 'duties, and their clauses' },
      { id: 'why', title: 'why' },
    ],
    rows: grouped(applications, (application) => {
      const byReason = new Map<string, string[]>()
      for (const duty of dutiesOf(application, 'not applicable'))
        getOrMake(byReason, whyOf(duty), () => []).push(`${duty.duty} (${shortClause(duty)})`)
      return [...byReason].map(([why, duties]) => ({ duty: duties.join('; '), why }))
    }),
    empty: 'Nothing.',
    for: 'people',
  }
}

/** Rows of one application under a row with its name. */
function grouped(
  applications: readonly Application[],
  rowsOf: (application: Application) => readonly Readonly<Record<'duty' | 'why', string>>[],
): Row[] {
  return applications.flatMap((application) => {
    const rows = rowsOf(application)
    const records = [application.file]
    if (rows.length === 0) return []
    return [
      { cells: { duty: `${nameOf(application)}:`, why: '' }, records },
      ...rows.map((cells) => ({ cells, records })),
    ]
  })
}
