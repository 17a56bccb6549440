import { describe, expect, it } from 'vitest'
import { workTree } from '../../src/files/work-tree.js'
import { peopleNotExamined, peopleTables } from '../../src/reports/compliance-people.js'
import { collectPeople } from '../../src/reports/compliance-people-collect.js'
import type { Texts } from './compliance-facts.js'
import {
  act,
  applied,
  districtWith,
  factsOf,
  licences,
  period,
  person,
  product,
  rowsOf,
} from './compliance-facts.js'

const gel = product('gel', 'kind: pesticide\nregistration: 99999-11')
const year = period('2026-01-01', '2026-12-31')

function pageOf(files: Texts, over = year) {
  const { facts, district } = factsOf(files, collectPeople, over)
  const tables = peopleTables(facts, district, over, over.to)
  const table = (id: string) => tables.find((one) => one.id === id)
  return {
    tables,
    table,
    standing: rowsOf(table('licence-duties'), 'who', 'did', 'outcome', 'why'),
    licences: rowsOf(table('licences'), 'who', 'number', 'state', 'categories', 'in-force'),
    training: rowsOf(table('training'), 'who', 'outcome', 'why'),
    notExamined: peopleNotExamined(facts),
  }
}

const applicators = `licences:\n  applicator: [{${act(3)}, of: applicator, in-state: yes, supervised: yes, categories: [structural]}]\n`
const asked = { ...districtWith('2026-01-01', applicators), ...gel }
const okafor = (spans: string, facts?: string) =>
  person('okafor', 'Ada Okafor', licences('XX-1', spans, facts))

describe('a licence', () => {
  it('is judged on each day of use, and its spans in the period are listed', () => {
    // Uses on 1, 15 and 31 March and 1 April; in force through 31 March.
    const page = pageOf({
      ...asked,
      ...okafor('{from: 2024-01-01, until: 2025-12-31}, {from: 2026-01-01, until: 2026-03-31}'),
      ...applied('2026-03-01'),
      ...applied('2026-03-15'),
      ...applied('2026-03-31'),
      ...applied('2026-04-01'),
    })
    expect(page.standing).toEqual([
      'Ada Okafor | applied | not shown | on 2026-04-01: none in force, the last ended on 2026-03-31; in force on 3 days of use',
    ])
    expect(page.licences).toEqual(['Ada Okafor | XX-1 | OR | structural | 2026-01-01 to 2026-03-31'])
    expect(rowsOf(page.table('licence-duties'), 'uses', 'days', 'days-not-shown', 'clause')).toEqual([
      '4 | 4 | 2026-04-01 | Invented Pest Act, section 3',
    ])
    expect(page.table('licence-duties')?.rows[0]?.records).toContain('people/okafor.yaml')
  })

  it('is told by what it lacks', () => {
    const why = (facts: string) =>
      pageOf({
        ...asked,
        ...okafor('{from: 2026-01-01}', facts),
        ...applied('2026-03-01'),
      }).standing
    expect(why('state: WA, categories: [structural]')).toEqual([
      'Ada Okafor | applied | not shown | on 2026-03-01: in force of WA and not of OR',
    ])
    expect(why('state: OR, categories: [turf]')).toEqual([
      'Ada Okafor | applied | not shown | on 2026-03-01: in force without the category structural',
    ])
    expect(why('state: OR, certified: no, categories: [structural]')).toEqual([
      'Ada Okafor | applied | not shown | on 2026-03-01: not certified, and nobody is recorded who supervised',
    ])
  })

  it('that never was is named so', () => {
    const page = pageOf({ ...asked, ...person('okafor', 'Ada Okafor'), ...applied('2026-03-01') })
    expect(page.standing).toEqual([
      'Ada Okafor | applied | not shown | on 2026-03-01: no licence is recorded',
    ])
    expect(page.licences).toEqual([])
  })

  it('of the supervisor counts where supervision takes its place, and only then', () => {
    const files = {
      ...asked,
      ...okafor('{from: 2026-01-01}', 'state: OR, certified: no, categories: [structural]'),
      ...person('vale', 'Petra Vale', licences('XX-2', '{from: 2026-01-01, until: 2026-03-31}')),
      ...applied('2026-03-15', 'gel', 'okafor', 'supervised-by: vale\n'),
      ...applied('2026-04-15', 'gel', 'okafor', 'supervised-by: vale\n'),
    }
    expect(pageOf(files).standing).toEqual([
      'Ada Okafor | applied | not shown | on 2026-04-15: of the supervisor, none in force, the last ended on 2026-03-31; under a certified supervisor on 1 day of use',
      'Petra Vale | supervised | not shown | on 2026-04-15: none in force, the last ended on 2026-03-31; in force on 1 day of use',
    ])
    expect(pageOf({ ...files, ...okafor('{from: 2026-01-01}') }).standing).toEqual([
      'Ada Okafor | applied | shown | in force on 2 days of use',
      'Petra Vale | supervised | not applicable | not needed (whoever applied was certified) on 2 days of use',
    ])
  })

  it('that no rulebook asks for is not applicable, and the person is shown all the same', () => {
    const page = pageOf({
      ...districtWith('2026-01-01', ''),
      ...gel,
      ...person('okafor', 'Ada Okafor'),
      ...applied('2026-03-01'),
    })
    expect(page.standing).toEqual([
      'Ada Okafor | applied | not applicable | no rulebook in force asks for a licence on 1 day of use',
    ])
    expect(page.training).toEqual([
      'Ada Okafor | not applicable | no rulebook in force asks for a course on 1 day of use',
    ])
  })
})

