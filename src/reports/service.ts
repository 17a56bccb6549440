import type { Source } from '../files/source.js'
import { pestsIn } from '../ledger/counts.js'
import type { DeviceHistory } from '../ledger/device-history.js'
import type { LoadedEvent } from '../ledger/loaded.js'
import { readLedger } from '../ledger/read-ledger.js'
import type { SiteView } from '../ledger/site-view.js'
import { inForce } from '../ledger/spans.js'
import { isoOf } from '../measure/calendar.js'
import type { Report, Row, Table } from '../types.js'
import { areaName } from './area-name.js'
import type { ReportOptions } from './options.js'
import { pestName } from './pest-name.js'
import { fixTable, openAfter } from './yours-to-fix.js'

/**
 * The page left with the site manager after a visit: what was done, what was found, what was put out, what is
 * theirs to fix and by when, and who received it. Null when the ledger has no such visit that could be read.
 */
export function serviceReport(source: Source, options: ReportOptions, visitFile: string): Report | null {
  let report: Report | null = null
  readLedger(source, options, (view) => {
    const visit = view.visits.find((candidate) => candidate.file === visitFile)
    if (visit) report = pageOf(view, visit)
  })
  return report
}

function pageOf(view: SiteView, visit: LoadedEvent<'visit'>): Report {
  const person = (id: string) => view.district.people.get(id)?.data.name ?? id
  const open = view.conditions.flatMap((condition) => openAfter(condition, visit))
  const found = foundTable(view, visit)
  const fix = fixTable(view, open)
  return {
    report: 'service',
    title: `Service report, ${view.site.data.name}, ${isoOf(visit.day)}`,
    headline: headlineOf(found.rows.length, open.length),
    asOf: isoOf(view.asOf),
    facts: [
      {
        label: 'Visit',
        value: `${visit.data.purpose}${visit.data.time === undefined ? '' : `, ${visit.data.time}`}`,
      },
      { label: 'By', value: [visit.data.by, ...(visit.data.with ?? [])].map(person).join(', ') },
      {
        label: 'Inspected',
        value: visit.data.inspected?.map((area) => areaName(view, area)).join(', ') ?? 'no area is recorded',
      },
      ...Object.entries(visit.data['no-entry'] ?? {}).map(([area, why]) => ({
        label: 'Not entered',
        value: `${areaName(view, area)}: ${why}`,
      })),
      {
        label: 'Devices read',
        value: String(readingsOf(view, visit).filter(({ check }) => !check.noAccess).length),
      },
      { label: 'Complaint log', value: visit.data['complaint-log'] ?? 'not recorded' },
      ...(visit.data.recommended === undefined ? [] : [{ label: 'Advice', value: visit.data.recommended }]),
      { label: 'Received by', value: receivedBy(view, visit, person) },
    ],
    tables: [found, doneTable(view, visit), putOutTable(view, visit), fix],
    cautions: [
      'Droppings, traps with animals in them and insects that sting can hurt people: leave them to the technician and keep pupils away. Labels and safety data sheets are in the pest control file.',
    ],
    notExamined: [],
    incomplete: false,
  }
}

function headlineOf(found: number, open: number): string {
  const foundWords =
    found === 0 ? 'No pest was found' : found === 1 ? 'One thing was found' : `${found} things were found`
  const openWords =
    open === 0
      ? 'nothing waits to be fixed'
      : open === 1
        ? 'one thing is yours to fix'
        : `${open} things are yours to fix`
  return `${foundWords}; ${openWords}.`
}

function readingsOf(view: SiteView, visit: LoadedEvent<'visit'>) {
  return view.devices.flatMap((device) =>
    device.checks.filter((check) => check.moment.visit === visit).map((check) => ({ device, check })),
  )
}

function foundTable(view: SiteView, visit: LoadedEvent<'visit'>): Table {
  const rows: Row[] = []
  for (const { device, check } of readingsOf(view, visit)) {
    const where = `${areaName(view, check.area)}, ${device.id}`
    const { reading } = check
    if (!reading) continue
    for (const pest of pestsIn(reading)) {
      const now = check.counts.get(pest) ?? 0
      if (now > 0)
        rows.push(
          row(
            visit,
            where,
            pestName(pest),
            `${now} on the device, ${check.caught.get(pest) ?? 'unknown'} of them new`,
          ),
        )
    }
    if (reading.other !== undefined)
      rows.push(row(visit, where, reading.other, String(reading['other-count'] ?? 'seen')))
    if (reading.unusable !== undefined) rows.push(row(visit, where, 'device', reading.unusable))
    if (reading['no-access'] !== undefined)
      rows.push(row(visit, where, 'device', `not reached: ${reading['no-access']}`))
    if (reading.sprung !== undefined) rows.push(row(visit, where, 'device', 'sprung without a catch'))
    if (reading['bait-taken'] !== undefined && reading['bait-taken'] !== 'none')
      rows.push(row(visit, where, 'bait', `taken: ${reading['bait-taken']}`))
    if (reading.tracks !== undefined && reading.tracks !== 'none')
      rows.push(row(visit, where, 'tracks', reading.tracks))
    if (reading.active === 'yes') rows.push(row(visit, where, 'termite station', 'active'))
    if (reading.block === 'moved') rows.push(row(visit, where, 'blocked entrance', 'block pushed aside'))
  }
  for (const { facts } of view.sightings.filter((sighting) => sighting.visit === visit)) {
    const what = facts.pest === undefined ? (facts.other ?? 'not named') : pestName(facts.pest)
    const sure =
      facts.identified === undefined || facts.identified === 'sure'
        ? ''
        : `, identification ${facts.identified}`
    const number = facts.count === undefined ? '' : `${facts.count} `
    rows.push(
      row(
        visit,
        areaName(view, facts.area),
        what,
        `${number}${facts.evidence}${facts.age === undefined ? '' : `, ${facts.age}`}${sure}`,
      ),
    )
  }
  return { id: 'found', title: 'Found', columns: whereWhatHow, rows, empty: 'Nothing.' }
}

