import { describe, expect, it } from 'vitest'
import { memorySource } from '../../src/files/memory.js'
import type { ReportOptions } from '../../src/reports/options.js'
import { thresholdsReport } from '../../src/reports/thresholds.js'
import { day, oakFiles } from '../ledger/small-site.js'
import { chartPlans, chartSite } from './threshold-chart.js'

type Texts = Readonly<Record<string, string>>

function reportOn(visits: Texts, plans: Texts, more: Partial<ReportOptions> = {}, others: Texts = {}) {
  const files = oakFiles(visits, { 'sites/oak/site.yaml': chartSite, ...plans, ...others })
  return thresholdsReport(memorySource(files), { asOf: day('2026-12-31'), asOfIsToday: false, ...more })
}

/** What is crossed, as area, pest, threshold and since when. */
function crossed(report: ReturnType<typeof reportOn>) {
  return report.tables[0]?.rows.map(
    ({ cells }) => `${cells.area}, ${cells.pest}: ${cells.threshold} since ${cells.since}`,
  )
}

const plan = (body: string) =>
  `spans:\n  - from: 2026-01-01\n    ${body}\n    tactics: {clean: {do: clean and dry}}\n`
const seen = (pest: string, area: string, count: number) =>
  `inspected: [${area}]\nfound: {a: {pest: ${pest}, area: ${area}, evidence: live, count: ${count}}}`

describe('the published chart', () => {
  it.each([
    ['ant', 'room-1', 4, 5],
    ['ant', 'hall', 4, 5],
    ['ant', 'kitchen', 2, 3],
    ['carpenter-ant', 'room-1', 2, 3],
    ['carpenter-ant', 'hall', 2, 3],
    ['carpenter-ant', 'boiler', 2, 3],
    ['carpenter-ant', 'kitchen', 1, 2],
  ])('%s in %s: %i keeps watching, %i acts', (pest, area, below, at) => {
    expect(crossed(reportOn({ '2026-03-05': seen(pest, area, below) }, chartPlans))).toEqual([])
    const report = reportOn({ '2026-03-05': seen(pest, area, at) }, chartPlans)
    expect(crossed(report)).toHaveLength(1)
    expect(crossed(report)?.[0]).toContain(`: ${at} or more per room since 2026-03-05`)
  })

  it.each(['kitchen', 'room-1', 'hall', 'boiler'])('one cockroach acts in %s', (area) => {
    expect(crossed(reportOn({ '2026-03-05': seen('cockroach', area, 1) }, chartPlans))).toHaveLength(1)
    expect(crossed(reportOn({ '2026-03-05': `inspected: [${area}]` }, chartPlans))).toEqual([])
  })

  // 400 ft2: 5 per 100 ft2 is 20 animals.
  it.each([
    ['one check at the number', [20], undefined],
    ['two checks running at it', [20, 20], '2026-03-12'],
    ['two checks running above it', [27, 21], '2026-03-12'],
    ['one animal short on the second', [20, 19], undefined],
    ['one below between', [20, 19, 20], undefined],
    ['three running: it was crossed on the second', [20, 20, 20], '2026-03-12'],
    ['below again after two', [20, 20, 19], undefined],
  ])('ants in a boiler room: %s', (_, counts, since) => {
    const days = ['2026-03-05', '2026-03-12', '2026-03-19']
    const visits = Object.fromEntries(
      counts.map((count, at) => [days[at] ?? '', seen('ant', 'boiler', count)]),
    )
    expect(crossed(reportOn(visits, chartPlans))).toEqual(
      since === undefined
        ? []
        : [`boiler, ant, kind not told: 5 or more per 100 ft2, 2 checks running since ${since}`],
    )
  })

  it('cannot be judged by the square foot where the extent is not recorded, and says so', () => {
    const report = reportOn({ '2026-03-05': seen('ant', 'pump', 90) }, chartPlans)
    expect(crossed(report)).toEqual([])
    expect(report.notExamined).toEqual([
      'oak pump, ant, kind not told: the threshold is per 100 ft2, and the extent of the area is not recorded.',
    ])
  })
})

