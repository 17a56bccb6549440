import { describe, expect, it } from 'vitest'
import { ledgerWith } from '../../../src/rules/base-ledger.js'
import { plainMap, planOf, recordsOf, traps, troublesOf, unreadable } from './plan-of.js'

const head = 'Date,Trap,Pest,Count\n'

describe('rows become visits', () => {
  it('one for each day; what has nothing on it stands in one list, in the order people read ids', () => {
    expect(
      recordsOf(
        `${head}2026-03-12,K10,german-cockroach,0\n2026-03-12,K3,ant,2\n2026-03-12,K2,german-cockroach,0\n2026-03-19,K2,german-cockroach,4\n`,
      ),
    ).toEqual({
      'sites/oak/visits/2026-03-12-okafor.yaml':
        'purpose: trap-check\nby: okafor\nreadings:\n  none: [K2, K10]\n  K3: {ant: 2}\n',
      'sites/oak/visits/2026-03-19-okafor.yaml':
        'purpose: trap-check\nby: okafor\nreadings:\n  K2: {german-cockroach: 4}\n',
    })
  })

  it('the order of the rows does not matter', () => {
    const rows = [
      '2026-03-12,K10,german-cockroach,0',
      '2026-03-12,K3,ant,2',
      '2026-03-12,K2,german-cockroach,1',
    ]
    const texts = [rows, rows.toReversed()].map((some) => recordsOf(`${head}${some.join('\n')}\n`))
    expect(texts[0]).toEqual(texts[1])
  })

  it('a zero of a pest that the device is not for is kept, since the list would not say it', () => {
    expect(recordsOf(`${head}2026-03-12,K2,ant,0\n`)).toEqual({
      'sites/oak/visits/2026-03-12-okafor.yaml':
        'purpose: trap-check\nby: okafor\nreadings:\n  K2: {ant: 0}\n',
    })
  })

  it('takes every field of a mapping, with the words of the file put into those of the ledger', () => {
    const map = `
delimiter: ";"
decimal: ","
purpose: routine
date: {column: Tag, format: DD.MM.YYYY}
site: {column: Schule, names: {Oak School: oak}}
by: {column: Wer, names: {A. Okafor: okafor}}
entered-by: {always: lind}
device: {column: Falle, names: {"2": K2, "3": K3}}
pest: {column: Art, names: {DS: german-cockroach}}
stage: {column: Stadium, names: {Nymphe: nymphs, Tier: adults}}
count: Zahl
renewed: {column: Neu, names: {x: yes}}
unusable: {column: Zustand, names: {nass: wet}}
note: Notiz
`
    const csv = `Tag;Schule;Wer;Falle;Art;Stadium;Zahl;Neu;Zustand;Notiz
12.03.2026;Oak School;A. Okafor;2;DS;Nymphe;4,0;x;;"=SUM(A1; B1)"
12.03.2026;Oak School;A. Okafor;2;DS;Tier;1;x;;"two
lines"
12.03.2026;Oak School;A. Okafor;3;;;;;nass;
`
    expect(recordsOf(csv, { map })).toEqual({
      'sites/oak/visits/2026-03-12-okafor.yaml': `purpose: routine
by: okafor
entered-by: lind
readings:
  K2: {german-cockroach: {nymphs: 4, adults: 1}, renewed: yes, note: "=SUM(A1; B1)\\ntwo\\nlines"}
  K3: {unusable: wet}
`,
    })
  })

  it('one column for each pest', () => {
    const map = `
date: Date
site: {always: oak}
by: {always: okafor}
device: Trap
pests: {german-cockroach: {nymphs: N, adults: A}, ant: Ants}
`
    expect(recordsOf('Date,Trap,N,A,Ants\n2026-03-12,K3,1,2,0\n2026-03-12,K2,0,0,0\n', { map })).toEqual({
      'sites/oak/visits/2026-03-12-okafor.yaml':
        'purpose: trap-check\nby: okafor\nreadings:\n  K2: {ant: 0, german-cockroach: {nymphs: 0, adults: 0}}\n  K3: {ant: 0, german-cockroach: {nymphs: 1, adults: 2}}\n',
    })
  })

  it('without a mapping, columns that bear the names of the fields', () => {
    expect(
      recordsOf(
        'date,site,by,device,pest,count,no-access,weather\n2026-03-12,oak,okafor,K2,,,box in front,dry\n',
        {
          map: 'purpose: trap-check\n',
        },
      ),
    ).toEqual({
      'sites/oak/visits/2026-03-12-okafor.yaml':
        'purpose: trap-check\nby: okafor\nreadings:\n  K2: {no-access: box in front}\n',
    })
  })

  it('names the columns it takes nothing from', () => {
    expect(
      planOf('Date,Trap,Pest,Count,Weather,\n2026-03-12,K2,german-cockroach,1,dry,\n').leftAside,
    ).toEqual(['Weather'])
  })
})

