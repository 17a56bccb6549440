import { compareText } from '../ledger/compare-text.js'
import type { DistrictView } from '../ledger/district-view.js'
import { getOrMake } from '../ledger/get-or-make.js'
import { licencesOf } from '../ledger/licences.js'
import type { Loaded } from '../ledger/loaded.js'
import { dayIn } from '../ledger/spans.js'
import type { Day, Row, Table } from '../types.js'
import type { HolderRole, LicenceUse, PeopleFacts } from './compliance-people-collect.js'
import { trainingTable } from './compliance-training.js'
import { counted, daysInFull, daysInWords, eachDay, worstOf } from './outcomes.js'
import type { Period } from './period.js'

/** Who applied, supervised and answered for it in a period, with which licences and courses. */
export function peopleTables(
  facts: readonly PeopleFacts[],
  district: DistrictView,
  period: Period,
  asOf: Day,
): Table[] {
  const inPeriod: Period = { from: period.from, to: Math.min(period.to, asOf) }
  const uses = facts.flatMap(({ licences }) => licences)
  return [
    standingTable(uses, district, facts.length < district.siteIds.size),
    licenceTable(uses, district, inPeriod),
    trainingTable(
      facts.flatMap(({ training }) => training),
      district,
      inPeriod,
    ),
  ]
}

export const peopleCautions: readonly string[] = [
  'Licences and courses are judged on each day of use, as the ledger has them; what the state and the course have on file is for them to say.',
  'Only courses that a rulebook in force asks for by name are counted.',
]

export function peopleNotExamined(facts: readonly PeopleFacts[]): string[] {
  const early = facts.filter(({ beforeRecords }) => beforeRecords > 0)
  return early.map(
    ({ site, beforeRecords, begins }) =>
      `${site}: ${counted(beforeRecords, 'use')} before the records begin there on ${begins}; licences and courses of these were not looked at.`,
  )
}

const roleWords: Readonly<Record<HolderRole, string>> = {
  applicator: 'applied',
  supervisor: 'supervised',
  firm: 'firm',
}

const roles: readonly HolderRole[] = ['applicator', 'supervisor', 'firm']

function standingTable(
  uses: readonly LicenceUse[],
  district: DistrictView,
  /** Whether sites were left out, or could not be read. */
  isPartial: boolean,
): Table {
  const groups = new Map<string, LicenceUse[]>()
  for (const use of uses) {
    const { role, id, duty, unnamed } = use
    const key = JSON.stringify([role, id ?? '', unnamed ?? '', duty?.rulebook ?? '', duty?.name ?? ''])
    getOrMake(groups, key, () => []).push(use)
  }
  const named = new Set(uses.flatMap(({ role, id }) => (role === 'firm' && id !== undefined ? [id] : [])))
  const rows = [...groups.values()]
    .map((group) => standingRow(group, district))
    .concat(
      [...district.firms.values()]
        .filter(({ id }) => !named.has(id))
        .map((firm) => idleFirm(firm, isPartial)),
    )
    .sort(
      (a, b) =>
        roles.indexOf(a.role) - roles.indexOf(b.role) ||
        compareText(a.name, b.name) ||
        compareText(a.askedBy, b.askedBy),
    )
  return {
    id: 'licence-duties',
    title: 'Licences on the days of use',
    columns: [
      { id: 'who', title: 'who' },
      { id: 'did', title: 'as' },
      { id: 'asked-by', title: 'asked by' },
      { id: 'outcome', title: 'outcome' },
      { id: 'why', title: 'what the records show' },
      { id: 'id', title: 'id', for: 'work' },
      { id: 'duty', title: 'duty', for: 'work' },
      { id: 'clause', title: 'clause', for: 'work' },
      { id: 'basis', title: 'rests on', for: 'work' },
      { id: 'uses', title: 'uses', for: 'work', decimals: 0 },
      { id: 'days', title: 'days of use', for: 'work', decimals: 0 },
      { id: 'days-not-shown', title: 'days not shown', for: 'work' },
      { id: 'days-not-checked', title: 'days that cannot be checked', for: 'work' },
      { id: 'sites', title: 'sites', for: 'work' },
    ],
    rows: rows.map(({ row }) => row),
    empty: 'No use of a pesticide is recorded in this period, and no firm.',
  }
}

interface Sortable {
  readonly role: HolderRole
  readonly name: string
  readonly askedBy: string
  readonly row: Row
}

