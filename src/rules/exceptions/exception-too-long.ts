import { dayIn } from '../../ledger/spans.js'
import { commonPractice, districtRule } from '../rule.js'

/** A year, leap years included. */
const longest = 366

export const exceptionTooLong = districtRule<{ days: number }>({
  id: 'exception-too-long',
  title: 'an exception holds for more than a year',
  level: 'note',
  judgedOn: 'the days on which the exception holds',
  why: 'A departure that no one looks at again becomes the rule.',
  remedy:
    'Let it end within a year, at the yearly review at the latest; if its reason still holds then, write a new one.',
  source: commonPractice,
  actor: 'coordinator',
  gap: false,
  says: ({ days }) => `This exception holds for ${days} days, more than a year.`,
  *check(view) {
    for (const { file, data } of view.exceptions) {
      const [from, until] = [dayIn(data.from), dayIn(data.until)]
      const days = until - from + 1
      if (days <= longest) continue
      yield { args: { days }, at: { file, path: ['until'] }, from, until: until + 1 }
    }
  },
  failing: `
=== exceptions/log-away.yaml
rule: complaint-log-not-read
by: marsh
why: the log is being bound anew
from: 2026-03-10
until: 2027-03-11 # expect: exception-too-long
`,
  passing: `
=== exceptions/log-away.yaml
rule: complaint-log-not-read
by: marsh
why: the log is being bound anew
from: 2026-03-10
until: 2027-03-10
`,
})
