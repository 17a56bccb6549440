import { describe, expect, it } from 'vitest'
import { memorySource } from '../../../src/files/memory.js'
import { readLedger } from '../../../src/ledger/read-ledger.js'
import type { SiteView } from '../../../src/ledger/site-view.js'
import { ledgerWith } from '../../../src/rules/base-ledger.js'
import { checksOf, day } from '../../ledger/small-site.js'
import { plainMap, planOf, recordsOf, traps, troublesOf } from './plan-of.js'

const head = 'Date,Trap,Pest,Count,New\n'
const map = `${plainMap}counts: new since the last look\nrenewed: {column: New, names: {x: yes}}\n`
const visit = (date: string, readings: string) =>
  `=== sites/oak/visits/${date}-okafor.yaml\npurpose: follow-up\nby: okafor\nreadings: ${readings}\n`
const withVisits = (...visits: readonly string[]) => ledgerWith(`${traps}${visits.join('')}`)

/** The ledger with what an import would write. */
function ledgerAfter(csv: string, ledger: ReadonlyMap<string, string>): SiteView {
  const files = new Map([...ledger, ...Object.entries(recordsOf(csv, { map, ledger }))])
  let oak: SiteView | undefined
  readLedger(memorySource(files), { asOf: day('2026-04-30'), asOfIsToday: true }, (view) => {
    oak = view
  })
  if (!oak) throw new Error('the ledger cannot be read')
  return oak
}

describe('a file of what was new since the last look', () => {
  it('is added up to what is on the device, from what the ledger last counted there', () => {
    const ledger = withVisits(visit('2026-03-10', '{K2: {german-cockroach: 3}}'))
    const csv = `${head}2026-03-19,K2,german-cockroach,2,\n2026-03-12,K2,german-cockroach,4,\n`
    // 3 on the board on the 10th; 4 more are 7 on the 12th; 2 more are 9 on the 19th.
    expect(
      Object.values(recordsOf(csv, { map, ledger })).map((text) => text.split('readings:\n')[1]),
    ).toEqual(['  K2: {german-cockroach: 7}\n', '  K2: {german-cockroach: 9}\n'])
    // And what the ledger reckons from it is what the file said.
    expect(checksOf(ledgerAfter(csv, ledger), 'K2')).toEqual([
      '03-10: 3 caught in 4',
      '03-12: 4 caught in 2',
      '03-19: 2 caught in 7',
    ])
  })

  it('begins anew after a renewal, in the ledger or in the file, and invents none', () => {
    const ledger = withVisits(
      visit('2026-03-10', '{K2: {german-cockroach: 3, renewed: yes}, K10: {german-cockroach: 1}}'),
    )
    const csv = `${head}2026-03-12,K2,german-cockroach,4,x
2026-03-19,K2,german-cockroach,2,
2026-03-12,K10,german-cockroach,0,
`
    expect(
      Object.values(recordsOf(csv, { map, ledger })).map((text) => text.split('readings:\n')[1]),
    ).toEqual([
      '  K2: {german-cockroach: 4, renewed: yes}\n  K10: {german-cockroach: 1}\n',
      '  K2: {german-cockroach: 2}\n',
    ])
    expect(checksOf(ledgerAfter(csv, ledger), 'K2')).toEqual([
      '03-10: 3 caught in 4',
      '03-12: 4 caught in 2',
      '03-19: 2 caught in 7',
    ])
  })

  it('takes looks of the ledger in between into account', () => {
    const ledger = withVisits(visit('2026-03-14', '{K2: {german-cockroach: 6}}'))
    const csv = `${head}2026-03-12,K2,german-cockroach,4,\n2026-03-19,K2,german-cockroach,2,\n`
    // 4 on the 12th, 6 seen on the 14th, 2 more are 8 on the 19th.
    expect(
      Object.values(recordsOf(csv, { map, ledger })).map((text) => text.split('readings:\n')[1]),
    ).toEqual(['  K2: {german-cockroach: 4}\n', '  K2: {german-cockroach: 8}\n'])
  })

  it('keeps other pests that stand on the device, of which nothing new is told', () => {
    const ledger = withVisits(visit('2026-03-10', '{K3: {german-cockroach: 3, ant: 5}}'))
    expect(Object.values(recordsOf(`${head}2026-03-12,K3,ant,1,\n`, { map, ledger }))).toEqual([
      expect.stringContaining('K3: {ant: 6, german-cockroach: 3}'),
    ])
  })

  it('is refused where what stood there is not known', () => {
    const ledger = withVisits(visit('2026-03-10', '{K2: {unusable: wet}, K10: {german-cockroach: 2}}'))
    expect(
      troublesOf(`${head}2026-03-12,K2,german-cockroach,4,\n2026-03-10,K10,german-cockroach,1,\n`, {
        map: map.replace('okafor', 'lind'),
        ledger,
      }),
    ).toEqual([
      '2:12 What stood on K2 before 2026-03-12 cannot be told: it was wet on 2026-03-10, and no renewal is recorded since. So the new ones cannot be added to it.',
      '3:12 What stood on K10 before 2026-03-10 cannot be told: it was also looked at that day in sites/oak/visits/2026-03-10-okafor.yaml, and which came first is not known. So the new ones cannot be added to it.',
    ])
  })

  it('the same file once more changes nothing, though its own counts stand in the ledger now', () => {
    const csv = `${head}2026-03-12,K2,german-cockroach,4,\n2026-03-19,K2,german-cockroach,2,\n`
    const ledger = withVisits()
    const written = new Map([...ledger, ...Object.entries(recordsOf(csv, { map, ledger }))])
    const again = planOf(csv, { map, ledger: written })
    expect([again.fresh, again.unchanged.length, again.troubles]).toEqual([[], 2, []])
  })
})
