import { describe, expect, it } from 'vitest'
import type { ThingDone } from '../../src/ledger/things-done.js'
import { couldTouch, thingsDone } from '../../src/ledger/things-done.js'
import { isoOf } from '../../src/measure/calendar.js'
import { oakView } from './small-site.js'

const product = (kind: string, more = '') => `name: Invented ${kind}\nkind: ${kind}\n${more}`
const products = {
  'products/gel/product.yaml': product('pesticide', 'formulation: gel\n'),
  'products/spray/product.yaml': product('pesticide', 'formulation: ready-to-use-liquid\n'),
  'products/block/product.yaml': product('pesticide', 'formulation: bait-block\n'),
  'products/moth-lure/product.yaml': product('lure'),
  'products/worms/product.yaml': product('living-agent'),
}

const application = (used: string, more: string) =>
  `by: okafor\nstatus: done\nproduct: ${used}\nmethod: crack-and-crevice\n${more}`

function doneIn(visits: Readonly<Record<string, string>>, others: Readonly<Record<string, string>> = {}) {
  return thingsDone(oakView(visits, { ...products, ...others }))
}

/** A thing done in a line: day, kind, tactic, where, against what, and in how many records. */
const inShort = ({ day, kind, tactic, areas, pests, files }: ThingDone) =>
  [isoOf(day), kind, tactic, areas.join('+') || 'nowhere', pests.join('+') || 'any', files.length].join(' ')

