import { compareText } from '../ledger/compare-text.js'
import { getOrMake } from '../ledger/get-or-make.js'
import type { ThingDone } from '../ledger/things-done.js'
import { couldTouch } from '../ledger/things-done.js'
import type { CatchReading } from '../measure/effective-counts.js'
import type { Day } from '../types.js'
import type { AreaCatch, DoneAtSite, TrapInterval } from './effect-collect.js'
import type { Period } from './period.js'

/** Catch of one day of all devices compared, added up, because they share the luck of the day. */
export interface DayReading extends CatchReading {
  readonly day: Day
}

/** Readings before and after one day, of the devices read on both sides, whose whole interval lies on their side. */
export interface Sides {
  readonly before: readonly DayReading[]
  readonly after: readonly DayReading[]
  /** Devices were read on either side, but none on both. */
  readonly noSharedDevice: boolean
  readonly files: readonly string[]
}

/** First day on which an interval may begin, and last day on which it may end. */
export interface Windows {
  readonly before: Period
  readonly after: Period
}

/** One day on which something was done that could touch a pest trapped for in an area: what is compared. */
export interface Occasion extends Sides {
  readonly catches: AreaCatch
  readonly day: Day
  /** Done there on that day, to the pests and not to people; at least one. */
  readonly things: readonly ThingDone[]
  /** What else was done there in the windows. */
  readonly others: readonly ThingDone[]
  readonly windows: Windows
  /** Readings before that may be why something was done; none where there is no other, and they are kept. */
  readonly leftOut: readonly DayReading[]
  /** Comparable areas where nothing was done in these windows. */
  readonly untreated: readonly Untreated[]
}

export interface Untreated extends Sides {
  readonly catches: AreaCatch
}

/** Every occasion of the period, with what it is held against; in order of site, area, pest and day. */
export function occasionsOf(
  all: readonly AreaCatch[],
  done: readonly DoneAtSite[],
  period: Period,
  window: number,
): Occasion[] {
  const touching = touchingOf(all, done)
  const alike = new Map<string, AreaCatch[]>()
  for (const catches of all)
    if (catches.areaKind !== undefined) getOrMake(alike, kindKey(catches), () => []).push(catches)
  const occasions: Occasion[] = []
  for (const catches of [...all].sort(bySiteAreaPest)) {
    const things = touching.get(catches) ?? []
    const ofPests = things.filter(actsOnPests)
    const days = new Set(
      ofPests.map(({ day }) => day).filter((day) => period.from <= day && day <= period.to),
    )
    for (const day of days) {
      const compared = comparedAt(catches, day, window)
      const { from } = compared.windows.before
      const { to } = compared.windows.after
      occasions.push({
        ...compared,
        catches,
        day,
        things: ofPests.filter((thing) => thing.day === day),
        others: things.filter(
          (thing) => from <= thing.day && thing.day <= to && !(thing.day === day && actsOnPests(thing)),
        ),
        // Its own area is none of them: something was done there.
        untreated: (alike.get(kindKey(catches)) ?? [])
          .filter(
            (other) => !(touching.get(other) ?? []).some((thing) => from <= thing.day && thing.day <= to),
          )
          .flatMap((other) => untreatedIn(other, compared.windows)),
      })
    }
  }
  return occasions
}

/** Teaching, handing on and closing off act on people: no change of the catch on one day is looked for. */
export function actsOnPests({ tactic }: ThingDone): boolean {
  return !['education', 'referral', 'restriction'].includes(tactic)
}

function bySiteAreaPest(a: AreaCatch, b: AreaCatch): number {
  return compareText(a.site, b.site) || compareText(a.area, b.area) || compareText(a.pest, b.pest)
}

const kindKey = ({ areaKind, pest }: AreaCatch) => `${areaKind} ${pest}`

