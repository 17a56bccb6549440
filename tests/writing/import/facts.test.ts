import { stringify } from 'csv-stringify/sync'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { readingFieldNames } from '../../../src/records/reading.js'
import { ledgerWith } from '../../../src/rules/base-ledger.js'
import { countsMapping } from '../../../src/writing/import/mapping.js'
import { planOf, recordsOf, troublesOf } from './plan-of.js'

/** One device of each kind that shows something other than counts; three snap traps stand as one. */
const ledger = ledgerWith(`
=== sites/oak/visits/2026-03-06-okafor.yaml
purpose: set-up
by: okafor
set:
  K2: {kind: sticky-trap, area: kitchen, for: [german-cockroach], within-reach: no}
  M1: {kind: snap-trap, area: kitchen, traps: 3, for: [house-mouse], within-reach: no, secured: yes, marked: yes}
  B1: {kind: bait-station, area: kitchen, for: [german-cockroach], within-reach: no, secured: yes, tamper-resistant: yes}
  P1: {kind: tracking-patch, area: kitchen, for: [house-mouse], within-reach: no}
  T1: {kind: termite-station, area: room-1, within-reach: no}
  E1: {kind: blocked-entrance, area: kitchen, within-reach: no}
  L1: {kind: light-trap, area: kitchen, for: [house-fly], within-reach: no, in-doorway: no, visible-outdoors: no, above-food: no}
`)

const map = `
date: Date
site: {always: oak}
by: {always: okafor}
device: Device
pest: Pest
count: Count
`
const columns = 'Date,Device,Pest,Count'
const file = 'sites/oak/visits/2026-03-12-okafor.yaml'

/** Rows of one device each, with the columns that a mapping adds. */
const sheet = (more: string, ...rows: readonly string[]) =>
  `${columns},${more}\n${rows.map((row) => `2026-03-12,${row}\n`).join('')}`

/** The readings that come of it, a device a line. */
const readings = (csv: string, added: string) =>
  (recordsOf(csv, { ledger, map: map + added })[file] ?? '').split(/readings:\s/)[1]
const wrong = (csv: string, added: string, whole = map + added) => troublesOf(csv, { ledger, map: whole })

it('every field of a reading can be taken from a file', () => {
  const mapped = new Set(Object.keys(countsMapping.shape))
  expect([...readingFieldNames].filter((field) => !mapped.has(field))).toEqual([])
})

