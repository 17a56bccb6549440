import { describe, expect, it } from 'vitest'
import { runCheck } from '../../src/check/run-check.js'
import { memorySource } from '../../src/files/memory.js'
import { ledgerWith } from '../../src/rules/base-ledger.js'
import { day } from '../ledger/small-site.js'
import { callback, checkOf, noLog } from './checking.js'

const elm = `
=== sites/elm/site.yaml
name: Elm School
site-manager: [{from: 2026-03-01, who: lind}]
complaint-log: front office
contract: [{from: 2026-03-01, contractor: Invented Pest Services, routine-visits: monthly}]
areas: {kitchen: {kind: kitchen}}
`

describe('a record that cannot be used', () => {
  it('is blamed once, and not in the records that refer to it', () => {
    // The site manager of oak, met on its visit, is named in both.
    const result = checkOf('=== people/lind.yaml\nname: Tor Lind\nroles: clerk\n')
    expect(result.standing.map(({ rule, at }) => [rule, at.file])).toEqual([['shape', 'people/lind.yaml']])
    expect(result.notChecked).toEqual([{ what: 'person lind', why: 'the record cannot be used' }])
  })

  it('that is not there at all is blamed in each that refers to it', () => {
    const result = checkOf('=== people/lind.yaml (delete)\n')
    expect(result.notChecked).toEqual([])
    expect(result.standing.map(({ rule }) => rule)).toEqual(['dangling-reference', 'dangling-reference'])
    expect(new Set(result.standing.map(({ at }) => at.file))).toEqual(
      new Set(['sites/oak/site.yaml', 'sites/oak/visits/2026-03-05-okafor.yaml']),
    )
  })

  it('keeps its site from being judged, and no other', () => {
    const result = checkOf(
      `${elm}
=== sites/elm/visits/2026-03-05-okafor.yaml
purpose: routine
by: okafor
time: 08:10 to 08:50
site-manager: lind
inspected: [kitchen]
${noLog}${callback('inspected: kitchen')}`,
    )
    // Oak's own missing log is not told: what is missing there cannot be told from what was not read.
    expect(result.standing.map(({ rule, site }) => [rule, site]).sort()).toEqual([
      ['complaint-log-not-read', 'elm'],
      ['shape', 'oak'],
    ])
    expect(result.notChecked).toEqual([
      {
        what: 'sites/oak',
        why: 'sites/oak/visits/2026-03-10-okafor.yaml cannot be used, so what is missing cannot be told from what was not read',
      },
    ])
  })

  it('and others beside it are counted', () => {
    const result = checkOf(
      `${callback('inspected: kitchen')}\n=== sites/oak/visits/2026-03-11-okafor.yaml\npurpose: [\n`,
    )
    expect(result.notChecked[0]?.why).toMatch(
      /^sites\/oak\/visits\/2026-03-10-okafor\.yaml and 1 more cannot be used/,
    )
  })

  it('after the as-of day keeps nothing from being judged', () => {
    const result = checkOf('=== sites/oak/visits/2026-03-21-okafor.yaml\npurpose: [\n')
    expect(result.notChecked).toEqual([])
    expect(result.standing).toEqual([])
    expect(result.later).toBe(1)
  })

  it('as district.yaml leaves nothing to judge by', () => {
    for (const overlay of ['=== district.yaml\nformat: 2\n', '=== district.yaml (delete)\n']) {
      const result = checkOf(overlay + noLog)
      expect(result.district).toBeNull()
      expect(result.notChecked).toEqual([
        { what: 'the whole ledger', why: 'district.yaml is missing or cannot be used' },
      ])
      expect(result.standing.every(({ at }) => at.file === 'district.yaml')).toBe(true)
    }
  })

  it('a site without a site.yaml is not checked', () => {
    const result = checkOf('=== sites/elm/visits/2026-03-05-okafor.yaml\npurpose: callback\nby: okafor\n')
    expect(result.notChecked).toEqual([{ what: 'sites/elm', why: 'it has no site.yaml' }])
  })
})

describe('a key that is not known', () => {
  const misspelt = noLog.replace('inspected:', 'complaint-lgo: read\ninspected:')

  it('is what seems to be missing, so that is not told beside it', () => {
    expect(checkOf(noLog).rules).toEqual(['complaint-log-not-read'])
    expect(checkOf(misspelt).rules).toEqual(['unknown-key'])
    expect(checkOf(misspelt).notChecked).toEqual([])
  })

  it('hides nothing that is wrong in what the record does say', () => {
    expect(checkOf(callback('notez: x\ninspected: [kitchn]')).rules).toEqual([
      'dangling-reference',
      'unknown-key',
    ])
  })

  it('that an exception lets stand hides nothing', () => {
    const exception =
      '\n=== exceptions/key.yaml\nrule: unknown-key\nby: marsh\nwhy: from the old form\nfrom: 2026-03-01\nuntil: 2026-04-10\n'
    const result = checkOf(misspelt + exception)
    expect(result.exceptedRules).toEqual(['unknown-key'])
    expect(result.rules).toEqual(['complaint-log-not-read'])
  })

  it('never hides law', () => {
    const used = `
=== products/bait-a/product.yaml
name: Invented Bait A
kind: pesticide
registration: 99999-1
labels: []
sds: [{from: 2026-01-05, file: sds.txt}]
=== sites/oak/visits/2026-03-20-okafor.yaml
purpose: set-up
by: okafor
notez: x
set:
  B1: {kind: bait-station, area: kitchen, for: [german-cockroach], product: bait-a, bait-added: 1 station, secured: yes, marked: yes}
`
    expect(checkOf(used).rules).toEqual(expect.arrayContaining(['product-without-label', 'unknown-key']))
  })
})

describe('time', () => {
  const ledger = `
=== sites/oak/visits/2026-03-10-okafor.yaml
purpose: callback
by: okafor
conditions:
  drip: {new: drip, area: kitchen, kind: moisture, gives: water, owner: maintenance, by: 2026-03-15}
`

  it('a problem is there from the day it is true, and known before', () => {
    expect(checkOf(ledger, '2026-03-15').rules).toEqual([])
    expect(checkOf(ledger, '2026-03-16').rules).toEqual(['condition-overdue'])
    const ahead = checkOf(ledger, '2026-03-15').problems.find(({ rule }) => rule === 'condition-overdue')
    expect(ahead?.from).toBe(day('2026-03-16'))
  })

  it('a record after the as-of day is counted as not looked at; today it is a fault of its own', () => {
    const later = callback('inspected: [kitchn]').replace('2026-03-10', '2026-03-21')
    expect(checkOf(later)).toMatchObject({ later: 1, rules: [] })
    const today = runCheck(memorySource(ledgerWith(later)), { asOf: day('2026-03-20'), asOfIsToday: true })
    expect(today.problems.filter(({ from }) => from <= day('2026-03-20')).map(({ rule }) => rule)).toEqual([
      'date-in-future',
    ])
  })
})
