import { describe, expect, it } from 'vitest'
import { memorySource } from '../../src/files/memory.js'
import { serviceReport } from '../../src/reports/service.js'
import { day, oakFiles } from '../ledger/small-site.js'

const visit = (date: string) => `sites/oak/visits/${date}-okafor.yaml`
const people = {
  'people/okafor.yaml': 'name: Ada Okafor\nroles: [technician]\n',
  'people/reyes.yaml': 'name: Sol Reyes\nroles: [technician]\n',
  'people/lind.yaml': 'name: Tor Lind\nroles: [site-manager]\n',
  'people/quill.yaml': 'name: Ruth Quill\nroles: [site-manager]\n',
  'products/bait-a/product.yaml': 'name: Invented Bait A\nkind: pesticide\nregistration: 99999-1\n',
}

function pageOf(
  visits: Readonly<Record<string, string>>,
  of: string,
  others: Readonly<Record<string, string>> = {},
  asOf = '2026-12-31',
) {
  const source = memorySource(oakFiles(visits, { ...people, ...others }))
  const report = serviceReport(source, { asOf: day(asOf), asOfIsToday: false }, visit(of))
  if (!report) throw new Error(`there is no page for ${of}`)
  return {
    ...report,
    fact: (label: string) => report.facts.filter((fact) => fact.label === label).map(({ value }) => value),
    rows: (id: string) =>
      report.tables
        .find((table) => table.id === id)
        ?.rows.map(({ cells }) => Object.values(cells).join(' | ')),
  }
}

describe('the page of one visit', () => {
  it('says when, who, where, and who received it', () => {
    const page = pageOf(
      {
        '2026-03-05':
          'purpose: routine\nby: okafor\nwith: [reyes]\ntime: 06:10 to 06:50\nsite-manager: lind\ncomplaint-log: read\ninspected: [kitchen, room-1]\nno-entry: {store: no key}\nrecommended: empty the bins nightly\n',
      },
      '2026-03-05',
    )
    expect(page.title).toBe('Service report, Oak School, 2026-03-05')
    expect(page.facts).toEqual([
      { label: 'Visit', value: 'routine, 06:10 to 06:50' },
      { label: 'By', value: 'Ada Okafor, Sol Reyes' },
      { label: 'Inspected', value: 'kitchen, room-1' },
      { label: 'Not entered', value: 'store: no key' },
      { label: 'Devices read', value: '0' },
      { label: 'Complaint log', value: 'read' },
      { label: 'Advice', value: 'empty the bins nightly' },
      { label: 'Received by', value: 'Tor Lind' },
    ])
    expect(page.headline).toBe('No pest was found; nothing waits to be fixed.')
    expect(page.rows('found')).toEqual([])
  })

  it.each([
    ['', 'not recorded'],
    ['site-manager: left word', 'left for Ruth Quill'],
    ['site-manager: designee', 'someone standing in for Ruth Quill'],
    ['site-manager: lind', 'Tor Lind'],
    // Someone of whom there is no record is named as written.
    ['site-manager: berg', 'berg'],
  ])('received (%s): %s, whoever was site manager on that day', (met, received) => {
    const site = `
name: Oak School
site-manager: [{from: 2026-01-01, until: 2026-03-31, who: quill}, {from: 2026-04-01, who: lind}]
complaint-log: front office
contract: []
areas: {kitchen: {kind: kitchen, name: Main kitchen}}
`
    const page = pageOf({ '2026-03-05': `inspected: [kitchen]\n${met}` }, '2026-03-05', {
      'sites/oak/site.yaml': site,
    })
    expect(page.fact('Received by')).toEqual([received])
    expect(page.fact('Inspected')).toEqual(['Main kitchen'])
    expect(page.fact('Complaint log')).toEqual(['not recorded'])
  })

  it('tells what was found: on devices how many and how many of them are new, and what was seen', () => {
    const page = pageOf(
      {
        '2026-03-01':
          'set: {K1: {kind: sticky-trap, area: kitchen}, K2: {kind: sticky-trap, area: kitchen}, K3: {kind: sticky-trap, area: kitchen}, S1: {kind: snap-trap, area: store}, B1: {kind: bait-station, area: store}, B2: {kind: bait-station, area: store}}',
        '2026-03-08': 'readings: {K1: {german-cockroach: 3}, K2: {german-cockroach: 2}}',
        '2026-03-15': `readings:
  none: [K3]
  K1: {german-cockroach: 5, other: earwig, other-count: 2}
  K2: {german-cockroach: 1}
  S1: {sprung: empty, reset: yes}
  B1: {bait-taken: some, bait-added: 1 block, product: bait-a}
  B2: {no-access: cabinet in front}
found:
  drawer: {pest: house-mouse, area: room-1, evidence: droppings, age: fresh, identified: likely}
  sill: {other: lacewing, area: room-1, evidence: live, count: 4}`,
      },
      '2026-03-15',
    )
    expect(page.rows('found')).toEqual([
      'store, B1 | bait | taken: some',
      'store, B2 | device | not reached: cabinet in front',
      // 5 on it, 3 of them counted before.
      'kitchen, K1 | German cockroach | 5 on the device, 2 of them new',
      'kitchen, K1 | earwig | 2',
      // It held 2: how many are new cannot be known.
      'kitchen, K2 | German cockroach | 1 on the device, unknown of them new',
      'store, S1 | device | sprung without a catch',
      'room-1 | house mouse | droppings, fresh, identification likely',
      'room-1 | lacewing | 4 live',
    ])
    // B2 was not.
    expect(page.fact('Devices read')).toEqual(['5'])
    expect(page.headline).toBe('8 things were found; nothing waits to be fixed.')
    // Bait put into a station is written once, in the reading.
    expect(page.rows('put-out')).toEqual(['store, B1 | Invented Bait A | 1 block | house mouse'])
  })

  it('tells the bait a device was filled with when it was set', () => {
    const page = pageOf(
      {
        '2026-03-05':
          'set: {B1: {kind: bait-station, area: store, for: [norway-rat], product: bait-a, bait-added: 2 block}, B2: {kind: bait-station, area: store}}',
      },
      '2026-03-05',
    )
    expect(page.rows('put-out')).toEqual(['store, B1 | Invented Bait A | 2 block | Norway rat'])
  })

  it('tells what was done, and the products applied on that day by the same person', () => {
    const application = (by: string, area: string) =>
      `by: ${by}\nstatus: done\nproduct: bait-a\npest: german-cockroach\nmethod: bait-placement\nareas: {${area}: {amount: 2 g}}\n`
    const page = pageOf(
      {
        '2026-03-05': `set: {K1: {kind: sticky-trap, area: kitchen, marked-as: "#17"}}
actions: {vac: {did: vacuumed the channel, tactic: vacuuming, why: corrective, area: kitchen}}
answers: {2026-03-04-lind: nothing seen}`,
      },
      '2026-03-05',
      {
        'sites/oak/complaints/2026-03-04-lind.yaml': 'by: lind\nfrom: staff\nsays: something ran by\n',
        'sites/oak/applications/2026-03-05-okafor.yaml': application('okafor', 'kitchen'),
        'sites/oak/applications/2026-03-05-reyes.yaml': application('reyes', 'store'),
        'sites/oak/applications/2026-03-06-okafor.yaml': application('okafor', 'room-1'),
        'sites/oak/applications/2026-03-05-okafor-later.yaml': application('okafor', 'store').replace(
          'done',
          'planned',
        ),
      },
    )
    expect(page.rows('done')).toEqual([
      'kitchen | vacuumed the channel | vacuuming, corrective',
      'kitchen | set sticky-trap #17 | ',
      ' | looked at the complaint 2026-03-04-lind | nothing seen',
    ])
    expect(page.rows('put-out')).toEqual(['kitchen | Invented Bait A | 2 g | German cockroach'])
  })
})

