import type { Application, SiteUses } from './compliance-collect.js'
import type { HeldYearly } from './compliance-yearly.js'
import type { ReportOptions } from './options.js'
import type { Outcome } from './outcomes.js'
import { counted } from './outcomes.js'
import type { Period } from './period.js'

export interface HeadlineFacts {
  readonly applications: readonly Application[]
  readonly yearly: readonly HeldYearly[]
  readonly sites: readonly SiteUses[]
  readonly period: Period
  readonly options: ReportOptions
  readonly isUnread: boolean
  readonly hasLaw: boolean
}

/** What an auditor should know, in one sentence. */
export function complianceHeadline(facts: HeadlineFacts): string {
  const { applications, sites, period, options, isUnread } = facts
  if (sites.length === 0)
    return options.site === undefined ? 'No site could be examined.' : 'This site could not be examined.'
  const end = `${facts.hasLaw ? '' : '; no law is in force in the ledger'}${isUnread ? '; part of what was asked could not be examined' : ''}.`
  const scope = options.site === undefined ? '' : ` at ${options.site}`
  if (applications.length === 0) {
    if (sites.every(({ begins }) => begins > period.to))
      return `The records begin after this period, so nothing can be said of it${end}`
    const part = sites.some(({ begins }) => begins > period.from)
      ? ', which the records cover only in part'
      : ''
    return `No use of a pesticide${scope} is recorded in this period${part}${yearlyInWords(facts)}${end}`
  }
  const counts = countsOf(applications)
  const held = counts.shown + counts.notShown + counts.notChecked
  return `Of ${held} duties held against ${counted(applications.length, 'application')}${scope}, ${counts.shown} ${are(counts.shown)} shown by the records, ${counts.notShown} ${are(counts.notShown)} not${lawInWords(counts)}, ${counts.notChecked} cannot be checked${yearlyInWords(facts)}${end}`
}

const are = (count: number) => (count === 1 ? 'is' : 'are')

interface Counts {
  readonly shown: number
  readonly notShown: number
  readonly notShownOfLaw: number
  readonly notChecked: number
}

function countsOf(applications: readonly Application[]): Counts {
  const all = applications.flatMap(({ duties }) => duties)
  const of = (outcome: Outcome) => all.filter((duty) => duty.outcome === outcome)
  return {
    shown: of('shown').length,
    notShown: of('not shown').length,
    notShownOfLaw: of('not shown').filter(({ citation }) => citation.kind === 'law').length,
    notChecked: of('cannot be checked').length,
  }
}

function lawInWords({ notShown, notShownOfLaw }: Counts): string {
  if (notShown === 0) return ''
  return notShownOfLaw === notShown ? ' (of law)' : ` (${notShownOfLaw} of law)`
}

/** `; of 3 filings due, 2 are shown`; nothing where none was due. */
function yearlyInWords({ yearly }: HeadlineFacts): string {
  const asked = yearly.filter(({ outcome }) => outcome !== 'not applicable')
  if (asked.length === 0) return ''
  const shown = asked.filter(({ outcome }) => outcome === 'shown').length
  return `; of ${counted(asked.length, 'yearly filing')} asked, ${shown} ${are(shown)} shown`
}
