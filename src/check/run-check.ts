import type { Source } from '../files/source.js'
import type { DistrictView } from '../ledger/district-view.js'
import { districtView } from '../ledger/district-view.js'
import type { LoadedEvent, ReadFault } from '../ledger/loaded.js'
import { inventoryOf, readOne } from '../ledger/read-records.js'
import type { SiteDigest } from '../ledger/site-digest.js'
import { digestOf } from '../ledger/site-digest.js'
import type { SiteView } from '../ledger/site-view.js'
import { readSite } from '../ledger/site-view.js'
import type { RecordPath } from '../records/paths.js'
import { siteOfPath } from '../records/paths.js'
import { allRules } from '../rules/all.js'
import type { FileRule, Finding, Rule } from '../rules/rule.js'
import type { Day, ExceptedProblem, NotChecked, Problem } from '../types.js'
import { applyExceptions } from './exceptions.js'

export interface CheckOptions {
  readonly asOf: Day
  /** Events after the as-of day are a problem of their own only when that day is today. */
  readonly asOfIsToday: boolean
  /** Called with the linked picture of each site, so that reports need no second reading. */
  readonly eachSite?: (view: SiteView) => void
}

export interface CheckResult {
  /** Null when there is no usable district.yaml. */
  readonly district: DistrictView | null
  /** Everything any rule found, standing or ended, also what becomes true only after the as-of day. */
  readonly problems: readonly Problem[]
  readonly excepted: readonly ExceptedProblem[]
  readonly notChecked: readonly NotChecked[]
  readonly records: number
  readonly sites: number
  /** Records dated after the as-of day, which were left out. */
  readonly later: number
}

/**
 * Reads a ledger and runs every rule. Sites are read, judged and let go one at a time, so that memory does not
 * grow with the ledger; the order of files does not matter. A site with a record that cannot be used is not
 * judged as a whole, since its gaps could be false alarms: that is said, and makes the exit code 2.
 */
export function runCheck(source: Source, options: CheckOptions): CheckResult {
  const inventory = inventoryOf(source)
  const faults: ReadFault[] = [...inventory.faults]
  const notChecked: NotChecked[] = []
  const problems: Problem[] = []
  const view = districtView(source, inventory, options.asOf, faults)
  const judged = { records: inventory.district.length, later: 0 }
  const digests: SiteDigest[] = []
  if (view) {
    for (const [id, paths] of [...inventory.sites].sort(([a], [b]) => (a < b ? -1 : 1))) {
      if (options.asOfIsToday) faults.push(...futureFaults(source, paths, options.asOf))
      const read = readSite(source, view, id, paths, faults)
      judged.records += read.records
      judged.later += read.later
      if (!read.view) {
        notChecked.push({ what: `sites/${id}`, why: reasonOf(read.unusable) })
        continue
      }
      problems.push(...siteProblems(read.view))
      digests.push(digestOf(read.view))
      options.eachSite?.(read.view)
    }
    problems.push(...districtProblems(view, digests))
    for (const broken of [...view.broken].sort())
      notChecked.push({ what: broken, why: 'the record cannot be used' })
  } else notChecked.push({ what: 'the whole ledger', why: 'district.yaml is missing or cannot be used' })
  const blamed = blamedFiles(faults)
  const kept = problems.filter((problem) => !blamed.has(problem.at.file))
  const all = [...faults.flatMap((fault) => faultProblems(fault, options.asOf)), ...kept]
  const { standing, excepted } = view
    ? applyExceptions(all, view, options.asOf)
    : { standing: all, excepted: [] }
  return { district: view, problems: standing, excepted, notChecked, sites: inventory.sites.size, ...judged }
}

/** Events dated after today. An application may be planned for a day to come. */
function futureFaults(source: Source, paths: readonly RecordPath[], today: Day): ReadFault[] {
  return paths
    .filter((path) => path.day !== undefined && path.day > today && !isPlanned(source, path))
    .map((path) => ({ file: path.file, kind: 'future', today }))
}

function isPlanned(source: Source, path: RecordPath): boolean {
  if (path.kind !== 'application') return false
  const record = readOne(source, path, []) as LoadedEvent<'application'> | null
  return record !== null && record.data.status === 'planned'
}

function reasonOf(unusable: readonly string[]): string {
  if (unusable.length === 0) return 'it has no site.yaml'
  const more = unusable.length > 1 ? ` and ${unusable.length - 1} more` : ''
  return `${unusable[0]}${more} cannot be used, so what is missing cannot be told from what was not read`
}

function siteProblems(view: SiteView): Problem[] {
  const problems: Problem[] = []
  for (const rule of allRules) {
    if (rule.reach !== 'site') continue
    for (const finding of rule.check(view)) problems.push(problemOf(rule, finding, view.id))
  }
  return problems
}

function districtProblems(view: DistrictView, digests: readonly SiteDigest[]): Problem[] {
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

function faultProblems(fault: ReadFault, asOf: Day): Problem[] {
  return fileRules.flatMap((rule) => {
    const found = rule.judge(fault)
    return found ? [problemOf(rule, { ...found, from: Math.min(asOf, 0) }, siteOfPath(fault.file))] : []
  })
}

/** A record that was blamed while reading is not blamed again for what follows from it. */
function blamedFiles(faults: readonly ReadFault[]): Set<string> {
  return new Set(faults.map((fault) => fault.file))
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