describe('what devices other than those with counts show', () => {
  it('bait: how much was gone, how much of what was put in, and its lot', () => {
    expect(
      readings(
        sheet('Gone,In,Bait,Lot', 'B1,,,half,0.50 g,BA,L-7'),
        'bait-taken: {column: Gone, names: {half: some}}\nbait-added: In\nproduct: {column: Bait, names: {BA: bait-a}}\nlot: Lot\n',
      ),
    ).toBe('  B1: {bait-taken: some, bait-added: 0.5 g, product: bait-a, lot: L-7}\n')
  })

  it('bait alone says what was done, and needs no count', () => {
    const bait = 'bait-added: In\nproduct: {always: bait-a}\n'
    expect(readings(sheet('In', 'B1,,,1 g'), bait)).toBe('  B1: {bait-added: 1 g, product: bait-a}\n')
    expect(wrong(sheet('In', 'B1,,,0'), bait)).toEqual([
      expect.stringMatching(/^2:16 There is no count here/),
    ])
    // A trap has no bait, so that its counts cannot be left out this way.
    expect(wrong(sheet('In', 'K2,,,1 g'), bait)).toEqual([
      '2:17 K2 is a sticky trap, of which `bait-added` cannot be read. [reading-does-not-fit]',
    ])
  })

  it('a unit for every row, or from a column of its own', () => {
    const always = 'bait-added: In\nbait-unit: {always: g}\nproduct: {always: bait-a}\nbait-taken: Gone\n'
    expect(readings(sheet('Gone,In', 'B1,,,none,2'), always)).toBe(
      '  B1: {bait-taken: none, bait-added: 2 g, product: bait-a}\n',
    )
    // A product for all rows is of what was put in, and there was nothing.
    for (const nothing of ['', '0', '0.0'])
      expect(readings(sheet('Gone,In', `B1,,,none,${nothing}`), always)).toBe('  B1: {bait-taken: none}\n')
    expect(
      readings(
        sheet('Gone,In,Unit', 'B1,,,all,2,pieces'),
        'bait-added: In\nbait-unit: {column: Unit, names: {pieces: block}}\nproduct: {always: bait-a}\nbait-taken: Gone\n',
      ),
    ).toBe('  B1: {bait-taken: all, bait-added: 2 block, product: bait-a}\n')
  })

  it('sprung traps, as a word or as numbers of a set', () => {
    expect(
      readings(
        sheet('Sprung,Again', 'M1,,,e,x'),
        'sprung: {column: Sprung, names: {e: empty}}\nreset: {column: Again, names: {x: yes}}\n',
      ),
    ).toBe('  M1: {reset: yes, sprung: empty}\n')
    const numbers = 'sprung-empty: E\nsprung-other-animal: O\n'
    expect(readings(sheet('E,O', 'M1,,,2,1'), numbers)).toBe('  M1: {sprung: {empty: 2, other-animal: 1}}\n')
    expect(readings(sheet('E,O', 'M1,house-mouse,1,0,1'), numbers)).toBe(
      '  M1: {house-mouse: 1, sprung: {other-animal: 1}}\n',
    )
    expect(readings(sheet('E,O', 'M1,house-mouse,0,0,0'), numbers)).toBe('{none: [M1]}\n')
  })

  it('tracks, termites, a blocked entrance, the day of a lamp', () => {
    expect(
      readings(
        sheet(
          'Tracks,Feeding,Block,Lamp',
          'P1,,,many,,,',
          'T1,,,,no,,',
          'E1,,,,,moved,',
          'L1,house-fly,3,,,,03/01/2026',
        ),
        'tracks: Tracks\nactive: Feeding\nblock: Block\nlamp: {column: Lamp, format: MM/DD/YYYY}\n',
      ),
    ).toBe(
      '  E1: {block: moved}\n  L1: {house-fly: 3, lamp: 2026-03-01}\n  P1: {tracks: many}\n  T1: {active: no}\n',
    )
  })

  it('an animal that is in no table, with its number or without', () => {
    const other = 'other: Other\nother-count: Many\n'
    expect(readings(sheet('Other,Many', 'K2,german-cockroach,1,earwig,2', 'L1,,,moth,'), other)).toBe(
      '  K2: {german-cockroach: 1, other: earwig, other-count: 2}\n  L1: {other: moth}\n',
    )
  })

  it('columns may bear the names of the fields', () => {
    expect(
      recordsOf('date,site,by,device,active,on-paper\n2026-03-12,oak,okafor,T1,no,2026-03-12\n', {
        ledger,
        map: 'purpose: trap-check\n',
      }),
    ).toEqual({
      [file]: 'purpose: trap-check\nby: okafor\non-paper: 2026-03-12\nreadings:\n  T1: {active: no}\n',
    })
  })
})

describe('what is said to be nothing', () => {
  it('by a word in place of the pest, or by a column of its own', () => {
    expect(readings(`${columns}\n2026-03-12,K2,none,\n2026-03-12,L1,none,0\n`, '')).toBe('{none: [K2, L1]}\n')
    expect(
      readings(sheet('Nil', 'K2,,,x', 'L1,house-fly,2,'), 'none: {column: Nil, names: {x: yes}}\n'),
    ).toBe('  none: [K2]\n  L1: {house-fly: 2}\n')
  })

  it.each([
    ['a word and a number', 'Nil', 'K2,none,3,', '2:20 Says both: `none`, and a count of 3.'],
    [
      'a tick and a number',
      'Nil',
      'K2,german-cockroach,3,x',
      '2:34 Says that nothing was there (`none`), and the row has a count: 3 of german-cockroach.',
    ],
    [
      'a tick that is neither',
      'Nil',
      'K2,,,maybe',
      '2:17 `maybe` is neither yes nor no. Say under `names` which: `none: {column: …, names: {"maybe": yes}}`.',
    ],
  ])('%s', (_, more, row, says) => {
    expect(wrong(sheet(more, row), 'none: {column: Nil, names: {x: yes}}\n')).toEqual([says])
  })

  it('and in another row of the same look', () => {
    expect(
      wrong(sheet('Nil', 'K2,,,x', 'K2,german-cockroach,3,'), 'none: {column: Nil, names: {x: yes}}\n'),
    ).toEqual([
      expect.stringMatching(/^3:12 K2, here with a pest and there with none, stands here a second time/),
    ])
  })

  it('a row that says nothing is no zero, though no count is asked for', () => {
    const bait = map.replace('pest: Pest\ncount: Count\n', 'bait-taken: Gone\n')
    const csv = 'Date,Device,Gone\n2026-03-12,B1,\n'
    expect(wrong(csv, '', bait)).toEqual([
      expect.stringMatching(/^2:12 Nothing in this row says what was found\.$/),
    ])
    expect(recordsOf(csv, { ledger, map: `${bait}empty-count: zero\n` })[file]).toContain('none: [B1]')
    expect(wrong(csv, '', `${bait}empty-count: not looked at\n`)).toEqual([])
  })
})

