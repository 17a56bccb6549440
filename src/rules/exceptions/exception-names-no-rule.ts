import { dayOfUndated } from '../../ledger/undated.js'
import { nearest } from '../../records/nearest.js'
import type { Args } from '../../types.js'
import type { Rule } from '../rule.js'
import { districtRule, ledgerFormat } from '../rule.js'

/** The rules there are come as an argument, since this is itself one of them. */
export const exceptionNamesNoRule = (rules: () => readonly Rule[]) =>
  districtRule<Args>({
    id: 'exception-names-no-rule',
    title: 'an exception names no rule',
    level: 'error',
    judgedOn: 'whenever the ledger is read',
    why: 'An exception to a rule that is not there excuses nothing, while the district believes that it does.',
    remedy: 'Write the id that stands in brackets behind the problem, such as `rule: area-never-inspected`.',
    source: ledgerFormat,
    actor: 'coordinator',
    gap: false,
    says: ({ rule, meant }) =>
      `There is no rule \`${rule}\`${meant === undefined ? '.' : `; did you mean \`${meant}\`?`}`,
    *check(view) {
      if (view.exceptions.length === 0) return
      const ids = new Set(rules().map(({ id }) => id))
      for (const { file, data } of view.exceptions) {
        if (ids.has(data.rule)) continue
        const meant = nearest(data.rule, ids)
        yield {
          args: { rule: data.rule, ...(meant === undefined ? {} : { meant }) },
          at: { file, path: ['rule'] },
          from: dayOfUndated(view),
        }
      }
    },
    failing: `
=== exceptions/log-away.yaml
rule: complaint-log-not-red # expect: exception-names-no-rule
by: marsh
why: the log is being bound anew
from: 2026-03-10
until: 2026-04-10
`,
    passing: `
=== exceptions/log-away.yaml
rule: complaint-log-not-read
by: marsh
why: the log is being bound anew
from: 2026-03-10
until: 2026-04-10
`,
  })
