import { describe, expect, it } from 'vitest'
import { baitApplication } from '../../src/rules/example-applications.js'
import { noticeDuties, noticeOf, postingDuties, signs } from '../../src/rules/notices/example-ledgers.js'
import { underOwnRulebook } from '../../src/rules/own-rulebook.js'
import { reportOf } from './prechecking.js'

/** Planned for Thursday 12 March 2026 at 15:40, or the Friday, or the Saturday. */
const planned = (...lines: string[]) =>
  baitApplication('2026-03-12', 'rain-dates: [2026-03-13, 2026-03-14]', ...lines)
const duties = underOwnRulebook(noticeDuties)

function pageOf(overlay: string, today = '2026-03-09') {
  const { report, isBroken, rows } = reportOf(overlay, '2026-03-12', today)
  return {
    isBroken,
    report,
    headline: report.headline,
    differs: rows('other-days').map(({ day, differs, rule }) =>
      [day, differs, rule].filter((cell) => cell !== undefined).join(' '),
    ),
    moments: rows('other-days-moments').map(({ day, what, when, 'so-far': soFar }) =>
      [day, what, when, soFar].filter((cell) => cell !== undefined && cell !== null).join(' | '),
    ),
    unseen: rows('not-checked').map(({ what, why }) => `${what}: ${why}`),
  }
}

describe('the other days of a draft', () => {
  it('are not told of where there are none', () => {
    const { report } = reportOf(baitApplication('2026-03-12'), '2026-03-12')
    expect(report.tables.map(({ id }) => id)).not.toContain('other-days')
  })

  it('are said to be no different where they are not', () => {
    const { differs, isBroken, report } = pageOf(planned())
    expect(differs).toEqual(['2026-03-13 nothing', '2026-03-14 nothing'])
    expect(isBroken).toBe(false)
    expect(report.facts).toContainEqual({ label: 'its other days', value: '2026-03-13, 2026-03-14' })
    expect(report.cautions.join(' ')).toContain('judged as if the whole draft were moved there')
  })

  it('what is broken then and not on the first is told, and counts', () => {
    // A licence whose last day is the first of the three days.
    const licence = `
=== people/okafor.yaml
name: Ada Okafor
roles: [technician, applicator]
firm: invented-pest-services
licences:
  or-applicator:
    {number: XX-1, state: OR, kind: commercial applicator, categories: [structural], spans: [{from: 2025-01-01, until: 2026-03-12}]}
`
    const law = underOwnRulebook(
      'licences:\n  applicator: [{from: 2026-03-01, of: applicator, in-state: yes, source: "Invented Pest Act, section 2", kind: law, confidence: read}]\n',
    )
    const { differs, isBroken, headline } = pageOf(law + licence + planned())
    expect(differs).toEqual([
      '2026-03-13 broken then licence-not-in-force',
      '2026-03-14 broken then licence-not-in-force',
    ])
    expect(isBroken).toBe(true)
    expect(headline).toContain('nothing would be broken as drafted; ')
    expect(headline).toContain('more would be broken on 2026-03-13, 2026-03-14')
  })

  it('what is broken on the first and not then is told too', () => {
    // 14 days after 27 February are over on 13 March.
    const label = `
=== products/bait-a/product.yaml
name: Invented Bait A
kind: pesticide
registration: 99999-1
states: {OR: [{from: 2025-01-01}]}
active-ingredients: {boric-acid: {strength: 5 %}}
formulation: gel
signal-word: caution
restricted-use: no
labels:
  - from: 2026-01-05
    file: label.txt
    says: {places: [indoors], pest-groups: [cockroach], methods: [crack-and-crevice], interval: 10 days}
sds: [{from: 2026-01-05, file: sds.txt}]
`
    // 10 days after the 3rd are over on the 13th.
    const { differs, isBroken } = pageOf(label + baitApplication('2026-03-03') + planned())
    expect(differs).toEqual([
      '2026-03-13 not broken then label-interval-too-short',
      '2026-03-14 not broken then label-interval-too-short',
    ])
    expect(isBroken).toBe(true)
  })

  it('have moments of their own, by hand', () => {
    // 72 hours before 15:40 on the 13th and the 14th.
    const { moments, differs } = pageOf(duties + planned())
    expect(moments).toEqual([
      '2026-03-13 | notice to parents | by 2026-03-10 15:40 | none recorded',
      '2026-03-13 | notice to staff | by 2026-03-10 15:40 | none recorded',
      '2026-03-14 | notice to parents | by 2026-03-11 15:40 | none recorded',
      '2026-03-14 | notice to staff | by 2026-03-11 15:40 | none recorded',
    ])
    // On the first day it is to do as well, so that it is no difference.
    expect(differs).toEqual(['2026-03-13 nothing', '2026-03-14 nothing'])
  })

  it('signs stay until a moment that is counted from that day', () => {
    const { moments } = pageOf(underOwnRulebook(postingDuties) + planned())
    // 72 hours before 15:40, and after 16:05, on the 13th.
    expect(moments[0]).toBe(
      '2026-03-13 | sign, 8.5 x 11 in, at: treated-area, each-entrance | by 2026-03-10 15:40; stays until 2026-03-16 16:05 | none recorded',
    )
  })

  it('tell when people may come back then', () => {
    const wait = underOwnRulebook(
      'reentry:\n  wait: [{from: 2026-03-01, wait: 7 h, label: if longer, source: "Invented Pest Act, section 8", kind: law, confidence: read}]\n',
    )
    // 7 hours after 16:05.
    expect(pageOf(wait + planned()).moments).toEqual([
      '2026-03-13 | people come back | not earlier than: 2026-03-13 23:05',
      '2026-03-14 | people come back | not earlier than: 2026-03-14 23:05',
    ])
  })
})

