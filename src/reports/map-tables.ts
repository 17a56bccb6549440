import type { Cell, Column, Table } from '../types.js'
import { needWordsOf, ownerWordsOf } from './conditions-words.js'
import type { DevicePlace, MapArea, MapCatch, MapDevice, OutlineState, SiteMap } from './map-site.js'
import type { Measured } from './measured.js'
import { measuredCells, measuredColumns } from './measured.js'

const work = { for: 'work' } as const
const number = { id: 'no', title: 'number', decimals: 0 } as const
export const rateColumn = { id: 'rate', title: 'rate', unit: 'per trap-week', decimals: 3 } as const

/** Everything that stands on the picture, by the numbers it has there. Without a site that could be read they are empty. */
export function mapTables(map: SiteMap | undefined): Table[] {
  return [
    devicesTable(map),
    areasTable(map),
    conditionsTable(map),
    placesTable(map),
    needsTable(map),
    gapsTable(map),
  ]
}

const notRead = 'Not examined.'

function devicesTable(map: SiteMap | undefined): Table {
  const unit = map?.unit
  const position = unit === undefined ? { decimals: 1 } : { unit, decimals: 1 }
  const rated: readonly Column[] =
    map?.pest === undefined
      ? []
      : [
          { id: 'catch', title: `catch of ${map.pest.name}` },
          { id: 'caught', title: 'caught', unit: 'animals', decimals: 0 },
          { id: 'trap-nights', title: 'effort', unit: 'trap-nights', decimals: 0 },
          ...measuredColumns(rateColumn),
          { id: 'stands-out', title: 'stands out', ...work },
        ]
  return {
    id: 'devices',
    title: 'Devices',
    columns: [
      number,
      { id: 'device', title: 'device' },
      { id: 'marked', title: 'marked as' },
      { id: 'kind', title: 'kind' },
      { id: 'area', title: 'area' },
      { id: 'across', title: 'across', ...position },
      { id: 'down', title: 'down', ...position },
      { id: 'where', title: 'position' },
      ...rated,
      { id: 'floor', title: 'floor', ...work },
      { id: 'traps', title: 'traps', unit: 'traps', decimals: 0, ...work },
      { id: 'stands', title: 'stands there', ...work },
      { id: 'able', title: 'able to catch', ...work },
      { id: 'last-read', title: 'last read', ...work },
    ],
    rows: (map?.devices ?? []).map((device) => ({
      cells: {
        no: device.no,
        device: device.id,
        marked: device.markedAs ?? null,
        kind: device.kindName,
        area: device.areaName,
        across: device.spot?.x ?? null,
        down: device.spot?.y ?? null,
        where: placeWords(device, map?.areas ?? []),
        ...(map?.pest === undefined ? {} : catchCells(device.catch)),
        'stands-out': device.outlying ? 'yes' : 'no',
        floor: device.floor,
        traps: device.traps,
        stands: device.stands ? 'yes' : 'no longer',
        able: device.fit ? 'yes' : 'no',
        'last-read': device.lastRead ?? null,
      },
      records: device.records,
    })),
    empty: map ? 'No device stands here on this day.' : notRead,
  }
}

function catchCells(caught: MapCatch): Record<string, Cell> {
  const measured: Measured | null =
    caught.is === 'measured' ? { value: caught.rate, low: caught.low, high: caught.high } : null
  return {
    catch: catchWords(caught),
    caught: caught.is === 'measured' ? caught.count : null,
    'trap-nights': caught.is === 'measured' ? caught.trapNights : null,
    ...measuredCells(rateColumn, measured),
  }
}

/** What is known of a catch, in a few words. */
export function catchWords(caught: MapCatch): string {
  switch (caught.is) {
    case 'not asked':
      return 'no pest asked for'
    case 'counts nothing':
      return 'tells nothing: this kind counts no animals'
    case 'not for it':
      return caught.caught > 0
        ? `not for this pest, and yet caught ${caught.caught}`
        : 'tells nothing: not for this pest'
    case 'not measured':
      return `not measured: ${caught.why}`
    case 'measured':
      return caught.count === 0 ? 'none caught' : 'caught'
  }
}

const placeSayings: Readonly<Record<Exclude<DevicePlace, 'in another area'>, string>> = {
  'in its area': 'in its area',
  'outside every outline': 'outside every outline',
  'its area has no outline': 'its area has no outline',
  'no position': 'no position on record',
  'too far': 'too far away to be drawn',
}

function placeWords({ place, liesIn, stands, fit }: MapDevice, areas: readonly MapArea[]): string {
  const words =
    place === 'in another area'
      ? `lies in ${areas.find(({ id }) => id === liesIn)?.name ?? liesIn}, not in its area`
      : placeSayings[place]
  if (!stands) return `${words}; stands there no longer`
  return fit ? words : `${words}; lost or spoilt, not renewed`
}

export const outlineWords: Readonly<Record<OutlineState, string>> = {
  drawn: 'drawn',
  'crosses itself': 'drawn, but its sides cross',
  none: 'no outline on record',
  'no size': 'its corners lie on one line',
  'too far': 'too far away to be drawn',
  'too many corners': 'too many corners to be drawn',
}

