import type { Location } from '../files/locate.js'
import { isoOf } from '../measure/calendar.js'
import { ruleById } from '../rules/all.js'
import type { Problem } from '../types.js'
import { jsonText } from './clean.js'
import type { Compared, ProblemsPage } from './problems.js'
import { countByLevel, sentenceOf } from './problems.js'

/** Version of this JSON: fields may be added, none is renamed or removed within a version. */
const formatVersion = 1

export function problemsJson(page: ProblemsPage): string {
  const document = {
    'format-version': formatVersion,
    'as-of': page.asOf,
    source: page.source,
    ...(page.compared ? { compared: comparedJson(page.compared) } : {}),
    counts: {
      records: page.records,
      sites: page.sites,
      'later-records': page.later,
      ...countByLevel(page.problems),
      excepted: page.excepted.length,
      hidden: page.hidden,
    },
    problems: page.problems.map(({ problem, fingerprint, location, related }) => ({
      ...factsOf(problem),
      fingerprint,
      location: placeOf(problem.at.file, location),
      related: related.map((other) => ({
        ...placeOf(other.related.place.file, other.location),
        says: other.related.says,
      })),
    })),
    excepted: page.excepted.map(({ problem, fingerprint, location, exception, why, until }) => ({
      ...factsOf(problem),
      fingerprint,
      location: placeOf(problem.at.file, location),
      exception,
      why,
      until: until === undefined ? null : isoOf(until),
    })),
    'not-checked': page.notChecked,
  }
  return jsonText(document)
}

/** Here only with `--since` and `--staged`: then `problems` and `excepted` are those that the change brought. */
function comparedJson({ with: words, commits, known, notCompared }: Compared) {
  return { with: words, commits, known, 'not-compared': notCompared }
}

function factsOf(problem: Problem) {
  const rule = ruleById(problem.rule)
  return {
    rule: problem.rule,
    level: problem.level,
    says: sentenceOf(problem),
    args: problem.args,
    key: problem.at.path.join('.'),
    site: problem.site ?? null,
    from: problem.at.span || problem.from <= 0 ? null : isoOf(problem.from),
    actor: problem.actor,
    gap: problem.gap,
    remedy: rule?.remedy ?? '',
    sources: problem.sources,
  }
}

function placeOf(file: string, location: Location | null) {
  return location
    ? {
        file,
        line: location.line,
        column: location.column,
        'end-line': location.endLine,
        'end-column': location.endColumn,
      }
    : { file, line: null, column: null, 'end-line': null, 'end-column': null }
}
