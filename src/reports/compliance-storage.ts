import type { DistrictView } from '../ledger/district-view.js'
import type { LoadedEvent } from '../ledger/loaded.js'
import type { SiteView } from '../ledger/site-view.js'
import { isoOf } from '../measure/calendar.js'
import type { RecordOf } from '../records/kinds.js'
import type { Day, Row, Table } from '../types.js'
import { areaName } from './area-name.js'
import type { Outcome } from './outcomes.js'
import { byOutcome, counted, listInWords, worstOf } from './outcomes.js'
import type { Period } from './period.js'
import { storageDay } from './products-at-site.js'

type Place = RecordOf<'storage'>['places'][string]
type Item = Place['items'][string]

/** One place at one storage record of the period. */
export interface StoredPlace {
  readonly day: Day
  readonly file: string
  readonly place: string
  readonly where: string
  readonly locked: Place['locked']
  readonly ventilated: Place['ventilated']
  readonly kept: readonly string[]
  /** Brought in by someone who may not keep it there, and still there. */
  readonly unauthorized: readonly string[]
  /** Not told as a product of the register, and still there. */
  readonly unnamed: readonly string[]
  readonly disposed: readonly string[]
}

/** What the storage records of a site tell of a period. */
export interface StorageFacts {
  readonly site: string
  readonly name: string
  readonly file: string
  readonly begins: Day
  readonly ends: Day | undefined
  readonly places: readonly StoredPlace[]
  /** The last record before the period: its day, and how many containers it leaves there. */
  readonly before: { readonly day: Day; readonly file: string; readonly kept: number } | undefined
  /** Uses of products at the site in the period, where nothing tells whether they are kept there. */
  readonly uses: number
}

export function collectStorage(view: SiteView, { from, to }: Period): StorageFacts {
  const inPeriod = view.storage.filter(({ day }) => from <= day && day <= to)
  const earlier = view.storage.filter(({ day }) => day < from)
  const last = storageDay({ ...view, storage: earlier })
  const before = earlier.filter(({ day }) => day === last)
  return {
    site: view.id,
    name: view.site.data.name,
    file: view.site.file,
    begins: view.begins,
    ends: view.ends,
    places: inPeriod.flatMap((record) => placesOf(view, record)),
    before:
      last === undefined
        ? undefined
        : {
            day: last,
            file: before[0]?.file ?? '',
            kept: before
              .flatMap(({ data }) => Object.values(data.places))
              .flatMap(({ items }) => Object.values(items))
              .filter(isKept).length,
          },
    uses: view.treatments.filter(({ day }) => Math.max(from, view.begins) <= day && day <= to).length,
  }
}

/** What is kept where, locked and ventilated, by every storage record of the period; and sites without one. */
export function storageTable(
  facts: readonly StorageFacts[],
  _district: DistrictView,
  period: Period,
  asOf: Day,
): Table {
  const to = Math.min(period.to, asOf)
  const rows = facts
    .flatMap((site) =>
      site.places.length > 0
        ? site.places.map((place) => placeRow(site, place))
        : [withoutRecord(site, { from: period.from, to })],
    )
    .sort((a, b) => byOutcome(a.outcome, b.outcome))
  const open = rows.filter(({ outcome }) => outcome === 'not shown' || outcome === 'cannot be checked')
  return {
    id: 'storage',
    title: 'Where products are kept',
    columns: [
      { id: 'site', title: 'site' },
      { id: 'where', title: 'place' },
      { id: 'outcome', title: 'outcome' },
      { id: 'why', title: 'what the records show' },
      { id: 'id', title: 'id', for: 'work' },
      { id: 'day', title: 'seen on', for: 'work' },
      { id: 'place', title: 'name of the place', for: 'work' },
      { id: 'locked', title: 'locked', for: 'work' },
      { id: 'ventilated', title: 'ventilated', for: 'work' },
      { id: 'kept', title: 'kept there', for: 'work' },
      { id: 'not-in-register', title: 'not in the register', for: 'work' },
      { id: 'unauthorized', title: 'brought in', for: 'work' },
      { id: 'disposed', title: 'disposed of', for: 'work' },
    ],
    rows: rows.map(({ row }) => row),
    // In a large ledger what is shown year after year would bury what is not.
    ...(rows.length > enoughForPeople ? { shownToPeople: Math.max(open.length, enoughForPeople) } : {}),
    empty: 'No site could be examined.',
  }
}

