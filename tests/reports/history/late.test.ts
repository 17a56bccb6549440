import { describe, expect, it } from 'vitest'
import { filesOf, ledgerWith } from '../../../src/rules/base-ledger.js'
import { baitApplication } from '../../../src/rules/example-applications.js'
import { underOwnRulebook } from '../../../src/rules/own-rulebook.js'
import { complaint, findings, lind, quiet, scenario } from './git-scenario.js'

const path = (date: string) => `sites/oak/complaints/${date}-lind.yaml`
const application = (date: string, ...lines: string[]) =>
  Object.fromEntries(filesOf(baitApplication(date, ...lines))) as Record<string, string>

describe('a record committed late', () => {
  it('is told with its days, who committed it and what the term rests on', async () => {
    // 2026-03-10 and 30 days is 2026-04-09; 2026-04-10 is 31 days after.
    const { history } = scenario([{ on: '2026-04-10', by: lind, files: complaint('2026-03-10') }])
    const told = await history()
    expect(findings(told)).toEqual({ ...quiet, late: [[path('2026-03-10')]] })
    expect(told.cells('late', 'day', 'last', 'days', 'paper', 'entered-by', 'author')).toEqual([
      ['2026-03-10', '2026-04-09', 31, null, null, 'Tor Lind'],
    ])
    expect(told.rows('late')[0]?.source).toMatch(/^common practice, no source/)
    expect(told.headline).toBe('In 2 commits git shows one record committed late.')
    expect(told.code).toBe(0)
  })

  it('is not, on the last day of its term', async () => {
    const told = await scenario([{ on: '2026-04-09', by: lind, files: complaint('2026-03-10') }]).history()
    expect(findings(told)).toEqual(quiet)
    expect(told.headline).toMatch(/^In 2 commits git shows no late/)
  })

  it('is not when it was on paper in time and typed later: both facts are told, elsewhere', async () => {
    const files = complaint('2026-03-10', 'entered-by: marsh', 'on-paper: 2026-03-11')
    const told = await scenario([{ on: '2026-05-02', by: lind, files }]).history()
    expect(findings(told)).toEqual(quiet)
    expect(told.cells('typed', 'record', 'paper', 'entered-by', 'committed', 'days')).toEqual([
      [path('2026-03-10'), '2026-03-11', 'marsh', '2026-05-02', 53],
    ])
  })

  it('is when the paper was late too, and when nobody says of which day the paper is', async () => {
    const told = await scenario([
      {
        on: '2026-05-02',
        by: lind,
        files: complaint('2026-03-10', 'entered-by: marsh', 'on-paper: 2026-04-20'),
      },
      { on: '2026-05-02', by: lind, files: complaint('2026-03-12', 'entered-by: marsh') },
    ]).history()
    expect(told.cells('late', 'record', 'paper')).toEqual([
      [path('2026-03-10'), '2026-04-20'],
      [path('2026-03-12'), 'not stated'],
    ])
    expect(told.rows('typed')).toEqual([])
  })

  it('is not when only the committer date is late, as after a rebase', async () => {
    const told = await scenario([
      { on: '2026-05-02', writtenOn: '2026-03-11', by: lind, files: complaint('2026-03-10') },
    ]).history()
    expect(findings(told)).toEqual(quiet)
  })

  it('is judged by the law that sets a shorter term for the use of a pesticide, and by no law for a complaint', async () => {
    const overlay = underOwnRulebook(`
records:
  within:
    - {from: 2026-03-01, within: 5 days, source: "Invented Pest Act, section 6", kind: law, confidence: read}
`)
    const told = await scenario(
      [{ on: '2026-03-20', files: { ...application('2026-03-12'), ...complaint('2026-03-12') } }],
      { overlay },
    ).history()
    expect(told.cells('late', 'record', 'last', 'source')).toEqual([
      ['sites/oak/applications/2026-03-12-okafor.yaml', '2026-03-17', 'Invented Pest Act, section 6'],
    ])
  })

  it('is judged by federal law while that was in force, for products of restricted use', async () => {
    const ledger = ledgerWith('')
    const overlay = `
=== district.yaml
${(ledger.get('district.yaml') ?? '').replaceAll('2026-03-01', '2025-01-01')}
=== products/bait-a/product.yaml
${(ledger.get('products/bait-a/product.yaml') ?? '').replace('restricted-use: no', 'restricted-use: yes')}
`
    const told = await scenario(
      [
        { on: '2026-03-07', writtenOn: '2025-07-25', files: application('2025-07-10') },
        { on: '2026-03-07', writtenOn: '2025-07-26', files: application('2025-07-11') },
      ],
      { overlay },
    ).history()
    // 15 days after both; 7 CFR part 110 ended on 2025-07-10, and what is left is common practice, a month.
    expect(told.cells('late', 'day', 'last', 'days')).toEqual([['2025-07-10', '2025-07-24', 15]])
    expect(told.rows('late')[0]?.source).toMatch(/^7 CFR 110\.3\(c\): recorded within 14 days[^;]*$/)
  })

  it('is one that was planned in time and said only much later that it was done', async () => {
    const told = await scenario([
      { on: '2026-03-10', files: application('2026-03-12', 'status: planned') },
      { on: '2026-04-20', files: application('2026-03-12') },
    ]).history()
    expect(findings(told)).toEqual({ ...quiet, late: [['sites/oak/applications/2026-03-12-okafor.yaml']] })
    expect(told.cells('late', 'committed')).toEqual([['2026-04-20']])
  })

  it('is not a plan that is filled in on its day, though its file was there before the day', async () => {
    const told = await scenario([
      { on: '2026-03-10', files: application('2026-03-12', 'status: planned') },
      { on: '2026-03-12', files: application('2026-03-12') },
    ]).history()
    expect(findings(told)).toEqual(quiet)
  })

  it('is not one from before the day on which the ledger begins', async () => {
    const told = await scenario([{ on: '2026-04-26', by: lind, files: complaint('2026-02-10') }]).history()
    expect(findings(told)).toEqual(quiet)
  })

  it('is as old as its first name', async () => {
    const files = complaint('2026-03-10')
    const told = await scenario([
      { on: '2026-03-11', by: lind, files },
      {
        on: '2026-04-20',
        by: lind,
        files: { [path('2026-03-10')]: null, [path('2026-03-09')]: files[path('2026-03-10')] ?? '' },
      },
    ]).history()
    expect(told.rows('late')).toEqual([])
    expect(told.cells('gone', 'what')).toEqual([['renamed']])
  })

  it('is told once for many of one commit, above the rows', async () => {
    const days = ['02', '03', '04', '05', '06']
    const files = Object.assign({}, ...days.map((day) => complaint(`2026-03-${day}`)))
    const told = await scenario([{ on: '2026-05-02', by: lind, files }]).history()
    expect(told.rows('late')).toHaveLength(5)
    expect(told.facts.get('Committed late at one time')).toMatch(/^5 records in [0-9a-f]{12} of 2026-05-02$/)
  })
})
