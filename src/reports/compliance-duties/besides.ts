import { siteProblems, standsOn } from '../../check/run-check.js'
import type { SiteView } from '../../ledger/site-view.js'
import type { Treatment } from '../../ledger/treatments.js'
import { ruleById } from '../../rules/all.js'
import { applicationRecordsRules } from '../../rules/application-records/index.js'
import { labelUseRules } from '../../rules/label-use/index.js'
import { licencesRules } from '../../rules/licences/index.js'
import { needRules } from '../../rules/need/index.js'
import { noticesRules } from '../../rules/notices/index.js'
import { productsRules } from '../../rules/products/index.js'
import { reentryRules } from '../../rules/reentry/index.js'
import type { Rule } from '../../rules/rule.js'
import type { Problem } from '../../types.js'
import type { HeldDuty } from './assess.js'
import { notShown } from './held.js'

/** Rules about uses of products: what `check` says of a use, the report of the same use does not pass over. */
const rulesAboutUses: readonly Rule[] = [
  ...noticesRules,
  ...reentryRules,
  ...licencesRules,
  ...labelUseRules,
  ...applicationRecordsRules,
  ...needRules,
  ...productsRules,
]

const idsAboutUses: ReadonlySet<string> = new Set(rulesAboutUses.map(({ id }) => id))

/** What those rules find at a site and stands on its as-of day; `all` where every rule was run already. */
export function problemsAboutUses(view: SiteView, all?: readonly Problem[]): readonly Problem[] {
  const found = all?.filter(({ rule }) => idsAboutUses.has(rule)) ?? siteProblems(view, rulesAboutUses)
  return found.filter((problem) => standsOn(problem, view.asOf))
}

/** Problems that are of one treatment: at its record, or at a notice or another record that is about it. */
export function isOf(problem: Problem, treatment: Treatment): boolean {
  const places = [problem.at, ...problem.related.map(({ place }) => place)]
  return places.some(({ file, path }) => {
    if (file !== treatment.record.file) return false
    if (treatment.application) return true
    // Bait in a device stands among the readings of a visit; what is said of the whole visit is said of it too.
    const own = treatment.at().path.slice(0, 2)
    return path.length < 2 || own.every((key, n) => path[n] === key)
  })
}

/**
 * What the rules find of a treatment beside the duties held against it: a source that no duty that is not shown, or that
 * cannot be checked, names already. What rests on the program alone is left out where anything is told.
 */
export function foundBesides(
  problems: readonly Problem[],
  treatment: Treatment,
  duties: readonly HeldDuty[],
): HeldDuty[] {
  const open = duties.filter(({ outcome }) => outcome === 'not shown' || outcome === 'cannot be checked')
  const told = new Set(open.map(({ citation }) => citation.text))
  return problems
    .filter((problem) => isOf(problem, treatment))
    .flatMap((problem) => {
      const clauses = problem.sources.filter(({ kind }) => kind !== 'program')
      const left = clauses.filter(({ text }) => !told.has(text))
      if (left.length === 0 && (clauses.length > 0 || open.length > 0)) return []
      return (left.length === 0 ? problem.sources : left).map((citation) => besideOf(problem, citation))
    })
}

function besideOf(problem: Problem, citation: HeldDuty['citation']): HeldDuty {
  const rule = ruleById(problem.rule)
  return {
    section: 'beside the duties',
    rulebook: citation.kind,
    name: problem.rule,
    duty: rule?.title ?? problem.rule,
    citation,
    ...notShown(rule?.says(problem.args) ?? ''),
    records: problem.related.map(({ place }) => place.file),
  }
}
