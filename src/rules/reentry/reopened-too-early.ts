import type { InstantRange } from '../../ledger/instants.js'
import { instantOn, timesOf } from '../../ledger/instants.js'
import type { SiteView } from '../../ledger/site-view.js'
import { dayIn } from '../../ledger/spans.js'
import { durationText } from '../../measure/reentry.js'
import type { Day } from '../../types.js'
import { levelOfDuty } from '../adopted.js'
import type { Outcome } from '../notices/outcome.js'
import { happenedFrom } from '../notices/outcome.js'
import type { Finding } from '../rule.js'
import { siteRule } from '../rule.js'
import type { Applied } from './applications.js'
import { appliedPesticides, levelOfNotShown, recordAsksFor } from './applications.js'
import { spray, underOwnRulebook } from './example-ledgers.js'
import type { RequiredWait } from './required-waits.js'
import { longestOf, requiredWaits } from './required-waits.js'

type EarlyArgs = {
  /** How long people stay out. */
  readonly wait: string
  readonly who: 'people' | 'pupils'
  /** How long after the end it was opened again; empty where that was before the end, or is not known. */
  readonly after: string
  readonly shown: 'too early' | 'before the end' | 'not shown'
}

export const reopenedTooEarly = siteRule<EarlyArgs>({
  id: 'reopened-too-early',
  title: 'an area was opened again before the time was over',
  level: 'error',
  judgedOn: 'the day of the application',
  why: 'What hangs in the air and lies wet on surfaces is most in the first hours; the wait is what keeps it off people.',
  remedy:
    'Keep the area closed until the time is over, by the clock and not by the look of it. If the record is wrong, mend it; opened on a later day it reads `reopened: {on: 2026-03-13, at: 06:30, by: lind}`.',
  source: { kind: 'program', text: 'the section `reentry` of the rulebooks in force, and the label' },
  actor: 'site manager',
  gap: false,
  says: ({ wait, who, after, shown }) => {
    const rule = `after this application ${who} stay out for ${wait}`
    switch (shown) {
      case 'too early':
        return `The area was opened again ${after} after the end; ${rule}.`
      case 'before the end':
        return `The area was opened again before the application ended; ${rule}.`
      case 'not shown':
        return `The record does not show whether the area was opened again in time: ${rule}, and when that time began or ended is not clear.`
    }
  },
  *check(view) {
    for (const applied of appliedPesticides(view)) {
      const found = reopenedEarly(view, applied)
      if (found) yield found
    }
  },
  failing: `${underOwnRulebook(`
reentry:
  wait:
    - {from: 2026-03-01, wait: 7 h, label: if longer, source: "Invented Pest Act, section 8", kind: law, confidence: read}
`)}${spray(`
pupils: none in the building
dry: {at: 17:50, by: okafor}
reopened:
  on: 2026-03-13
  at: 00:29 # expect: reopened-too-early
  by: lind
`)}`,
  passing: `${underOwnRulebook(`
reentry:
  wait:
    - {from: 2026-03-01, wait: 7 h, label: if longer, source: "Invented Pest Act, section 8", kind: law, confidence: read}
`)}${spray(`
pupils: none in the building
dry: {at: 17:50, by: okafor}
reopened:
  on: 2026-03-13
  at: 00:30
  by: lind
`)}`,
})

/** The day an area was opened again: that of the application unless a later one is stated. */
export function dayReopened(
  { day }: Applied,
  reopened: NonNullable<Applied['application']['reopened']>,
): Day {
  return reopened.on === undefined ? day : dayIn(reopened.on)
}

function openedAfter(opened: InstantRange, end: InstantRange, minutes: number): Outcome {
  return happenedFrom(opened, { earliest: end.earliest + minutes, latest: end.latest + minutes })
}

/** Whether the record shows that people stayed out for so many minutes; undefined where no opening is recorded. */
export function stayedOut(view: SiteView, applied: Applied, minutes: number): Outcome | undefined {
  const { reopened } = applied.application
  if (!reopened) return undefined
  const opened = instantOn(view.district, dayReopened(applied, reopened), reopened.at)
  return openedAfter(opened, timesOf(view.district, applied).end, minutes)
}

/** The finding of an application, which another rule asks about too, since one early opening is told once. */
export function reopenedEarly(view: SiteView, applied: Applied): Finding<EarlyArgs> | undefined {
  const { reopened } = applied.application
  if (!reopened) return undefined
  const waits = requiredWaits(view, applied)
  const opened = instantOn(view.district, dayReopened(applied, reopened), reopened.at)
  const { end } = timesOf(view.district, applied)
  const early = waits.filter(({ minutes }) => openedAfter(opened, end, minutes) === 'not shown')
  if (early.length > 0) {
    const atMost = opened.latest - end.earliest
    const isExact = opened.latest === opened.earliest && end.latest === end.earliest
    const after = `${isExact ? '' : 'at most '}${durationText(atMost)}`
    return finding(applied, early, atMost < 0 ? 'before the end' : 'too early', after)
  }
  const unsure = waits.filter(({ minutes }) => openedAfter(opened, end, minutes) === 'not recorded')
  if (unsure.length === 0 || isToldElsewhere(view, applied, end)) return undefined
  return finding(applied, unsure, 'not shown', '')
}

/**
 * Hours that are not recorded are told where a record duty asks for them, and a time that the clock showed twice or
 * skipped by rules of its own, but for that of a later day.
 */
function isToldElsewhere(view: SiteView, applied: Applied, end: InstantRange): boolean {
  const { time, reopened } = applied.application
  if (time === undefined) return recordAsksFor(view, applied, 'start-and-end')
  return end.earliest < end.latest || reopened?.on === undefined
}

function finding(
  applied: Applied,
  waits: readonly RequiredWait[],
  shown: EarlyArgs['shown'],
  after: string,
): Finding<EarlyArgs> {
  const longest = longestOf(waits)
  const sources = waits.map(({ citation }) => citation)
  return {
    args: {
      wait: durationText(longest?.minutes ?? 0),
      who: longest?.by === 'label' ? 'people' : 'pupils',
      after: shown === 'too early' ? after : '',
      shown,
    },
    at: applied.at('reopened', 'at'),
    from: applied.day,
    sources,
    level: shown === 'not shown' ? levelOfNotShown(sources) : levelOfDuty(sources),
  }
}
