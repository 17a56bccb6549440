import type { Moment } from '../../ledger/device-history.js'
import { isoOf } from '../../measure/calendar.js'
import type { Finding } from '../rule.js'

/**
 * How the records tell which of two moments of a device came first: by their days, by the fixed order in which one
 * visit is read, by the times of two visits of one day, or not at all.
 */
type OrderKnownBy = 'days' | 'one visit' | 'times' | 'nothing'

/** Something done to a device before its life began or after it ended. */
export interface OutsideItsLife extends Record<string, string> {
  device: string
  did: string
  /** What bounds the life of the device there. */
  bound: 'set' | 'taken up'
  on: string
  orderKnownBy: OrderKnownBy
}

function orderKnownBy(a: Moment, b: Moment): OrderKnownBy {
  if (a.day !== b.day) return 'days'
  if (a.visit === b.visit) return 'one visit'
  return a.visit.data.time !== undefined && b.visit.data.time !== undefined ? 'times' : 'nothing'
}

export function outsideItsLifeSentence({ device, did, bound, on, orderKnownBy }: OutsideItsLife): string {
  switch (orderKnownBy) {
    case 'one visit':
      return bound === 'set'
        ? `${device} is ${did} and set in this one visit; new devices are set last, after everything else was done.`
        : `${device} is taken up and ${did} in this one visit.`
    case 'nothing':
      return `${device} is ${did} here and ${bound} by another visit of the same day; without the times of both, it is taken as not standing.`
    case 'times':
      return bound === 'set'
        ? `${device} is ${did} here but was set only later that day.`
        : `${device} is ${did} here but was taken up earlier that day.`
    case 'days':
      return bound === 'set'
        ? `${device} is ${did} here but was set only on ${on}.`
        : `${device} is ${did} here but was taken up on ${on}.`
  }
}

/** The finding of something done to a device at a moment; a warning where nothing tells what came first. */
export function outsideItsLife(
  device: string,
  did: string,
  at: Moment,
  bound: 'set' | 'taken up',
  end: Moment,
): Finding<OutsideItsLife> {
  const knownBy = orderKnownBy(at, end)
  return {
    args: { device, did, bound, on: isoOf(end.day), orderKnownBy: knownBy },
    at: { file: at.visit.file, path: at.path, onKey: true },
    related: [
      {
        place: { file: end.visit.file, path: end.path, onKey: true },
        says: `${device} is ${bound} here, on ${isoOf(end.day)}`,
      },
    ],
    from: at.day,
    ...(knownBy === 'nothing' ? { level: 'warning' } : {}),
    identity: [device, did],
  }
}
