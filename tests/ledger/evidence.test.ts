import { describe, expect, it } from 'vitest'
import { looksOf } from '../../src/ledger/evidence.js'
import type { SiteView } from '../../src/ledger/site-view.js'
import { isoOf } from '../../src/measure/calendar.js'
import { oakView } from './small-site.js'

const setK1 = 'set: {K1: {kind: sticky-trap, area: kitchen, for: [german-cockroach]}}'
const setS1 = 'set: {S1: {kind: snap-trap, area: kitchen}}'

/** Looks at one pest in one area, in a few words; the plans govern these three pests everywhere. */
function looksAt(view: SiteView, area: string, pest: string): string[] {
  const looks = looksOf(view, () => ['german-cockroach', 'house-mouse', 'ant']).get(`${area} ${pest}`) ?? []
  return looks.map(({ day, animals, signs, looked }) =>
    [isoOf(day).slice(5), `${animals} animals`, ...signs, ...(looked ? [] : ['not looked'])].join(', '),
  )
}

describe('a look at an area', () => {
  it('is an inspection that saw nothing', () => {
    const view = oakView({ '2026-03-01': 'inspected: [kitchen]' })
    expect(looksAt(view, 'kitchen', 'german-cockroach')).toEqual(['03-01, 0 animals'])
    expect(looksAt(view, 'room-1', 'german-cockroach')).toEqual([])
  })

  it('adds what was caught and what was seen alive on one day, and names the records', () => {
    const view = oakView({
      '2026-03-01': setK1,
      '2026-03-08-adams': 'readings: {K1: {german-cockroach: 2}}',
      '2026-03-08-reyes':
        'found: {sink: {pest: german-cockroach, area: kitchen, evidence: live, count: 3}, pipe: {pest: german-cockroach, area: kitchen, evidence: live}}',
    })
    // 2 caught + 3 seen + 1 seen, whose number was not written.
    expect(looksAt(view, 'kitchen', 'german-cockroach')).toEqual(['03-08, 6 animals'])
    const [look] = looksOf(view, () => []).get('kitchen german-cockroach') ?? []
    expect(look).toMatchObject({ caught: 2, trapNights: 7 })
    expect(look?.files).toEqual([
      'sites/oak/visits/2026-03-08-adams.yaml',
      'sites/oak/visits/2026-03-08-reyes.yaml',
    ])
  })

  it('counts only what is new on a device', () => {
    const view = oakView({
      '2026-03-01': setK1,
      '2026-03-08': 'readings: {K1: {german-cockroach: 2}}',
      '2026-03-15': 'readings: {K1: {german-cockroach: 2}}',
    })
    expect(looksAt(view, 'kitchen', 'german-cockroach')).toEqual(['03-08, 2 animals', '03-15, 0 animals'])
  })

  it('knows of a pest the device is not for only what the reading names', () => {
    const view = oakView({
      '2026-03-01': setK1,
      '2026-03-08': 'readings: {K1: {ant: 6}}',
      '2026-03-15': 'readings: {none: [K1]}',
    })
    // A board listed under none says nothing of ants: there is no look on the 15th.
    expect(looksAt(view, 'kitchen', 'ant')).toEqual(['03-08, 6 animals'])
  })
})

