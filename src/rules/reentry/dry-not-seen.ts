import { instantOn, timesOf } from '../../ledger/instants.js'
import type { SiteView } from '../../ledger/site-view.js'
import { dutiesFor } from '../../ledger/use-classes.js'
import type { Method } from '../../records/use-words.js'
import { baitFormulations } from '../../records/use-words.js'
import type { Citation, Day, Level, Place } from '../../types.js'
import { levelOfDuty } from '../adopted.js'
import { labelIsLaw } from '../label-is-law.js'
import type { Finding } from '../rule.js'
import { siteRule } from '../rule.js'
import type { Applied } from './applications.js'
import { appliedPesticides, besideTheHours, levelOfNotShown } from './applications.js'
import { spray } from './example-ledgers.js'
import { labelOnDay } from './label-on-day.js'
import { dayReopened, reopenedEarly } from './reopened-too-early.js'

type DryArgs = {
  readonly why: 'not recorded' | 'before the end' | 'after it was opened'
  readonly dry: string
  readonly other: string
}

export const dryNotSeen = siteRule<DryArgs>({
  id: 'dry-not-seen',
  title: 'nothing shows that it was dry or settled before people came back',
  level: 'error',
  judgedOn: 'the day of the application',
  why: '`Until dry` is no number of hours: how long it takes depends on the day and the room, so someone has to have looked.',
  remedy:
    'Look before anyone is let in, and write when and who: `dry: {at: 17:50, by: okafor}`. After midnight, state the later day of opening: `reopened: {on: 2026-03-13, at: 06:30, by: lind}`.',
  source: labelIsLaw,
  actor: 'technician',
  gap: true,
  says: ({ why, dry, other }) => {
    switch (why) {
      case 'not recorded':
        return 'People stay out until this application is dry or settled, and the record does not show that anyone saw it so.'
      case 'before the end':
        return `It is recorded as seen dry at ${dry}, before the application ended at ${other}; people stay out until it is dry or settled.`
      case 'after it was opened':
        return `The area was opened again at ${other}, before it was seen dry or settled at ${dry}.`
    }
  },
  *check(view) {
    for (const applied of appliedPesticides(view)) {
      if (staysPut(applied)) continue
      const sources = askingForDry(view, applied)
      const found = sources.length === 0 ? undefined : dryFault(view, applied)
      if (found) {
        const { isBroken, ...facts } = found
        const level: Level = isBroken ? levelOfDuty(sources) : levelOfNotShown(sources)
        yield { ...facts, sources, level }
      }
    }
  },
  failing: spray(`
pupils: none in the building
dry: {at: 17:20, by: okafor} # expect: dry-not-seen
reopened: {at: 18:10, by: lind}
`),
  passing: spray(`
pupils: none in the building
dry: {at: 17:50, by: okafor}
reopened: {at: 18:10, by: lind}
`),
})

const baiting: ReadonlySet<Method> = new Set(['bait-placement', 'in-a-station'])

/** Bait and glue lie where they were put: there is nothing that dries or settles. */
export function staysPut({ formulation, method }: Applied): boolean {
  if (baiting.has(method)) return true
  return formulation !== undefined && (baitFormulations.has(formulation) || formulation === 'glue')
}

export function askingForDry(view: SiteView, applied: Applied): Citation[] {
  const sources = dutiesFor(view, 'reentry', applied)
    .filter(({ says }) => says.dry === 'yes')
    .map(({ citation }) => citation)
  return labelOnDay(applied)['keep-out-until-dry'] === 'yes' ? [labelIsLaw, ...sources] : sources
}

interface Judged extends Finding<DryArgs> {
  readonly at: Place
  readonly from: Day
  /** The record shows people back too early, not only too little. */
  readonly isBroken: boolean
}

/** What is not shown of waiting until it is dry or settled; nothing where no opening is recorded, or one that is told as too early. */
export function dryFault(view: SiteView, applied: Applied): Judged | undefined {
  const { dry, reopened, time } = applied.application
  const [, endText = ''] = time?.split(' to ') ?? []
  if (!dry) {
    return {
      args: { why: 'not recorded', dry: '', other: '' },
      at: reopened ? applied.at('reopened') : besideTheHours(applied),
      // Whoever comes back in the evening to look may write it down the next morning.
      from: applied.day + 1,
      isBroken: false,
    }
  }
  const { start, end } = timesOf(view.district, applied)
  const sameDay = instantOn(view.district, applied.day, dry.at)
  // With no opening recorded, or one that is told as too early, nothing speaks against the next day.
  const canBeNextDay = reopened?.on !== undefined || !reopened || reopenedEarly(view, applied) !== undefined
  const isAfterMidnight = canBeNextDay && sameDay.latest < start.earliest
  const seen = isAfterMidnight ? instantOn(view.district, applied.day + 1, dry.at) : sameDay
  if (seen.latest < end.earliest)
    return {
      args: { why: 'before the end', dry: dry.at, other: endText },
      at: applied.at('dry', 'at'),
      from: applied.day,
      isBroken: false,
    }
  if (!reopened || reopenedEarly(view, applied)) return undefined
  const opened = instantOn(view.district, dayReopened(applied, reopened), reopened.at)
  if (opened.latest >= seen.earliest) return undefined
  return {
    args: { why: 'after it was opened', dry: dry.at, other: reopened.at },
    at: applied.at('dry', 'at'),
    from: applied.day,
    isBroken: true,
  }
}
