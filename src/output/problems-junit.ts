import type { LocatedException, LocatedProblem } from '../check/locate-problems.js'
import type { Location } from '../files/locate.js'
import { isoOf } from '../measure/calendar.js'
import { siteOfPath } from '../records/paths.js'
import { ruleById } from '../rules/all.js'
import type { NotChecked, Problem } from '../types.js'
import { clean } from './clean.js'
import type { FailOn, ProblemsPage } from './problems.js'
import { isPath, notComparedSentence, pathInRepository, reaches, sentenceOf } from './problems.js'
import type { Element } from './xml.js'
import { xmlText } from './xml.js'

export interface JunitOptions {
  /** A problem at this level or above is a failure; one below it passes, with its sentence as output. */
  readonly failOn?: FailOn
  /** Folder of the ledger in the git repository that holds it; `''` when the ledger is its root. */
  readonly prefix?: string
  /** Sites that were asked for, so that one without a problem is there too. */
  readonly sites?: readonly string[]
}

/**
 * A check as JUnit XML, which every CI service can show: one suite for the district and one a site, one case a problem.
 * A case is red exactly when it makes the exit code 1 (failure) or 2 (error). Names of cases are made of rule, file and
 * key, so that a problem keeps its name while lines move and days pass. What is excepted is skipped, with the reason.
 */
export function problemsJunit(page: ProblemsPage, options: JunitOptions = {}): string {
  const { failOn = 'warning', prefix = '', sites = [] } = options
  const suites = new Map<string | undefined, Case[]>()
  const into = (site: string | undefined, added: readonly Case[]) =>
    suites.set(site, [...(suites.get(site) ?? []), ...added])
  into(undefined, [])
  for (const site of sites) into(site, [])
  for (const entry of page.notChecked) into(siteOf(entry.what), [notCheckedCase(entry, prefix)])
  for (const entry of page.compared?.notCompared ?? []) into(siteOf(entry.what), [notComparedCase(entry)])
  for (const located of page.problems)
    into(siteOfProblem(located.problem), [problemCase(located, failOn, prefix)])
  for (const excepted of page.excepted)
    into(siteOfProblem(excepted.problem), [exceptedCase(excepted, prefix)])
  const [district, ...others] = [...suites]
  const inOrder = [...(district ? [district] : []), ...others.sort(([a = ''], [b = '']) => (a < b ? -1 : 1))]
  const { skipped: _, ...total } = totalOf([...suites.values()].flatMap(withOne))
  return xmlText({
    name: 'testsuites',
    // The root has no count of what was skipped: strict readers do not know one there.
    attributes: { name: 'doorsweep check', ...total },
    content: inOrder.map(([site, cases]) => suiteOf(site, cases, page)),
  })
}

interface Case {
  readonly rule: string
  readonly name: string
  readonly file?: string
  readonly line?: number
  readonly outcome: 'passed' | 'failure' | 'error' | 'skipped'
  readonly content: readonly Element[]
}

function suiteOf(site: string | undefined, cases: readonly Case[], page: ProblemsPage): Element {
  const shown = withOne(cases)
  const name = site === undefined ? 'district' : `site ${site}`
  const named = uniqueNames()
  return {
    name: 'testsuite',
    attributes: { name, ...totalOf(shown) },
    content: [
      {
        name: 'properties',
        attributes: {},
        content: [
          property('as-of', page.asOf),
          ...(page.compared ? [property('compared-with', page.compared.with)] : []),
        ],
      },
      ...shown.map((entry) => ({
        name: 'testcase',
        attributes: {
          name: named(`${entry.rule} ${entry.name}`, entry.name),
          classname: entry.rule,
          file: entry.file,
          line: entry.line,
        },
        content: entry.content,
      })),
    ],
  }
}

function property(name: string, value: string): Element {
  return { name: 'property', attributes: { name, value }, content: '' }
}

