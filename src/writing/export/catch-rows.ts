import type { Check, DeviceHistory } from '../../ledger/device-history.js'
import type { SiteView } from '../../ledger/site-view.js'
import type { Period } from '../../reports/period.js'
import { livesOf } from './lives.js'
import type { ExportRow } from './table-words.js'

/** One look at a device, as its rows are made from it. */
interface Look {
  readonly view: SiteView
  readonly device: DeviceHistory
  readonly life: number
  readonly check: Check
  /** Which look at the device on this visit. */
  readonly nth: number
}

/** Every look at a device in the period. Rows are made one by one, since there are very many. */
export function* readingRows(view: SiteView, period: Period): Generator<ExportRow> {
  for (const look of looksAt(view, period)) yield readingRow(look)
}

/** What each of them says of each pest: of named ones, and zeros of what the device is for. */
export function* catchRows(view: SiteView, period: Period): Generator<ExportRow> {
  for (const look of looksAt(view, period))
    for (const [pest, count] of look.check.counts) yield catchRow(look, pest, count)
}

function* looksAt(view: SiteView, { from, to }: Period): Generator<Look> {
  for (const { device, life } of livesOf(view.devices)) {
    let nth = 0
    let visit = ''
    for (const check of device.checks) {
      const { day, visit: record } = check.moment
      // Devices are read in the order of visits, so looks on one visit stand together.
      nth = record.file === visit ? nth + 1 : 1
      visit = record.file
      if (day >= from && day <= to) yield { view, device, life, check, nth }
    }
  }
}

function readingRow({ view, device, life, check, nth }: Look): ExportRow {
  const usable = isUsable(check)
  return {
    site: view.id,
    visit: check.moment.visit.id,
    nth,
    day: check.moment.day,
    area: check.area,
    area_kind: view.areas.get(check.area)?.facts.kind ?? null,
    device: device.id,
    life,
    device_kind: device.kind,
    traps: device.traps,
    usable,
    why_not: usable ? null : (check.unusable ?? 'no access'),
    trap_nights: usable ? check.trapNights : null,
    renewed: check.renewed,
    bait_taken: check.reading?.['bait-taken'] ?? null,
    tracks: check.reading?.tracks ?? null,
  }
}

/** Joins the rates by the same words as the series of catches: usable, for the pest, and the catch is known. */
function catchRow({ view, device, life, check, nth }: Look, pest: string, count: number): ExportRow {
  const caught = check.caught.get(pest)
  const isFor = device.for.includes(pest)
  const inRates = isUsable(check) && isFor && caught !== undefined
  return {
    site: view.id,
    visit: check.moment.visit.id,
    nth,
    day: check.moment.day,
    area: check.area,
    area_kind: view.areas.get(check.area)?.facts.kind ?? null,
    device: device.id,
    life,
    device_kind: device.kind,
    pest,
    on_device: count,
    caught: caught ?? null,
    is_for: isFor,
    in_rates: inRates,
    trap_nights: inRates ? check.trapNights : null,
  }
}

const isUsable = ({ noAccess, unusable }: Check) => !noAccess && unusable === undefined
