import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { noLog, notUsable, otherSite } from './overlays.js'
import { ledgerFolder, newFolder, run } from './run-doorsweep.js'

const folder = ledgerFolder(`${noLog}
=== sites/oak/visits/2026-03-12-okafor.yaml
purpose: follow-up
by: okafor
time: 15:00 to 15:20
readings: {K1: {german-cockroach: 2}}
`)
const report = (name: string, ...args: string[]) =>
  run(folder, ['report', name, '--as-of', '2026-03-20', ...args])
const names = [
  'gaps',
  'trend',
  'onset',
  'effect',
  'hotspots',
  'coverage',
  'conditions',
  'complaints',
  'contract',
  'thresholds',
  'use',
] as const
/** Reports that are of no one pest. */
const ofAllPests: readonly string[] = ['conditions', 'contract']

describe('a report', () => {
  it.each(names)('%s is written as text, Markdown, JSON and CSV, and nothing else', async (name) => {
    for (const [format, begins] of [
      ['text', /^[A-Z]/],
      ['markdown', /^# [A-Z]/],
      ['json', /^\{\n {2}"format-version": 1/],
      ['csv', /^[a-z]+,/],
    ] as const) {
      const ran = await report(name, '--format', format)
      expect([ran.code, ran.err]).toEqual([0, ''])
      expect(ran.out).toMatch(begins)
    }
  })

  it('finds something, and that is no failure', async () => {
    const gaps = await report('gaps')
    expect([gaps.code, gaps.out.includes('complaint log')]).toEqual([0, true])
    // 2 caught by one board in the 7 nights from the 5th to the 12th.
    const trend = await report('trend')
    expect(trend.out).toContain('2 in 7')
    // The plan of the base acts on one cockroach in a kitchen.
    const thresholds = await report('thresholds')
    expect(thresholds.out).toContain('one is enough')
  })

  it('as CSV is the table that is named; another name is a mistake', async () => {
    const first = await report('trend', '--format', 'csv')
    expect((await report('trend', '--format', 'csv', '--table', 'trend')).out).toBe(first.out)
    const other = await report('trend', '--format', 'csv', '--table', 'none-caught')
    expect(other.out).not.toBe(first.out)
    const wrong = await report('trend', '--format', 'csv', '--table', 'trends')
    expect([wrong.code, wrong.out, wrong.err]).toEqual([
      2,
      '',
      'doorsweep: This report has no table trends; it has trend, same-season, none-caught, trap-index.\n',
    ])
  })

  it('shows the records behind each row when asked', async () => {
    expect((await report('trend')).out).not.toContain('2026-03-12-okafor.yaml')
    expect((await report('trend', '--show-work')).out).toContain('sites/oak/visits/2026-03-12-okafor.yaml')
  })

  it.each(names)('%s of a ledger in which something could not be read is written, and is 2', async (name) => {
    const broken = ledgerFolder(notUsable)
    const ran = await run(broken, ['report', name, '--as-of', '2026-03-20'])
    expect([ran.code, ran.err]).toEqual([2, ''])
    expect(ran.out).toContain('not examined: sites/oak')
  })
})

describe('a filter', () => {
  it.each(names)('of %s for a site there is not is a mistake, with the nearest name', async (name) => {
    const ran = await report(name, '--site', 'oaks')
    expect([ran.code, ran.out, ran.err]).toEqual([
      2,
      '',
      'doorsweep: There is no site oaks; did you mean oak?\n',
    ])
    const far = await report(name, '--site', 'zzzzzz')
    expect([far.code, far.out, far.err]).toEqual([2, '', 'doorsweep: There is no site zzzzzz.\n'])
  })

  it.each(names.filter((name) => !ofAllPests.includes(name)))(
    'of %s for a pest there is not is a mistake, with the nearest name',
    async (name) => {
      const ran = await report(name, '--pest', 'german-cockroch')
      expect([ran.code, ran.out, ran.err]).toEqual([
        2,
        '',
        'doorsweep: There is no pest german-cockroch; did you mean german-cockroach?\n',
      ])
    },
  )

  it('for a site or a pest shows only that', async () => {
    const two = ledgerFolder(
      noLog + otherSite('elm', 'inspected: [kitchen]').replace('complaint-log: read\n', ''),
    )
    const gaps = async (...args: string[]) => {
      const ran = await run(two, ['report', 'gaps', '--as-of', '2026-03-20', '--format', 'csv', ...args])
      return ran.out
        .trim()
        .split('\n')
        .slice(1)
        .map((line) => line.split(',')[0])
    }
    expect(await gaps()).toEqual(['elm', 'oak'])
    expect(await gaps('--site', 'elm')).toEqual(['elm'])
    expect(await gaps('--pest', 'house-mouse')).toEqual([])
    const trend = async (pest: string) =>
      (await report('trend', '--format', 'csv', '--pest', pest)).out.split('\n')
    expect(await trend('german-cockroach')).toHaveLength(3)
    expect(await trend('house-mouse')).toHaveLength(2)
  })

  it('may name a pest of the district that has a plan and is in no table', async () => {
    const own = ledgerFolder(
      '=== plans/dust-louse.yaml\nspans: [{from: 2026-03-01, thresholds: {elsewhere: {act-at: 9, per: room}}, tactics: {dry: {do: dry the room}}}]\n',
    )
    const ran = await run(own, ['report', 'thresholds', '--as-of', '2026-03-20', '--pest', 'dust-louse'])
    expect([ran.code, ran.err]).toEqual([0, ''])
  })
})

describe('the period', () => {
  it.each([
    [
      ['--from', '2026-3-1'],
      'doorsweep: --from 2026-3-1: write a day as year-month-day, such as 2026-03-12.\n',
    ],
    [['--to', 'now'], 'doorsweep: --to now: write a day as year-month-day, such as 2026-03-12.\n'],
    [
      ['--from', '2026-03-10', '--to', '2026-03-09'],
      'doorsweep: The period ends before it starts: 2026-03-10 to 2026-03-09.\n',
    ],
    [
      ['--from', '2026-03-21'],
      'doorsweep: The period starts after the as-of day: 2026-03-21. Nothing is known of it; name a later day with --as-of.\n',
    ],
  ])('%j is a mistake: an empty page would read as an all-clear', async (args, err) => {
    for (const name of ['gaps', 'trend'])
      expect(await report(name, ...args)).toEqual({ code: 2, out: '', err })
  })

  it('may be one day', async () => {
    const ran = await report('trend', '--from', '2026-03-12', '--to', '2026-03-12')
    expect([ran.code, ran.out.includes('2 in 7')]).toEqual([0, true])
    expect((await report('trend', '--from', '2026-03-13', '--to', '2026-03-20')).out).not.toContain('2 in 7')
  })
})

describe('the page of a visit', () => {
  const file = 'sites/oak/visits/2026-03-12-okafor.yaml'

  it('is found by its file, from where you are or from the root, and by site and name', async () => {
    const page = await report('service', file)
    expect([page.code, page.err]).toEqual([0, ''])
    expect(page.out).toMatch(/^Service report, Oak School, 2026-03-12\n/)
    for (const visit of [
      `./${file}`,
      join(folder, file),
      'oak/2026-03-12-okafor',
      'oak/2026-03-12-okafor.yaml',
    ])
      expect((await report('service', visit)).out).toBe(page.out)
    const inside = await run(join(folder, 'sites'), [
      'report',
      'service',
      'oak/2026-03-12-okafor',
      '--as-of',
      '2026-03-20',
    ])
    expect(inside.out).toBe(page.out)
  })

  it.each(['oak/2026-03-13-okafor', 'elm/2026-03-12-okafor', 'sites/oak/visits/none.yaml', 'oak', ''])(
    'that is not there (%j) is a mistake',
    async (visit) => {
      const ran = await report('service', visit)
      expect([ran.code, ran.out]).toEqual([2, ''])
      expect(ran.err).toMatch(/^doorsweep: There is no visit .*name its file, or its site and name/)
    },
  )

  it('of a site in which something could not be read is a mistake too, not half a page', async () => {
    const broken = ledgerFolder(notUsable)
    const ran = await run(broken, ['report', 'service', 'oak/2026-03-05-okafor', '--as-of', '2026-03-20'])
    expect([ran.code, ran.out]).toEqual([2, ''])
  })
})

it('a report of no ledger is a mistake', async () => {
  const ran = await run(newFolder(), ['report', 'gaps'])
  expect([ran.code, ran.out]).toEqual([2, ''])
  expect(ran.err).toContain('There is no ledger at')
})