function areasTable(map: SiteMap | undefined): Table {
  const numbersIn = (area: string, things: readonly { no: number; areas: readonly string[] }[]) =>
    things.filter(({ areas }) => areas.includes(area)).map(({ no }) => String(no))
  return {
    id: 'areas',
    title: 'Areas in walking order',
    columns: [
      number,
      { id: 'area', title: 'area' },
      { id: 'id', title: 'short name', ...work },
      { id: 'kind', title: 'kind' },
      { id: 'floor', title: 'floor' },
      { id: 'outline', title: 'outline' },
      { id: 'corners', title: 'corners', ...work },
      { id: 'devices', title: 'devices', unit: 'devices', decimals: 0 },
      { id: 'conditions', title: 'open conditions' },
      { id: 'needs', title: 'not watched' },
    ],
    rows: (map?.areas ?? []).map((area) => ({
      cells: {
        no: area.no,
        area: area.name,
        id: area.id,
        kind: area.kind,
        floor: area.floor,
        outline: outlineWords[area.outlineState],
        corners: area.outline.map(({ x, y }) => `${x},${y}`).join(' ') || null,
        devices: map?.devices.filter(({ area: of, stands }) => stands && of === area.id).length ?? 0,
        conditions: listed(
          'c',
          numbersIn(
            area.id,
            (map?.conditions ?? []).map(({ no, area: of }) => ({ no, areas: of === undefined ? [] : [of] })),
          ),
        ),
        needs: listed('m', numbersIn(area.id, map?.needs ?? [])),
      },
      records: area.records,
    })),
    empty: map ? 'No area is part of the site on this day.' : notRead,
  }
}

const listed = (letter: string, numbers: readonly string[]) =>
  numbers.map((one) => `${letter}${one}`).join(' ') || null

function conditionsTable(map: SiteMap | undefined): Table {
  return {
    id: 'conditions',
    title: 'Open conditions (c)',
    columns: [
      number,
      { id: 'area', title: 'area' },
      { id: 'what', title: 'what' },
      { id: 'gives', title: 'gives' },
      { id: 'owner', title: 'owner' },
      { id: 'since', title: 'since' },
      { id: 'due', title: 'due' },
      { id: 'condition', title: 'condition', ...work },
    ],
    rows: (map?.conditions ?? []).map((one) => ({
      cells: {
        no: one.no,
        area: one.areaName,
        what: one.what,
        gives: needWordsOf(one.gives),
        owner: ownerWordsOf(one.owner),
        since: one.since,
        due: one.due ?? 'no day stated',
        condition: one.id,
      },
      records: one.records,
    })),
    empty: map ? 'No condition is open.' : notRead,
  }
}

function placesTable(map: SiteMap | undefined): Table {
  const unit = map?.unit === undefined ? {} : { unit: map.unit }
  return {
    id: 'places',
    title: 'Places that stand out (p)',
    columns: [
      number,
      { id: 'pest', title: 'pest' },
      { id: 'kind', title: 'kind of device' },
      { id: 'devices', title: 'devices' },
      { id: 'caught', title: 'caught there', unit: 'animals', decimals: 0 },
      { id: 'expected', title: 'if rates were equal', unit: 'animals', decimals: 1 },
      { id: 'across', title: 'centre across', ...unit, decimals: 1 },
      { id: 'down', title: 'centre down', ...unit, decimals: 1 },
      { id: 'radius', title: 'radius', ...unit, decimals: 1 },
      { id: 'floor', title: 'floor', ...work },
      { id: 'p-adjusted', title: 'adjusted p', decimals: 4, ...work },
    ],
    rows: (map?.places ?? []).map((one) => ({
      cells: {
        no: one.no,
        pest: one.pest,
        kind: one.kindName,
        devices: one.members.join(' '),
        caught: one.count,
        expected: one.expected,
        across: one.centre.x,
        down: one.centre.y,
        radius: one.radius,
        floor: one.floor,
        'p-adjusted': one.adjustedP,
      },
      records: one.records,
    })),
    empty: map ? 'None does surely; `doorsweep report hotspots` tells more.' : notRead,
  }
}

function needsTable(map: SiteMap | undefined): Table {
  const names = new Map((map?.areas ?? []).map(({ id, name }) => [id, name]))
  return {
    id: 'needs',
    title: 'Areas that are not watched (m)',
    columns: [
      number,
      { id: 'areas', title: 'areas' },
      { id: 'what', title: 'what' },
      { id: 'pest', title: 'pest' },
      { id: 'to-add', title: 'to add, at least', unit: 'devices', decimals: 0 },
      { id: 'why', title: 'because', ...work },
    ],
    rows: (map?.needs ?? []).map((one) => ({
      cells: {
        no: one.no,
        areas: one.areas.map((area) => names.get(area) ?? area).join(', ') || 'area not told',
        what: one.says,
        pest: one.pest ?? null,
        'to-add': one.lacks === 'a look' ? null : one.toAdd,
        why: one.why,
      },
      records: one.records,
    })),
    empty: map ? 'By these records nothing is missing.' : notRead,
  }
}

function gapsTable(map: SiteMap | undefined): Table {
  return {
    id: 'stretches',
    title: 'Stretches of runs that stand open (g)',
    columns: [
      number,
      { id: 'run', title: 'run' },
      { id: 'against', title: 'against' },
      { id: 'from', title: 'from' },
      { id: 'to', title: 'to' },
      { id: 'apart', title: 'apart', decimals: 1 },
      { id: 'unit', title: 'unit' },
      { id: 'limit', title: 'at most' },
      { id: 'more', title: 'more would do', unit: 'devices', decimals: 0 },
      { id: 'active', title: 'under active control' },
    ],
    rows: (map?.gaps ?? []).map(
      ({ records, active, no, run, against, from, to, apart, unit, limit, more }) => ({
        cells: { no, run, against, from, to, apart, unit, limit, more, active: active ? 'yes' : 'no' },
        records,
      }),
    ),
    empty: map ? 'None, as far as distances are known; `doorsweep layout runs` tells every one.' : notRead,
  }
}
