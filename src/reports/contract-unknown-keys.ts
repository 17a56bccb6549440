import type { ReadFault } from '../ledger/loaded.js'
import { siteOfPath } from '../records/paths.js'
import type { CheckFacts } from './contract-checks.js'
import type { SpanFacts } from './contract-collect.js'
import type { ComplaintFact } from './contract-complaints.js'
import type { OpenMatter } from './contract-on-visits.js'
import type { VisitDueFact } from './contract-visits.js'

const isMissing: ReadonlySet<string> = new Set(['late', 'no record'])

/** What records say even where a key of theirs is not known; all else there is something that seems to be missing. */
const isSaid: ReadonlySet<OpenMatter['what']> = new Set(['routine visit', 'area not entered', 'device lost'])

/** Files of sites with a key that is not known. */
export function filesWithUnknownKeys(faults: readonly ReadFault[]): Set<string> {
  return new Set(
    faults.flatMap((fault) =>
      fault.kind === 'shape' && fault.fault.fault === 'unknown-key' && siteOfPath(fault.file) !== undefined
        ? fault.file
        : [],
    ),
  )
}

/** What seems to be missing where a key is not known may only be that key, so it cannot be told, as in `check`. */
export function withUnknownKeys(facts: SpanFacts, files: ReadonlySet<string>): SpanFacts {
  if (files.size === 0) return facts
  const { span, visits, complaints, checks, open } = facts
  return {
    ...facts,
    visits: files.has(span.siteFile) ? visits.map(untold) : visits,
    complaints: complaints.map((fact) => (files.has(fact.files[0] ?? '') ? untoldComplaint(fact) : fact)),
    checks: checks.map((group) => withoutLate(group, files)),
    open: open.filter(({ what, files: [file = ''] }) => isSaid.has(what) || !files.has(file)),
  }
}

function untold(fact: VisitDueFact): VisitDueFact {
  return isMissing.has(fact.outcome) ? { ...fact, outcome: 'cannot be told', daysLate: 0 } : fact
}

function untoldComplaint(fact: ComplaintFact): ComplaintFact {
  if (!isMissing.has(fact.outcome)) return fact
  return {
    ...fact,
    outcome: 'cannot be told',
    daysLate: 0,
    timeIsUp: false,
    followed: undefined,
    why: 'a key of the complaint is not known',
  }
}

/** The first file of a late check is the visit that set the device. */
function withoutLate(group: CheckFacts, files: ReadonlySet<string>): CheckFacts {
  const dropped = group.late.filter((check) => files.has(check.files[0] ?? ''))
  if (dropped.length === 0) return group
  const together = new Map([...group.together].map(([day, cluster]) => [day, { ...cluster }]))
  for (const { lastDay } of dropped) {
    const cluster = together.get(lastDay)
    if (cluster) cluster.trials--
  }
  return { ...group, late: group.late.filter((check) => !dropped.includes(check)), together }
}
