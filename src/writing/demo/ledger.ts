import { seededRandom } from '../../measure/seeded-random.js'
import type { Day } from '../../types.js'
import { dateOf, dayOf } from './days.js'
import { emptyDiary } from './diary.js'
import { districtDay, openLedger } from './district-records.js'
import { nameMaker } from './names.js'
import { planMonth } from './routine.js'
import { schoolCalendar } from './school-calendar.js'
import { planSetUps } from './set-up.js'
import { siteDay } from './site-day.js'
import { makeSite } from './sites.js'
import { hireStaff } from './staff.js'
import { troubleMaker } from './trouble.js'
import type { DemoTruth } from './truth.js'
import type { DemoCommit, DemoOptions, Site, World } from './world.js'

/** First day of the ledger: the first of the month on or after the day so many years before the last one. */
export function firstDayOf(options: DemoOptions): Day {
  const { year, month, dayOfMonth: date } = dateOf(options.until)
  const begun = dayOf(year - options.years, month, date) + 1
  const start = dateOf(begun)
  return start.dayOfMonth === 1 ? begun : dayOf(start.year, start.month + 1, 1)
}

export interface DemoRun {
  /** The history in order of date; it can be drawn once. */
  readonly commits: Iterable<DemoCommit>
  /** Fills as the commits are drawn, and is complete after the last. */
  readonly truth: DemoTruth
}

/** An invented ledger and what the model knows of it. Only the day being lived through is held in memory. */
export function demoRun(options: DemoOptions): DemoRun {
  const from = firstDayOf(options)
  const truth: DemoTruth = { from, until: options.until, sites: [], spoilt: [] }
  return { commits: liveThrough(options, from, truth), truth }
}

/** The commits of an invented district's ledger, in order of date. The same options give the same bytes. */
export function demoLedger(options: DemoOptions): Iterable<DemoCommit> {
  return demoRun(options).commits
}

/** Everything the model knows: runs through the whole ledger. */
export function demoTruth(options: DemoOptions): DemoTruth {
  const run = demoRun(options)
  for (const _ of run.commits);
  return run.truth
}

function* liveThrough(options: DemoOptions, from: Day, truth: DemoTruth): Generator<DemoCommit> {
  const random = seededRandom(options.seed)
  const names = nameMaker(random.fork('names'))
  const staff = hireStaff(random.fork('staff'), names, options.sites)
  const waiting = new Map<Day, DemoCommit[]>()
  const world: World = {
    options,
    from,
    until: options.until,
    calendar: schoolCalendar(from, options.until),
    staff,
    diary: emptyDiary(),
    trouble: troubleMaker(random.fork('trouble'), options.clean, truth.spoilt),
    truth,
    random: random.fork('district'),
    commit(author, day, minute, message, files) {
      const late = day > options.until
      const commit: DemoCommit = {
        day: late ? options.until : day,
        minute: late ? 1435 : minute,
        author: { name: author.name, email: author.email },
        message,
        files,
      }
      const list = waiting.get(commit.day)
      if (list) list.push(commit)
      else waiting.set(commit.day, [commit])
    },
  }
  const sites = Array.from({ length: options.sites }, (_, number) =>
    makeSite(number, random.fork(`site ${number}`), names, staff, from, truth, options.trial),
  )
  const state = openLedger(world, sites)
  planSetUps(world, sites)
  for (let day = from; day <= options.until; day++) {
    liveDay(world, sites, day, () => districtDay(world, state, sites, day))
    const today = waiting.get(day)
    waiting.delete(day)
    if (today) yield* today.sort((a, b) => a.minute - b.minute)
  }
}

function liveDay(world: World, sites: readonly Site[], day: Day, districtToday: () => void): void {
  if (dateOf(day).dayOfMonth === 1) {
    world.diary.forgetBefore(day)
    planMonth(world, sites, day)
  }
  districtToday()
  for (const site of sites) siteDay(world, site, day)
}