/** What was done in each area that could touch the pest, by day. */
function touchingOf(
  all: readonly AreaCatch[],
  done: readonly DoneAtSite[],
): ReadonlyMap<AreaCatch, readonly ThingDone[]> {
  const inArea = new Map<string, ThingDone[]>()
  for (const { site, things } of done)
    for (const thing of things)
      for (const area of thing.areas) getOrMake(inArea, `${site} ${area}`, () => []).push(thing)
  return new Map(
    all.map((catches) => [
      catches,
      (inArea.get(`${catches.site} ${catches.area}`) ?? []).filter((thing) =>
        couldTouch(thing, catches.pest),
      ),
    ]),
  )
}

/** Days before in which any reading may be why something was done: found, decided on and done within a week. */
const suspectDays = 7

/**
 * The readings about one day. The last one before, and any other of the week before, are left out, if there is
 * another: something is done because a catch was high, and that reading would by chance alone be followed by lower ones.
 * Often traps are read again on the day itself, so the last reading alone is not the one. The window before then ends
 * where the first of those left out began.
 */
function comparedAt({ intervals }: AreaCatch, day: Day, window: number) {
  const after = { from: day, to: day + window }
  const near = { from: day - window, to: day }
  const within = intervals.filter((interval) => isWithin(interval, near))
  const lastDay = within.at(-1)?.day
  const suspect = within.filter((interval) => interval.day === lastDay || interval.day >= day - suspectDays)
  const leftOut = addedUp(suspect)
  const end = suspect.length === 0 ? near.from : Math.min(...suspect.map(({ start }) => start))
  const earlier = { from: end - window, to: end }
  if (leftOut.length > 0 && intervals.some((interval) => isWithin(interval, earlier))) {
    const windows = { before: earlier, after }
    const sides = sidesOf(intervals, windows)
    return { windows, ...sides, files: filesOf(suspect, sides.files), leftOut }
  }
  const windows = { before: near, after }
  return { windows, ...sidesOf(intervals, windows), leftOut: [] }
}

function sidesOf(intervals: readonly TrapInterval[], windows: Windows): Sides {
  const before = intervals.filter((interval) => isWithin(interval, windows.before))
  const after = intervals.filter((interval) => isWithin(interval, windows.after))
  const devicesAfter = new Set(after.map(({ device }) => device))
  const shared = new Set(before.map(({ device }) => device).filter((device) => devicesAfter.has(device)))
  const noSharedDevice = before.length > 0 && after.length > 0 && shared.size === 0
  // One side alone is still told; with both, only like is held against like.
  const isCompared = ({ device }: TrapInterval) =>
    before.length === 0 || after.length === 0 || noSharedDevice || shared.has(device)
  const [earlier, later] = [before.filter(isCompared), after.filter(isCompared)]
  return {
    before: addedUp(earlier),
    after: addedUp(later),
    noSharedDevice,
    files: filesOf([...earlier, ...later]),
  }
}

function filesOf(intervals: readonly TrapInterval[], others: readonly string[] = []): string[] {
  return [...new Set([...intervals.map(({ file }) => file), ...others])].sort()
}

function isWithin({ start, day }: TrapInterval, { from, to }: Period): boolean {
  return from <= start && day <= to
}

function addedUp(intervals: readonly TrapInterval[]): DayReading[] {
  const byDay = new Map<Day, { count: number; effort: number }>()
  for (const { day, count, trapNights } of intervals) {
    const sums = getOrMake(byDay, day, () => ({ count: 0, effort: 0 }))
    sums.count += count
    sums.effort += trapNights
  }
  return [...byDay].map(([day, sums]) => ({ day, ...sums })).sort((a, b) => a.day - b.day)
}

/**
 * An area with readings in both windows and some catch in either. Asking for a catch before would choose areas that
 * happened to be high then and fall by themselves; the sum of both sides leans to neither.
 */
function untreatedIn(catches: AreaCatch, windows: Windows): Untreated[] {
  const sides = sidesOf(catches.intervals, windows)
  const caught = [...sides.before, ...sides.after].some(({ count }) => count > 0)
  const isTold = sides.before.length > 0 && sides.after.length > 0 && !sides.noSharedDevice
  return isTold && caught ? [{ ...sides, catches }] : []
}