function standingRow(group: readonly LicenceUse[], district: DistrictView): Sortable {
  const first = group[0] as LicenceUse
  const { role, id, duty } = first
  const name = nameOf(first, district)
  const askedBy = duty?.rulebook ?? ''
  const ofOutcome = (outcome: LicenceUse['outcome']) =>
    group.filter((use) => use.outcome === outcome).map(({ day }) => day)
  const holder = holderOf(first, district)
  return {
    role,
    name,
    askedBy,
    row: {
      cells: {
        who: name,
        did: roleWords[role],
        'asked-by': duty?.rulebook ?? null,
        outcome: worstOf(group.map(({ outcome }) => outcome)),
        why: inWords(group),
        id: id ?? null,
        duty: duty?.name ?? null,
        clause: duty?.citation.text ?? null,
        basis: duty?.citation.kind ?? null,
        uses: group.length,
        days: eachDay(group.map(({ day }) => day)).length,
        'days-not-shown': daysInFull(ofOutcome('not shown')),
        'days-not-checked': daysInFull(ofOutcome('cannot be checked')),
        sites: [...new Set(group.map(({ site }) => site))].join(' '),
      },
      records: [...new Set([...(holder ? [holder.file] : []), ...group.map(({ file }) => file)])],
    },
  }
}

/** What is wrong first, each reason with its days; how many days are shown last. */
function inWords(group: readonly LicenceUse[]): string {
  const parts = (['not shown', 'cannot be checked', 'shown', 'not applicable'] as const).flatMap(
    (outcome) => {
      const byReason = new Map<string, Day[]>()
      for (const use of group)
        if (use.outcome === outcome) getOrMake(byReason, use.why, () => []).push(use.day)
      return [...byReason].map(([why, days]) =>
        outcome === 'shown' || outcome === 'not applicable'
          ? `${why} on ${counted(eachDay(days).length, 'day')} of use`
          : `on ${daysInWords(days)}: ${why}`,
      )
    },
  )
  return parts.join('; ')
}

function idleFirm({ id, file, data }: Loaded<'firm'>, isPartial: boolean): Sortable {
  return {
    role: 'firm',
    name: data.name,
    askedBy: '',
    row: {
      cells: {
        who: data.name,
        did: roleWords.firm,
        outcome: 'not applicable',
        why: `no use of a pesticide by it in this period${isPartial ? ' at the sites looked at' : ''}`,
        id,
        uses: 0,
        days: 0,
      },
      records: [file],
    },
  }
}

function licenceTable(uses: readonly LicenceUse[], district: DistrictView, period: Period): Table {
  const people = new Set(uses.flatMap(({ role, id }) => (role !== 'firm' && id !== undefined ? [id] : [])))
  const holders = [
    ...[...people].flatMap((id) => district.people.get(id) ?? []),
    ...district.firms.values(),
  ].sort(
    (a, b) => compareText(b.kind, a.kind) || compareText(a.data.name, b.data.name) || compareText(a.id, b.id),
  )
  return {
    id: 'licences',
    title: 'Their licences in force within the period',
    columns: [
      { id: 'who', title: 'who' },
      { id: 'number', title: 'number' },
      { id: 'state', title: 'state' },
      { id: 'categories', title: 'categories' },
      { id: 'in-force', title: 'in force', for: 'people' },
      { id: 'from', title: 'from', for: 'work' },
      { id: 'until', title: 'until', for: 'work' },
      { id: 'id', title: 'id', for: 'work' },
      { id: 'holder', title: 'holder', for: 'work' },
      { id: 'kind', title: 'kind', for: 'work' },
      { id: 'certified', title: 'certified', for: 'work' },
    ],
    rows: holders.flatMap((holder) => licenceRows(holder, period)),
    empty: 'The ledger shows none of those who applied, and none of a firm.',
  }
}

function licenceRows(holder: Loaded<'person'> | Loaded<'firm'>, { from, to }: Period): Row[] {
  return licencesOf(holder).flatMap((licence) =>
    licence.spans
      .filter((span) => dayIn(span.from) <= to && (span.until === undefined || from <= dayIn(span.until)))
      .map((span) => ({
        cells: {
          who: holder.data.name,
          number: licence.number,
          state: licence.state,
          categories: licence.categories.join(', ') || 'none',
          'in-force': span.until === undefined ? `from ${span.from}` : `${span.from} to ${span.until}`,
          from: span.from,
          until: span.until ?? null,
          id: holder.id,
          holder: holder.kind,
          kind: licence.kind,
          certified: licence.certified ?? 'not said, read as yes',
        },
        records: [holder.file],
      })),
  )
}

function holderOf({ role, id }: LicenceUse, { people, firms }: DistrictView) {
  return id === undefined ? undefined : role === 'firm' ? firms.get(id) : people.get(id)
}

function nameOf(use: LicenceUse, district: DistrictView): string {
  return holderOf(use, district)?.data.name ?? use.id ?? use.unnamed ?? 'nobody named'
}
