import { isoOf } from '../measure/calendar.js'
import type { Quantity } from '../measure/quantities.js'
import { convert, parseQuantity } from '../measure/quantities.js'
import type { Spread } from '../measure/spread.js'
import { spreadAlong, spreadAround } from '../measure/spread.js'
import type { DeviceKind } from '../records/device-kinds.js'
import { deviceTable } from '../records/tables.js'
import type { Day, Report } from '../types.js'
import { spacingFor } from './layout-spacing.js'
import { pestCautions } from './pest-cautions.js'
import { pestName } from './pest-name.js'

export interface StretchAsked {
  readonly asOf: Day
  readonly pest: string
  readonly kind?: DeviceKind
  /** Length of a wall, or the two sides of a room. */
  readonly wall?: Quantity
  readonly room?: readonly [Quantity, Quantity]
  /** Another distance than the usual one. */
  readonly atMost?: Quantity
}

export type NoStretch = 'nothing known of the pest' | 'kind does not fit the pest' | 'too long'

/** How many devices for a wall or a room, how far apart, and where each stands. */
export function layoutStretchReport(asked: StretchAsked): Report | NoStretch {
  const known = spacingFor(asked.pest)
  if (!known) return 'nothing known of the pest'
  const kind = asked.kind ?? known.row.kinds[0]
  if (kind === undefined || !known.row.kinds.includes(kind)) return 'kind does not fit the pest'
  const unit = (asked.wall ?? asked.room?.[0])?.unit ?? 'ft'
  const most = asked.atMost ?? parseQuantity(known.atMost)
  const atMost = most && convert(most, unit)
  const length = lengthOf(asked, unit)
  if (!atMost || length === undefined) return 'too long'
  const spread = asked.room ? spreadAround(length, atMost.value) : spreadAlong(length, atMost.value)
  if (!spread) return 'too long'
  return {
    report: 'layout-stretch',
    title: asked.room ? 'Devices for a room' : 'Devices for a wall',
    headline: headlineOf(spread, deviceTable()[kind].name, unit, asked),
    asOf: isoOf(asked.asOf),
    facts: [
      { label: 'against', value: pestName(asked.pest) },
      {
        label: asked.room ? 'around the room' : 'along the wall',
        value: `${figure(length)} ${unit}`,
      },
      {
        label: 'at most apart',
        value: `${figure(atMost.value)} ${unit} (${asked.atMost ? 'as asked' : known.source})`,
      },
      { label: 'closer, under active control', value: known.row.closer },
      { label: 'how it stands', value: known.row.how },
      { label: 'where', value: known.row.where },
    ],
    tables: [
      {
        id: 'places',
        title: asked.room ? 'Along the walls, from one corner round' : 'Along the wall, from its beginning',
        columns: [
          { id: 'device', title: 'device', decimals: 0 },
          { id: 'at', title: 'at', unit, decimals: 1 },
        ],
        rows: spread.at.map((at, n) => ({ cells: { device: n + 1, at }, records: [] })),
        empty: 'There is no place for one.',
      },
    ],
    cautions: [
      'Signs come before arithmetic: devices go where droppings, rub marks, damage or earlier catches are, and these distances fill the rest.',
      'Doors and what stands in the way are not taken out; a run never goes through a wall.',
      'Out of reach of pupils, secured and marked; the label, local code and licensed people decide on anything with bait.',
      ...pestCautions([asked.pest]),
    ],
    notExamined: [],
    incomplete: false,
  }
}

function lengthOf({ wall, room }: StretchAsked, unit: string): number | undefined {
  const inUnit = (quantity: Quantity) => convert(quantity, unit)?.value
  if (wall) return inUnit(wall)
  if (!room) return undefined
  const [a, b] = room.map(inUnit)
  return a === undefined || b === undefined ? undefined : 2 * (a + b)
}

function headlineOf({ count, apart }: Spread, device: string, unit: string, asked: StretchAsked): string {
  const where = asked.room ? 'around this room' : 'along this wall'
  if (count === 1) return `One device (${device}) will do ${where}.`
  return `${count} devices (${device}) ${where}, ${figure(apart)} ${unit} apart.`
}

export const figure = (value: number) => String(Number(value.toFixed(1)))
