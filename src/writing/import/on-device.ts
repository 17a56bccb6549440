import type { Check, DeviceHistory } from '../../ledger/device-history.js'
import { isoOf } from '../../measure/calendar.js'
import type { Day } from '../../types.js'

/**
 * What stands on one device, look by look, as the ledger's own replay counts it, with the looks of a file put in between
 * in order of their days. Where a file says what was new, the count of a record is that and what stood there before.
 */
export interface Standing {
  /** Goes on to a day; what stood on the device then, or why no one can tell. */
  upTo(day: Day): { readonly on: ReadonlyMap<string, number> } | { readonly unknown: string }
  /** A look of the file: all that is on the device now, unless it was renewed. */
  looked(look: PlannedLook): void
}

export interface PlannedLook {
  readonly day: Day
  readonly counts: ReadonlyMap<string, number>
  readonly renewed: boolean
  readonly unusable: string | undefined
  readonly noAccess: boolean
}

export function standingOf(history: DeviceHistory | undefined): Standing {
  const checks = history?.checks ?? []
  let next = 0
  let on = new Map<string, number>()
  let unknown: string | undefined
  const take = (look: PlannedLook) => {
    if (look.noAccess) return
    if (look.renewed) {
      on = new Map()
      unknown = undefined
      return
    }
    for (const [pest, count] of look.counts) on.set(pest, count)
    unknown =
      look.unusable === undefined
        ? undefined
        : `it was ${look.unusable} on ${isoOf(look.day)}, and no renewal is recorded since`
  }
  return {
    upTo(day) {
      for (let check = checks[next]; check && check.moment.day < day; check = checks[++next])
        take(lookOf(check))
      const same = checks[next]
      if (same?.moment.day === day)
        return {
          unknown: `it was also looked at that day in ${same.moment.visit.file}, and which came first is not known`,
        }
      return unknown === undefined ? { on } : { unknown }
    },
    looked: take,
  }
}

function lookOf({ moment, counts, renewed, noAccess, reading }: Check): PlannedLook {
  return { day: moment.day, counts, renewed, unusable: reading?.unusable, noAccess }
}

/** The life of a device that a day falls into. */
export function lifeOn(lives: readonly DeviceHistory[], day: Day): DeviceHistory | undefined {
  return lives.findLast(({ set, takenUp }) => set.day <= day && (!takenUp || takenUp.day >= day))
}
