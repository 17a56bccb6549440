import type { LocatedProblem } from '../../src/check/locate-problems.js'
import type { ProblemsPage } from '../../src/output/problems.js'
import { noSuchArea } from '../cli/overlays.js'
import { pageOf } from './problems-page.js'

const control = Array.from({ length: 32 }, (_, code) => String.fromCharCode(code)).join('')

/** Text as no one means well with it: for XML, JSON, a URI, a terminal, a log that is read for commands, and a viewer. */
export const hostile = [
  `"quoted" 'too' <b>&amp; ]]> <![CDATA[ <!-- --> <?x?>`,
  'emoji \u{1f469}\u200d\u{1f52c} and \u{1d11e}',
  `half \ud800 a pair \udc00 \uffff \ufffe`,
  `${control}\u007f\u0085\u009b2J\u2028\u202e\ufeff`,
  '::error file=x::y %0A %25 ##[error]z',
  '\r\n::warning::on a line of its own\n',
  '[click](javascript:alert) {0} {{1}} }',
].join(' ')

/** A page on which every text that can come from a record, a file name or a revision is hostile. */
export function hostilePage(): ProblemsPage {
  const page = pageOf(noSuchArea)
  const [first] = page.problems
  if (!first) throw new Error('the overlay has no problem')
  const file = `sites/o,a:k %/visits/${hostile.replaceAll('/', '_')}.yaml`
  const problem = {
    ...first.problem,
    site: hostile,
    args: { to: 'area', name: hostile, meant: hostile },
    at: { file, path: ['inspected', hostile] },
    related: [{ place: { file, path: ['x'] }, says: hostile }],
    sources: [{ kind: 'published' as const, text: hostile }],
  }
  const located: LocatedProblem = {
    ...first,
    problem,
    related: problem.related.map((related) => ({ related, location: first.location })),
  }
  return {
    ...page,
    source: hostile,
    problems: [located, { ...located, location: null }],
    excepted: [{ ...located, exception: `exceptions/${hostile}`, why: hostile, until: 1 }],
    notChecked: [
      { what: `sites/${hostile}`, why: hostile },
      { what: 'the whole ledger', why: hostile },
    ],
  }
}