describe('one is enough', () => {
  const plans = {
    'plans/house-mouse.yaml': plan('act-on-one: [everywhere]'),
    'plans/german-cockroach.yaml': plan(
      'act-on-one: [kitchen]\n    thresholds: {elsewhere: {act-at: 3, per: room}}',
    ),
  }

  it('where the plan says so, and comes first, however late it was seen', () => {
    const report = reportOn(
      {
        '2026-03-05': seen('german-cockroach', 'room-1', 3),
        '2026-03-12': seen('german-cockroach', 'kitchen', 1),
        '2026-03-19': seen('house-mouse', 'hall', 1),
      },
      plans,
    )
    expect(crossed(report)).toEqual([
      'kitchen, German cockroach: one is enough since 2026-03-12',
      'hall, house mouse: one is enough since 2026-03-19',
      'room-1, German cockroach: 3 or more per room since 2026-03-05',
    ])
    expect(report.headline).toBe(
      '3 thresholds are crossed, 2 of them where one animal is enough; the oldest is German cockroach in oak room-1, since 2026-03-05.',
    )
  })

  it('also as a fresh sign', () => {
    const report = reportOn(
      { '2026-03-05': 'found: {a: {pest: house-mouse, area: hall, evidence: droppings, age: fresh}}' },
      plans,
    )
    expect(crossed(report)).toEqual(['hall, house mouse: one is enough since 2026-03-05'])
    expect(report.tables[0]?.rows[0]?.cells).toMatchObject({ evidence: 'droppings', 'seen-on': '2026-03-05' })
  })

  it('but not as an old one, nor as a complaint', () => {
    const report = reportOn(
      { '2026-03-05': 'found: {a: {pest: house-mouse, area: hall, evidence: droppings, age: old}}' },
      plans,
      {},
      {
        'sites/oak/complaints/2026-03-06-lind.yaml':
          'by: lind\nfrom: staff\narea: hall\npest: house-mouse\nsays: a mouse ran by\n',
      },
    )
    expect(crossed(report)).toEqual([])
    expect(report.headline).toBe('No action threshold is crossed, as far as the areas were looked at.')
  })
})

describe('since when, and until when', () => {
  const plans = { 'plans/ant.yaml': plan('thresholds: {elsewhere: {act-at: 3, per: room}}') }

  it('since the first look of the last unbroken run at or above the number', () => {
    const report = reportOn(
      {
        '2026-03-01': seen('ant', 'hall', 9),
        '2026-03-08': seen('ant', 'hall', 2),
        '2026-03-15': seen('ant', 'hall', 3),
        '2026-03-22': seen('ant', 'hall', 4),
      },
      plans,
    )
    expect(crossed(report)).toEqual(['hall, ant, kind not told: 3 or more per room since 2026-03-15'])
    expect(report.tables[0]?.rows[0]?.cells).toMatchObject({
      evidence: '4 seen alive',
      'seen-on': '2026-03-22',
    })
    // The looks of the run, not the one before it.
    expect(report.tables[0]?.rows[0]?.records).toEqual([
      'sites/oak/visits/2026-03-15-okafor.yaml',
      'sites/oak/visits/2026-03-22-okafor.yaml',
    ])
  })

  it('until someone looks again and is below; time alone ends nothing, nor does a look at another area', () => {
    const visits = { '2026-03-01': seen('ant', 'hall', 3), '2026-03-08': 'inspected: [kitchen, room-1]' }
    expect(crossed(reportOn(visits, plans))).toHaveLength(1)
    expect(crossed(reportOn({ ...visits, '2026-09-01': 'inspected: [hall]' }, plans))).toEqual([])
    expect(crossed(reportOn({ ...visits, '2026-09-01': 'no-entry: {hall: no key}' }, plans))).toHaveLength(1)
  })

  it('one animal met in passing is no look below the number', () => {
    const passing = 'found: {a: {pest: ant, area: hall, evidence: live, count: 1}}'
    expect(
      crossed(reportOn({ '2026-03-01': seen('ant', 'hall', 3), '2026-03-08': passing }, plans)),
    ).toHaveLength(1)
    const alone = reportOn({ '2026-03-08': passing }, plans)
    expect(crossed(alone)).toEqual([])
    expect(alone.notExamined.join()).toContain('oak hall, ant, kind not told: 1 seen alive on 2026-03-08')
  })

  it('as it stood on the as-of day', () => {
    const visits = { '2026-03-01': seen('ant', 'hall', 3), '2026-03-08': 'inspected: [hall]' }
    const before = reportOn(visits, plans, { asOf: day('2026-03-07') })
    expect(crossed(before)).toHaveLength(1)
    expect(before.notExamined).toEqual(['One record dated after the as-of day was not looked at.'])
    expect(crossed(reportOn(visits, plans, { asOf: day('2026-03-08') }))).toEqual([])
    expect(crossed(reportOn(visits, plans, { asOf: day('2026-02-28') }))).toEqual([])
  })
})

