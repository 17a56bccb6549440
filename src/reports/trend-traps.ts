import { compareText } from '../ledger/compare-text.js'
import type { Check, DeviceHistory, Reading } from '../ledger/device-history.js'
import { getOrMake } from '../ledger/get-or-make.js'
import type { SiteView } from '../ledger/site-view.js'
import type { TrapSpell } from '../measure/trap-index.js'
import type { DeviceKind } from '../records/device-kinds.js'
import { deviceTable, pestTable } from '../records/tables.js'
import type { Period } from './period.js'

/** What the traps of one kind caught of one pest in one area over a period. */
export interface TrapCatch {
  readonly site: string
  readonly area: string
  readonly pest: string
  readonly kind: DeviceKind
  /** By the nights between two checks. */
  readonly spells: readonly Readonly<TrapSpell>[]
  readonly files: readonly string[]
}

interface Gathering {
  readonly area: string
  readonly pest: string
  readonly kind: DeviceKind
  readonly spells: Map<number, TrapSpell>
  readonly files: Set<string>
}

const trapKinds: ReadonlySet<DeviceKind> = new Set(['snap-trap', 'multiple-catch-trap'])

/** Whether a catch closes a trap of this kind, so that one that has gone off catches nothing until it is set again. */
export function closesWhenSprung(kind: DeviceKind): boolean {
  return deviceTable()[kind].reads.includes('sprung')
}

/**
 * Catches of snap traps and multiple-catch traps over a period, by area and pest. Intervals that tell nothing (lost,
 * left sprung, no access and the like) are left out with their effort, as in the trend.
 */
export function trapCatchesOf(view: SiteView, { from, to }: Period): TrapCatch[] {
  const byKey = new Map<string, Gathering>()
  for (const device of view.devices) {
    if (!trapKinds.has(device.kind)) continue
    for (const check of device.checks) {
      const { day, visit } = check.moment
      if (day < from || day > to || check.noAccess || check.unusable !== undefined) continue
      for (const pest of device.for) {
        const captures = check.caught.get(pest)
        if (captures === undefined) continue
        const { area } = check
        const { kind } = device
        const row = getOrMake(byKey, `${area} ${pest} ${kind}`, () => ({
          area,
          pest,
          kind,
          spells: new Map(),
          files: new Set<string>(),
        }))
        row.files.add(visit.file)
        addCheck(row.spells, device, check, pest, captures)
      }
    }
  }
  return [...byKey.values()]
    .map(({ area, pest, kind, spells, files }) => ({
      site: view.id,
      area,
      pest,
      kind,
      spells: [...spells.values()].sort((a, b) => a.nightsPerInterval - b.nightsPerInterval),
      files: [...files].sort(compareText),
    }))
    .sort((a, b) => compareText(a.area, b.area) || compareText(a.pest, b.pest) || compareText(a.kind, b.kind))
}

function addCheck(
  spells: Map<number, TrapSpell>,
  device: DeviceHistory,
  check: Check,
  pest: string,
  captures: number,
): void {
  const nightsPerInterval = check.trapNights / device.traps
  const spell = getOrMake(spells, nightsPerInterval, () => ({
    trapNights: 0,
    nightsPerInterval,
    captures: 0,
    otherCaptures: 0,
    sprungEmpty: 0,
  }))
  const sprung = sprungWithout(check.reading?.sprung)
  spell.trapNights += check.trapNights
  spell.captures += captures
  spell.otherCaptures += sprung.otherAnimal + otherPestsIn(device, check, pest)
  spell.sprungEmpty += sprung.empty
}

/** Traps sprung without a catch of what they are for; a mere word says that at least one was. */
function sprungWithout(sprung: Reading['sprung']): { empty: number; otherAnimal: number } {
  if (sprung === undefined) return { empty: 0, otherAnimal: 0 }
  if (sprung === 'empty') return { empty: 1, otherAnimal: 0 }
  if (sprung === 'other-animal') return { empty: 0, otherAnimal: 1 }
  return { empty: sprung.empty ?? 0, otherAnimal: sprung['other-animal'] ?? 0 }
}

/** Catches of other pests that such a trap takes; an ant at the bait closes none. */
function otherPestsIn(device: DeviceHistory, check: Check, pest: string): number {
  const { shows } = deviceTable()[device.kind]
  let caught = 0
  for (const [other, count] of check.caught) {
    const group = pestTable().get(other)?.group
    if (other !== pest && (device.for.includes(other) || (group !== undefined && shows.includes(group))))
      caught += count
  }
  return caught
}