describe('bad input', () => {
  const bait = 'bait-added: In\nproduct: Bait\n'
  const amount = (text: string) =>
    wrong(sheet('In,Bait,Gone', `B1,,,"${text}",bait-a,some`), `${bait}bait-taken: Gone\n`)

  it.each([
    ['2', '2:17 `2` has no unit. Write `2 block`, `2 g` or what it was;'],
    ['2 blocks', '2:17 `blocks` is no unit of an amount; did you mean `block`?'],
    ['3 in', '2:17 `in` is no unit of an amount'],
    ['2 USD', '2:17 `USD` is no unit of an amount'],
    ['-1 g', '2:17 `-1 g` is a formula, not an amount.'],
    ['=A1', '2:17 `=A1` is a formula, not an amount.'],
    ['some g', '2:17 `some g` is not an amount.'],
    ['.5 g', '2:17 `.5 g` is not an amount.'],
    ['1.000 g', '2:17 `1.000` could be 1000 or 1.000. Say `decimal: "."`'],
    ['1,5 g', '2:17 `1,5` has a mark that is not the decimal one. Say `decimal: ","`'],
    ['1.2.3 g', '2:17 `1.2.3` is not a number.'],
    ['1e3 g', '2:17 `e3 g` is no unit of an amount'],
  ])('the amount %s', (text, says) => {
    expect(amount(text)).toEqual([expect.stringContaining(says)])
  })

  it('a unit twice, and one that is none', () => {
    const twice = `${bait}bait-unit: Unit\n`
    const row = (inside: string, unit: string) =>
      sheet('In,Bait,Unit,', `B1,german-cockroach,0,${inside},bait-a,${unit},`)
    expect(wrong(row('2 g', 'oz'), twice)).toEqual([
      '2:34 `2 g` has a unit of its own, and its unit is to be `oz`. Keep one of the two.',
    ])
    expect(wrong(row('2', 'stone'), twice)).toEqual([
      expect.stringMatching(/^2:34 `stone` is no unit of an amount/),
    ])
  })

  it.each([
    ['bait of no product', 'B1,,,2 g,,some', '2:17 Bait was put in, and nothing says of which product.'],
    [
      'a product that the register does not have',
      'B1,,,2 g,bait-b,some',
      '2:21 There is no product `bait-b`; did you mean `bait-a`?',
    ],
    [
      'a product without an amount',
      'B1,,,,bait-a,some',
      '2:17 Has a product (bait-a), and nothing says how much was put in.',
    ],
    [
      'a word that is none of those for bait',
      'B1,,,,,half',
      '2:19 `half` is none of none, some, all, mouldy. Say under `names` which it is (bait-taken).',
    ],
  ])('%s', (_, row, says) => {
    expect(wrong(sheet('In,Bait,Gone', row), `${bait}bait-taken: Gone\n`)).toEqual([says])
  })

  it.each([
    [
      'sprung: X\n',
      'M1,,,yes',
      '2:17 `yes` is none of empty, other-animal. Say under `names` which it is (sprung).',
    ],
    ['sprung-empty: X\n', 'M1,,,two', '2:17 `two` is not a number. Write digits;'],
    [
      'sprung-empty: X\n',
      'M1,,,4',
      expect.stringMatching(/^2:17 M1 is 3 traps, but this reading has 4 sprung/),
    ],
    ['tracks: X\n', 'P1,,,few', '2:17 `few` is none of none, some, many.'],
    ['active: X\n', 'T1,,,maybe', '2:17 `maybe` is none of yes, no.'],
    ['block: X\n', 'E1,,,gone', '2:17 `gone` is none of moved, in-place.'],
    ['lamp: X\n', 'L1,house-fly,0,03/04/2026', '2:27 `03/04/2026` could be'],
    ['lamp: X\n', 'L1,house-fly,0,2027-01-01', '2:27 2027-01-01 is still to come;'],
    [
      'other-count: X\nother: Y\n',
      'K2,german-cockroach,1,2,',
      '2:34 Is a count of an animal that nothing names.',
    ],
    ['other-count: X\nother: Y\n', 'K2,german-cockroach,1,1.5,earwig', '2:34 `1.5` is not a whole number'],
    ['other: X\n', 'K2,,3,earwig', '2:15 3 of which pest? There is none here.'],
    ['no-access: X\n', 'K2,,,no', '2:17 `no` is no reason why the device could not be reached.'],
    [
      'no-access: X\nrenewed: Y\n',
      'K2,,,locked,yes',
      '2:24 Says that the device could not be reached (`no-access`), and yet what was found or done there (`renewed`).',
    ],
    ['on-paper: X\n', 'K2,german-cockroach,1,soon', '2:34 `soon` is not a date'],
    // A trap counts; it has no bait.
    [
      'bait-taken: X\n',
      'K2,,,some',
      '2:17 K2 is a sticky trap, of which `bait-taken` cannot be read. [reading-does-not-fit]',
    ],
  ])('%s %s', (added, row, says) => {
    expect(wrong(sheet('X,Y', row.split(',').length < 5 ? `${row},` : row), added)).toEqual([
      typeof says === 'string' ? expect.stringContaining(says) : says,
    ])
  })

  it('two rows of one look that differ, and two that say nothing more', () => {
    expect(
      wrong(sheet('Other', 'K2,german-cockroach,1,earwig', 'K2,ant,1,cricket'), 'other: Other\n'),
    ).toEqual(['3:21 K2 is `cricket` here and `earwig` on line 2 (other).'])
    expect(wrong(sheet('Gone', 'B1,,,some', 'B1,,,all'), 'bait-taken: Gone\n')).toEqual([
      '3:12 B1 stands here a second time for 2026-03-12; the first is on line 2.',
    ])
  })

  it.each([
    ['bait-unit: {always: g}\n', '1:1 `bait-unit` is the unit of an amount, and nothing says the amount.'],
    ['product: {always: bait-a}\n', '1:1 `product` tells of what was put in, and nothing says how much.'],
    ['other-count: X\n', '1:1 `other-count` counts an animal, and nothing says which.'],
  ])('the mapping %s, which says half of it', (added, says) => {
    expect(wrong(sheet('X', 'K2,german-cockroach,1,1'), added)).toEqual([expect.stringContaining(says)])
  })

  it('paper of two days in one visit', () => {
    expect(
      wrong(
        sheet('Paper', 'K2,german-cockroach,1,2026-03-12', 'L1,house-fly,0,2026-03-13'),
        'on-paper: Paper\n',
      ),
    ).toEqual([
      expect.stringMatching(
        /^3:[0-9]+ One visit is one paper: here of 2026-03-13, on line 2 of 2026-03-12\.$/,
      ),
    ])
  })
})

