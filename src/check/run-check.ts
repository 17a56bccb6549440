import type { Source } from '../files/source.js'
import type { DistrictView } from '../ledger/district-view.js'
import type { ReadFault } from '../ledger/loaded.js'
import type { ReadLedger, ReadOptions } from '../ledger/read-ledger.js'
import { readLedger } from '../ledger/read-ledger.js'
import type { SiteDigest } from '../ledger/site-digest.js'
import { digestOf } from '../ledger/site-digest.js'
import type { SiteView } from '../ledger/site-view.js'
import { siteOfPath } from '../records/paths.js'
import { allRules } from '../rules/all.js'
import { unknownKey } from '../rules/reading/unknown-key.js'
import type { FileRule, Finding, Rule } from '../rules/rule.js'
import type { Day, ExceptedProblem, Problem } from '../types.js'
import { applyExceptions, isLaw } from './exceptions.js'

export interface CheckResult extends ReadLedger {
  /** Everything any rule found and no exception covers: standing, ended, or true only after the as-of day. */
  readonly problems: readonly Problem[]
  readonly excepted: readonly ExceptedProblem[]
}

/** Reads a ledger and runs every rule, a site at a time; `eachSite` may look at what is read on the same walk. */
export function runCheck(
  source: Source,
  options: ReadOptions,
  eachSite: (view: SiteView) => void = () => {},
): CheckResult {
  const found: Problem[] = []
  const digests: SiteDigest[] = []
  const read = readLedger(source, options, (view) => {
    found.push(...siteProblems(view))
    digests.push(digestOf(view))
    eachSite(view)
  })
  if (read.district) found.push(...districtProblems(read.district, digests))
  const ofReading = read.faults.flatMap(faultProblems)
  if (!read.district) return { ...read, problems: ofReading, excepted: [] }
  const fromReading = applyExceptions(ofReading, read.district, options.asOf)
  const isBlamed = blamedIn(read.faults, fromReading.standing)
  const fromRules = applyExceptions(
    found.filter((problem) => !isBlamed(problem)),
    read.district,
    options.asOf,
  )
  return {
    ...read,
    problems: [...fromReading.standing, ...fromRules.standing],
    excepted: [...fromReading.excepted, ...fromRules.excepted],
  }
}

/**
 * A record that was blamed while reading is not blamed again for what follows from it. Where only a key is not
 * known, that is what seems to be missing; what the record does say still counts, and so does law. A key that an
 * exception lets stand explains nothing.
 */
function blamedIn(faults: readonly ReadFault[], standing: readonly Problem[]): (problem: Problem) => boolean {
  const isUnknownKey = (fault: ReadFault) => fault.kind === 'shape' && fault.fault.fault === 'unknown-key'
  const wholly = new Set(faults.filter((fault) => !isUnknownKey(fault)).map((fault) => fault.file))
  const partly = new Set(standing.filter(({ rule }) => rule === unknownKey.id).map(({ at }) => at.file))
  return (problem) =>
    wholly.has(problem.at.file) || (problem.gap && !isLaw(problem) && partly.has(problem.at.file))
}

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

function faultProblems(fault: ReadFault): Problem[] {
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

/** Whether a problem is true on a day. */
export function standsOn(problem: Problem, day: Day): boolean {
  return problem.from <= day && (problem.until === undefined || day < problem.until)
}
