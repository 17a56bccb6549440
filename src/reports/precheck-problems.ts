import { isoOf } from '../measure/calendar.js'
import { ruleById } from '../rules/all.js'
import type { Problem, Row } from '../types.js'
import { levels } from '../types.js'

export const problemColumns = [
  { id: 'level', title: 'level' },
  { id: 'says', title: 'what' },
  { id: 'where', title: 'where' },
  { id: 'rule', title: 'rule' },
  { id: 'from', title: 'true from', for: 'work' },
  { id: 'sources', title: 'sources', for: 'work' },
] as const

/** The gravest first. */
export function inOrder(problems: readonly Problem[]): Problem[] {
  return [...problems].sort(
    (a, b) =>
      levels.indexOf(a.level) - levels.indexOf(b.level) || (a.rule < b.rule ? -1 : a.rule > b.rule ? 1 : 0),
  )
}

export function problemRow(problem: Problem): Row {
  const { rule, level, args, at, from, sources, related } = problem
  return {
    cells: {
      level,
      says: ruleById(rule)?.says(args) ?? rule,
      where: [at.file.split('/').slice(-2).join('/'), at.path.join('.')]
        .filter((part) => part !== '')
        .join(': '),
      rule,
      from: isoOf(from),
      sources: sources.map(({ text }) => text).join('; '),
    },
    records: [...new Set([at.file, ...related.map(({ place }) => place.file)])],
  }
}
