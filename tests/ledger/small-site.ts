import { memorySource } from '../../src/files/memory.js'
import type { Check, DeviceHistory } from '../../src/ledger/device-history.js'
import type { DistrictView } from '../../src/ledger/district-view.js'
import { readLedger } from '../../src/ledger/read-ledger.js'
import type { SiteView } from '../../src/ledger/site-view.js'
import { dayOf, isoOf } from '../../src/measure/calendar.js'

/** Texts by name or path. */
type Texts = Readonly<Record<string, string>>

const district = `
format: 1
name: Example District
time-zone: America/Los_Angeles
records-begin: 2026-01-01
coordinator: [{from: 2026-01-01, who: marsh}]
rulebooks: []
calendar: []
`

const oak = `
name: Oak School
site-manager: [{from: 2026-01-01, who: lind}]
complaint-log: front office
contract: [{from: 2026-01-01, contractor: Invented Pest Services, routine-visits: monthly}]
areas:
  kitchen: {kind: kitchen}
  room-1: {kind: classroom}
  store: {kind: storage}
`

/**
 * A ledger of one site, Oak School. A visit is under its date (\`2026-03-08\`) or its name (\`2026-03-08-reyes\`), and
 * is a follow-up by okafor unless it says otherwise. Other files are under their path and replace or add to it.
 */
export function oakFiles(visits: Texts, others: Texts = {}): Map<string, string> {
  const files = new Map<string, string>([
    ['district.yaml', district],
    ['sites/oak/site.yaml', oak],
  ])
  for (const [name, text] of Object.entries(visits)) {
    const stem = name.length === 10 ? `${name}-okafor` : name
    const head = text.includes('purpose:') ? '' : 'purpose: follow-up\nby: okafor\n'
    files.set(`sites/oak/visits/${stem}.yaml`, head + text)
  }
  for (const [path, text] of Object.entries(others)) files.set(path, text)
  return files
}

/** Reads a ledger that has nothing wrong in its form; a slip in a test is not to pass for an empty picture. */
export function oakView(visits: Texts, others: Texts = {}, asOf = '2026-12-31'): SiteView {
  let oakSite: SiteView | undefined
  const read = readLedger(
    memorySource(oakFiles(visits, others)),
    { asOf: day(asOf), asOfIsToday: false },
    (view) => {
      if (view.id === 'oak') oakSite = view
    },
  )
  if (!oakSite || read.faults.length > 0)
    throw new Error(`the ledger of this test cannot be read: ${JSON.stringify(read.faults)}`)
  return oakSite
}

export function districtIn(others: Texts = {}, asOf = '2026-12-31'): DistrictView {
  return oakView({}, others, asOf).district
}

/** The day of a date that is in the calendar. */
export function day(date: string): number {
  const found = dayOf(date)
  if (found === null) throw new Error(`${date} is no date`)
  return found
}

/** The device of an id; the first of its lives, or the one asked for. */
export function deviceIn(view: SiteView, id: string, life = 0): DeviceHistory {
  const found = view.devices.filter((device) => device.id === id)[life]
  if (!found) throw new Error(`there is no device ${id}`)
  return found
}

/** The checks of a device in a few words: day, catch of one pest, trap-nights, and why the interval tells nothing. */
export function checksOf(view: SiteView, id: string, pest = 'german-cockroach', life = 0) {
  return deviceIn(view, id, life).checks.map((check) => inShort(check, pest))
}

function inShort(check: Check, pest: string) {
  const day = isoOf(check.moment.day).slice(5)
  if (check.noAccess) return `${day}: no access`
  const caught = check.caught.get(pest)
  const why = check.unusable === undefined ? '' : `, ${check.unusable}`
  return `${day}: ${caught ?? 'no'} caught in ${check.trapNights}${why}`
}