describe('by the trap', () => {
  const setPair =
    'set: {K1: {kind: sticky-trap, area: hall, for: [german-cockroach]}, K2: {kind: sticky-trap, area: hall, for: [german-cockroach]}}'
  const weekly = {
    'plans/german-cockroach.yaml': plan('thresholds: {elsewhere: {act-at: 2, per: trap-week}}'),
  }

  it.each([
    // 2 traps for 7 nights are 2 trap-weeks: 3 caught are 1.5 a trap-week, 4 are 2.
    [3, []],
    [4, ['hall, German cockroach: 2 or more per trap-week since 2026-03-08']],
  ])('%i caught by two traps in a week, where 2 per trap-week act', (caught, expected) => {
    const report = reportOn(
      { '2026-03-01': setPair, '2026-03-08': `readings: {none: [K2], K1: {german-cockroach: ${caught}}}` },
      weekly,
    )
    expect(crossed(report)).toEqual(expected)
  })

  it.each([
    // 10 traps for one night: 1 mouse is 0.1 per trap-night. 3 nights are 30 trap-nights: 2 mice are 0.067, 3 are 0.1.
    ['2026-03-02', 1, true],
    ['2026-03-04', 2, false],
    ['2026-03-04', 3, true],
  ])('by %s, %i caught where 0.1 per trap-night acts: %s', (date, caught, acts) => {
    const report = reportOn(
      {
        '2026-03-01': 'set: {S1: {kind: snap-trap, area: hall, traps: 10}}',
        [date]: `readings: {S1: {house-mouse: ${caught}, reset: yes}}`,
      },
      { 'plans/house-mouse.yaml': plan('thresholds: {elsewhere: {act-at: 0.1, per: trap-night}}') },
    )
    expect(crossed(report)).toHaveLength(acts ? 1 : 0)
  })

  it('what has no effort behind it neither crosses nor ends, and is said', () => {
    const visits = {
      '2026-03-01': setPair,
      '2026-03-08': 'readings: {none: [K2], K1: {german-cockroach: 4}}',
      '2026-03-09': 'found: {a: {pest: german-cockroach, area: hall, evidence: live, count: 1}}',
    }
    expect(crossed(reportOn(visits, weekly))).toEqual([
      'hall, German cockroach: 2 or more per trap-week since 2026-03-08',
    ])
    const full = reportOn(
      { '2026-03-01': setPair, '2026-03-08': 'readings: {K1: {unusable: full, german-cockroach: 40}}' },
      weekly,
    )
    expect(crossed(full)).toEqual([])
    expect(full.notExamined.join()).toContain('oak hall, German cockroach: 40 caught on 2026-03-08, but')
  })

  it('a full board counts where the room is counted, not the trap', () => {
    const report = reportOn(
      { '2026-03-01': setPair, '2026-03-08': 'readings: {K1: {unusable: full, german-cockroach: 40}}' },
      { 'plans/german-cockroach.yaml': plan('thresholds: {elsewhere: {act-at: 10, per: room}}') },
    )
    expect(crossed(report)).toEqual(['hall, German cockroach: 10 or more per room since 2026-03-08'])
  })

  it('an inspection ends no crossing where a trap for the pest stands', () => {
    const visits = {
      '2026-03-01': setPair,
      '2026-03-08': 'readings: {none: [K2], K1: {german-cockroach: 4, renewed: yes}}',
      '2026-03-15': 'inspected: [hall]',
    }
    const everyRoom = {
      'plans/german-cockroach.yaml': plan('thresholds: {elsewhere: {act-at: 4, per: room}}'),
    }
    expect(crossed(reportOn(visits, everyRoom))).toHaveLength(1)
    expect(crossed(reportOn({ ...visits, '2026-03-16': 'readings: {none: [K1, K2]}' }, everyRoom))).toEqual(
      [],
    )
  })
})