describe('an empty count', () => {
  const csv = `${head}2026-03-12,K2,german-cockroach,\n2026-03-12,K10,german-cockroach,1\n`

  it('is refused until the mapping says what it means', () => {
    expect(troublesOf(csv)).toEqual([expect.stringMatching(/^2:32 There is no count here\. Write 0 if/)])
  })

  it('is zero, or no look at all, as the mapping says', () => {
    const zero = recordsOf(csv, { map: `${plainMap}empty-count: zero\n` })
    expect(Object.values(zero)).toEqual([expect.stringContaining('none: [K2]')])
    const plan = planOf(csv, { map: `${plainMap}empty-count: not looked at\n` })
    expect([plan.skipped, plan.fresh.map(({ text }) => text)]).toEqual([
      1,
      [expect.not.stringContaining('K2')],
    ])
  })

  it('beside a count of another pest cannot mean that nobody looked', () => {
    const map = `
date: Date
site: {always: oak}
by: {always: okafor}
device: Trap
pests: {german-cockroach: GC, ant: Ants}
empty-count: not looked at
`
    expect(troublesOf('Date,Trap,GC,Ants\n2026-03-12,K3,1,\n', { map })).toEqual([
      expect.stringMatching(/^2:17 Is empty, while another pest of this device has a count/),
    ])
  })
})

