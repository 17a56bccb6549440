import type { Check, DeviceHistory } from '../../ledger/device-history.js'
import { areaOn } from '../../ledger/standing.js'
import type { DeviceKind } from '../../records/device-kinds.js'
import type { Day } from '../../types.js'

/** A stretch of days in which a device stood out and no one read it. */
export interface DeviceGap {
  /** Day it was set, put out or last read, and which of these it was. */
  readonly since: Day
  readonly how: 'set' | 'put out' | 'read'
  readonly area: string
  /** Day it was read again, picked up or taken up. */
  readonly end: Day | undefined
  /** Whether it was read on that day, rather than picked up or taken up unread. */
  readonly looked: boolean
  /** It was found lost or spoilt and not renewed: that is told as such. */
  readonly outOfService: boolean
}

/** Traps in which a caught animal waits for whoever checks them. */
const holdAnimals: ReadonlySet<DeviceKind> = new Set(['snap-trap', 'glue-board', 'multiple-catch-trap'])

export function holdsAnimals(kind: DeviceKind): boolean {
  return holdAnimals.has(kind)
}

/** Whether a look at the device left it unfit to catch or show anything. */
export function leftUnusable(check: Check): boolean {
  return check.reading?.unusable !== undefined && !check.renewed
}

/** The gaps between looks at one device, in order. A reading that could not be taken is no look. */
export function gapsOf(device: DeviceHistory): DeviceGap[] {
  const gaps: DeviceGap[] = []
  const looks = device.checks.filter((check) => !check.noAccess)
  let next = 0
  for (const [at, span] of device.out.entries()) {
    let since = span.from
    let how: DeviceGap['how'] = at === 0 ? 'set' : 'put out'
    let outOfService = false
    const close = (end: Day | undefined, looked: boolean) => {
      if (end !== since) gaps.push({ since, how, area: areaOn(device, since), end, looked, outOfService })
    }
    for (; next < looks.length; next++) {
      const look = looks[next]
      if (!look || (span.until !== undefined && look.moment.day > span.until)) break
      if (look.moment.day < span.from || (at > 0 && look.moment.day === span.from)) continue
      close(look.moment.day, true)
      since = look.moment.day
      how = 'read'
      outOfService = leftUnusable(look)
    }
    close(span.until, false)
  }
  return gaps
}
