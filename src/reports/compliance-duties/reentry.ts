import { labelInForce } from '../../ledger/labels.js'
import type { SiteView } from '../../ledger/site-view.js'
import type { Treatment } from '../../ledger/treatments.js'
import { durationText } from '../../measure/reentry.js'
import type { Applied } from '../../rules/reentry/applications.js'
import { dryFault, staysPut } from '../../rules/reentry/dry-not-seen.js'
import { keptAway } from '../../rules/reentry/pupils-present.js'
import { stayedOut } from '../../rules/reentry/reopened-too-early.js'
import { waitOfDuty } from '../../rules/reentry/required-waits.js'
import type { Assessor, Part } from './held.js'
import { held, noPlaceInAReading, notApplicable, outcomeOf, together } from './held.js'

/** An application with its record; undefined for bait in a device. */
export function appliedOf(treatment: Treatment): Applied | undefined {
  return treatment.application === undefined ? undefined : (treatment as Applied)
}

export const assessReentry: Assessor<'reentry'> = (view, treatment, { says }) => {
  const label = labelInForce(treatment)?.says
  const minutes = waitOfDuty(says, label ?? {})
  const applied = appliedOf(treatment)
  const parts: Part[] = []
  if (minutes !== undefined && minutes > 0)
    parts.push(applied ? partOfWait(view, applied, minutes) : noPlaceInAReading('reopened'))
  if (says.label !== undefined && !label)
    parts.push({
      outcome: 'cannot be checked',
      why: 'what time the label asks for is not in the register',
      absent: [labelFact(treatment, 'keep-out')],
    })
  if (says.dry === 'yes') parts.push(applied ? partOfDry(view, applied) : dryOfBait)
  return parts.length === 0 ? notApplicable('it asks for no time, and the label gives none') : together(parts)
}

const dryOfBait = notApplicable('bait in a device lies where it was put; nothing dries or settles')

/** Whether people stayed out for so many minutes. */
export function partOfWait(view: SiteView, applied: Applied, minutes: number): Part {
  const { time, reopened } = applied.application
  const wait = durationText(minutes)
  const outcome = stayedOut(view, applied, minutes)
  if (outcome === undefined || !reopened)
    return {
      outcome: 'cannot be checked',
      why: `when the area was opened again is not recorded; the wait is ${wait}`,
      absent: ['reopened', ...(time === undefined ? ['time'] : [])],
    }
  const opened = `opened again ${reopened.on === undefined ? '' : `${reopened.on} `}${reopened.at}`
  const end = time === undefined ? 'the end is not recorded' : `ended ${time.split(' to ')[1] ?? ''}`
  return {
    outcome: outcomeOf(outcome),
    why: `${end}, ${opened}; the wait is ${wait}`,
    absent:
      outcome === 'not recorded' ? [time === undefined ? 'time' : 'the offset of `time` or `reopened`'] : [],
  }
}

export function labelFact({ productId }: Treatment, fact: string): string {
  return `label fact \`${fact}\` of ${productId}`
}

/** Whether it was seen dry or settled before people came back. */
export function partOfDry(view: SiteView, applied: Applied): Part {
  const { dry, reopened } = applied.application
  if (staysPut(applied)) return notApplicable('bait lies where it was put; nothing dries or settles')
  if (!dry)
    return {
      outcome: 'cannot be checked',
      why: 'nobody is recorded to have seen it dry or settled',
      absent: ['dry', ...(reopened ? [] : ['reopened'])],
    }
  const seen = `seen dry or settled ${dry.at}`
  const fault = dryFault(view, applied)
  if (fault) {
    const { why, other } = fault.args
    return why === 'after it was opened'
      ? { outcome: 'not shown', why: `${seen}, and opened again before, at ${other}` }
      : { outcome: 'not shown', why: `${seen}, before the application ended at ${other}` }
  }
  if (!reopened)
    return {
      outcome: 'cannot be checked',
      why: `${seen}; when the area was opened again is not recorded`,
      absent: ['reopened'],
    }
  return {
    outcome: 'shown',
    why: `${seen}, opened again ${reopened.on === undefined ? '' : `${reopened.on} `}${reopened.at}`,
  }
}

/** Where pupils were during the application. */
export const assessOccupancy: Assessor<'occupancy'> = (view, treatment, { says }) => {
  const applied = appliedOf(treatment)
  if (!applied) return noPlaceInAReading('pupils')
  const { pupils, separated, time } = applied.application
  const outcome = keptAway(view, applied, says)
  if (pupils === undefined)
    return outcome === 'shown'
      ? held({
          outcome: 'shown',
          why: `made when no pupils are expected in the building (${time ?? 'no hours of theirs that day'})`,
        })
      : held({
          outcome: 'cannot be checked',
          why: 'where pupils were is not recorded, and they are expected in the building then',
          absent: ['pupils', ...(time === undefined ? ['time'] : [])],
        })
  const apart =
    says['unless-separated'] !== undefined && pupils === 'elsewhere in the building'
      ? `, ${separated === 'yes' ? 'the part separated' : 'and the part is not recorded as separated'}`
      : ''
  return held({
    outcome: outcomeOf(outcome),
    why: `pupils are recorded as ${pupils}${apart}`,
    absent: outcome === 'shown' || apart === '' ? [] : ['separated'],
  })
}
