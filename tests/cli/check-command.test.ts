import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { noLog, noPlacement, noSuchArea, notUsable, otherSite } from './overlays.js'
import { check, ledgerFolder, newFolder, run, writeFiles } from './run-doorsweep.js'

describe('the exit code of check', () => {
  it.each([
    ['nothing', '', [], 0],
    ['a note', noPlacement, [], 0],
    ['a note, and notes fail', noPlacement, ['--fail-on', 'note'], 1],
    ['a warning', noLog, [], 1],
    ['a warning, and errors fail', noLog, ['--fail-on', 'error'], 0],
    ['a warning, and nothing fails', noLog, ['--fail-on', 'never'], 0],
    ['an error', noSuchArea, [], 1],
    ['an error, and errors fail', noSuchArea, ['--fail-on', 'error'], 1],
    ['an error, and nothing fails', noSuchArea, ['--fail-on', 'never'], 0],
    ['what could not be checked', notUsable, [], 2],
    ['what could not be checked, and nothing fails', notUsable, ['--fail-on', 'never'], 2],
    [
      'what could not be checked, beside an error elsewhere',
      notUsable + otherSite('elm', 'inspected: [kitchn]'),
      [],
      2,
    ],
    ['what could not be checked, though its rule is skipped', notUsable, ['--skip', 'shape'], 2],
  ])('for %s', async (_, overlay, args, code) => {
    const ran = await check(overlay, ...args)
    expect([ran.code, ran.err]).toEqual([code, ''])
    // Whatever the code, the result is there, and ends with what was looked at.
    expect(ran.out).toMatch(/[0-9]+ records of [12] sites? read as of 2026-03-20: /)
  })

  it('is the same for JSON, which stands alone on standard output', async () => {
    for (const [overlay, code] of [
      ['', 0],
      [noLog, 1],
      [notUsable, 2],
    ] as const) {
      const ran = await check(overlay, '--format', 'json')
      expect([ran.code, ran.err]).toEqual([code, ''])
      expect(JSON.parse(ran.out)['format-version']).toBe(1)
    }
  })
})

describe('rules that are chosen', () => {
  const both = noLog + noSuchArea
  const rulesIn = (out: string) => [...out.matchAll(/^sites.* \[([a-z-]+)\]$/gm)].map(([, id]) => id).sort()

  it.each([
    [[], ['complaint-log-not-read', 'dangling-reference'], 1],
    [['--only', 'dangling-reference'], ['dangling-reference'], 1],
    [
      ['--only', 'dangling-reference,complaint-log-not-read'],
      ['complaint-log-not-read', 'dangling-reference'],
      1,
    ],
    [
      ['--only', 'dangling-reference', '--only', 'complaint-log-not-read'],
      ['complaint-log-not-read', 'dangling-reference'],
      1,
    ],
    [['--only', 'count-fell'], [], 0],
    [['--skip', 'dangling-reference'], ['complaint-log-not-read'], 1],
    [['--skip', 'dangling-reference, complaint-log-not-read'], [], 0],
    [['--only', 'dangling-reference', '--skip', 'dangling-reference'], [], 0],
  ])('%j', async (args, rules, code) => {
    const ran = await check(both, ...args)
    expect([rulesIn(ran.out), ran.code]).toEqual([rules, code])
  })

  it.each(['--only', '--skip'])(
    '%s of a rule there is not is a mistake, with the nearest name',
    async (option) => {
      const ran = await check('', option, 'dangling-refrence')
      expect(ran).toEqual({
        code: 2,
        out: '',
        err: 'doorsweep: There is no rule dangling-refrence; did you mean dangling-reference?\n',
      })
      const far = await check('', option, 'zzzzzzzzzzzz')
      expect([far.code, far.err]).toEqual([
        2,
        'doorsweep: There is no rule zzzzzzzzzzzz; `doorsweep rules` lists them\n',
      ])
    },
  )
})