/** A suite without a case looks like one that was never run: some services refuse it, others call it red. */
function withOne(cases: readonly Case[]): readonly Case[] {
  return cases.length > 0
    ? cases
    : [{ rule: 'check', name: 'no problem to show', outcome: 'passed', content: [] }]
}

function totalOf(cases: readonly Case[]) {
  const count = (outcome: Case['outcome']) => cases.filter((entry) => entry.outcome === outcome).length
  return {
    tests: cases.length,
    failures: count('failure'),
    errors: count('error'),
    skipped: count('skipped'),
  }
}

/** Services tell cases apart by name: of two that are equal the second gets `(2)`. */
function uniqueNames(): (key: string, name: string) => string {
  const seen = new Map<string, number>()
  return (key, name) => {
    const times = (seen.get(key) ?? 0) + 1
    seen.set(key, times)
    return times === 1 ? name : `${name} (${times})`
  }
}

function siteOfProblem(problem: Problem): string | undefined {
  return problem.site ?? siteOfPath(problem.at.file)
}

function siteOf(what: string): string | undefined {
  return siteOfPath(`${what}/`)
}

function placed(problem: Problem, location: Location | null, prefix: string) {
  const key = problem.at.path.join('.')
  return {
    rule: problem.rule,
    name: key === '' ? problem.at.file : `${problem.at.file}: ${key}`,
    file: pathInRepository(problem.at.file, prefix),
    ...(location ? { line: location.line } : {}),
  }
}

function problemCase(located: LocatedProblem, failOn: FailOn, prefix: string): Case {
  const { problem, location } = located
  const told = toldOf(located, prefix)
  const place = placed(problem, location, prefix)
  if (!reaches(problem.level, failOn))
    return {
      ...place,
      outcome: 'passed',
      content: [{ name: 'system-out', attributes: {}, content: told }],
    }
  const attributes = { message: sentenceOf(problem), type: problem.level }
  return { ...place, outcome: 'failure', content: [{ name: 'failure', attributes, content: told }] }
}

/** What a person at a terminal is told of a problem, line by line. */
function toldOf({ problem, location, related }: LocatedProblem, prefix: string): string {
  const rule = ruleById(problem.rule)
  const lines = [
    `${spot(problem.at.file, location, prefix)}: ${problem.level}: ${clean(sentenceOf(problem))} [${problem.rule}]`,
    ...related.map(
      (other) =>
        `see: ${spot(other.related.place.file, other.location, prefix)}: ${clean(other.related.says)}`,
    ),
    ...(rule ? [`why: ${rule.why}`, `do: ${clean(rule.remedy)}`] : []),
  ]
  return lines.join('\n')
}

function spot(file: string, location: Location | null, prefix: string): string {
  const path = clean(pathInRepository(file, prefix))
  return location ? `${path}:${location.line}:${location.column}` : path
}

function exceptedCase({ problem, location, exception, why, until }: LocatedException, prefix: string): Case {
  const end = until === undefined ? '' : ` until ${isoOf(until)}`
  return {
    ...placed(problem, location, prefix),
    outcome: 'skipped',
    content: [
      {
        name: 'skipped',
        attributes: { message: `excepted${end}: ${why} (${exception})` },
        content: clean(sentenceOf(problem)),
      },
    ],
  }
}

function notCheckedCase({ what, why }: NotChecked, prefix: string): Case {
  return {
    rule: 'not-checked',
    name: what,
    ...(isPath(what) ? { file: pathInRepository(what, prefix) } : {}),
    outcome: 'error',
    content: [
      {
        name: 'error',
        attributes: { message: `not checked: ${why}`, type: 'not-checked' },
        content: `${clean(what)}: ${clean(why)}.`,
      },
    ],
  }
}

/** No failure: what it means is that more is shown than the change brought, never less. */
function notComparedCase(entry: NotChecked): Case {
  return {
    rule: 'not-compared',
    name: entry.what,
    outcome: 'passed',
    content: [{ name: 'system-out', attributes: {}, content: clean(notComparedSentence(entry)) }],
  }
}
