import { describe, expect, it } from 'vitest'
import { baitApplication } from '../../src/rules/example-applications.js'
import { notUsable, otherSite } from './overlays.js'
import { ledgerFolder, run } from './run-doorsweep.js'

const folder = ledgerFolder(baitApplication('2026-03-12'))
const compliance = (...args: string[]) =>
  run(folder, ['report', 'compliance', '--as-of', '2026-03-20', ...args])
const page = (...args: string[]) => compliance('--from', '2026-03-01', '--to', '2026-03-20', ...args)

describe('doorsweep report compliance', () => {
  it('is written in every format, and nothing else is', async () => {
    for (const [format, begins] of [
      ['text', /^What do the records show of every duty\?\n2026-03-01 to 2026-03-20, as of 2026-03-20\n/],
      ['markdown', /^# What do the records show of every duty\?\n/],
      ['json', /^\{\n {2}"format-version": 1,\n {2}"report": "compliance"/],
      ['csv', /^site,day,by,product,/],
    ] as const) {
      const ran = await page('--format', format)
      expect([ran.code, ran.err]).toEqual([0, ''])
      expect(ran.out).toMatch(begins)
    }
  })

  it('gives every duty as a row of CSV, each with outcome, clause and record', async () => {
    const ran = await page('--format', 'csv', '--table', 'duties')
    const [header = '', ...rows] = ran.out.trimEnd().split('\n')
    expect(header).toContain('clause,kind of source,outcome,')
    expect(rows.length).toBeGreaterThan(10)
    for (const row of rows) {
      expect(row).toMatch(/,(?:shown|not shown|not applicable|cannot be checked),/)
      expect(row).toContain('sites/oak/applications/2026-03-12-okafor.yaml')
    }
    const all = JSON.parse((await page('--format', 'json')).out) as {
      tables: { id: string; rows: unknown[] }[]
    }
    expect(all.tables.find(({ id }) => id === 'duties')?.rows).toHaveLength(rows.length)
  })

  it('shows people each duty once, and the rows for machines only with --show-work', async () => {
    const text = (await page()).out
    expect(text).toContain('What the records do not show')
    expect(text).toContain('What does not apply, and why')
    expect(text).toContain('Read and signed')
    expect(text).not.toContain('Every duty held against every application')
    expect((await page('--show-work')).out).toContain('Every duty held against every application')
  })

  it('has a word for what is left out of its period', async () => {
    const before = await compliance('--from', '2025-01-01', '--to', '2025-06-30')
    expect([before.code, before.out.includes('The records begin after this period')]).toEqual([0, true])
    const none = await compliance('--from', '2026-03-02', '--to', '2026-03-03')
    expect(none.out).toContain('No use of a pesticide is recorded in this period')
  })

  it('refuses a period that ends before it starts, a site that is not there, and a filter that would hide duties', async () => {
    for (const [args, says] of [
      [['--from', '2026-03-10', '--to', '2026-03-01'], 'The period ends before it starts'],
      [['--from', '2027-03-10'], 'The period starts after the as-of day'],
      [['--site', 'aok'], 'There is no site aok'],
      [['--pest', 'ant'], "unknown option '--pest'"],
      [
        ['--format', 'csv', '--table', 'none'],
        'This report has no table none; it has treatments, yearly, duties, ',
      ],
    ] as const) {
      const ran = await compliance(...args)
      expect([ran.code, ran.out]).toEqual([2, ''])
      expect(ran.err).toContain(says)
    }
  })

  it('is 2 where part of the ledger cannot be read, and says which part', async () => {
    const broken = ledgerFolder(baitApplication('2026-03-12') + notUsable + otherSite('elm'))
    const ran = await run(broken, ['report', 'compliance', '--as-of', '2026-03-20'])
    expect(ran.code).toBe(2)
    expect(ran.out).toContain('not examined: sites/')
    expect(ran.out).toContain('part of what was asked could not be examined')
  })

  it('bears what the records are tied to', async () => {
    expect((await page()).out).toContain(
      'records: as of 2026-03-20, files as they lie on disk, without a git commit',
    )
  })

  it('says in its help what the outcomes are', async () => {
    const help = await run(folder, ['report', 'compliance', '--help'])
    expect(help.out).toContain('cannot be checked (and which fields are absent)')
    expect(help.out).not.toContain('--pest')
  })
})
