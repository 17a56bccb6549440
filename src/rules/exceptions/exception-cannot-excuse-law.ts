import { dayIn } from '../../ledger/spans.js'
import type { Rule } from '../rule.js'
import { districtRule, ledgerFormat } from '../rule.js'

/** The rules there are come as an argument, since this is itself one of them. */
export const exceptionCannotExcuseLaw = (rules: () => readonly Rule[]) =>
  districtRule<{ rule: string; law: string }>({
    id: 'exception-cannot-excuse-law',
    title: 'an exception is made to a rule that rests on law',
    level: 'warning',
    judgedOn: 'the days on which the exception holds',
    why: 'A district cannot excuse itself from law; what the rule finds stays a problem whatever the exception says.',
    remedy:
      'Take the exception away, and do what the law asks; where the authority itself allowed a departure, keep its document beside the record it is about.',
    source: ledgerFormat,
    actor: 'coordinator',
    gap: false,
    says: ({ rule, law }) => `\`${rule}\` rests on law (${law}), which no exception of a district excuses.`,
    *check(view) {
      if (view.exceptions.length === 0) return
      const byId = new Map(rules().map((rule) => [rule.id, rule]))
      for (const { file, data } of view.exceptions) {
        const source = byId.get(data.rule)?.source
        if (source?.kind !== 'law') continue
        yield {
          args: { rule: data.rule, law: source.text },
          at: { file, path: ['rule'] },
          from: dayIn(data.from),
          until: dayIn(data.until) + 1,
        }
      }
    },
    failing: `
=== exceptions/sheet-at-the-office.yaml
rule: product-without-sds # expect: exception-cannot-excuse-law
by: marsh
why: the sheets are kept at the district office
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