it('whatever stands in the cells, a record comes of it that can be read, or its cell is told', () => {
  const columnsOf = ['sprung-empty', 'bait-taken', 'bait-added', 'bait-unit', 'product', 'lot', 'tracks']
  const others = [
    'active',
    'block',
    'lamp',
    'other',
    'other-count',
    'no-access',
    'renewed',
    'none',
    'on-paper',
  ]
  const fields = [...columnsOf, ...others]
  const cell = fc.oneof(
    { weight: 6, arbitrary: fc.constant('') },
    fc.constantFrom(
      'yes',
      'no',
      'none',
      'some',
      'empty',
      '0',
      '1',
      '1 g',
      'g',
      'bait-a',
      '2026-03-01',
      '=A1',
    ),
    fc.string({ unit: 'grapheme', maxLength: 8 }),
  )
  const device = fc.constantFrom('K2', 'M1', 'B1', 'P1', 'T1', 'E1', 'L1')
  const row = fc.tuple(
    device,
    fc.constantFrom('', 'none', 'house-mouse'),
    fc.constantFrom('', '0', '2'),
    ...fields.map(() => cell),
  )
  fc.assert(
    fc.property(fc.array(row, { minLength: 1, maxLength: 4 }), (rows) => {
      const csv = stringify([
        ['Date', 'Device', 'Pest', 'Count', ...fields],
        ...rows.map((cells) => ['2026-03-12', ...cells]),
      ])
      const { troubles, fresh } = planOf(csv, { ledger, map })
      for (const { says, file: where } of troubles) {
        expect(where).toBe('in.csv')
        expect(says).not.toContain('could no longer be judged')
      }
      if (troubles.length === 0) expect(fresh.length).toBe(1)
    }),
    { numRuns: 200 },
  )
})
