import { compareText } from '../ledger/compare-text.js'
import { getOrMake } from '../ledger/get-or-make.js'
import { isoOf } from '../measure/calendar.js'
import type { Row, Table } from '../types.js'
import type { AreaWatch } from './coverage-collect.js'
import type { Need, NeedKind } from './coverage-needs.js'
import { seenOnWords } from './coverage-place.js'
import { pestName } from './pest-name.js'

const needWords: Record<NeedKind, string> = {
  'seen-no-device': 'seen, no device for it',
  'one-is-enough': 'one is enough, no device',
  'too-few': 'too few traps',
  'not-entered': 'could not be entered',
  'not-inspected': 'not inspected',
}

function needText({ kind, watch }: Need): string {
  const lost = watch !== undefined && watch.devices > 0 && watch.fit === 0
  return lost ? 'lost or spoilt, not renewed' : needWords[kind]
}

export const placeWords = ({ areas, areaKind, of }: Pick<Need, 'areas' | 'areaKind' | 'of'>) =>
  areas.length === 0
    ? '(area not told)'
    : areas.length === 1
      ? (areas[0] ?? '')
      : `${areas.length} of ${of}: ${areaKind ?? ''}`

const needColumnsForAll = [
  { id: 'site', title: 'site' },
  { id: 'area', title: 'area' },
  { id: 'pest', title: 'pest' },
  { id: 'need', title: 'what' },
  { id: 'last-seen', title: 'last seen' },
] as const

const needCellsForAll = (one: Need) => ({
  site: one.site,
  area: placeWords(one),
  pest: one.pest === undefined ? null : pestName(one.pest),
  need: needText(one),
  'last-seen': one.lastSeen === undefined ? null : isoOf(one.lastSeen),
  'to-add': one.toAdd,
})

const nothingMissing = 'By these records nothing is missing.'

/** For people: what many sites lack alike is one row. Every one of them stands in `needsTable`. */
export function needsForPeople(needs: readonly Need[]): Table {
  return {
    id: 'needs-shown',
    title: 'Where something is missing, most urgent first',
    for: 'people',
    columns: [...needColumnsForAll, { id: 'to-add', title: 'to add', decimals: 0 }],
    shownToPeople: 25,
    rows: acrossSites(needs).map((one) => ({ cells: needCellsForAll(one), records: one.files })),
    empty: nothingMissing,
  }
}

/** From so many sites on, what they lack alike is told once. */
const sitesToldAsOne = 4

function acrossSites(needs: readonly Need[]): Need[] {
  const key = (one: Need) => `${needText(one)} ${one.pest ?? ''} ${one.areaKind ?? ''}`
  const groups = new Map<string, Need[]>()
  for (const one of needs) if (one.kind !== 'seen-no-device') getOrMake(groups, key(one), () => []).push(one)
  const told = new Set<string>()
  return needs.flatMap((one) => {
    const group = groups.get(key(one)) ?? []
    const sites = new Set(group.map(({ site }) => site)).size
    if (one.kind === 'seen-no-device' || sites < sitesToldAsOne) return [one]
    if (told.has(key(one))) return []
    told.add(key(one))
    return [togetherOf(one, group, sites)]
  })
}

function togetherOf(first: Need, group: readonly Need[], sites: number): Need {
  const seen = group.flatMap(({ lastSeen }) => lastSeen ?? [])
  return {
    ...first,
    site: `${sites} sites`,
    areas: group.flatMap(({ areas }) => areas),
    of: group.reduce((sum, { of }) => sum + of, 0),
    toAdd: group.some(({ toAdd }) => toAdd === null)
      ? null
      : group.reduce((sum, { toAdd }) => sum + (toAdd ?? 0), 0),
    lastSeen: seen.length === 0 ? undefined : Math.max(...seen),
    files: [...new Set(group.flatMap(({ files }) => files))],
  }
}

