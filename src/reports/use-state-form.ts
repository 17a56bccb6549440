import type { DistrictView } from '../ledger/district-view.js'
import { licencesOf } from '../ledger/licences.js'
import { holdsOn } from '../ledger/spans.js'
import { isoOf } from '../measure/calendar.js'
import { shown } from '../measure/rates.js'
import type { Day, Row, Table } from '../types.js'
import { pestName } from './pest-name.js'
import type { PartOfUse, SiteFacts, Use } from './use-collect.js'

/** One row for each application and area, in the shape in which states ask for a year's use; for `--table state-form`. */
export function stateFormTable(
  district: DistrictView | null,
  sites: readonly SiteFacts[],
  uses: readonly Use[],
): Table {
  const siteOf = new Map(sites.map((site) => [site.id, site]))
  const rows = uses.flatMap((use) =>
    use.parts.map((part) => formRow(district, siteOf.get(use.siteId), use, part)),
  )
  return {
    id: 'state-form',
    title: 'Each use and area; --format csv --table state-form has what yearly forms ask',
    columns: [
      { id: 'site', title: 'site', for: 'work' },
      { id: 'address', title: 'address', for: 'work' },
      { id: 'date', title: 'date' },
      { id: 'time', title: 'time', for: 'work' },
      { id: 'where', title: 'where', for: 'people' },
      { id: 'area', title: 'area', for: 'work' },
      { id: 'product', title: 'product' },
      { id: 'maker', title: 'maker', for: 'work' },
      { id: 'registration', title: 'registration number', for: 'work' },
      { id: 'amount-shown', title: 'amount', for: 'people' },
      { id: 'amount', title: 'amount, in the unit of the next column', for: 'work' },
      { id: 'unit', title: 'unit', for: 'work' },
      { id: 'amount-in-all', title: 'amount in all areas together', for: 'work' },
      { id: 'unit-in-all', title: 'unit of it', for: 'work' },
      { id: 'method', title: 'method', for: 'work' },
      { id: 'pest', title: 'pest' },
      { id: 'applicator', title: 'applicator', for: 'work' },
      { id: 'licence', title: 'licence number', for: 'work' },
      { id: 'supervised-by', title: 'supervised by', for: 'work' },
      { id: 'supervisor-licence', title: 'licence number of the supervisor', for: 'work' },
      { id: 'how', title: 'how', for: 'work' },
    ],
    rows,
    shownToPeople: 12,
    empty: 'None recorded in this period.',
  }
}

function formRow(
  district: DistrictView | null,
  site: SiteFacts | undefined,
  use: Use,
  { areaName, amount }: PartOfUse,
): Row {
  const { name, maker, registration } = use.product.data
  // A whole over several areas belongs to none of them.
  const isShared = amount === undefined && use.parts.length > 1 && use.inAll !== undefined
  const person = (id: string | undefined) =>
    id === undefined ? null : (district?.people.get(id)?.data.name ?? id)
  return {
    cells: {
      site: site?.name ?? use.siteId,
      where: `${use.siteId}, ${areaName}`,
      address: site?.address ?? null,
      area: areaName,
      date: isoOf(use.day),
      time: use.time ?? null,
      product: name,
      maker: maker ?? null,
      registration: registration ?? null,
      'amount-shown': amount ? shown(amount) : isShared && use.inAll ? `part of ${shown(use.inAll)}` : null,
      amount: amount?.value ?? null,
      unit: amount?.unit ?? null,
      'amount-in-all': use.inAll?.value ?? null,
      'unit-in-all': use.inAll?.unit ?? null,
      method: use.method,
      pest: use.pests.map(pestName).join('; ') || null,
      applicator: person(use.by),
      licence: licenceNumbers(district, use.by, use.day),
      'supervised-by': person(use.supervisedBy),
      'supervisor-licence':
        use.supervisedBy === undefined ? null : licenceNumbers(district, use.supervisedBy, use.day),
      how: use.how,
    },
    records: [use.file],
  }
}

/** Numbers of the licences in force on the day: those of the district's state, or, where there are none, of others. */
function licenceNumbers(district: DistrictView | null, id: string, day: Day): string | null {
  const person = district?.people.get(id)
  if (!district || !person) return null
  const { state } = district.district.data
  const inForce = licencesOf(person).filter(({ spans }) => spans.some((span) => holdsOn(span, day)))
  const own = inForce.filter((licence) => state === undefined || licence.state === state)
  if (own.length > 0) return own.map(({ number }) => number).join('; ')
  return inForce.map((licence) => `${licence.number} (${licence.state})`).join('; ') || null
}
