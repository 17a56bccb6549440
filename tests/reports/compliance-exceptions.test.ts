import { describe, expect, it } from 'vitest'
import { runCheck } from '../../src/check/run-check.js'
import { memorySource } from '../../src/files/memory.js'
import { workTree } from '../../src/files/work-tree.js'
import { exceptionsCautions, exceptionsTable } from '../../src/reports/compliance-exceptions.js'
import { ledgerWith } from '../../src/rules/base-ledger.js'
import { noLog } from '../check/checking.js'
import { day } from '../ledger/small-site.js'
import { period, rowsOf } from './compliance-facts.js'

const exception = (facts: string, id = 'log-away') => `
=== exceptions/${id}.yaml
by: marsh
why: the log is being bound anew
${facts}
`

/** The base ledger of the rules, whose first visit, of 2026-03-05, says nothing of the complaint log. */
function rows(
  overlay: string,
  { from = '2026-03-01', to = '2026-03-20', site = undefined as string | undefined, isRun = true } = {},
  ...columns: string[]
) {
  const options = { asOf: day('2026-03-20'), asOfIsToday: false }
  const { district, problems, excepted } = runCheck(memorySource(ledgerWith(noLog + overlay)), options)
  if (!district) throw new Error('the district of this test cannot be read')
  const all = [...problems, ...excepted.map(({ problem }) => problem)]
  const table = exceptionsTable(isRun ? all : undefined, district, period(from, to), options.asOf, site)
  return rowsOf(table, ...(columns.length > 0 ? columns : ['exception', 'covers', 'law']))
}

const log = 'rule: complaint-log-not-read\nsite: oak\nfrom: 2026-03-05\nuntil: 2026-03-10'

describe('an exception', () => {
  it('is told with its days, its reason and how many problems it covers', () => {
    expect(rows(exception(log))).toEqual(['log-away | 1 | 0'])
    expect(rows(exception(log), {}, 'rule', 'site', 'from', 'until', 'by', 'authority')).toEqual([
      'complaint-log-not-read | oak | 2026-03-05 | 2026-03-10 | marsh | cannot be checked',
    ])
    expect(rows(exception(log), {}, 'what')[0]).toMatch(
      /^complaint-log-not-read, oak: the log is being bound anew \(decided by .+\); covers 1 problem of the period$/,
    )
  })

  it('is in the period from its first day through its last', () => {
    expect(rows(exception(log), { from: '2026-03-10' })).toEqual(['log-away | 1 | 0'])
    expect(rows(exception(log), { from: '2026-03-11' })).toEqual([])
    expect(rows(exception(log), { to: '2026-03-05' })).toEqual(['log-away | 1 | 0'])
    expect(rows(exception(log), { to: '2026-03-04' })).toEqual([])
  })

  it('covers nothing elsewhere, of another name, or before it holds', () => {
    const over = (facts: string) => rows(exception(facts))
    expect(over('rule: complaint-log-not-read\nsite: elm\nfrom: 2026-03-05\nuntil: 2026-03-10')).toEqual([
      'log-away | 0 | 0',
    ])
    expect(over('rule: complaint-log-not-read\nabout: attic\nfrom: 2026-03-05\nuntil: 2026-03-10')).toEqual([
      'log-away | 0 | 0',
    ])
    expect(
      rows(exception(log.replace('2026-03-05', '2026-03-01').replace('2026-03-10', '2026-03-04'))),
    ).toEqual(['log-away | 0 | 0'])
  })

  it('never excuses law, and the problem it names is counted as standing', () => {
    const bait = `
=== products/bait-a/product.yaml
name: Invented Bait A
kind: pesticide
registration: 99999-1
labels: [{from: 2026-01-05, file: label.txt, says: {places: [indoors], pest-groups: [cockroach], methods: [in-a-station]}}]
=== sites/oak/visits/2026-03-20-okafor.yaml
purpose: set-up
by: okafor
set:
  B1: {kind: bait-station, area: kitchen, for: [german-cockroach], product: bait-a, bait-added: 1 station}
`
    const sheet = exception('rule: product-without-sds\nfrom: 2026-03-10\nuntil: 2026-04-10')
    expect(rows(bait + sheet)).toEqual(['log-away | 0 | 1'])
    expect(rows(bait + sheet, {}, 'what')[0]).toContain('rests on law, which no exception excuses')
    expect(exceptionsCautions[0]).toContain('never excuses law')
  })

  it('of a rule that is not there is named so', () => {
    expect(
      rows(exception('rule: no-such-rule\nfrom: 2026-03-05\nuntil: 2026-03-10'), {}, 'what')[0],
    ).toContain('there is no such rule')
  })

  it('without a last day is no exception: its record cannot be used', () => {
    expect(rows(exception('rule: complaint-log-not-read\nfrom: 2026-03-05'))).toEqual([])
  })

  it('of another site is left out where one is asked for', () => {
    expect(rows(exception(log), { site: 'oak' })).toEqual(['log-away | 1 | 0'])
    expect(rows(exception(log), { site: 'elm' })).toEqual([])
  })

  it('without a check says that the problems were not looked at', () => {
    expect(rows(exception(log), { isRun: false })).toEqual(['log-away | – | –'])
    expect(rows(exception(log), { isRun: false }, 'what')[0]).toContain(
      'how many problems it covers was not looked at',
    )
  })
})

it('of the example district is the boiler room', () => {
  const options = { asOf: day('2026-06-30'), asOfIsToday: false }
  const source = workTree(new URL('../../examples/district', import.meta.url).pathname)
  const { district, problems, excepted } = runCheck(source, options)
  if (!district) throw new Error('the district of this test cannot be read')
  const all = [...problems, ...excepted.map(({ problem }) => problem)]
  const table = exceptionsTable(all, district, period('2025-08-01', '2026-06-30'), options.asOf)
  expect(rowsOf(table, 'exception', 'rule', 'about', 'from', 'until', 'covers')).toEqual([
    'ottermere-boiler-room | no-entry-running | boiler-room | 2025-12-01 | 2026-08-31 | 1',
  ])
})