describe('what cannot be checked', () => {
  it('is a person who is not in the ledger', () => {
    const page = pageOf({ ...asked, ...applied('2026-03-01') })
    expect(page.standing).toEqual([
      'okafor | applied | cannot be checked | on 2026-03-01: people/okafor.yaml is absent',
    ])
  })

  it('is a person whose licence has no dates, since the record cannot be used', () => {
    const page = pageOf({
      ...asked,
      ...person(
        'okafor',
        'Ada Okafor',
        'licences:\n  one: {number: XX-1, state: OR, kind: applicator, categories: [structural]}\n',
      ),
      ...applied('2026-03-01'),
    })
    expect(page.standing).toEqual([
      'okafor | applied | cannot be checked | on 2026-03-01: people/okafor.yaml cannot be used',
    ])
  })

  it('is a use of a product that is not in the register', () => {
    const page = pageOf({
      ...asked,
      ...okafor('{from: 2026-01-01}'),
      ...applied('2026-03-01', 'mystery'),
    })
    expect(page.standing).toEqual([
      'Ada Okafor | applied | cannot be checked | on 2026-03-01: mystery is not in the register, so whether it is a pesticide is not told',
    ])
    expect(page.training).toEqual([
      'Ada Okafor | cannot be checked | on 2026-03-01: the product is not in the register, so whether it is a pesticide is not told',
    ])
  })

  it('is not passed over where uses came before the records begin', () => {
    const page = pageOf(
      {
        ...districtWith('2026-03-10', applicators),
        ...gel,
        ...okafor('{from: 2026-03-10}'),
        ...applied('2026-03-01'),
        ...applied('2026-03-12'),
      },
      period('2026-01-01', '2026-12-31'),
    )
    expect(page.standing).toEqual(['Ada Okafor | applied | shown | in force on 1 day of use'])
    expect(page.notExamined).toEqual([
      'oak: 1 use before the records begin there on 2026-03-10; licences and courses of these were not looked at.',
    ])
  })
})

describe('a firm', () => {
  const firms = `licences:\n  firm: [{${act(4)}, of: firm, in-state: yes}]\n`
  const firm = (more = '') => ({ 'firms/best.yaml': `name: Best Baits\n${more}` })
  const ofFirm = { ...person('okafor', 'Ada Okafor', 'firm: best\n'), ...applied('2026-03-01') }
  const firmsAsked = { ...districtWith('2026-01-01', firms), ...gel }
  const standing = (files: Texts) =>
    pageOf({ ...firmsAsked, ...files }).standing.filter((row) => row.includes('| firm |'))

  it('is judged by its licence on each day, through the person who applied', () => {
    const span = licences('XX-7', '{from: 2025-01-01, until: 2026-03-01}')
    expect(standing({ ...ofFirm, ...firm(span) })).toEqual([
      'Best Baits | firm | shown | in force on 1 day of use',
    ])
    expect(standing({ ...ofFirm, ...applied('2026-03-02'), ...firm(span) })).toEqual([
      'Best Baits | firm | not shown | on 2026-03-02: none in force, the last ended on 2026-03-01; in force on 1 day of use',
    ])
  })

  it('that is not named, not there, or did nothing', () => {
    expect(standing({ ...person('okafor', 'Ada Okafor'), ...applied('2026-03-01') })).toEqual([
      'the firm of Ada Okafor | firm | not shown | on 2026-03-01: neither the person nor the contract names a firm',
    ])
    expect(standing(ofFirm)).toEqual([
      'best | firm | cannot be checked | on 2026-03-01: firms/best.yaml is absent',
    ])
    expect(standing(firm())).toEqual([
      'Best Baits | firm | not applicable | no use of a pesticide by it in this period',
    ])
  })
})