describe('a notice sent for the first day', () => {
  const sent = (says: string, more = '') =>
    noticeOf('2026-03-09', `sent: {to: everyone, at: 15:40, how: email${says}}${more}`)

  it('that says the other days counts for them', () => {
    const { differs, moments, unseen } = pageOf(
      duties + planned() + sent(', says: [trade-name, date, rain-dates]'),
      '2026-03-11',
    )
    expect(differs).toEqual(['2026-03-13 nothing', '2026-03-14 nothing'])
    expect(moments[0]).toBe('2026-03-13 | notice to parents | by 2026-03-10 15:40 | recorded')
    expect(unseen.join()).not.toContain('whether people were told')
  })

  it('that says the first alone does not: one is still to send, or it is too late', () => {
    const firstOnly = duties + planned() + sent(', says: [trade-name, date]')
    expect(pageOf(firstOnly, '2026-03-10').differs).toEqual([
      '2026-03-13 to do by 2026-03-10 notice-missing',
      '2026-03-14 to do by 2026-03-11 notice-missing',
    ])
    const late = pageOf(firstOnly, '2026-03-11')
    expect(late.differs).toEqual([
      '2026-03-13 broken then notice-missing',
      '2026-03-14 to do by 2026-03-11 notice-missing',
    ])
    expect(late.headline).toContain('more would be broken on 2026-03-13')
  })

  it('counts where its words are not listed, and that is said', () => {
    const page = pageOf(duties + planned() + sent(''))
    // What it lacks is told of the first day already.
    expect(page.differs).toEqual(['2026-03-13 nothing', '2026-03-14 nothing'])
    expect(page.unseen.join()).toContain(
      '2026-03-13: whether people were told of it: sites/oak/notices/2026-03-09-marsh.yaml does not list what it says',
    )
  })

  it('is held apart from signs of the same record', () => {
    const both = underOwnRulebook(noticeDuties + postingDuties)
    const record = noticeOf(
      '2026-03-09',
      `sent: {to: everyone, at: 07:30, how: email, says: [trade-name, date, rain-dates]}\n${signs({ 'taken-down': '', 'taken-down-at': '' })}`,
    )
    expect(pageOf(both + planned() + record, '2026-03-10').differs).toEqual([
      '2026-03-13 to do by 2026-03-10 posting-missing',
      '2026-03-14 to do by 2026-03-11 posting-missing',
    ])
  })
})

describe('what could not be looked at on an other day', () => {
  it('is told with its day, and weighs', () => {
    // The school calendar of the example ends on Friday 12 June 2026.
    const june = baitApplication('2026-06-12', 'rain-dates: [2026-06-15]', 'follow-up:')
    const { report, rows } = reportOf(june, '2026-06-12')
    expect(report.incomplete).toBe(true)
    expect(rows('not-checked').map(({ what }) => what)).toContain(
      '2026-06-15: school days, and when pupils are expected',
    )
    expect(reportOf(baitApplication('2026-06-12'), '2026-06-12').report.incomplete).toBe(false)
  })

  it('a day on which that person applies something else already is looked at all the same', () => {
    const other = baitApplication(
      '2026-03-13',
      'areas: {room-1: {amount: 2 g, placements: 8, within-reach: no}}',
    )
    expect(pageOf(planned() + other).differs).toEqual(['2026-03-13 nothing', '2026-03-14 nothing'])
  })

  it('an other day that is none is a fault of the draft', () => {
    const { report, rows } = reportOf(planned('rain-dates: [2026-02-30]'), '2026-03-12')
    expect(rows('broken').map(({ rule }) => rule)).toEqual(['impossible-date'])
    expect(report.tables.map(({ id }) => id)).not.toContain('other-days')
  })
})
