import { describe, expect, it } from 'vitest'
import { complaintsReport } from '../../../src/reports/complaints.js'
import { complianceReport } from '../../../src/reports/compliance.js'
import { ofOtherTables } from '../../../src/reports/review/make-review.js'
import { useReport } from '../../../src/reports/use.js'
import { day } from '../../ledger/small-site.js'
import { answerIn, example, exampleWith, reviewIn, rowsIn } from './reviews.js'

/** The school year of the example, counted by hand from its files from 2025-09-02 to 2026-06-30. */
describe('the review of the example', () => {
  const review = reviewIn(example())
  const answer = (id: string) => answerIn(review, id)

  it('asks what the meeting asks, in its order', () => {
    expect(review.answers.map(({ id }) => id)).toEqual([
      'last-review',
      'overlooked',
      'treatments',
      'sanitation',
      'fixed',
      'monitors',
      'channels',
      'education',
      'use',
      'compliance',
      'contract',
      'this-review',
    ])
    for (const { question, answer: sentence } of review.answers) {
      expect(question.endsWith('?')).toBe(true)
      expect(sentence).toMatch(/^[A-Z0-9].*\.$/)
      expect(sentence).not.toMatch(/undefined|NaN|null/)
    }
  })

  it('tells what became of the decisions of the year before', () => {
    // reviews/2025.yaml: two, both with a day under `done` before the one under `by`.
    expect(answer('last-review').answer).toBe(
      'The review of 2025, held on 2025-06-10, made 2 decisions; 2 are recorded as done.',
    )
    expect(rowsIn(answer('last-review'), 'last-decisions')).toMatchObject([
      { decision: 'door-gaps', stands: 'done', done: '2025-08-22', 'overdue-days': null },
      { decision: 'quarry-road', stands: 'done', done: '2025-08-18', 'overdue-days': null },
    ])
    expect(answer('this-review').answer).toBe(
      'The review of 2026 was held on 2026-06-16; 2 decisions are on record.',
    )
  })

  it('counts what was not entered', () => {
    // Ottermere: the boiler room on each visit from December to June, 7. Tamsin Hill: the crawl space in May and June, 2.
    const rows = rowsIn(answer('overlooked'), 'contract-on-visits')
    expect(rows).toMatchObject([
      { site: 'ottermere', 'area-not-entered': 7 },
      { site: 'quarry-road', 'area-not-entered': 0 },
      { site: 'tamsin-hill', 'area-not-entered': 2 },
    ])
    expect(answer('overlooked').answer).toContain('areas could not be entered 9 times')
    expect(answer('overlooked').points).toContainEqual({
      rank: 2,
      says: 'areas could not be entered 9 times on routine visits: settle keys and times',
    })
  })

  it('names what was followed by a higher catch', () => {
    // visits/2025-12-02: voids vacuumed, before the catch of the kitchen rose to its height.
    expect(rowsIn(answer('treatments'), 'effect-effect')).toMatchObject([
      { answer: 'rose', day: '2025-12-02', site: 'ottermere', area: 'kitchen', pest: 'German cockroach' },
    ])
  })

  it('tells of conditions by kind and owner, and what is open', () => {
    // Found: sink-drip, dish-floor, bin-lids and a stack in October, and four more in spring (README of the examples).
    const found = rowsIn(answer('sanitation'), 'conditions-time-to-repair-by-kind')
    expect(found.reduce((sum, { found: count }) => sum + Number(count), 0)).toBe(8)
    // The fly screen, due by 2026-05-15: 16 days of May and 30 of June. The litter under the bleachers is nobody's.
    expect(rowsIn(answer('fixed'), 'conditions-open')).toMatchObject([
      { site: 'ottermere', area: 'kitchen', owner: 'maintenance', 'overdue-days': 46 },
      { site: 'tamsin-hill', area: 'gym', owner: 'nobody named', 'overdue-days': 0 },
    ])
    expect(answer('fixed').points.map(({ says }) => says)).toEqual([
      'one condition is open 46 days past the day stated for it',
      '1 open condition has nobody named to put it right',
    ])
  })

  it('says where monitors lack', () => {
    expect(rowsIn(answer('monitors'), 'coverage-needs')).toMatchObject([
      { site: 'quarry-road', area: 'concession', 'to-add': 1 },
      { site: 'tamsin-hill', area: 'dry-store', 'to-add': 1 },
    ])
  })

  it('tells whether the channels work', () => {
    // Complaints: one at Ottermere, two at Quarry Road. The log was not found at Tamsin Hill on 2026-06-11.
    expect(rowsIn(answer('channels'), 'complaints-answered')).toMatchObject([{ received: 3, answered: 3 }])
    expect(rowsIn(answer('channels'), 'contract-on-visits-log').map((row) => row['log-not-read'])).toEqual([
      0, 0, 1,
    ])
    // The notice of 2026-05-14 was two days ahead, to parents and to staff, and three are asked for.
    expect(answer('channels').answer).toContain('of 9 notices and signs asked for, 7 are shown in time')
  })

  it('counts education', () => {
    // A flyer to 61, a talk to 7 and a lesson for 24; the walk-through and the mail are of the year before.
    expect(answer('education').answer).toContain('3 talks, flyers, lessons and courses with 92 people')
    expect(answer('education').answer).toContain('none is recorded for tamsin-hill')
    expect(rowsIn(answer('education'), 'education')).toHaveLength(3)
  })

  it('holds use against the year before', () => {
    // Foam thrice, gel twice; blocks into W1 and W2, W1, W1, and W2.
    expect(rowsIn(answer('use'), 'use-before')).toMatchObject([
      { applications: 5, baits: 5 },
      { period: 'before' },
    ])
    expect(answer('use').plots.length).toBeGreaterThan(0)
  })

  it('sums up duties and the contract', () => {
    expect(answer('compliance').answer).toMatch(/^Of \d+ duties held against 9 applications/)
    // Nobody came to Quarry Road in May.
    expect(answer('contract').points).toContainEqual({ rank: 2, says: '1 routine visit has no record' })
  })

  it('draws its short list from the answers', () => {
    expect(review.improve).toHaveLength(10)
    const all = review.answers.flatMap(({ points }) => points.map(({ says }) => says))
    for (const { says, from } of review.improve) {
      expect(answerIn(review, from.id).points.map((point) => point.says)).toContain(says)
      expect(says).toMatch(/\d|one/)
    }
    expect(review.improve.length + review.morePoints).toBe(all.length)
    const ranks = review.improve.map(({ rank }) => rank)
    expect(ranks).toEqual([...ranks].sort())
  })

  it('explains only what it shows', () => {
    const options = { asOf: day('2026-06-30'), asOfIsToday: false }
    const said = [
      ...complaintsReport(example(), options).cautions,
      ...useReport(example(), options).cautions,
      ...complianceReport(example(), options).cautions,
    ]
    const shown = review.cautions.flatMap(({ says }) => says)
    for (const start of ofOtherTables) {
      expect(said.filter((caution) => caution.startsWith(start))).toHaveLength(1)
      expect(shown.filter((caution) => caution.startsWith(start))).toEqual([])
    }
    expect(shown.some((caution) => caution.startsWith('After is not because.'))).toBe(true)
    expect(new Set(review.notExamined).size).toBe(review.notExamined.length)
    const later = reviewIn(example(), { asOf: '2026-02-01', site: 'ottermere' }).notExamined
    expect(later.filter((line) => line.includes('dated after the as-of day'))).toHaveLength(1)
  })

  it('takes a calendar year too, cut at the as-of day', () => {
    const calendar = reviewIn(example(), { year: '2025' })
    expect(calendar.title).toBe('Review of the calendar year 2025, Alder Fork School District')
    expect(calendar.period).toEqual({ from: '2025-01-01', to: '2025-12-31' })
    // The walk-through, the flyer and the talk; the mail is of 2024, the lesson of 2026.
    expect(rowsIn(answerIn(calendar, 'education'), 'education').map(({ day }) => day)).toEqual([
      '2025-01-16',
      '2025-09-18',
      '2025-12-04',
    ])
  })

  it('puts a decision that was not carried out at the top', () => {
    const source = exampleWith({
      'reviews/2025.yaml': `
held: 2025-06-10
by: marsh
present: [coordinator]
decisions:
  door-gaps: {what: gaps are mended, who: tarrow, by: 2025-09-01}
  later: {what: paint the shed, by: 2026-06-30}
  undated: {what: think about it}
  ahead: {what: done after the as-of day, by: 2026-08-01, done: 2026-07-15}
`,
    })
    const late = reviewIn(source)
    // From 2025-09-01 to 2026-06-30: 29 + 31 + 30 + 31 + 31 + 28 + 31 + 30 + 31 + 30 days.
    expect(rowsIn(answerIn(late, 'last-review'), 'last-decisions')).toMatchObject([
      { decision: 'door-gaps', 'overdue-days': 302, who: 'maintenance worker' },
      { decision: 'later', 'overdue-days': null, who: null },
      { decision: 'undated', 'overdue-days': null },
      { decision: 'ahead', 'overdue-days': null, stands: 'not recorded as done', done: null },
    ])
    expect(late.improve[0]).toMatchObject({
      rank: 1,
      says: '1 decision of the last review is not recorded as done, and past the day set',
    })
  })
})
