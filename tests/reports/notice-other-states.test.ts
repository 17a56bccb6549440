import { describe, expect, it } from 'vitest'
import {
  blanksOf,
  districtUnder,
  lineIn,
  moments,
  noticesOn,
  saidIn,
  sameMatters,
  sprayed,
} from './notice-ledgers.js'

describe('Pennsylvania', () => {
  const under = districtUnder('pennsylvania')

  it('notices: applicator, day and pesticide (24 P.S. 7-772.2(b)(1)(i)); the sign has no contents of its own', () => {
    const made = noticesOn('2026-11-02', sprayed(), under)
    for (const to of ['parents', 'staff'] as const)
      sameMatters(saidIn(made, to), ['applicator-contact', 'date', 'trade-name'])
    expect(lineIn(made, 'staff', 'applicator-contact')).toBe(
      'Applicator: Invented Pest Services, 4 Invented Road, 555-0100',
    )
    expect(saidIn(made, 'sign')).toEqual(['contents'])
    expect(made.texts.find(({ id }) => id === 'sign')?.instructions).toEqual([
      'Print it large, on at least 8.5 x 11 in.',
      'One hangs at each of: a place where people regularly see it.',
    ])
    // Monday 07:00 is 12:00 UTC (5 hours behind since Sunday 2026-11-01); 72 hours earlier they were 4 behind.
    expect(moments(made, 'latest')).toEqual([
      // All of them, or those who asked: (b)(1)(i)(C).
      ['notice to parents who asked', '2026-10-30 08:00'],
      ['notice to staff', '2026-10-30 08:00'],
      ['sign, 8.5 x 11 in, at: common-area', '2026-10-30 08:00'],
    ])
    // Two days, 48 hours, after 07:30.
    expect(moments(made, 'stays')[2]?.[1]).toBe('2026-11-04 07:30')
  })

  it("an applicator of the district's own: what is not recorded of the address or number is a blank", () => {
    const own = `
=== people/okafor.yaml
name: Ada Okafor
roles: [applicator]
phone: 555-0101
`
    const made = noticesOn('2026-11-02', sprayed(), under + own)
    expect(lineIn(made, 'parents', 'applicator-contact')).toBe('Applicator: Ada Okafor, [...], 555-0101')
    expect(blanksOf(made)).toContainEqual([
      'applicator-contact',
      'parents, staff',
      'people/okafor.yaml: phone, district.yaml: address',
    ])
  })

  it('an emergency: parents who asked are told afterwards, and no more (24 P.S. 7-772.2(b)(3))', () => {
    const more = 'emergency: {problem: a nest at the door, why: stings, decided-by: marsh}'
    const made = noticesOn('2026-03-12', sprayed({ more }), under)
    expect(made.texts.map(({ title }) => title)).toEqual(['Notice to parents who asked'])
    expect(saidIn(made, 'parents')).toEqual(['contents'])
    expect(moments(made, 'latest')).toEqual([['notice to parents who asked', 'afterwards']])
  })
})

describe('Illinois', () => {
  const under = districtUnder('illinois', 'America/Chicago')
  const site = (kind: string, area: string) => `
=== sites/oak/site.yaml
name: Oak School
kind: ${kind}
site-manager: [{from: 2026-03-01, who: lind}]
complaint-log: front office
contract: [{from: 2026-03-01, contractor: Invented Pest Services, routine-visits: monthly}]
areas: {kitchen: {kind: kitchen}, room-1: {kind: classroom}, lawn: {kind: ${area}}}
`

  it('date and whom to call, two business days before; no sign (225 ILCS 235/10.3)', () => {
    const made = noticesOn('2026-05-26', sprayed(), under)
    expect(made.texts.map(({ id }) => id)).toEqual(['parents'])
    sameMatters(saidIn(made, 'parents'), ['date', 'coordinator-contact'])
    expect([made.blanks, made.report.incomplete]).toEqual([0, false])
    // Monday 2026-05-25 is Memorial Day: Friday the 22nd is the first business day back, Thursday the second.
    expect(moments(made, 'latest')).toEqual([['notice to parents who asked', 'the end of 2026-05-21']])
    expect(made.texts[0]?.instructions).toEqual([
      'It goes to all parents, or to those of them who asked to be told.',
    ])
  })

  it('in a day care center not more than 30 days before (225 ILCS 10/5.6(b))', () => {
    const made = noticesOn('2026-05-26', sprayed(), under + site('child-care', 'playground'))
    // Counted back from 26 May: 26 days to 30 April, and four more.
    expect(moments(made, 'earliest').map(([, earliest]) => earliest)).toEqual([null, '2026-04-26 00:00'])
  })

  it('lawn care for hire: a marker with the words of the law and the applicator (415 ILCS 65/3(a))', () => {
    const lawn = sprayed({ area: 'lawn', method: 'broadcast' })
    const made = noticesOn('2026-05-26', lawn, under + site('school', 'turf'))
    sameMatters(saidIn(made, 'sign'), ['warning-words', 'applicator-contact'])
    expect(lineIn(made, 'sign', 'warning-words')).toBe('[... 415 ILCS 65/3(a)]')
    expect(made.texts.find(({ id }) => id === 'sign')?.instructions).toEqual([
      'Print it large, on at least 4 x 5 in.',
      'One hangs at each of: each entrance.',
    ])
    // Four business days back from Tuesday the 26th, without Memorial Day: 22, 21, 20, 19.
    expect(moments(made, 'latest').map(([, latest]) => latest)).toContain('the end of 2026-05-19')
  })

  it('an imminent threat: a signed statement, and notice as soon as practicable', () => {
    const more = 'emergency: {problem: a nest at the door, why: stings, decided-by: marsh}'
    const made = noticesOn('2026-03-12', sprayed({ more }), under)
    expect(made.texts.map(({ id }) => id)).toEqual(['parents', 'statement'])
    expect(saidIn(made, 'statement')).toEqual([
      'emergency-problem',
      'emergency-reason',
      'decided-by',
      'signed',
    ])
    expect(blanksOf(made)).toContainEqual([
      'signed',
      'statement',
      'sites/oak/applications/2026-03-12-okafor.yaml: emergency.signed',
    ])
  })
})