describe('things done', () => {
  it('are uses of a product, repairs, conditions fixed on the spot and actions, in order of day', () => {
    const things = doneIn(
      {
        '2026-03-01':
          'conditions: {gap: {new: gap at the pipe, area: store, gives: entry, fixed: packed with mesh}, drip: {new: drip, area: kitchen, gives: water}}',
        '2026-03-05':
          'actions: {vacuum: {did: vacuumed, tactic: vacuuming, area: kitchen, pest: german-cockroach}}',
      },
      {
        'sites/oak/repairs/2026-03-04-tarrow.yaml': 'by: tarrow\nmends: [drip]\ndone: new trap\n',
        'sites/oak/repairs/2026-03-02-tarrow.yaml':
          'by: tarrow\ndone: door sweep\narea: store\nopenings: {kitchen: "door, 3/8 in gap"}\n',
        'sites/oak/applications/2026-03-03-okafor.yaml': application(
          'spray',
          'pest: house-mouse\nalso-against: [german-cockroach]\nareas: {store: {}, kitchen: {}}\n',
        ),
      },
    )
    expect(things.map(inShort)).toEqual([
      '2026-03-01 fixed on the spot exclusion store any 1',
      '2026-03-02 repair exclusion kitchen+store any 1',
      '2026-03-03 treatment pesticide kitchen+store german-cockroach+house-mouse 1',
      '2026-03-04 repair repair kitchen any 1',
      '2026-03-05 action vacuuming kitchen german-cockroach 1',
    ])
    expect(things.map(({ id, says }) => [id, says])).toEqual([
      ['2026-03-01-okafor/gap', 'packed with mesh'],
      ['2026-03-02-tarrow', 'door sweep'],
      ['2026-03-03-okafor', 'Invented pesticide (crack-and-crevice)'],
      ['2026-03-04-tarrow', 'new trap'],
      ['2026-03-05-okafor/vacuum', 'vacuumed'],
    ])
  })

  it('closing what gave entry is exclusion, whoever does it', () => {
    const things = doneIn(
      { '2026-03-01': 'conditions: {gap: {new: gap under the door, area: store, gives: entry}}' },
      { 'sites/oak/repairs/2026-03-09-tarrow.yaml': 'by: tarrow\nmends: [gap]\ndone: door sweep\n' },
    )
    expect(things.map(inShort)).toEqual(['2026-03-09 repair exclusion store any 1'])
  })

  it('leave out what is only looking, what is only ended, what has no place, and what someone else put right', () => {
    const things = doneIn({
      '2026-03-01':
        'conditions: {drip: {new: drip, area: kitchen}}\nactions: {watch: {did: set boards, tactic: monitoring, area: kitchen}, flush: {did: flushed, tactic: flushing, area: kitchen}, note: {did: said so, area: kitchen}, wipe: {did: wiped, tactic: cleaning}, hive: {did: closed the door, tactic: restriction, area: store, until: the nest is gone}}',
      '2026-03-08':
        'conditions: {drip: {closed: new trap fitted}}\nactions: {hive: {ended: nest gone, tactic: restriction, area: store}}',
    })
    expect(things.map(inShort)).toEqual(['2026-03-01 action restriction store any 1'])
  })

  it('bait put into a device is one, by area and pest, and a lure is none', () => {
    const things = doneIn({
      '2026-03-01':
        'set: {R1: {kind: bait-station, area: store, for: [house-mouse], product: block}, R2: {kind: bait-station, area: store, for: [house-mouse], product: block}, R3: {kind: bait-station, area: kitchen, for: [house-mouse], product: block}, P1: {kind: pheromone-trap, area: store, product: moth-lure}}',
    })
    expect(things.map(inShort)).toEqual([
      '2026-03-01 treatment bait store house-mouse 1',
      '2026-03-01 treatment bait kitchen house-mouse 1',
    ])
  })

  it('are told once where an action tells of the treatment of that day, place and pest', () => {
    const others = {
      'sites/oak/applications/2026-03-01-okafor.yaml': application(
        'gel',
        'pest: german-cockroach\nareas: {kitchen: {}}\n',
      ),
      'sites/oak/applications/2026-03-02-okafor.yaml': application(
        'worms',
        'pest: fungus-gnat\nareas: {room-1: {}}\n',
      ),
    }
    const things = doneIn(
      {
        '2026-03-01':
          'actions: {gel: {did: gel placed, tactic: pesticide, area: kitchen, pest: cockroach}, ants: {did: ant bait placed, tactic: bait, area: kitchen, pest: ant}, store: {did: gel placed, tactic: bait, area: store, pest: german-cockroach}}',
      },
      others,
    )
    expect(things.map(inShort)).toEqual([
      '2026-03-01 treatment bait kitchen german-cockroach 2',
      // Another pest, and another area, are other things.
      '2026-03-01 action bait kitchen ant 1',
      '2026-03-01 action bait store german-cockroach 1',
      '2026-03-02 treatment biological room-1 fungus-gnat 1',
    ])
  })

  it('are told once where an action tells of the repair, or names the condition that was fixed', () => {
    const things = doneIn(
      {
        '2026-03-01':
          'conditions: {spill: {new: syrup under the rack, area: kitchen, fixed: cleaned up}}\nactions: {mopped: {did: mopped under the rack, tactic: cleaning, area: kitchen, condition: spill}}',
        '2026-03-02':
          'actions: {sweep: {did: saw the new sweep, tactic: exclusion, area: store, pest: house-mouse}}',
      },
      {
        'sites/oak/repairs/2026-03-02-tarrow.yaml':
          'by: tarrow\ndone: door sweep\nopenings: {store: "3/8 in gap"}\n',
      },
    )
    expect(things.map(inShort)).toEqual([
      // The technician's own word for what was done.
      '2026-03-01 fixed on the spot cleaning kitchen any 1',
      '2026-03-02 repair exclusion store any 2',
    ])
  })

  it('of one tactic, area and day are one, whichever pest comes first', () => {
    const things = doneIn({
      '2026-03-01':
        'actions: {a: {did: wiped, tactic: cleaning, area: kitchen, pest: house-fly}, b: {did: mopped, tactic: cleaning, area: kitchen}, c: {did: swept, tactic: cleaning, area: kitchen, pest: fruit-fly}, d: {did: vacuumed, tactic: vacuuming, area: kitchen, pest: fruit-fly}}',
    })
    expect(things.map(inShort)).toEqual([
      '2026-03-01 action cleaning kitchen any 1',
      '2026-03-01 action vacuuming kitchen fruit-fly 1',
    ])
    expect(things[0]?.says).toBe('mopped; wiped; swept')
  })

  it('that are planned or cancelled were not done', () => {
    const planned = application('spray', 'pest: ant\nareas: {store: {}}\n')
    expect(
      doneIn(
        {},
        {
          'sites/oak/applications/2026-03-01-okafor.yaml': planned.replace('done', 'planned'),
          'sites/oak/applications/2026-03-02-okafor.yaml': planned.replace('done', 'cancelled'),
        },
      ),
    ).toEqual([])
  })
})

it('what could touch a pest: itself, a kind of it, the word for all of its kind, or no pest in particular', () => {
  expect(couldTouch({ pests: [] }, 'house-mouse')).toBe(true)
  expect(couldTouch({ pests: ['rat'] }, 'norway-rat')).toBe(true)
  expect(couldTouch({ pests: ['norway-rat'] }, 'rat')).toBe(true)
  expect(couldTouch({ pests: ['norway-rat'] }, 'roof-rat')).toBe(false)
  expect(couldTouch({ pests: ['ant', 'house-fly'] }, 'house-mouse')).toBe(false)
})