export function needsTable(needs: readonly Need[]): Table {
  return {
    id: 'needs',
    title: 'Where something is missing, row by row',
    for: 'work',
    columns: [
      ...needColumnsForAll,
      { id: 'to-add', title: 'to add, at least', unit: 'devices', decimals: 0 },
      { id: 'areas', title: 'areas' },
      { id: 'areas-lacking', title: 'areas lacking', unit: 'areas', decimals: 0 },
      { id: 'areas-of-kind', title: 'areas of the kind at the site', unit: 'areas', decimals: 0 },
      { id: 'seen-on', title: 'seen or complained of' },
      { id: 'devices', title: 'devices for it', unit: 'devices', decimals: 0 },
      { id: 'plan', title: 'plan' },
      { id: 'method', title: 'method' },
      { id: 'why', title: 'because' },
    ],
    rows: needs.map(
      (one): Row => ({
        cells: {
          ...needCellsForAll(one),
          areas: one.areas.join(', '),
          'areas-lacking': one.areas.length,
          'areas-of-kind': one.areas.length === 0 ? null : one.of,
          'seen-on': one.watch ? seenOnWords(one.watch) : null,
          devices: one.watch?.devices ?? null,
          plan: one.watch?.plan?.file ?? null,
          method: needMethods[one.kind],
          why: one.why,
        },
        records: one.files,
      }),
    ),
    empty: nothingMissing,
  }
}

const needMethods: Record<NeedKind, string> = {
  'seen-no-device':
    'one device to an area, or as many traps as would notice the threshold of its plan where that counts the catch of traps',
  'one-is-enough': 'one device to an area',
  'too-few': 'the smallest whole number of traps with which the chance is reached; see chance-to-notice',
  'not-entered': 'no device: someone has to look',
  'not-inspected': 'no device: someone has to look',
}

export function bySiteTable(needs: readonly Need[], areas: readonly AreaWatch[]): Table {
  const sites = [...new Set([...areas, ...needs].map(({ site }) => site))].sort(compareText)
  const rows = sites.map((site) =>
    siteRow(
      site,
      needs.filter((one) => one.site === site),
      areas.filter((one) => one.site === site),
    ),
  )
  return {
    id: 'by-site',
    title: 'By site: areas in which something is missing, and how many more devices would do',
    columns: [
      { id: 'site', title: 'site' },
      { id: 'areas', title: 'areas', decimals: 0 },
      { id: 'with-device', title: 'with a device', decimals: 0 },
      ...needColumns.map(([kind, title]) => ({ id: kind, title, decimals: 0 })),
      { id: 'to-add-shown', title: 'to add', decimals: 0, for: 'people' as const },
      { id: 'to-add', title: 'to add, at least', unit: 'devices', decimals: 0, for: 'work' as const },
      { id: 'cannot-tell', title: 'areas where that cannot be told', decimals: 0, for: 'work' as const },
    ],
    rows: sites.length > 1 ? [...rows, { ...siteRow('all sites', needs, areas), records: [] }] : rows,
    empty: 'No area is open in the sites that could be read.',
  }
}

const needColumns: readonly (readonly [NeedKind, string])[] = [
  ['seen-no-device', 'seen'],
  ['one-is-enough', 'one enough'],
  ['too-few', 'too few'],
  ['not-entered', 'not entered'],
  ['not-inspected', 'not inspected'],
]

function siteRow(site: string, needs: readonly Need[], areas: readonly AreaWatch[]): Row {
  const toAdd = needs.reduce((sum, one) => sum + (one.toAdd ?? 0), 0)
  const places = (some: readonly Need[]) => some.reduce((sum, one) => sum + Math.max(1, one.areas.length), 0)
  return {
    cells: {
      site,
      areas: areas.length,
      'with-device': areas.filter(({ devices }) => devices > 0).length,
      ...Object.fromEntries(
        needColumns.map(([kind]) => [kind, places(needs.filter((one) => one.kind === kind))]),
      ),
      'to-add-shown': toAdd,
      'to-add': toAdd,
      'cannot-tell': places(needs.filter(({ toAdd }) => toAdd === null)),
    },
    records: [...new Set([...areas.map(({ siteFile }) => siteFile), ...needs.flatMap(({ files }) => files)])],
  }
}