describe('where a trap for the pest stands', () => {
  it('an inspection alone does not show that it is gone; reading the trap does', () => {
    const view = oakView({
      '2026-03-01': `inspected: [kitchen]\n${setK1}`,
      '2026-03-08': 'readings: {K1: {german-cockroach: 1, renewed: yes}}',
      '2026-03-10': 'inspected: [kitchen]',
      '2026-03-15': 'inspected: [kitchen]\nreadings: {none: [K1]}',
    })
    expect(looksAt(view, 'kitchen', 'german-cockroach')).toEqual(['03-08, 1 animals', '03-15, 0 animals'])
    // Of pests no trap is set for there, each inspection is a look.
    expect(looksAt(view, 'kitchen', 'house-mouse')).toEqual([
      '03-01, 0 animals',
      '03-10, 0 animals',
      '03-15, 0 animals',
    ])
  })

  it('no more, once it was picked up, taken up or moved away', () => {
    const view = oakView({
      '2026-03-01':
        'set: {S1: {kind: snap-trap, area: kitchen}, S2: {kind: snap-trap, area: kitchen}, S3: {kind: snap-trap, area: kitchen}}',
      '2026-03-03': 'picked-up: [S1]\ntaken-up: {S2: worn}\nmoved: {S3: {area: room-1}}',
      '2026-03-04': 'inspected: [kitchen, room-1]',
    })
    expect(looksAt(view, 'kitchen', 'house-mouse')).toEqual(['03-04, 0 animals'])
    expect(looksAt(view, 'room-1', 'house-mouse')).toEqual([])
  })

  it('not reached, spoilt or not yet a night old, it shows nothing', () => {
    const view = oakView({
      '2026-03-01-adams': `time: 06:00 to 06:30\n${setK1}`,
      '2026-03-01-reyes': 'time: 15:00 to 15:30\nreadings: {none: [K1]}',
      '2026-03-08': 'readings: {K1: {no-access: locked}}',
      '2026-03-15': 'readings: {K1: {unusable: missing, renewed: yes}}',
      '2026-03-22': 'readings: {K1: {after-flush: yes}}',
      '2026-03-29': 'readings: {none: [K1]}',
    })
    expect(looksAt(view, 'kitchen', 'german-cockroach')).toEqual(['03-29, 0 animals'])
  })

  it.each([
    ['tracking-patch', 'tracks: none', 'tracks: some', 'tracks'],
    ['blocked-entrance', 'block: in-place', 'block: moved', 'block moved'],
  ])('a %s shows it without counting', (kind, nothing, something, sign) => {
    const view = oakView({
      '2026-03-01': `set: {P1: {kind: ${kind}, area: kitchen, for: [house-mouse]}}`,
      '2026-03-02': 'inspected: [kitchen]',
      '2026-03-03': `readings: {P1: {${something}}}`,
      '2026-03-04': `readings: {P1: {${nothing}}}`,
      '2026-03-05': 'readings: {none: [P1]}',
    })
    expect(looksAt(view, 'kitchen', 'house-mouse')).toEqual([
      `03-03, 0 animals, ${sign} at P1, not looked`,
      '03-04, 0 animals',
      '03-05, 0 animals',
    ])
  })

  it('a bait station tells nothing of who ate, so that an inspection is a look beside it', () => {
    const view = oakView({
      '2026-03-01': 'set: {B1: {kind: bait-station, area: kitchen, for: [house-mouse]}}',
      '2026-03-08': 'readings: {B1: {bait-taken: none}}',
      '2026-03-10': 'inspected: [kitchen]',
    })
    expect(looksAt(view, 'kitchen', 'house-mouse')).toEqual(['03-10, 0 animals'])
  })
})

describe('evidence', () => {
  it('is what a full or wet board holds: to leave it out would be a false all-clear', () => {
    const view = oakView({
      '2026-03-01': setK1,
      '2026-03-08': 'readings: {K1: {unusable: full, german-cockroach: 40, renewed: yes}}',
      '2026-03-15': 'readings: {K1: {unusable: wet, german-cockroach: 2}}',
    })
    expect(looksAt(view, 'kitchen', 'german-cockroach')).toEqual([
      '03-08, 40 animals, not looked',
      '03-15, 2 animals, not looked',
    ])
  })

  it('is fresh droppings, and those of unknown age; old ones are not', () => {
    const droppings = (age: string) =>
      `found: {a: {pest: house-mouse, area: kitchen, evidence: droppings${age}}}`
    const view = oakView({
      '2026-03-01': droppings(', age: fresh'),
      '2026-03-02': droppings(', age: unknown'),
      '2026-03-03': droppings(''),
      '2026-03-04': droppings(', age: old'),
      '2026-03-05': `inspected: [kitchen]\n${droppings(', age: old')}`,
    })
    expect(looksAt(view, 'kitchen', 'house-mouse')).toEqual([
      '03-01, 0 animals, droppings, not looked',
      '03-02, 0 animals, droppings, not looked',
      '03-03, 0 animals, droppings, not looked',
      '03-05, 0 animals',
    ])
  })

  it('is a nest that is not abandoned, and swarmers', () => {
    const view = oakView({
      '2026-03-01': 'found: {a: {pest: ant, area: kitchen, evidence: nest, nest-state: active}}',
      '2026-03-02': 'found: {a: {pest: ant, area: kitchen, evidence: nest}}',
      '2026-03-03': 'found: {a: {pest: ant, area: kitchen, evidence: nest, nest-state: abandoned}}',
      '2026-03-04': 'found: {a: {pest: ant, area: kitchen, evidence: swarmers, count: 30}}',
    })
    expect(looksAt(view, 'kitchen', 'ant')).toEqual([
      '03-01, 0 animals, active nest, not looked',
      '03-02, 0 animals, active nest, not looked',
      '03-04, 30 animals, not looked',
    ])
  })

  it('is not a complaint: words are answered, not counted', () => {
    const view = oakView(
      { '2026-03-01': 'inspected: [store]' },
      {
        'sites/oak/complaints/2026-03-02-lind.yaml':
          'by: lind\nfrom: staff\narea: kitchen\npest: house-mouse\nsays: a mouse ran under the oven\n',
      },
    )
    expect(view.complaints).toHaveLength(1)
    expect(looksAt(view, 'kitchen', 'house-mouse')).toEqual([])
  })

  it('of an animal without a name in the tables is not put to any pest', () => {
    const view = oakView({
      '2026-03-01': `${setS1}\nfound: {a: {other: earwig, area: kitchen, evidence: live, count: 9}}`,
    })
    expect([...looksOf(view, () => []).keys()]).toEqual([])
  })
})
