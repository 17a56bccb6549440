import { isoOf } from '../../../src/measure/calendar.js'
import { addDuty, addFiling, addReport, annualNotice, basis, policy, redated } from '../added-filings.js'
import { gelOn, inLabel } from '../added-uses.js'
import type { DataMap, Draft } from '../draft.js'
import { copyOf, dataOf, listAt, put, take, textAt, write } from '../draft.js'
import type { Fault, FaultKind } from '../fault.js'
import { reportedAt } from '../fault.js'
import { annualListFaults } from './annual-list.js'

const inDistrict = /^district\.yaml$/
const inFilings = /^filings\//

/** What is sent or filed for a year: whether it was, what it says and to whom, and the products it lists. */
export const yearlyFaults: readonly FaultKind[] = [
  {
    name: 'the annual notice is lost',
    expect: 'yearly-filing-missing',
    at: inDistrict,
    make(draft) {
      draft.files.delete(annualNotice(draft))
      return missing(draft)
    },
  },
  {
    name: 'the annual notice is recorded for the school year before',
    expect: 'yearly-filing-missing',
    at: inDistrict,
    make(draft) {
      put(draft, annualNotice(draft), ['year'], '2024-2025')
      return missing(draft)
    },
  },
  {
    name: 'the annual notice goes out two days after its last day',
    expect: 'yearly-filing-missing',
    at: inDistrict,
    ended: true,
    make(draft) {
      const notice = annualNotice(draft)
      // Thirty days after 2 September 2025, when the school year began, is 2 October.
      const inTime = redated(draft, notice, '2025-10-02')
      const before = copyOf(draft)
      redated(draft, inTime, '2025-10-04')
      return { ...missing(draft), before }
    },
  },
  {
    name: 'the plan of a calendar year is not published',
    expect: 'yearly-filing-missing',
    at: inDistrict,
    make: afterPlan({ 'days-from-start': 60 }, 0, (draft, plan) => {
      draft.files.delete(plan)
    }),
  },
  {
    name: 'what is published every three years was published a year earlier than it says',
    expect: 'yearly-filing-missing',
    at: inDistrict,
    make: afterPlan({ 'days-from-start': 60, every: 3 }, -2, (draft, plan, year) => {
      put(draft, plan, ['year'], String(year - 3))
    }),
  },
  {
    name: 'what is published once for all is recorded for the year to come',
    expect: 'yearly-filing-missing',
    at: inDistrict,
    make: afterPlan({ 'days-from-start': 60, once: 'yes' }, 0, (draft, plan, year) => {
      put(draft, plan, ['year'], String(year + 1))
    }),
  },
  {
    name: 'nothing is reported of a year with the one use that is to be reported',
    expect: 'yearly-filing-missing',
    at: inDistrict,
    make(draft, random) {
      const silverfish = { from: '2000-01-01', any: [{ pest: ['occasional'] }], ...basis }
      put(draft, policy, ['uses', 'against-silverfish'], [silverfish])
      addDuty(draft, 'report', {
        what: 'report-to-the-state',
        year: 'school',
        'days-from-start': 0,
        'only-if-used': 'yes',
        'holds-for': ['against-silverfish'],
      })
      const { added } = gelOn(draft, random)
      put(draft, added.product, [...inLabel, 'pest-groups'], ['cockroach', 'occasional'])
      const before = copyOf(draft)
      put(draft, added.application, ['pest'], 'silverfish')
      return { ...missing(draft), before }
    },
  },
  {
    name: 'the annual notice does not say whom to ask',
    expect: 'yearly-filing-incomplete',
    at: inFilings,
    make(draft) {
      const notice = annualNotice(draft)
      take(draft, notice, ['says', listAt(dataOf(draft, notice), 'says').indexOf('coordinator-contact')])
      return reportedAt(notice, 'says')
    },
  },
  {
    name: 'what the annual notice says is left out',
    expect: 'yearly-filing-incomplete',
    at: inFilings,
    make(draft) {
      const notice = annualNotice(draft)
      take(draft, notice, ['says'])
      return reportedAt(notice, 'what')
    },
  },
  {
    name: 'the annual notice goes to parents alone',
    expect: 'yearly-filing-incomplete',
    at: inFilings,
    make(draft) {
      const notice = annualNotice(draft)
      put(draft, notice, ['to'], 'all parents')
      return reportedAt(notice, 'to')
    },
  },
  {
    name: 'of the two letters that make the annual notice, the one to staff went to parents again',
    expect: 'yearly-filing-incomplete',
    at: inFilings,
    make(draft) {
      const { first, second } = twoLetters(draft)
      const before = copyOf(draft)
      put(draft, second, ['to'], 'all parents')
      return { ...reportedAt(first, 'to'), before }
    },
  },
  {
    name: 'what was forgotten in the annual notice is sent after the time for it',
    expect: 'yearly-filing-incomplete',
    at: inFilings,
    ended: true,
    make(draft) {
      const notice = annualNotice(draft)
      const data = dataOf(draft, notice) as DataMap
      take(draft, notice, ['says', listAt(data, 'says').indexOf('policy')])
      const { what = '', year = '', to = '' } = data
      addFiling(draft, '2025-10-20', { what, year, to, says: ['policy'] })
      return reportedAt(notice, 'says')
    },
  },
  {
    name: 'a report for the state is filed with nobody',
    expect: 'yearly-filing-incomplete',
    at: inFilings,
    make(draft) {
      const report = addReport(draft)
      const before = copyOf(draft)
      take(draft, report, ['to'])
      return { ...reportedAt(report, 'what'), before }
    },
  },
  ...annualListFaults,
]

/** At the line of the district that brings its policy into force. */
function missing(draft: Draft): Fault {
  const entries = listAt(dataOf(draft, 'district.yaml'), 'rulebooks')
  const at = entries.findIndex((entry) => textAt(entry, 'rulebook') === 'tarn-hollow')
  return reportedAt('district.yaml', 'rulebooks', at)
}

/** The calendar year that began since the records did; in each of the ledgers it is one, and more than 60 days old. */
function calendarYear({ lastDay }: Draft): number {
  return Number(isoOf(lastDay).slice(0, 4))
}

/** A plan that is published for a calendar year, as the policy now asks, and what is changed about that. */
function afterPlan(
  asked: DataMap,
  yearsLater: number,
  change: (draft: Draft, plan: string, year: number) => void,
): FaultKind['make'] {
  return (draft) => {
    const year = calendarYear(draft)
    addDuty(draft, 'plan', { what: 'plan-published', year: 'calendar', to: 'the public', ...asked })
    const plan = addFiling(draft, `${year + yearsLater}-02-10`, {
      what: 'plan-published',
      year: String(year + yearsLater),
      to: 'the public',
      where: 'district web site',
    })
    const before = copyOf(draft)
    change(draft, plan, year)
    return { ...missing(draft), before }
  }
}

/** The annual notice as two letters of one day, to parents and to staff. */
function twoLetters(draft: Draft): { readonly first: string; readonly second: string } {
  const first = annualNotice(draft)
  const data = dataOf(draft, first) as DataMap
  const second = first.replace('.yaml', '-staff.yaml')
  write(draft, second, { ...data, to: 'all staff' })
  put(draft, first, ['to'], 'all parents')
  return { first, second }
}
