import { animalsIn } from '../../ledger/counts.js'
import type { DeviceHistory } from '../../ledger/device-history.js'
import { getOrMake } from '../../ledger/get-or-make.js'
import { isoOf } from '../../measure/calendar.js'
import { nearest } from '../../records/nearest.js'
import type { YamlMap } from '../demo/yaml.js'
import type { Look } from './looks.js'
import type { Standing } from './on-device.js'
import { lifeOn, standingOf } from './on-device.js'
import type { Cell, Sheet } from './sheet.js'
import { blame } from './sheet.js'

/** A reading as a record has it. */
export interface MadeReading {
  readonly look: Look
  /** Undefined: nothing on it of what it is for, which is one word in the list of such devices. */
  readonly reading: YamlMap | undefined
  /** Cells behind its keys. */
  readonly cells: ReadonlyMap<string, Cell>
}

/**
 * Readings of one site from its looks. `isNew`: the counts say what was new since the last look, and what stood on the
 * device before is added, so that a record says what is on the device now, as every record does.
 */
export function readingsOf(
  sheet: Sheet,
  looks: readonly Look[],
  devices: readonly DeviceHistory[],
  isNew: boolean,
): MadeReading[] {
  const lives = new Map<string, DeviceHistory[]>()
  for (const device of devices) getOrMake(lives, device.id, () => []).push(device)
  const standing = new Map<DeviceHistory | string, Standing>()
  const byDay = [...looks].sort((a, b) => a.head.day - b.head.day)
  return byDay.map((look) => {
    const ofId = lives.get(look.device.text) ?? []
    const life = lifeOn(ofId, look.head.day)
    if (!life) blameUnknown(sheet, look, ofId, lives.keys())
    const counts = isNew
      ? withBefore(
          sheet,
          look,
          getOrMake(standing, life ?? look.device.text, () => standingOf(life)),
        )
      : countsOf(look)
    return readingOf(look, counts, life)
  })
}

const remedyOfWrongDay =
  'Correct the date or the device; or the visit that set it or took it up, if that is wrong.'
const remedyOfNoDevice =
  'Set it first, in a visit; or say under `names` in the mapping which it is in the ledger.'

/** A device that does not stand there on the day: never set, not yet, or no more. */
function blameUnknown(
  sheet: Sheet,
  { device, head }: Look,
  lives: readonly DeviceHistory[],
  known: Iterable<string>,
): void {
  const meant = nearest(device.text, known)
  const next = lives.find(({ set }) => set.day > head.day)
  const last = lives.findLast(({ takenUp }) => takenUp && takenUp.day < head.day)
  blame(
    sheet,
    device,
    next
      ? `${device.text} is looked at on ${isoOf(head.day)} and was set only on ${isoOf(next.set.day)}, in ${next.set.visit.file}.`
      : last?.takenUp
        ? `${device.text} is looked at on ${isoOf(head.day)} and was taken up on ${isoOf(last.takenUp.day)}, in ${last.takenUp.visit.file}.`
        : `There is no device \`${device.text}\` at ${head.site}${meant === undefined ? '.' : `; did you mean \`${meant}\`?`}`,
    undefined,
    next || last?.takenUp ? remedyOfWrongDay : remedyOfNoDevice,
  )
}

function wordOf({ facts }: Look, key: string): string | undefined {
  const value = facts.get(key)?.value
  return typeof value === 'string' ? value : undefined
}

type Counts = ReadonlyMap<string, number | Readonly<Record<string, number>>>

function countsOf({ counts }: Look): Counts {
  return new Map(
    [...counts].flatMap(([pest, stages]): [string, number | Record<string, number>][] => {
      if (pest === '') return []
      const whole = stages.get('')
      return [
        [
          pest,
          whole ? whole.count : Object.fromEntries([...stages].map(([stage, { count }]) => [stage, count])),
        ],
      ]
    }),
  )
}

/** Counts of what is on the device now, from those of what was new. Eggs are no animals, and none are mapped here. */
function withBefore(sheet: Sheet, look: Look, standing: Standing): Counts {
  const before = standing.upTo(look.head.day)
  const counts = new Map([...countsOf(look)].map(([pest, count]) => [pest, animalsIn(count)] as const))
  const noAccess = look.facts.has('no-access')
  const unusable = wordOf(look, 'unusable')
  if ('unknown' in before) {
    const hasCount = look.counts.size > 0
    if (hasCount)
      blame(
        sheet,
        look.device,
        `What stood on ${look.device.text} before ${isoOf(look.head.day)} cannot be told: ${before.unknown}. So the new ones cannot be added to it.`,
        undefined,
        'Enter this look by hand, with what is on the device now; or record the renewal, if there was one.',
      )
  } else {
    for (const [pest, count] of counts) counts.set(pest, count + (before.on.get(pest) ?? 0))
    // What is not named would be none; it still stands there.
    if (!noAccess && unusable === undefined)
      for (const [pest, count] of before.on) if (count > 0 && !counts.has(pest)) counts.set(pest, count)
  }
  standing.looked({
    day: look.head.day,
    counts,
    renewed: look.facts.has('renewed') || look.facts.has('reset'),
    unusable,
    noAccess,
  })
  return counts
}

function readingOf(look: Look, counts: Counts, life: DeviceHistory | undefined): MadeReading {
  const cells = new Map<string, Cell>()
  const reading: Record<string, YamlMap[string]> = {}
  for (const [pest, count] of [...counts].sort(([a], [b]) => (a < b ? -1 : 1))) {
    reading[pest] = count
    const [cell] = look.counts.get(pest)?.values() ?? []
    if (cell) cells.set(pest, cell.cell)
  }
  // A zero is kept where the list of devices without anything would not say it: of a pest the device is not for.
  const isNone =
    look.facts.size + look.notes.length === 0 &&
    [...counts].every(([pest, count]) => count === 0 && life?.for.includes(pest))
  if (isNone) return { look, reading: undefined, cells }
  for (const [key, { value, cell }] of look.facts) {
    reading[key] = value
    cells.set(key, cell)
  }
  const [note] = look.notes
  if (note) {
    reading.note = [...new Set(look.notes.map(({ text }) => text))].join('\n')
    cells.set('note', note)
  }
  return { look, reading, cells }
}
