import { describe, expect, it } from 'vitest'
import type { Facts } from './notice-ledgers.js'
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

describe('New Jersey', () => {
  // N.J.S.A. 13:1F-25b, the eight matters of a notice; 13:1F-26b and 26c ask the same of a sign.
  const matters = [
    'common-name',
    'trade-name',
    'registration',
    'location',
    'date',
    'time',
    'sensitive-persons-statement',
    'adverse-effects',
    'reason',
    'coordinator-contact',
    'label-safety-instructions',
  ]
  const under = districtUnder('new-jersey')
  const on = (day: string, facts: Facts = {}, overlay = '') => noticesOn(day, sprayed(facts), under + overlay)

  it.each(['parents', 'staff', 'sign'] as const)('%s: each matter once, and no other', (id) => {
    sameMatters(saidIn(on('2026-03-10'), id), matters)
  })

  it('outdoors, other dates in case of rain as well (13:1F-25b, 13:1F-26c)', () => {
    const outdoors = (more: string) =>
      on(
        '2026-03-10',
        { area: 'playground', more },
        `
=== sites/oak/site.yaml
name: Oak School
site-manager: [{from: 2026-03-01, who: lind}]
complaint-log: front office
contract: [{from: 2026-03-01, contractor: Invented Pest Services, routine-visits: monthly}]
areas: {kitchen: {kind: kitchen}, room-1: {kind: classroom}, playground: {kind: playground}}
`,
      )
    const open = outdoors('reason: ants')
    sameMatters(saidIn(open, 'parents'), [...matters, 'rain-dates'])
    sameMatters(saidIn(open, 'sign'), [...matters, 'rain-dates'])
    expect(blanksOf(open)).toContainEqual([
      'rain-dates',
      'parents, staff, sign',
      'sites/oak/applications/2026-03-10-okafor.yaml: rain-dates',
    ])
    expect(lineIn(outdoors('rain-dates: [2026-03-11, 2026-03-12]'), 'parents', 'rain-dates')).toBe(
      'If the weather does not allow it, instead on: Wednesday, March 11, 2026, Thursday, March 12, 2026',
    )
  })

  it('what the ledger has no words for stands as a blank and is listed', () => {
    const made = on('2026-03-10')
    // No text of a statement is in the rulebook: the clauses that ask for it are named.
    expect(lineIn(made, 'parents', 'sensitive-persons-statement')).toBe(
      '[... N.J.S.A. 13:1F-25b and 13:1F-27, N.J.A.C. 7:30-13.6(b) and 7:30-13.6(d)]',
    )
    expect(lineIn(made, 'parents', 'adverse-effects')).toBe(
      'What it can do to people, as label and safety data sheet say: [...]',
    )
    expect(lineIn(made, 'parents', 'common-name')).toBe('Common name: deltamethrin')
    expect(made.blanks).toBe(9)
    expect(made.report.incomplete).toBe(false)
    expect(blanksOf(made).map(([about]) => about)).toEqual([
      'adverse-effects',
      'label-safety-instructions',
      'sensitive-persons-statement',
      'sensitive-persons-statement',
    ])
  })

  it('moments: 72 elapsed hours over the clock change and the weekend; size and places of the sign', () => {
    const made = on('2026-03-10')
    // Tuesday 07:00 is 11:00 UTC (4 hours behind since Sunday); 72 hours earlier, Saturday 11:00 UTC, 5 hours behind.
    expect(moments(made, 'latest')).toEqual([
      ['notice to parents', '2026-03-07 06:00'],
      ['notice to staff', '2026-03-07 06:00'],
      ['sign', '2026-03-07 06:00'],
      ['sign, 8.5 x 11 in, at: treated-area, each-entrance', '2026-03-10 07:00'],
    ])
    expect(moments(made, 'stays')[3]?.[1]).toBe('2026-03-13 07:30')
    expect(made.texts.find(({ id }) => id === 'sign')?.instructions).toEqual([
      'Print it large, on at least 8.5 x 11 in.',
      'One hangs at each of: the treated area, each entrance.',
    ])
  })

  it('low impact pesticides need none of it, and that is said as what rulebooks do not ask', () => {
    const made = on('2026-03-10', { product: 'bait-a', method: 'crack-and-crevice' })
    expect(made.texts).toEqual([])
    expect(made.report.headline).toMatch(
      /^No rulebook that the district lists for that day asks for a notice or/,
    )
    expect(JSON.stringify(made.report)).not.toMatch(/not needed|allowed|safe to/)
  })

  it('in a recess with nobody in the building, none (13:1F-27); where pupils were is not recorded, all', () => {
    const empty = 'reason: ants\npupils: none in the building'
    expect(on('2026-03-17', { more: empty }).texts).toEqual([])
    expect(on('2026-03-17').texts.map(({ id }) => id)).toEqual(['parents', 'staff', 'sign'])
    expect(on('2026-03-24', { more: empty }).texts.map(({ id }) => id)).toEqual(['parents', 'staff', 'sign'])
  })

  it('after the last day of the calendar nobody knows whether it is a recess', () => {
    const made = on('2026-09-10', { more: 'reason: ants\npupils: none in the building' })
    expect(made.texts).toEqual([])
    expect(made.report.incomplete).toBe(true)
    expect(made.report.headline).toBe(
      'It cannot be said what is asked: what is asked hangs on whether 2026-09-10 lies in a recess, and the school calendar ends on 2026-06-12.',
    )
  })

  const emergency =
    'reason: ants\nemergency: {problem: nymphs at lunch, why: no other room, decided-by: marsh}'

  it('an emergency: what N.J.A.C. 7:30-13.7(b) asks, and the sign as always', () => {
    const made = on('2026-03-12', { time: 'time: 15:40 to 16:05', status: 'done', more: emergency })
    sameMatters(saidIn(made, 'parents'), [...matters, 'emergency-problem', 'emergency-reason'])
    sameMatters(saidIn(made, 'staff'), [...matters, 'emergency-problem', 'emergency-reason'])
    sameMatters(saidIn(made, 'sign'), matters)
    expect(saidIn(made, 'statement')).toEqual([])
    // Thursday 15:40: the morning of Friday, read as until 12:00, comes before 24 hours are over.
    expect(moments(made, 'latest').slice(0, 2)).toEqual([
      ['notice to parents', '2026-03-13 12:00'],
      ['notice to staff', '2026-03-13 12:00'],
    ])
  })

  it('on a Friday before a recess 24 hours come first; on the last day of the calendar it cannot be said', () => {
    const friday = on('2026-03-13', { time: 'time: 15:40 to 16:05', more: emergency })
    expect(moments(friday, 'latest')[0]).toEqual(['notice to parents', '2026-03-14 15:40'])
    // 2026-06-12 is a Friday too, and Saturday is no school day whatever the next calendar says.
    const last = on('2026-06-12', { time: 'time: 15:40 to 16:05', more: emergency })
    expect(moments(last, 'latest')[0]).toEqual(['notice to parents', '2026-06-13 15:40'])
    // The Monday after: whether Tuesday is a school day stands in no calendar.
    const beyond = on('2026-06-15', { time: 'time: 15:40 to 16:05', more: emergency })
    expect(moments(beyond, 'latest')[0]).toEqual([
      'notice to parents',
      'cannot be said: the school calendar ends on 2026-06-12',
    ])
    expect([beyond.report.incomplete, beyond.report.headline.includes('NOT EVERY MOMENT')]).toEqual([
      true,
      true,
    ])
  })

  it('hours that the clock skips or shows twice are no hours to tell', () => {
    const where =
      'sites/oak/applications/2026-03-08-okafor.yaml: time; the clocks of the district skip that hour, or show it twice: then write it with its offset, as 01:30-07:00'
    const skipped = on('2026-03-08', { time: 'time: 02:30 to 03:30' })
    expect(lineIn(skipped, 'parents', 'time')).toBe('Time: [...]')
    expect(blanksOf(skipped)).toContainEqual(['time', 'parents, staff, sign', where])
    const twice = on('2026-11-01', { time: 'time: 01:10 to 01:40' })
    expect(lineIn(twice, 'parents', 'time')).toBe('Time: [...]')
    // Of the two, the earlier counts for what is due: 05:10 UTC, 72 hours before in summer time too.
    expect(moments(twice, 'latest')[0]?.[1]).toBe('2026-10-29 01:10')
    const stated = on('2026-11-01', { time: 'time: 01:10-05:00 to 01:40-05:00' })
    expect(lineIn(stated, 'parents', 'time')).toBe('Time: 01:10 (UTC-05:00) to 01:40 (UTC-05:00)')
    // An hour later than that: 06:10 UTC is 02:10 in summer time.
    expect(moments(stated, 'latest')[0]?.[1]).toBe('2026-10-29 02:10')
  })

  it('no hours at all: a blank, and the day alone for what is due', () => {
    const made = on('2026-03-24', { time: '' })
    expect(lineIn(made, 'sign', 'time')).toBe('Time: [...]')
    // 72 hours before the first minute of the 24th.
    expect(moments(made, 'latest')[0]?.[1]).toBe('2026-03-21 00:00')
  })
})