describe('a course', () => {
  const appliers = `training:\n  appliers: [{${act(8)}, who: whoever applies, course: own-course, every: 1 year}]\n`
  const coordinators = `training:\n  head: [{${act(9)}, who: coordinator, course: own-course, every: 1 year, within: 6 months}]\n`
  const trained = (id: string, name: string, on: string) =>
    person(id, name, `training:\n  one: {on: ${on}, topic: Pests, course: own-course}\n`)

  it('of whoever applies counts through the same day a year later', () => {
    // Of 15 March 2025, every year: through 15 March 2026.
    const page = pageOf({
      ...districtWith('2026-01-01', appliers),
      ...gel,
      ...trained('okafor', 'Ada Okafor', '2025-03-15'),
      ...applied('2026-03-15'),
      ...applied('2026-03-16'),
    })
    expect(page.training).toEqual([
      'Ada Okafor | not shown | own-course, last on 2025-03-15, good until 2026-03-15: none that counts on 2026-03-16; counts on 1 day of use',
    ])
    expect(rowsOf(page.table('training'), 'last', 'due', 'days-not-shown', 'asked-of', 'clause')).toEqual([
      '2025-03-15 | 2026-03-15 | 2026-03-16 | whoever applies | Invented Pest Act, section 8',
    ])
  })

  it('of the coordinator is asked from the day its time is over, within the period', () => {
    // In office since 2026-01-01 with six months: in time through 2026-07-01.
    const files = { ...districtWith('2026-01-01', coordinators), ...person('marsh', 'Ines Marsh') }
    expect(pageOf(files, period('2026-01-01', '2026-07-01')).training).toEqual([
      'Ines Marsh, coordinator | not applicable | own-course, none recorded, first due by 2026-07-01: the first course is not yet due',
    ])
    expect(pageOf(files, period('2026-01-01', '2026-07-10')).training).toEqual([
      'Ines Marsh, coordinator | not shown | own-course, none recorded, first due by 2026-07-01: none that counts from 2026-07-02 to 2026-07-10',
    ])
    expect(pageOf({ ...files, ...trained('marsh', 'Ines Marsh', '2026-05-01') }, year).training).toEqual([
      'Ines Marsh, coordinator | shown | own-course, last on 2026-05-01, good until 2027-05-01: no day of this period without one that counts',
    ])
  })

  it('of a coordinator who is not in the ledger cannot be checked', () => {
    expect(pageOf(districtWith('2026-01-01', coordinators)).training).toEqual([
      'marsh, coordinator | cannot be checked | own-course: people/marsh.yaml is absent',
    ])
  })
})

describe('a period in which nothing can be told', () => {
  it('has no rows', () => {
    const nothing = pageOf({ ...asked, ...gel, ...okafor('{from: 2026-01-01}') })
    expect([nothing.standing, nothing.licences, nothing.training]).toEqual([[], [], []])
    const before = pageOf({ ...asked, ...applied('2026-03-01') }, period('2024-01-01', '2024-12-31'))
    expect([before.standing, before.training, before.notExamined]).toEqual([[], [], []])
  })
})

it('of the example district is as read in its files', () => {
  // Pesticides by Okafor: foam on 2025-09-16, 2025-10-18 and 2026-05-16, gel on 2026-01-10 and 2026-01-24; by Vale
  // rat bait on 2025-10-21, 2025-11-12, 2025-12-10 and 2026-04-15. California asks no licence of them, but a course:
  // hired people every six years, from 2024-08-14 and 2025-08-13.
  const over = period('2025-08-01', '2026-06-30')
  const { facts, district } = factsOf(
    workTree(new URL('../../examples/district', import.meta.url).pathname),
    collectPeople,
    over,
  )
  const [standing, held, training] = peopleTables(facts, district, over, over.to)
  expect(rowsOf(standing, 'who', 'did', 'outcome', 'days')).toEqual([
    'Ada Okafor | applied | not applicable | 5',
    'Petra Vale | applied | not applicable | 4',
    'Invented Pest Services | firm | not applicable | 9',
  ])
  expect(rowsOf(held, 'who', 'number', 'from', 'until')).toEqual([
    'Ada Okafor | XX-00231 | 2025-01-01 | 2027-12-31',
    'Petra Vale | XX-00388 | 2024-01-01 | 2026-12-31',
    'Invented Pest Services | XX-07001 | 2025-01-01 | 2026-12-31',
  ])
  expect(rowsOf(training, 'who', 'outcome', 'last', 'due', 'every')).toEqual([
    'Ines Marsh, coordinator | shown | 2025-07-15 | 2026-07-15 | 1 year',
    'Ada Okafor | shown | 2024-08-14 | 2030-08-14 | 6 years',
    'Petra Vale | shown | 2025-08-13 | 2031-08-13 | 6 years',
  ])
})