const whereWhatHow = [
  { id: 'where', title: 'where' },
  { id: 'what', title: 'what' },
  { id: 'how', title: 'how much' },
]

function row(visit: LoadedEvent<'visit'>, where: string, what: string, how: string): Row {
  return { cells: { where, what, how }, records: [visit.file] }
}

function doneTable(view: SiteView, visit: LoadedEvent<'visit'>): Table {
  const rows: Row[] = []
  for (const action of Object.values(visit.data.actions ?? {})) {
    rows.push(
      row(
        visit,
        action.area === undefined ? '' : areaName(view, action.area),
        action.did ?? action.ended ?? '',
        [action.tactic, action.why, action.until === undefined ? undefined : `until ${action.until}`]
          .filter((part) => part !== undefined)
          .join(', '),
      ),
    )
  }
  for (const [id, facts] of Object.entries(visit.data.set ?? {}))
    rows.push(row(visit, areaName(view, facts.area), `set ${facts.kind} ${facts['marked-as'] ?? id}`, ''))
  for (const [id, facts] of Object.entries(visit.data.moved ?? {}))
    rows.push(row(visit, facts.area === undefined ? '' : areaName(view, facts.area), `moved ${id}`, ''))
  for (const [id, why] of Object.entries(visit.data['taken-up'] ?? {}))
    rows.push(row(visit, '', `took up ${id}`, why))
  for (const [complaint, answer] of Object.entries(visit.data.answers ?? {}))
    rows.push(row(visit, '', `looked at the complaint ${complaint}`, answer))
  for (const condition of view.conditions) {
    const fixed = condition.events.find((event) => event.kind === 'fixed' && event.at.file === visit.file)
    if (fixed)
      rows.push(
        row(
          visit,
          condition.area === undefined ? '' : areaName(view, condition.area),
          condition.says,
          `fixed on the spot: ${fixed.says}`,
        ),
      )
  }
  return {
    id: 'done',
    title: 'Done',
    columns: [whereWhatHow[0], whereWhatHow[1], { id: 'how', title: 'how' }].filter(
      (column) => column !== undefined,
    ),
    rows,
    empty: 'Inspected only.',
  }
}

function putOutTable(view: SiteView, visit: LoadedEvent<'visit'>): Table {
  const product = (id: string) => view.district.products.get(id)?.data.name ?? id
  const rows: Row[] = []
  const bait = (
    device: DeviceHistory,
    area: string,
    used: string | undefined,
    amount: string | undefined,
  ) => {
    if (used === undefined) return
    rows.push({
      cells: {
        where: `${areaName(view, area)}, ${device.id}`,
        product: product(used),
        amount: amount ?? 'not recorded',
        against: pestName(device.for[0] ?? ''),
      },
      records: [visit.file],
    })
  }
  for (const device of view.devices)
    if (device.set.visit === visit)
      bait(device, device.setFacts.area, device.setFacts.product, device.setFacts['bait-added'])
  for (const { device, check } of readingsOf(view, visit))
    bait(device, check.area, check.reading?.product, check.reading?.['bait-added'])
  for (const application of view.applications) {
    if (
      application.day !== visit.day ||
      application.data.by !== visit.data.by ||
      application.data.status !== 'done'
    )
      continue
    for (const [area, facts] of Object.entries(application.data.areas)) {
      rows.push({
        cells: {
          where: areaName(view, area),
          product: product(application.data.product),
          amount: facts.amount ?? application.data.amount ?? 'not recorded',
          against: pestName(application.data.pest),
        },
        records: [application.file],
      })
    }
  }
  return {
    id: 'put-out',
    title: 'Put out',
    columns: [
      { id: 'where', title: 'where' },
      { id: 'product', title: 'product' },
      { id: 'amount', title: 'undiluted amount' },
      { id: 'against', title: 'against' },
    ],
    rows,
    empty: 'No pesticide and no bait.',
  }
}

function receivedBy(view: SiteView, visit: LoadedEvent<'visit'>, person: (id: string) => string): string {
  const met = visit.data['site-manager']
  const manager = inForce(view.site.data['site-manager'], visit.day)?.who
  const managerName = manager === undefined ? 'the site manager' : person(manager)
  if (met === undefined) return 'not recorded'
  if (met === 'left word') return `left for ${managerName}`
  return met === 'designee' ? `someone standing in for ${managerName}` : person(met)
}