export const storageCautions: readonly string[] = [
  'No rulebook of the program holds a duty of its own on storage: the outcome tells what the storage records show, not that the label, local code or fire code is met.',
]

interface Judged {
  readonly outcome: Outcome
  readonly row: Row
}

/** Rows a person reads through. */
const enoughForPeople = 40

function isKept({ disposed }: Item): boolean {
  return disposed === undefined
}

function placesOf(view: SiteView, { day, file, data }: LoadedEvent<'storage'>): StoredPlace[] {
  return Object.entries(data.places).map(([place, { area, locked, ventilated, items }]) => {
    const all = Object.entries(items)
    const named = (wanted: (item: Item) => boolean) =>
      all.flatMap(([name, item]) => (wanted(item) ? [nameOf(view, name, item)] : []))
    return {
      day,
      file,
      place,
      where: areaName(view, area),
      locked,
      ventilated,
      kept: named(isKept),
      unauthorized: named((item) => isKept(item) && item.unauthorized === 'yes'),
      unnamed: named((item) => isKept(item) && item.product === undefined),
      disposed: named((item) => !isKept(item)),
    }
  })
}

function nameOf({ district }: SiteView, name: string, { product, what }: Item): string {
  return product === undefined ? (what ?? name) : (district.products.get(product)?.data.name ?? product)
}

function placeRow({ site, name }: StorageFacts, of: StoredPlace): Judged {
  const others = of.unnamed.filter((item) => !of.unauthorized.includes(item))
  const parts: readonly (readonly [Outcome, string])[] = [
    of.locked === 'yes' ? ['shown', 'locked'] : ['not shown', 'not locked'],
    of.ventilated === 'yes'
      ? ['shown', 'ventilated']
      : of.ventilated === 'no'
        ? ['not shown', 'not ventilated']
        : ['cannot be checked', '`ventilated` is absent'],
    ...(of.unauthorized.length === 0
      ? []
      : [['not shown', `brought in without leave: ${listInWords(of.unauthorized, 'items')}`] as const]),
    ...(others.length === 0
      ? []
      : [['cannot be checked', `no product of the register: ${listInWords(others, 'items')}`] as const]),
  ]
  const kept = of.kept.length === 0 ? 'nothing kept' : counted(of.kept.length, 'item')
  const disposed = of.disposed.length === 0 ? '' : `; ${counted(of.disposed.length, 'item')} disposed of`
  const outcome = worstOf(parts.map(([one]) => one))
  const row: Row = {
    cells: {
      site: name,
      day: isoOf(of.day),
      where: of.where,
      outcome,
      why: `${isoOf(of.day)}: ${parts.map(([, says]) => says).join('; ')}; ${kept}${disposed}`,
      id: site,
      place: of.place,
      locked: of.locked,
      ventilated: of.ventilated ?? null,
      kept: of.kept.join('; ') || null,
      'not-in-register': of.unnamed.join('; ') || null,
      unauthorized: of.unauthorized.join('; ') || null,
      disposed: of.disposed.join('; ') || null,
    },
    records: [of.file],
  }
  return { outcome, row }
}

/** A site without a storage record in the period: what was kept there before is kept there still, or not told. */
function withoutRecord(of: StorageFacts, period: Period): Judged {
  const { site, name, file, begins, ends, before, uses } = of
  const used = uses === 0 ? '' : `; products were used here ${uses === 1 ? 'once' : `${uses} times`}`
  const [outcome, why]: readonly [Outcome, string] =
    begins > period.to
      ? ['not applicable', `the records begin here on ${isoOf(begins)}, after the period`]
      : ends !== undefined && ends < period.from
        ? ['not applicable', `closed on ${isoOf(ends)}, before the period`]
        : !before
          ? ['cannot be checked', `no storage record tells whether anything is kept here${used}`]
          : before.kept > 0
            ? [
                'not shown',
                `no storage record in the period; that of ${isoOf(before.day)} leaves ${counted(before.kept, 'item')} here`,
              ]
            : uses === 0
              ? ['not applicable', `nothing was kept here by the storage record of ${isoOf(before.day)}`]
              : [
                  'cannot be checked',
                  `nothing was kept here by the storage record of ${isoOf(before.day)}, and none tells of the period${used}`,
                ]
  const cells = { site: name, day: null, where: null, outcome, why, id: site }
  return { outcome, row: { cells, records: [...(before ? [before.file] : []), file] } }
}