describe('bad input', () => {
  it('tells everything wrong at its line and column, and would write none of it', () => {
    const csv = `${head}03/04/2026,K2,german-cockroach,1
2026-03-12,K22,german-cockroach,1
2026-03-12,K2,german-cockroch,1
2026-03-12,K2,german-cockroach,-1
2026-03-12,K2,german-cockroach,1.5
2026-03-12,K2,german-cockroach,=1+1
2026-03-12,K2,,4
2026-03-12,12,german-cockroach,1
2026-03-12,,german-cockroach,1
2026-03-12,K2,german-cockroach
2026-05-12,K2,german-cockroach,1
,K2,german-cockroach,1
`
    const says = troublesOf(csv)
    expect(says).toHaveLength(12)
    expect(says.map((one) => one.slice(0, 40))).toEqual([
      '2:1 `03/04/2026` could be 2026-03-04 (`f',
      '3:12 There is no device `K22` at oak; di',
      '4:15 There is no pest `german-cockroch`;',
      '5:32 `-1` is less than none. A count is ',
      '6:32 `1.5` is not a whole number; animal',
      '7:32 `=1+1` is a formula, not a number. ',
      '8:15 4 of which pest? There is none here',
      '9:12 `12` cannot be the id of a device: ',
      '10:12 There is no device here.',
      '11:1 Has 3 cells; the header has 4. A ce',
      '12:1 2026-05-12 is still to come; today ',
      '13:1 There is no date here.',
    ])
    expect(says[1]).toContain('did you mean `K2`?')
    expect(says[2]).toContain('did you mean `german-cockroach`?')
  })

  it('a device that was read before it was set, or after it was taken up', () => {
    const ledger = ledgerWith(
      `${traps}
=== sites/oak/visits/2026-03-20-okafor.yaml
purpose: follow-up
by: okafor
taken-up: {K10: room closed}
`,
    )
    expect(
      troublesOf(`${head}2026-03-02,K2,german-cockroach,1\n2026-03-25,K10,german-cockroach,1\n`, { ledger }),
    ).toEqual([
      '2:12 K2 is looked at on 2026-03-02 and was set only on 2026-03-06, in sites/oak/visits/2026-03-06-okafor.yaml.',
      '3:12 K10 is looked at on 2026-03-25 and was taken up on 2026-03-20, in sites/oak/visits/2026-03-20-okafor.yaml.',
    ])
  })

  it('the same device and day twice', () => {
    expect(
      troublesOf(`${head}2026-03-12,K2,german-cockroach,1\n\n2026-03-12,K2,german-cockroach,1\n`),
    ).toEqual(['4:32 K2 german-cockroach stands here a second time for 2026-03-12; the first is on line 2.'])
  })

  it('by two people on one day', () => {
    const map = plainMap.replace('{always: okafor}', 'Who')
    expect(
      troublesOf(
        'Date,Trap,Pest,Count,Who\n2026-03-12,K2,german-cockroach,1,okafor\n2026-03-12,K2,german-cockroach,2,lind\n',
        {
          map,
        },
      ),
    ).toEqual([
      expect.stringMatching(/^3:12 K2 was looked at by lind and, on line 2, by okafor, both on 2026-03-12/),
    ])
  })

  it('people and sites that are not there, with the nearest name', () => {
    const map = plainMap.replace('{always: okafor}', 'Who').replace('{always: oak}', 'School')
    expect(
      troublesOf(
        'Date,Trap,Pest,Count,Who,School\n2026-03-12,K2,german-cockroach,1,okafr,Oak\n2026-03-12,K2,german-cockroach,1,,\n',
        { map },
      ),
    ).toEqual([
      '2:34 There is no person `okafr`; did you mean `okafor`?',
      '2:40 There is no site `Oak`; did you mean `oak`?',
      '3:34 There is no person here.',
      '3:35 There is no site here.',
    ])
  })

  it('an empty file, one of blanks, and one with a header alone', () => {
    expect(unreadable('')).toBe('in.csv cannot be read: it is empty.')
    expect(unreadable('\ufeff \n\n')).toBe('in.csv cannot be read: it is empty.')
    expect(troublesOf(head)).toEqual(['1:1 There are no rows below the header.'])
    expect(unreadable(',,,\n')).toBe('in.csv cannot be read: it has no header.')
  })

  it('a column that is not there, with the nearest name; and one that is there twice', () => {
    expect(troublesOf('Date,Trap,Pest,Counts\n2026-03-12,K2,german-cockroach,1\n')).toEqual([
      '1:1 There is no column `Count`; did you mean `Counts`?',
    ])
    expect(troublesOf('Date,Trap,Pest,Count,Count\n2026-03-12,K2,german-cockroach,1,2\n')).toEqual([
      '1:22 There are 2 columns `Count`; give each its own name.',
    ])
  })

  it('semicolons are a hint in the problem, never assumed', () => {
    const csv = 'Date;Trap;Pest;Count\n2026-03-12;K2;german-cockroach;1\n'
    expect(troublesOf(csv)[0]).toContain('say `delimiter: ";"` in the mapping.')
    expect(Object.keys(recordsOf(csv, { map: `${plainMap}delimiter: ";"\n` }))).toHaveLength(1)
  })

  it('Latin-1 is refused until the mapping says so, and so are the letters that Windows put beside it', () => {
    const map = `${plainMap}note: Remark\n`
    const csv = (remark: string) =>
      `Date,Trap,Pest,Count,Remark\n2026-03-12,K2,german-cockroach,1,${remark}\n`
    const latin = Buffer.from(csv('piñon'), 'latin1')
    expect(unreadable(latin, { map })).toContain(
      'it is not valid UTF-8. Save it as CSV in UTF-8; or, if it is older, say `encoding: latin-1`',
    )
    const texts = recordsOf(latin, { map: `${map}encoding: latin-1\n` })
    expect(Object.values(texts)).toEqual([expect.stringContaining('note: piñon')])
    // 0x92 is the curly apostrophe of Windows-1252.
    const windows = Buffer.from(csv('cook\x92s'), 'latin1')
    expect(unreadable(windows, { map: `${map}encoding: latin-1\n` })).toContain(
      'Say `encoding: windows-1252`',
    )
    expect(Object.values(recordsOf(windows, { map: `${map}encoding: windows-1252\n` }))).toEqual([
      expect.stringContaining('note: cook’s'),
    ])
    expect(unreadable(`\ufeff${csv('x')}`, { map: `${map}encoding: latin-1\n` })).toContain(
      'begins with the mark of UTF-8',
    )
    expect(unreadable(Buffer.from(csv('x'), 'utf16le'))).toContain('it is no text')
    expect(unreadable(Buffer.from(`\ufeff${csv('x')}`, 'utf16le'))).toContain('it is UTF-16')
  })

  it('a byte order mark, CRLF, blank rows and quoted commas are no matter', () => {
    expect(
      Object.values(
        recordsOf(
          `\ufeff"Date",Trap,Pest,Count,Remark\r\n\r\n2026-03-12, K2 ,german-cockroach,1,"a ""b"", c"\r\n,,,,\r\n`,
          { map: `${plainMap}note: Remark\n` },
        ),
      ),
    ).toEqual([`purpose: trap-check\nby: okafor\nreadings:\n  K2: {german-cockroach: 1, note: 'a "b", c'}\n`])
  })

  it('after a cell with line ends, lines are still told rightly', () => {
    expect(
      troublesOf(
        'Date,Remark,Trap,Pest,Count\r\n2026-03-12,"one\r\ntwo",K2,german-cockroach,x\r\n2026-03-12,,K10,german-cockroach,y\r\n',
      ).map((one) => one.slice(0, 9)),
    ).toEqual(['3:26 `x` ', '4:34 `y` '])
  })

  it.each([
    [
      'a quote that is never closed',
      `${head}2026-03-12,"K2,german-cockroach,1\n`,
      'in.csv:2 cannot be read: a quote is opened and never closed.',
    ],
    [
      'a quote within a cell',
      `${head}2026-03-12,K"2,german-cockroach,1\n`,
      'in.csv:2 cannot be read: a quote stands within a cell',
    ],
    [
      'something after a quote',
      `${head}2026-03-12,"K2"x,german-cockroach,1\n`,
      'in.csv:2 cannot be read: something follows a closing quote.',
    ],
    [
      'a huge cell',
      `${head}2026-03-12,${'K'.repeat(200_000)},german-cockroach,1\n`,
      'a row is longer than 100000 characters',
    ],
    ['a picture', '\x89PNG\r\n\x1a\n\0\0', 'it is no text'],
  ])('%s', (_, csv, why) => {
    expect(unreadable(csv)).toContain(why)
  })

  it('a long cell and a hidden character are told where they stand', () => {
    const map = `${plainMap}note: Remark\n`
    expect(
      troublesOf(
        `Date,Trap,Pest,Count,Remark\n2026-03-12,K2,german-cockroach,1,${'x'.repeat(20_000)}\n2026-03-12,K10,german-cockroach,1,a\u202eb\n`,
        { map },
      ),
    ).toEqual([
      '2:34 Is 20000 characters long; at most 10000 fit in a record.',
      '3:35 Holds a hidden character (U+202E). Write the cell anew.',
    ])
  })

  it('more rows than are read at once, or a larger file', () => {
    const row = '2026-03-12,K2,german-cockroach,1\n'
    expect(unreadable(head + row.repeat(200_001))).toContain('it has more than 200000 rows')
    expect(unreadable(Buffer.alloc(50 * 1024 * 1024 + 1, 'a'))).toContain('at most 52428800 are read at once')
  })

  it('words that are neither yes nor no, and facts that differ between rows', () => {
    const map = `${plainMap}renewed: New\nunusable: State\n`
    const csv =
      'Date,Trap,Pest,Count,New,State\n2026-03-12,K3,ant,1,maybe,\n2026-03-12,K10,german-cockroach,1,no,lost\n'
    expect(troublesOf(csv, { map })).toEqual([
      expect.stringContaining('2:21 `maybe` is neither yes nor no.'),
      '3:38 `lost` is none of missing, damaged, wet, full. Say under `names` which it is (unusable).',
    ])
    expect(
      troublesOf(
        'Date,Trap,Pest,Count,New,State\n2026-03-12,K3,ant,1,,wet\n2026-03-12,K3,german-cockroach,1,,full\n',
        {
          map,
        },
      ),
    ).toEqual(['3:35 K3 is `full` here and `wet` on line 2 (unusable).'])
  })

  it('a site that cannot be read is not guessed at', () => {
    const ledger = ledgerWith(`${traps}=== sites/oak/visits/2026-03-07-lind.yaml\nby: [\n`)
    expect(unreadable(`${head}2026-03-12,K2,german-cockroach,1\n`, { ledger })).toMatch(
      /^The ledger cannot be read at sites\/oak, so nothing can be held against it: .*2026-03-07-lind/,
    )
  })
})

