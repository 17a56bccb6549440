import { draftFacts } from '../check/draft.js'
import { precheck } from '../check/precheck.js'
import type { Source } from '../files/source.js'
import { onlySite } from '../ledger/one-site.js'
import { isoOf } from '../measure/calendar.js'
import { recordPathOf } from '../records/paths.js'
import { ruleById } from '../rules/all.js'
import type { Day } from '../types.js'

/** What a planned application still asks for before it begins. */
export interface PlannedDue {
  readonly what: string
  readonly lastDay: Day
  /** The rule that would speak; undefined for the application itself. */
  readonly rule: string | undefined
}

const doneBefore: Readonly<Record<string, string>> = {
  'notice-missing': 'send the notice',
  'posting-missing': 'put up the sign',
  'approval-missing': 'get the approval',
  'emergency-without-statement': 'write the statement of the emergency',
}

/**
 * What is still to do before an application that is planned can begin, by the ordinary rules held against it as if it
 * were carried out as drafted. Nothing here says that it may be.
 */
export function plannedDue(source: Source, site: string, file: string, asOf: Day): PlannedDue[] {
  const read = source.read(file)
  const path = recordPathOf(file)
  if (!('bytes' in read) || !path || 'stray' in path || path.site === undefined || path.day === undefined)
    return []
  if (draftFacts(read.bytes).status !== 'planned') return []
  const draft = { path: { ...path, site: path.site, day: path.day }, text: read.bytes }
  const about = `the application planned for ${isoOf(path.day)}`
  const before = precheck(onlySite(source, site), draft, asOf)
    .stillToDo.filter(({ when }) => when === 'before it begins')
    .map(({ problem, lastDay }) => ({
      what: `${doneBefore[problem.rule] ?? ruleById(problem.rule)?.title ?? problem.rule} for ${about}`,
      lastDay,
      rule: problem.rule,
    }))
  const itself = { what: `precheck ${about} before it is made`, lastDay: path.day, rule: undefined }
  return [...before, itself]
}
