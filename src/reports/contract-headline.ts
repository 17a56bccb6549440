import { followedTimes } from './contract-cells.js'
import type { SpanFacts } from './contract-collect.js'
import type { ComplaintFact } from './contract-complaints.js'
import { countOf } from './contract-outcomes.js'
import { settledVisits } from './contract-tables.js'
import type { VisitDueFact } from './contract-visits.js'
import type { ReportOptions } from './options.js'
import { counted } from './outcomes.js'
import { halfWithin } from './time-to.js'

/** How the service stands, in one sentence. */
export function contractHeadline(facts: readonly SpanFacts[], { site }: ReportOptions): string {
  const scope = site === undefined ? '' : ` at ${site}`
  if (facts.length === 0)
    return `The records answer for no site${scope} in this period, so nothing can be said.`
  const complaints = complaintWords(facts.flatMap((one) => one.complaints))
  return `${visitWords(facts, scope)}; ${complaints}.`
}

function visitWords(facts: readonly SpanFacts[], scope: string): string {
  if (facts.every(({ span }) => span.contract === undefined))
    return `No contract states how often routine visits are due${scope}, so none can be called late`
  const visits = facts.flatMap((one) => one.visits)
  const due = settledVisits(visits)
  const untold = countOf(visits, 'cannot be told')
  if (due.length === 0)
    return untold === 0
      ? `No routine visit was due${scope} in this period`
      : `Of ${counted(untold, 'routine visit')}${scope} it cannot be told whether ${untold === 1 ? 'it was' : 'they were'} made in time`
  return `${settledWords(due, scope)}${untold === 0 ? '' : `; of ${untold} more it cannot be told`}`
}

function settledWords(due: readonly VisitDueFact[], scope: string): string {
  const inTime = countOf(due, 'in time')
  if (inTime === due.length)
    return due.length === 1
      ? `The one routine visit due${scope} is on record in time`
      : `All ${due.length} routine visits due${scope} are on record in time`
  const late = countOf(due, 'late')
  const none = countOf(due, 'no record')
  const parts = [
    `${inTime === 0 ? 'none' : inTime} ${inTime === 1 || inTime === 0 ? 'is' : 'are'} on record in time`,
    ...(late > 0 ? [`${late} late`] : []),
    ...(none > 0 ? [`${none} ${none === 1 ? 'has' : 'have'} no record`] : []),
  ]
  return `Of ${counted(due.length, 'routine visit')} due${scope}, ${listed(parts)}`
}

function listed(parts: readonly string[]): string {
  const last = parts.at(-1) ?? ''
  return parts.length < 2 ? last : `${parts.slice(0, -1).join(', ')} and ${last}`
}

function complaintWords(complaints: readonly ComplaintFact[]): string {
  if (complaints.length === 0) return 'no complaint was received'
  const half = halfWithin(followedTimes(complaints), 'answered') ?? 'no time to an answer can be told'
  const ripe = complaints.filter(({ timeIsUp }) => timeIsUp)
  const share = ripe.length === 0 ? '' : shareWords(countOf(ripe, 'in time'), ripe.length)
  return `of ${counted(complaints.length, 'complaint')} ${half}${share}`
}

/** A per cent where there are enough to speak of one, and never 0 or 100 for a part. */
function shareWords(part: number, all: number): string {
  if (part === all) return ', all in time'
  if (part === 0) return ', none in time'
  if (all < 20) return ` and ${part} of ${all} in time`
  const percent = Math.round((100 * part) / all)
  return ` and ${Math.min(99, Math.max(1, percent))} % in time`
}