describe('what the plan says next', () => {
  const plans = {
    'plans/german-cockroach.yaml': `
spans:
  - from: 2026-01-01
    act-on-one: [kitchen]
    tactics:
      clean: {tactic: cleaning, do: clean and dry}
      vacuum: {tactic: vacuuming, do: vacuum the hinges, from-count: 3}
      gel: {tactic: bait, do: gel in the hinges}
`,
  }
  const seenTwo = seen('german-cockroach', 'kitchen', 2)
  const next = (visits: Texts, others: Texts = {}) =>
    reportOn(visits, plans, {}, others).tables[0]?.rows[0]?.cells.next

  it('is the first tactic, least hazard first', () => {
    expect(next({ '2026-03-05': seenTwo })).toBe('clean and dry')
  })

  it('is the next one that the count asks for, once a visit has done the first', () => {
    const cleaned = `${seenTwo}\nactions: {a: {did: washed down, tactic: cleaning, area: kitchen}}`
    // Two animals are fewer than three: no vacuuming yet.
    expect(next({ '2026-03-05': cleaned })).toBe('gel in the hinges')
    expect(next({ '2026-03-05': cleaned.replace('count: 2', 'count: 3') })).toBe('vacuum the hinges')
  })

  it('is not moved on by what was done before, elsewhere, or against another pest', () => {
    expect(
      next({
        '2026-03-01': 'actions: {a: {did: washed down, tactic: cleaning, area: kitchen}}',
        '2026-03-05': seenTwo,
        '2026-03-06': 'actions: {a: {did: washed down, tactic: cleaning, area: hall}}',
        '2026-03-07': 'actions: {a: {did: washed down, tactic: cleaning, area: kitchen, pest: house-mouse}}',
      }),
    ).toBe('clean and dry')
  })

  it('counts an application that was carried out, not one that is planned', () => {
    const cleaned = `${seenTwo}\nactions: {a: {did: washed down, tactic: cleaning, area: kitchen}}`
    const gel = (status: string) => ({
      'sites/oak/applications/2026-03-06-okafor.yaml': `by: okafor\nstatus: ${status}\nproduct: bait-a\npest: german-cockroach\nmethod: bait-placement\nareas: {kitchen: {}}\n`,
    })
    expect(next({ '2026-03-05': cleaned }, gel('planned'))).toBe('gel in the hinges')
    expect(next({ '2026-03-05': cleaned }, gel('done'))).toBe(
      'every tactic of the plan was carried out since; look at what did not work',
    )
  })
})

describe('what the report covers', () => {
  const plans = { 'plans/ant.yaml': plan('thresholds: {elsewhere: {act-at: 1, per: room}}') }

  it('filters hide rows and nothing else', () => {
    const elm = {
      'sites/elm/site.yaml': chartSite.replace('Oak', 'Elm'),
      'sites/elm/visits/2026-03-04-okafor.yaml': `purpose: follow-up\nby: okafor\n${seen('ant', 'hall', 1)}`,
    }
    const visits = { '2026-03-05': `${seen('ant', 'hall', 1)}` }
    const all = reportOn(visits, plans, {}, elm)
    expect(all.tables[0]?.rows.map(({ cells }) => cells.site)).toEqual(['elm', 'oak'])
    const oak = reportOn(visits, plans, { site: 'oak' }, elm)
    expect(oak.tables[0]?.rows).toEqual(all.tables[0]?.rows.filter(({ cells }) => cells.site === 'oak'))
  })

  it('a plan is read as it was in force on the as-of day', () => {
    const dated = {
      'plans/ant.yaml': `
spans:
  - {from: 2026-01-01, until: 2026-03-31, thresholds: {elsewhere: {act-at: 5, per: room}}, tactics: {a: {do: wipe}}}
  - {from: 2026-04-01, thresholds: {elsewhere: {act-at: 2, per: room}}, tactics: {a: {do: wipe}}}
`,
    }
    const visits = { '2026-03-05': seen('ant', 'hall', 3) }
    expect(crossed(reportOn(visits, dated, { asOf: day('2026-03-31') }))).toEqual([])
    expect(crossed(reportOn(visits, dated, { asOf: day('2026-04-01') }))).toHaveLength(1)
  })

  it('an area that is no longer part of the site has no threshold', () => {
    const site = chartSite.replace('hall: {kind: public}', 'hall: {kind: public, until: 2026-06-30}')
    const visits = { '2026-03-05': seen('ant', 'hall', 1) }
    const others = { 'sites/oak/site.yaml': site }
    expect(crossed(reportOn(visits, plans, { asOf: day('2026-06-30') }, others))).toHaveLength(1)
    expect(crossed(reportOn(visits, plans, { asOf: day('2026-07-01') }, others))).toEqual([])
  })

  it('no plan, or none for the pest that was asked for, is said: an empty page is no all-clear', () => {
    expect(reportOn({}, {}).notExamined).toEqual(['No plan is in force, so there is no threshold to cross.'])
    expect(reportOn({}, plans, { pest: 'norway-rat' }).notExamined).toEqual([
      'No plan for Norway rat is in force, so it has no threshold to cross.',
    ])
    expect(reportOn({}, plans, { pest: 'ant' }).notExamined).toEqual([])
  })

  it('a site with a record that cannot be read is not examined, and the report is incomplete', () => {
    const report = reportOn({ '2026-03-05': 'inspected: hall' }, plans)
    expect(report.incomplete).toBe(true)
    expect(report.notExamined[0]).toMatch(
      /^sites\/oak: sites\/oak\/visits\/2026-03-05-okafor\.yaml cannot be used/,
    )
  })
})
