import { describe, expect, it } from 'vitest'
import { ledgerWith } from '../../../src/rules/base-ledger.js'
import type { Tried } from './plan-of.js'
import { planOf, recordsOf, traps, troublesOf } from './plan-of.js'

describe('complaints', () => {
  const tried: Tried = {
    kind: 'complaints',
    map: `
date: {column: Date, format: MM/DD/YYYY}
site: {always: oak}
by: {column: Noted by, names: {T. Lind: lind}}
from: {column: Who, names: {Teacher: staff}}
at: Time
area: {column: Room, names: {"1": room-1}}
pest: {always: house-mouse}
says: Complaint
`,
  }
  const head = 'Date,Noted by,Who,Time,Room,Complaint\n'

  it('one for each row; several of a day and person are numbered', () => {
    const csv = `${head}03/12/2026,T. Lind,Teacher,9:10 AM,1,"droppings: in the drawer"
03/12/2026,T. Lind,parent,,kitchen,"=HYPERLINK(""x"")"
03/13/2026,T. Lind,Teacher,,,again
`
    expect(recordsOf(csv, tried)).toEqual({
      'sites/oak/complaints/2026-03-12-lind.yaml':
        'by: lind\nfrom: staff\nat: 09:10\narea: room-1\npest: house-mouse\nsays: "droppings: in the drawer"\n',
      'sites/oak/complaints/2026-03-12-lind-2.yaml':
        'by: lind\nfrom: parent\narea: kitchen\npest: house-mouse\nsays: =HYPERLINK("x")\n',
      'sites/oak/complaints/2026-03-13-lind.yaml': 'by: lind\nfrom: staff\npest: house-mouse\nsays: again\n',
    })
  })

  it('a column can tell them apart, so that a row put in between changes no name', () => {
    const withWord = { ...tried, map: `${tried.map}word: Ticket\n` }
    const csv = `Ticket,${head}T 7,03/12/2026,T. Lind,Teacher,,,one\nT 9,03/12/2026,T. Lind,Teacher,,,two\nT-9,03/12/2026,T. Lind,Teacher,,,three\n`
    expect(Object.keys(recordsOf(csv.split('T-9')[0] ?? '', withWord))).toEqual([
      'sites/oak/complaints/2026-03-12-lind-t-7.yaml',
      'sites/oak/complaints/2026-03-12-lind-t-9.yaml',
    ])
    expect(troublesOf(csv, withWord)).toEqual([
      '4:1 Would have the name of the record from line 3: sites/oak/complaints/2026-03-12-lind-t-9.yaml. Each needs a word of its own.',
    ])
  })

  it('tells what is wrong with a row at its cell, and an unknown area with the nearest', () => {
    const csv = `${head}03/12/2026,T. Lind,Teacher,25:00,1,a
03/12/2026,T. Lind,janitor,,1,b
03/13/2026,T. Lind,Teacher,,kitchn,c
03/14/2026,T. Lind,Teacher,,1,
03/15/2026,T. Lind,Teacher,,1,d
03/15/2026,T. Lind,Teacher,,1,d
`
    expect(troublesOf(csv, tried).map((one) => one.slice(0, 60))).toEqual([
      '2:28 `25:00` is not a time of day, such as 09:10 or 9:10 AM.',
      expect.stringContaining('3:20 `janitor` is not one of `staff`'),
      expect.stringContaining('4:29 There is no area `kitchn`; did you mean `kitchen`'),
      '5:31 There is nothing under `says` here.',
      '7:1 Says the same as line 6. Take one of the two out; or, if',
    ])
  })

  it('the same log with more rows brings only those', () => {
    const first = `${head}03/12/2026,T. Lind,Teacher,,1,a\n`
    const more = `${first}03/12/2026,T. Lind,Teacher,,1,b\n`
    const ledger = new Map([...ledgerWith(traps), ...Object.entries(recordsOf(first, tried))])
    const plan = planOf(more, { ...tried, ledger })
    expect([plan.unchanged.length, plan.fresh.map(({ file }) => file), plan.troubles]).toEqual([
      1,
      ['sites/oak/complaints/2026-03-12-lind-2.yaml'],
      [],
    ])
  })

  it('a column that is needed and that nothing names', () => {
    expect(
      troublesOf(`${head}03/12/2026,T. Lind,Teacher,,1,a\n`, {
        ...tried,
        map: tried.map?.replace('says: Complaint', '') ?? '',
      }),
    ).toEqual(['1:1 Nothing says which column `says` is in: `says` in the mapping.'])
  })
})

describe('repairs', () => {
  const sink = `${traps}
=== sites/oak/visits/2026-03-12-okafor.yaml
purpose: follow-up
by: okafor
conditions:
  sink-drip: {new: drip under the sink, area: kitchen, kind: moisture, gives: water, owner: maintenance, by: 2026-03-26}
`
  const tried: Tried = {
    kind: 'repairs',
    ledger: ledgerWith(sink),
    map: `
date: {column: Finished, format: DD.MM.YYYY}
decimal: ","
delimiter: ";"
site: {always: oak}
by: {always: lind}
order: WO
done: Work
owner: {always: maintenance}
cost: Cost
mends: Mends
`,
  }

  it('one for each row, with what it cost and which conditions it mends', () => {
    expect(
      recordsOf('Finished;WO;Work;Cost;Mends\n20.03.2026;0118;new P-trap;84,50;sink-drip\n', tried),
    ).toEqual({
      'sites/oak/repairs/2026-03-20-lind.yaml':
        'by: lind\nmends: [sink-drip]\nowner: maintenance\norder: "0118"\ncost: 84.50 USD\ndone: new P-trap\n',
    })
  })

  it('a condition that is not there, and a sum that is none', () => {
    expect(
      troublesOf(
        'Finished;WO;Work;Cost;Mends\n20.03.2026;1;a;$84;sink-drip\n21.03.2026;2;b;;sink-drop\n',
        tried,
      ),
    ).toEqual([
      expect.stringMatching(/^2:16 `\$84` is not an amount\./),
      '3:17 There is no condition `sink-drop`; did you mean `sink-drip`? [dangling-reference]',
    ])
  })

  it('a gap that was closed, under its area; and the day of the paper page', () => {
    const withGap = {
      ...tried,
      map: `${tried.map}area: Where\nopening: Gap\non-paper: {column: Paper, format: DD.MM.YYYY}\n`,
    }
    const head = 'Finished;WO;Work;Cost;Mends;Where;Gap;Paper\n'
    expect(
      recordsOf(`${head}20.03.2026;7;sweep renewed;;;kitchen;door sweep, 3/8 in gap;21.03.2026\n`, withGap),
    ).toEqual({
      'sites/oak/repairs/2026-03-20-lind.yaml':
        'by: lind\non-paper: 2026-03-21\narea: kitchen\nowner: maintenance\norder: "7"\ndone: sweep renewed\nopenings: {kitchen: "door sweep, 3/8 in gap"}\n',
    })
    expect(
      troublesOf(`${head}20.03.2026;7;sweep renewed;;;;gap;\n21.03.2026;8;b;;;kitchn;gap;3/21/26\n`, withGap),
    ).toEqual([
      '2:31 Is an opening that was closed, and nothing says in which area. Name it under `area`.',
      expect.stringMatching(/^3:29 `3\/21\/26` is not written as DD\.MM\.YYYY\./),
    ])
  })
})