describe('what is yours to fix', () => {
  const visits = {
    '2026-03-05':
      'conditions: {drip: {new: drip under the sink, area: kitchen, gives: water, owner: maintenance, by: 2026-03-20}, gap: {new: gap under the door, area: store, gives: entry}, bin: {new: bin without a lid, area: room-1, gives: food, owner: teacher, by: 2026-03-10}, nut: {new: loose nut, area: kitchen, fixed: tightened}}',
    '2026-03-12':
      'conditions: {bin: {closed: new lid}, drip: {still: dripping, owner: district, by: 2026-04-15}}',
    '2026-03-19': 'conditions: {gap: {fixed: sweep fitted}}',
  }

  it('is what stood when the technician left, the most urgent first', () => {
    const page = pageOf(visits, '2026-03-05')
    // As it was known on that day: the new owner and day were agreed a week later.
    expect(page.rows('to-fix')).toEqual([
      'room-1 | bin without a lid | food | teacher | 2026-03-10',
      'kitchen | drip under the sink | water | maintenance | 2026-03-20',
      'store | gap under the door | entry | nobody named | no date set',
    ])
    expect(page.headline).toBe('No pest was found; 3 things are yours to fix.')
    expect(page.rows('done')).toEqual(['kitchen | loose nut | fixed on the spot: tightened'])
    expect(page.tables.find(({ id }) => id === 'to-fix')?.rows[1]?.records).toEqual([visit('2026-03-05')])
  })

  it('follows what was put right, and what was agreed anew', () => {
    expect(pageOf(visits, '2026-03-12').rows('to-fix')).toEqual([
      'kitchen | drip under the sink | water | district | 2026-04-15',
      'store | gap under the door | entry | nobody named | no date set',
    ])
    expect(pageOf(visits, '2026-03-19').rows('to-fix')).toEqual([
      'kitchen | drip under the sink | water | district | 2026-04-15',
    ])
    expect(pageOf(visits, '2026-03-19').headline).toBe('No pest was found; one thing is yours to fix.')
  })
})

it('there is no page for a visit that is not there, or lies after the as-of day', () => {
  const source = memorySource(oakFiles({ '2026-03-05': 'inspected: [kitchen]' }))
  const at = (asOf: string, file: string) =>
    serviceReport(source, { asOf: day(asOf), asOfIsToday: false }, file)
  expect(at('2026-03-05', visit('2026-03-05'))?.asOf).toBe('2026-03-05')
  expect(at('2026-03-04', visit('2026-03-05'))).toBeNull()
  expect(at('2026-12-31', visit('2026-03-06'))).toBeNull()
})