describe('beside what lies in the ledger', () => {
  const csv = `${head}2026-03-12,K2,german-cockroach,1\n2026-03-12,K10,german-cockroach,0\n2026-03-12,K3,ant,0\n`
  const taken = (text: string) => ledgerWith(`${traps}=== sites/oak/visits/2026-03-12-okafor.yaml\n${text}`)

  it('the same once more changes nothing, however it is written', () => {
    const plan = planOf(csv, {
      ledger: taken(
        '# typed\nreadings:\n  K2:\n    german-cockroach: 1\n  none: [K10, K3]\nby: okafor\npurpose: trap-check\n',
      ),
    })
    expect([plan.fresh, plan.unchanged.length, plan.troubles]).toEqual([[], 1, []])
  })

  it('another content is a conflict, told at the cell that differs', () => {
    expect(
      troublesOf(csv, {
        ledger: taken(
          'purpose: trap-check\nby: okafor\nreadings: {none: [K3, K10], K2: {german-cockroach: 2}}\n',
        ),
      }),
    ).toEqual([
      expect.stringMatching(
        /^2:32 sites\/oak\/visits\/2026-03-12-okafor\.yaml is there already and says otherwise: readings\.K2\.german-cockroach is 2 there and 1 here\./,
      ),
    ])
  })

  it('a word tells two visits of one day apart', () => {
    const ledger = taken('purpose: follow-up\nby: okafor\ntime: 06:00 to 06:10\n')
    expect(Object.keys(recordsOf(csv, { ledger, given: { word: 'scanner' } }))).toEqual([
      'sites/oak/visits/2026-03-12-okafor-scanner.yaml',
    ])
  })

  it('counts that fall say that they mean something else', () => {
    const falling = `${head}2026-03-12,K2,german-cockroach,5\n2026-03-19,K2,german-cockroach,2\n`
    expect(planOf(falling).troubles).toMatchObject([
      {
        file: 'in.csv',
        line: 3,
        column: 32,
        says: 'K2 held 5 (german-cockroach) on 2026-03-12 and 2 now, and no renewal is recorded between. [count-fell]',
        remedy:
          'If every look empties or renews the device, map `renewed`; if the file counts only what was new, say `counts: new since the last look`.',
      },
    ])
    const renewed = recordsOf(falling, { map: `${plainMap}renewed: {always: yes}\n` })
    expect(Object.values(renewed)).toEqual([
      expect.stringContaining('K2: {german-cockroach: 5, renewed: yes}'),
      expect.stringContaining('K2: {german-cockroach: 2, renewed: yes}'),
    ])
  })

  it('and so does a pest that stood there and that no row names any more', () => {
    const csv = `${head}2026-03-12,K3,ant,5\n2026-03-12,K3,german-cockroach,0\n2026-03-19,K3,german-cockroach,0\n`
    expect(planOf(csv).troubles).toMatchObject([
      {
        file: 'in.csv',
        line: 4,
        column: 12,
        says: 'K3 held 5 (ant) on 2026-03-12 and none now, and no renewal is recorded between. [count-fell]',
        remedy: expect.stringMatching(/^No row of that day names the pest, which says that none was there\./),
      },
    ])
  })

  it('also where it is a later record of the ledger that no longer fits', () => {
    expect(
      troublesOf(`${head}2026-03-12,K2,german-cockroach,5\n`, {
        ledger: ledgerWith(
          `${traps}=== sites/oak/visits/2026-03-19-okafor.yaml\npurpose: follow-up\nby: okafor\nreadings:\n  K2: {german-cockroach: 2}\n`,
        ),
      }),
    ).toEqual([
      expect.stringMatching(
        /^sites\/oak\/visits\/2026-03-19-okafor\.yaml:4:8 With the records of in\.csv: K2 held 5/,
      ),
    ])
  })
})
