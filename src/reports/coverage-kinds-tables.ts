import { compareText } from '../ledger/compare-text.js'
import { getOrMake } from '../ledger/get-or-make.js'
import type { Row, Table } from '../types.js'
import type { Watch } from './coverage-collect.js'
import type { KindWatch } from './coverage-needs.js'
import { kindKey } from './coverage-needs.js'
import { pestName } from './pest-name.js'

/** Areas of one plan, or of one plan and kind of area, with those that only people watch. */
interface Group {
  readonly first: Watch
  readonly all: readonly Watch[]
  readonly without: readonly Watch[]
}

const title = 'Areas indoors that a plan governs and only people watch; no gap by itself'
const empty = 'Every area indoors that a plan governs has a device for its pest.'

/** By pest: how many areas indoors that its plan governs no device for it stands in. */
export function eyesOnlyTable(watches: readonly Watch[]): Table {
  return {
    id: 'eyes-only',
    title,
    columns: [
      { id: 'pest', title: 'pest' },
      { id: 'on-one', title: 'one is enough' },
      { id: 'areas', title: 'areas', decimals: 0 },
      { id: 'with-device', title: 'with a device', decimals: 0 },
      { id: 'without', title: 'without', decimals: 0 },
    ],
    shownToPeople: 10,
    rows: groupsBy(watches, ({ pest }) => pest).map(({ first, all, without }) => ({
      cells: {
        pest: pestName(first.pest),
        'on-one': onOneWords(all),
        areas: all.length,
        'with-device': all.length - without.length,
        without: without.length,
      },
      records: filesOf(all),
    })),
    empty,
  }
}

/** The same by kind of area, beside how it is in the whole district. */
export function eyesOnlyByKindTable(watches: readonly Watch[], kinds: ReadonlyMap<string, KindWatch>): Table {
  return {
    id: 'eyes-only-by-kind',
    title: `${title}, by kind of area`,
    for: 'work',
    columns: [
      { id: 'pest', title: 'pest' },
      { id: 'kind', title: 'kind of area' },
      { id: 'on-one', title: 'one is enough' },
      { id: 'areas', title: 'areas', unit: 'areas', decimals: 0 },
      { id: 'with-device', title: 'with a device', unit: 'areas', decimals: 0 },
      { id: 'without', title: 'without', unit: 'areas', decimals: 0 },
      { id: 'district-areas', title: 'areas in the district', unit: 'areas', decimals: 0 },
      { id: 'district-with-device', title: 'with a device in the district', unit: 'areas', decimals: 0 },
      { id: 'list', title: 'areas without' },
    ],
    rows: groupsBy(watches, kindKey).map(({ first, all, without }): Row => {
      const district = kinds.get(kindKey(first))
      return {
        cells: {
          pest: pestName(first.pest),
          kind: first.kind ?? null,
          'on-one': onOneWords(all),
          areas: all.length,
          'with-device': all.length - without.length,
          without: without.length,
          'district-areas': district?.areas ?? null,
          'district-with-device': district?.withDevice ?? null,
          list: without
            .map(({ site, area }) => `${site} ${area}`)
            .sort(compareText)
            .join(', '),
        },
        records: filesOf(all),
      }
    }),
    empty,
  }
}

/** Groups with an area without a device; where one is enough first, then by how many. */
function groupsBy(watches: readonly Watch[], key: (watch: Watch) => string): Group[] {
  const groups = new Map<string, Watch[]>()
  for (const watch of watches) getOrMake(groups, key(watch), () => []).push(watch)
  const onOne = ({ all }: Group) => Number(all.some(({ plan }) => plan?.onOne))
  return [...groups.values()]
    .flatMap((all) => {
      const [first] = all
      const without = all.filter(({ devices }) => devices === 0)
      return first && without.length > 0 ? [{ first, all, without }] : []
    })
    .sort(
      (a, b) =>
        onOne(b) - onOne(a) || b.without.length - a.without.length || compareText(key(a.first), key(b.first)),
    )
}

function onOneWords(all: readonly Watch[]): string {
  const some = all.filter(({ plan }) => plan?.onOne).length
  return some === 0 ? 'no' : some === all.length ? 'yes' : 'in some'
}

function filesOf(all: readonly Watch[]): string[] {
  const files = all.flatMap(({ plan, site }) => [...(plan ? [plan.file] : []), `sites/${site}/site.yaml`])
  return [...new Set(files)].sort(compareText)
}
