import type { DistrictView } from '../ledger/district-view.js'
import type { ReadFault } from '../ledger/loaded.js'
import type { SiteDigest } from '../ledger/site-digest.js'
import type { SiteView } from '../ledger/site-view.js'
import { siteOfPath } from '../records/paths.js'
import { allRules } from '../rules/all.js'
import type { FileRule, Finding, Rule } from '../rules/rule.js'
import type { Day, Problem } from '../types.js'

/** What the rules, or some of them, find at one site, before exceptions. */
export function siteProblems(view: SiteView, rules: readonly Rule[] = allRules): Problem[] {
  const problems: Problem[] = []
  for (const rule of rules) {
    if (rule.reach !== 'site') continue
    for (const finding of rule.check(view)) problems.push(problemOf(rule, finding, view.id))
  }
  return problems
}

/** What the rules find in the records of the district itself, before exceptions. */
export function districtProblems(view: DistrictView, digests: readonly SiteDigest[]): Problem[] {
  const problems: Problem[] = []
  for (const rule of allRules) {
    const findings =
      rule.reach === 'district'
        ? rule.check(view, digests)
        : rule.reach === 'site'
          ? (rule.checkDistrict?.(view) ?? [])
          : []
    for (const finding of findings) problems.push(problemOf(rule, finding, siteOfPath(finding.at.file)))
  }
  return problems
}

const fileRules = allRules.filter((rule): rule is FileRule => rule.reach === 'file')

/** What is wrong with a file as it was read is true from the beginning of time, whatever the as-of day. */
const always: Day = 0

/** What is wrong with a file as it was read. */
export function faultProblems(fault: ReadFault): Problem[] {
  return fileRules.flatMap((rule) => {
    const found = rule.judge(fault)
    return found ? [problemOf(rule, { ...found, from: always }, siteOfPath(fault.file))] : []
  })
}

function problemOf(rule: Rule, finding: Finding, site: string | undefined): Problem {
  return {
    rule: rule.id,
    level: finding.level ?? rule.level,
    args: finding.args,
    identity: finding.identity ?? [],
    at: finding.at,
    related: finding.related ?? [],
    sources: finding.sources ?? [rule.source],
    from: finding.from,
    ...(finding.until === undefined ? {} : { until: finding.until }),
    ...(site === undefined ? {} : { site }),
    actor: finding.actor ?? rule.actor,
    gap: rule.gap,
  }
}
