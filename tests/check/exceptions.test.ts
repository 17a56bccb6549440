import { describe, expect, it } from 'vitest'
import { day } from '../ledger/small-site.js'
import { callback, checkOf, noLog } from './checking.js'

const exception = (fields: string, dates = 'from: 2026-03-01\nuntil: 2026-04-10') => `
=== exceptions/one.yaml
by: marsh
why: the log is being bound anew
${dates}
${fields}
`
const logRule = 'rule: complaint-log-not-read'

describe('an exception', () => {
  it('sets aside what it is about, and says which one it was, why and until when', () => {
    const result = checkOf(noLog + exception(logRule))
    expect(result.rules).toEqual([])
    expect(result.excepted).toHaveLength(1)
    expect(result.excepted[0]).toMatchObject({
      exception: 'exceptions/one.yaml',
      why: 'the log is being bound anew',
      until: day('2026-04-10'),
    })
    expect(result.excepted[0]?.problem).toMatchObject({ rule: 'complaint-log-not-read', site: 'oak' })
  })

  it.each([
    ['2026-03-09', false],
    ['2026-03-10', true],
    ['2026-03-15', true],
    ['2026-03-20', true],
    ['2026-03-21', false],
  ])('from 2026-03-10 until 2026-03-20 holds on %s: %s', (asOf, holds) => {
    const result = checkOf(noLog + exception(logRule, 'from: 2026-03-10\nuntil: 2026-03-20'), asOf)
    expect(result.exceptedRules).toEqual(holds ? ['complaint-log-not-read'] : [])
    expect(result.rules.includes('complaint-log-not-read')).toBe(!holds)
  })

  it.each([
    ['the rule', logRule, true],
    ['another rule', 'rule: site-manager-not-told', false],
    ['the site', `${logRule}\nsite: oak`, true],
    ['the record', `${logRule}\nrecord: sites/oak/visits/2026-03-05-okafor.yaml`, true],
    ['another record', `${logRule}\nrecord: sites/oak/visits/2026-03-06-okafor.yaml`, false],
    ['the key', `${logRule}\nkey: purpose`, true],
    ['another key', `${logRule}\nkey: by`, false],
    ['a thing it does not mention', `${logRule}\nabout: boiler-room`, false],
  ])('for %s', (_, fields, covers) => {
    const result = checkOf(noLog + exception(fields))
    expect(result.exceptedRules).toEqual(covers ? ['complaint-log-not-read'] : [])
  })

  it('for one site leaves another alone', () => {
    const elm = `
=== sites/elm/site.yaml
name: Elm School
site-manager: [{from: 2026-03-01, who: lind}]
complaint-log: front office
contract: [{from: 2026-03-01, contractor: Invented Pest Services, routine-visits: monthly}]
areas: {kitchen: {kind: kitchen}}
=== sites/elm/visits/2026-03-05-okafor.yaml
purpose: routine
by: okafor
time: 08:10 to 08:50
site-manager: lind
inspected: [kitchen]
`
    const result = checkOf(noLog + elm + exception(`${logRule}\nsite: elm`))
    expect(result.standing.map(({ rule, site }) => [rule, site])).toEqual([['complaint-log-not-read', 'oak']])
    expect(result.excepted.map(({ problem }) => problem.site)).toEqual(['elm'])
  })

  it('about one thing leaves another of the same rule alone, whether it is in the path, the identity or the facts', () => {
    const two = `
=== sites/oak/visits/2026-03-10-okafor.yaml
purpose: callback
by: okafor
conditions:
  drip: {new: drip, area: kitchen, kind: moisture, gives: water, by: 2026-04-10}
  gap: {new: gap, area: kitchen, kind: structural, gives: entry, by: 2026-04-10}
`
    const rule = 'rule: condition-without-owner'
    expect(checkOf(two).rules).toEqual(['condition-without-owner', 'condition-without-owner'])
    // `drip` is a key of the path and a fact; its full name is the identity.
    for (const about of ['drip', '2026-03-10-okafor/drip']) {
      const result = checkOf(`${two}${exception(`${rule}\nabout: ${about}`)}`)
      expect(result.excepted.map(({ problem }) => problem.args.condition)).toEqual(['drip'])
      expect(result.standing.map(({ args }) => args.condition)).toEqual(['gap'])
    }
  })

  it('never excuses law', () => {
    const used = `
=== products/bait-a/product.yaml
name: Invented Bait A
kind: pesticide
registration: 99999-1
labels: [{from: 2026-01-05, file: label.txt}]
sds: []
=== sites/oak/visits/2026-03-20-okafor.yaml
purpose: set-up
by: okafor
set:
  B1: {kind: bait-station, area: kitchen, for: [german-cockroach], product: bait-a, bait-added: 1 station, secured: yes, marked: yes}
`
    expect(checkOf(used).rules).toContain('product-without-sds')
    const result = checkOf(used + exception('rule: product-without-sds'))
    expect(result.rules).toContain('product-without-sds')
    expect(result.exceptedRules).toEqual([])
  })

  it('never excuses a file that could not be read', () => {
    const result = checkOf(`${callback('inspected: [kitchen')}${exception('rule: not-plain-yaml')}`)
    expect(result.exceptedRules).toEqual([])
    expect(result.standing.some(({ at }) => at.file === 'sites/oak/visits/2026-03-10-okafor.yaml')).toBe(true)
    expect(result.notChecked.map(({ what }) => what)).toEqual(['sites/oak'])
  })

  it('is named by the first in order of path, where two would cover it', () => {
    const second = exception(logRule).replace('one.yaml', 'a-first.yaml')
    const result = checkOf(noLog + exception(logRule) + second)
    expect(result.excepted.map((one) => one.exception)).toEqual(['exceptions/a-first.yaml'])
  })
})
