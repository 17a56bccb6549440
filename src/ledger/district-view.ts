import type { Source } from '../files/source.js'
import { dayOf } from '../measure/calendar.js'
import type { RecordKind, RecordOf } from '../records/kinds.js'
import { builtInRulebook, builtInRulebooks } from '../records/tables.js'
import type { Day } from '../types.js'
import type { Loaded, LoadedEvent, ReadFault } from './loaded.js'
import type { Parameters } from './parameters.js'
import { parametersOf } from './parameters.js'
import type { Inventory } from './read-records.js'
import { readOne } from './read-records.js'
import type { RegisterEntry } from './register.js'
import { registerOf } from './register.js'
import type { RulebooksInForce } from './rulebooks-in-force.js'
import { rulebooksInForce } from './rulebooks-in-force.js'
import type { SchoolCalendar } from './school-calendar.js'
import { schoolCalendar } from './school-calendar.js'

/** The district's own records, which every site leans on. */
export interface DistrictView {
  readonly asOf: Day
  readonly district: Loaded<'district'>
  readonly recordsBegin: Day
  readonly calendar: SchoolCalendar
  readonly people: ReadonlyMap<string, Loaded<'person'>>
  readonly products: ReadonlyMap<string, Loaded<'product'>>
  /** The same products as someone sees them who chooses among all. */
  readonly register: readonly RegisterEntry[]
  readonly firms: ReadonlyMap<string, Loaded<'firm'>>
  readonly plans: ReadonlyMap<string, Loaded<'plan'>>
  readonly ownRulebooks: ReadonlyMap<string, Loaded<'rulebook'>>
  /** Its own words for notices and signs. */
  readonly wordings: ReadonlyMap<string, Loaded<'wording'>>
  readonly exceptions: readonly Loaded<'exception'>[]
  readonly education: readonly LoadedEvent<'education'>[]
  /** Yearly notices and reports, by day. */
  readonly filings: readonly LoadedEvent<'filing'>[]
  readonly reviews: readonly Loaded<'review'>[]
  /** Every record of the district itself. */
  readonly records: readonly Loaded<RecordKind>[]
  readonly siteIds: ReadonlySet<string>
  /** Records that are there but could not be used, as `kind id`: whoever refers to one is not blamed for it. */
  readonly broken: ReadonlySet<string>
  readonly parameters: Parameters
  readonly rulebooks: RulebooksInForce
  /** Files that are no records, sorted by path. */
  readonly otherFiles: readonly string[]
  /** Whether a plain file is in the ledger. */
  hasFile(path: string): boolean
  /** Reads a file that is no record, such as a label. */
  readonly source: Source
}

/** Reads the records of the district. Null when there is no usable district.yaml: then nothing can be judged. */
export function districtView(
  source: Source,
  inventory: Inventory,
  asOf: Day,
  faults: ReadFault[],
): DistrictView | null {
  const byKind = new Map<RecordKind, Map<string, Loaded<RecordKind>>>()
  const broken = new Set<string>()
  source.prefetch(inventory.district.map((path) => path.file))
  for (const path of inventory.district) {
    const record = readOne(source, path, faults)
    if (!record) broken.add(`${path.kind} ${path.id}`)
    else {
      const records = byKind.get(path.kind) ?? new Map<string, Loaded<RecordKind>>()
      records.set(path.id, record as Loaded<RecordKind>)
      byKind.set(path.kind, records)
    }
  }
  const of = <K extends RecordKind>(kind: K) => (byKind.get(kind) ?? new Map()) as Map<string, Loaded<K>>
  const district = of('district').get('district')
  if (!district) return null
  const ownRulebooks = of('rulebook')
  const rulebooks = rulebooksOf(district.data, ownRulebooks)
  const filings = [...of('filing').values()] as LoadedEvent<'filing'>[]
  const education = [...of('education').values()] as LoadedEvent<'education'>[]
  return {
    asOf,
    district,
    recordsBegin: dayOf(district.data['records-begin']) ?? asOf,
    calendar: schoolCalendar(district.data),
    people: of('person'),
    products: of('product'),
    register: registerOf(of('product')),
    firms: of('firm'),
    plans: of('plan'),
    ownRulebooks,
    wordings: of('wording'),
    exceptions: [...of('exception').values()],
    education: education.filter((event) => event.day <= asOf),
    filings: filings
      .filter((event) => event.day <= asOf)
      .sort((a, b) => a.day - b.day || (a.id < b.id ? -1 : 1)),
    reviews: [...of('review').values()],
    records: [...byKind.values()].flatMap((records) => [...records.values()]),
    siteIds: new Set(inventory.sites.keys()),
    broken,
    parameters: parametersOf(district.data, rulebooks),
    rulebooks: rulebooksInForce(district.data, rulebooks),
    otherFiles: inventory.otherFiles,
    hasFile: (path) => source.isFile(path),
    source,
  }
}

/** Rulebooks by id: the district's own, and those of the program that it lists; the others are not even read. */
function rulebooksOf(
  district: RecordOf<'district'>,
  own: ReadonlyMap<string, Loaded<'rulebook'>>,
): Map<string, RecordOf<'rulebook'>> {
  const listed = new Set(district.rulebooks.map(({ rulebook }) => rulebook))
  const all = new Map<string, RecordOf<'rulebook'>>()
  for (const id of builtInRulebooks) if (listed.has(id)) all.set(id, builtInRulebook(id))
  for (const [id, rulebook] of own) all.set(id, rulebook.data)
  return all
}
