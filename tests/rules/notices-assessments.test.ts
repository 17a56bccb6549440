import { describe, expect, it } from 'vitest'
import { memorySource } from '../../src/files/memory.js'
import { readLedger } from '../../src/ledger/read-ledger.js'
import type { SiteView } from '../../src/ledger/site-view.js'
import { dayOf } from '../../src/measure/calendar.js'
import { ledgerWith } from '../../src/rules/base-ledger.js'
import { statementAssessments } from '../../src/rules/notices/assess-emergency-statement.js'
import { noticeAssessments } from '../../src/rules/notices/assess-notice.js'
import { postingAssessments } from '../../src/rules/notices/assess-posting.js'
import { momentText, wallTimeAt } from '../../src/rules/notices/moments.js'
import { districtWith, law, notice, sprayed } from './notices-checking.js'

function viewOf(overlay: string): SiteView {
  const views: SiteView[] = []
  readLedger(
    memorySource(ledgerWith(overlay)),
    { asOf: dayOf('2026-03-20') ?? 0, asOfIsToday: true },
    (view) => views.push(view),
  )
  const [view] = views
  if (!view) throw new Error('the ledger of this test cannot be read')
  return view
}

const own = districtWith({
  own: `
notices:
  parents: [${law('to: parents, reach: all, lead: 72 hours, says: [date]')}]
  staff: [${law('to: staff, reach: all or those who asked, lead: 2 business days')}]
postings:
  signs: [${law('before: 24 hours, at-the: [treated-area, each-entrance]')}]
emergencies:
  emergency: [${law('notice-within: 24 hours, statement: signed')}]
`,
})

/** What a report says of every duty about the application of Thursday 2026-03-12, 15:40. */
function outcomesOf(records: string, facts = 'time: 15:40 to 16:05') {
  const view = viewOf(own + sprayed('2026-03-12', facts) + records)
  const latest = (range: Parameters<typeof momentText>[1] | undefined) =>
    range ? momentText(view.district, range) : ''
  return [
    ...noticeAssessments(view).map(
      ({ asked, outcome }) => `${asked.group}: ${outcome}, due ${latest(asked.latest)}`,
    ),
    ...postingAssessments(view).map(({ asked, outcome }) => `signs: ${outcome}, due ${latest(asked.latest)}`),
    ...statementAssessments(view).map(({ outcome }) => `statement: ${outcome}`),
  ]
}

describe('every duty has an outcome and its last moment, also where there is nothing to say', () => {
  // 72 hours before 15:40 on the 12th; Wednesday the 11th is one business day back, Tuesday the 10th two; 24 hours before.
  it.each<[string, string, string[]]>([
    [
      'everything done',
      notice('2026-03-09', 'sent: {to: everyone, at: 15:40, says: [date]}') +
        notice('2026-03-11', 'posted: {places: [gate], at: 15:40, at-the: [treated-area, each-entrance]}'),
      ['shown', 'shown', 'shown'],
    ],
    ['nothing done', '', ['not shown', 'not shown', 'not shown']],
    [
      'not everything written down',
      notice('2026-03-09', 'sent: {to: everyone, says: [date]}') +
        notice('2026-03-11', 'posted: {places: [gate], at: 15:40}'),
      ['not recorded', 'shown', 'not recorded'],
    ],
    [
      'only those who asked, and a file of what was said',
      notice('2026-03-10', 'sent: {to: those who asked}'),
      ['not shown', 'shown', 'not shown'],
    ],
    [
      'a record that tells of neither notice nor sign',
      notice('2026-03-09', 'notes: see the folder'),
      ['not shown', 'not shown', 'not shown'],
    ],
  ])('%s', (_, records, [parents, staff, signs]) => {
    expect(outcomesOf(records)).toEqual([
      `parents: ${parents}, due 2026-03-09 15:40`,
      `staff: ${staff}, due the end of 2026-03-10`,
      `signs: ${signs}, due 2026-03-11 15:40`,
    ])
  })

  it('in an emergency those that take their place', () => {
    const emergency = 'emergency: {problem: nest opened, why: a pupil was stung, decided-by: marsh}'
    expect(outcomesOf('', `time: 15:40 to 16:05\n${emergency}`)).toEqual([
      'parents: not shown, due 2026-03-13 15:40',
      'staff: not shown, due 2026-03-13 15:40',
      'statement: not shown',
    ])
  })
})

describe('a moment on the clocks of the district', () => {
  const { district } = viewOf('')
  // UTC-8 until Sunday 2026-03-08 10:00Z, then UTC-7 until Sunday 2026-11-01 09:00Z.
  it.each<[string, number, number, string]>([
    ['the last minute of winter', 9, 59, '2026-03-08 119'],
    ['the first minute of summer', 10, 0, '2026-03-08 180'],
  ])('%s', (_, hour, minute, expected) => {
    const instant = (dayOf('2026-03-08') ?? 0) * 1440 + hour * 60 + minute
    const { day, minutes } = wallTimeAt(district, instant)
    expect(`${day === dayOf('2026-03-08') ? '2026-03-08' : day} ${minutes}`).toBe(expected)
  })
  it('tells the hour shown twice alike both times', () => {
    const at = (hour: number) => wallTimeAt(district, (dayOf('2026-11-01') ?? 0) * 1440 + hour * 60 + 30)
    // 08:30Z and 09:30Z are both 01:30; 10:30Z is 02:30.
    expect([at(8).minutes, at(9).minutes, at(10).minutes]).toEqual([90, 90, 150])
  })
})