describe('a path', () => {
  const two = noLog + otherSite('elm', 'inspected: [kitchn]')
  const inLedger = (...args: string[]) => run(ledgerFolder(two), ['check', '--as-of', '2026-03-20', ...args])

  it('limits what is shown, not what is read; what is hidden is counted', async () => {
    const oak = await inLedger('sites/oak')
    expect(oak.out).toContain('[complaint-log-not-read]')
    expect(oak.out).not.toContain('[dangling-reference]')
    // 11 records of the base and 3 of elm are read all the same.
    expect(oak.out).toContain('14 records of 2 sites read as of 2026-03-20: 1 warning; 1 more not shown.')
    expect(oak.code).toBe(1)
    const both = await inLedger('sites/oak', 'sites/elm')
    expect(both.out).toContain(': 1 error, 1 warning.')
  })

  it('can be one file, the root, or one with nothing in it', async () => {
    const file = await inLedger('sites/elm/visits/2026-03-09-okafor.yaml')
    expect(file.out).toContain(': 1 error; 1 more not shown.')
    const root = await inLedger('.')
    expect(root.out).toContain(': 1 error, 1 warning.')
    const people = await inLedger('people')
    expect([people.code, people.out]).toEqual([
      0,
      '14 records of 2 sites read as of 2026-03-20: no problems; 2 more not shown.\n',
    ])
  })

  it('is taken from where you are; without one the whole ledger around you is shown', async () => {
    const folder = ledgerFolder(two)
    const here = await run(join(folder, 'sites/oak'), ['check', '--as-of', '2026-03-20'])
    expect(here.out).toContain(': 1 error, 1 warning.')
    const dot = await run(join(folder, 'sites/oak'), ['check', '.', '--as-of', '2026-03-20'])
    expect(dot.out).toContain(': 1 warning; 1 more not shown.')
    const up = await run(join(folder, 'sites/oak'), ['check', '../elm', '--as-of', '2026-03-20'])
    expect(up.out).toContain(': 1 error; 1 more not shown.')
  })

  it('leads to the ledger it lies in, from anywhere', async () => {
    const ran = await run(newFolder(), ['check', ledgerFolder(noLog), '--as-of', '2026-03-20'])
    expect([ran.code, ran.err]).toEqual([1, ''])
  })

  it('that is not there, or not in the ledger, is a mistake', async () => {
    const missing = await inLedger('sites/oka')
    expect([missing.code, missing.out, missing.err]).toEqual([
      2,
      '',
      'doorsweep: sites/oka does not exist.\n',
    ])
    const outside = await inLedger('sites/oak', newFolder())
    expect([outside.code, outside.out]).toEqual([2, ''])
    expect(outside.err).toContain('is not in the ledger at')
  })

  it('to one site is not troubled by another that could not be checked, even one whose name begins alike', async () => {
    const folder = ledgerFolder(
      notUsable + otherSite('elm') + otherSite('oakdale').replace('08:10 to 08:50', '10:10 to 10:50'),
    )
    const on = (path: string) => run(folder, ['check', path, '--as-of', '2026-03-20'])
    expect((await on('sites/elm')).code).toBe(0)
    expect((await on('sites/oakdale')).code).toBe(0)
    expect((await on('sites/oak')).code).toBe(2)
    expect((await on('sites/oak/site.yaml')).code).toBe(2)
    expect((await on('sites')).code).toBe(2)
  })
})

describe('the as-of day', () => {
  it.each(['2026-3-1', '2026-02-30', 'today', '20260301', '2026-03-01T00:00'])(
    '%s is a mistake',
    async (text) => {
      const ran = await run(ledgerFolder(), ['check', '--as-of', text])
      expect([ran.code, ran.out]).toEqual([2, ''])
      expect(ran.err).toBe(`doorsweep: --as-of ${text}: write a day as year-month-day, such as 2026-03-12.\n`)
    },
  )

  it('leaves later records out and counts them', async () => {
    const ran = await run(ledgerFolder(noSuchArea), ['check', '--as-of', '2026-03-09'])
    expect([ran.code, ran.out]).toEqual([
      0,
      '11 records of 1 site read as of 2026-03-09; 1 later record not looked at: no problems.\n',
    ])
  })

  it('is today if not said; DOORSWEEP_TODAY stands in for the clock', async () => {
    const folder = ledgerFolder(noLog)
    const ran = await run(folder, ['check'], { DOORSWEEP_TODAY: '2026-03-20' })
    expect(ran.out).toContain('read as of 2026-03-20: 1 warning.')
    const wrong = await run(folder, ['check'], { DOORSWEEP_TODAY: 'tomorrow' })
    expect([wrong.code, wrong.out, wrong.err]).toEqual([
      2,
      '',
      'doorsweep: DOORSWEEP_TODAY=tomorrow: write a day as year-month-day.\n',
    ])
    // Who says the day has no need of a clock.
    expect(
      (await run(folder, ['check', '--as-of', '2026-03-20'], { DOORSWEEP_TODAY: 'tomorrow' })).code,
    ).toBe(1)
  })

  it('of today makes an event of tomorrow a mistake; one that is named only ends the picture', async () => {
    const tomorrow = '\n=== sites/oak/visits/2026-03-21-okafor.yaml\npurpose: callback\nby: okafor\n'
    const today = await run(ledgerFolder(tomorrow), ['check'], { DOORSWEEP_TODAY: '2026-03-20' })
    expect([today.code, today.out.includes('[date-in-future]')]).toEqual([1, true])
    expect((await check(tomorrow)).code).toBe(0)
  })
})

describe('the ledger', () => {
  it('is looked for upwards, or named', async () => {
    const folder = ledgerFolder(noLog)
    const deep = await run(join(folder, 'sites/oak/visits'), ['check', '--as-of', '2026-03-20'])
    expect(deep.code).toBe(1)
    const named = await run(newFolder(), ['check', '--ledger', folder, '--as-of', '2026-03-20'])
    expect(named.out).toBe(deep.out)
  })

  it('that is not there is a mistake with a way out', async () => {
    const ran = await run(newFolder(), ['check'])
    expect([ran.code, ran.out]).toEqual([2, ''])
    expect(ran.err).toMatch(/^doorsweep: There is no ledger at .*`doorsweep new district`/)
  })

  it('without a usable district.yaml cannot be checked at all', async () => {
    const folder = newFolder()
    writeFiles(folder, new Map([['district.yaml', 'format: [']]))
    const ran = await run(folder, ['check', '--as-of', '2026-03-20'])
    expect(ran.code).toBe(2)
    expect(ran.out).toContain('not checked: the whole ledger')
  })
})
