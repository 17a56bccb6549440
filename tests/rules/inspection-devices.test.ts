import { describe, expect, it } from 'vitest'
import {
  check,
  district,
  holds,
  lapses,
  monthly,
  problemsOf,
  read,
  routine,
  site,
  terms,
  visit,
} from './inspection-examples.js'

holds('device-not-read', [
  [
    'until every device passed by was read, no access not counting',
    visit('2026-03-06-okafor', 'set-up', 'set: {K2: {kind: sticky-trap, area: kitchen, within-reach: no}}') +
      routine('2026-03-12', 'recommended: empty the bins') +
      visit('2026-03-13-okafor', 'follow-up', 'readings: {none: [K1], K2: {no-access: cart in front}}') +
      visit('2026-03-16-okafor', 'follow-up', 'readings: {none: [K2]}'),
    '2026-03-20',
    ['2026-03-12..2026-03-16'],
  ],
  [
    'or taken up',
    routine('2026-03-12', 'recommended: empty the bins') +
      visit('2026-03-17-okafor', 'follow-up', 'taken-up: {K1: no longer needed}'),
    '2026-03-20',
    ['2026-03-12..2026-03-17'],
  ],
  [
    'no access is a reading that says why',
    routine('2026-03-12', 'readings: {K1: {no-access: cart in front}}'),
    '2026-03-20',
    [],
  ],
  ['an area that was not inspected', routine('2026-03-12', 'inspected: [room-1]'), '2026-03-20', []],
  [
    'the custodian read it that morning',
    routine('2026-03-12', 'recommended: empty the bins') + visit('2026-03-12-lind', 'trap-check', read),
    '2026-03-20',
    [],
  ],
  [
    'set on that day',
    routine('2026-03-12', read, 'set: {K2: {kind: sticky-trap, area: kitchen, within-reach: no}}'),
    '2026-03-20',
    [],
  ],
  [
    'picked up the day before',
    visit('2026-03-11-lind', 'trap-check', read, 'picked-up: [K1]') +
      routine('2026-03-12', 'recommended: empty the bins'),
    '2026-03-20',
    [],
  ],
  [
    'picked up by the visit itself, unread',
    routine('2026-03-12', 'picked-up: [K1]'),
    '2026-03-20',
    ['2026-03-12..'],
  ],
  [
    'read where it stood before it was moved',
    routine('2026-03-12', 'inspected: [kitchen]', 'moved: {K1: {area: room-1, within-reach: no}}'),
    '2026-03-20',
    ['2026-03-12..'],
  ],
  [
    'a device known to be lost is told as lost',
    visit('2026-03-10-okafor', 'follow-up', 'readings: {K1: {unusable: missing}}') +
      routine('2026-03-12', 'recommended: empty the bins'),
    '2026-03-20',
    [],
  ],
  [
    'a longer interval in the contract than that of the visits',
    site(terms('routine-visits: weekly, grace: 5 days, checks: {sticky-trap: monthly}')) +
      routine('2026-03-12', 'recommended: empty the bins'),
    '2026-03-20',
    [],
  ],
])

const stickyEvery = (interval: string, more = '') =>
  site(terms(`routine-visits: monthly, grace: 5 days, checks: {sticky-trap: ${interval}}${more}`))
const snap = 'set: {S1: {kind: snap-trap, area: kitchen, within-reach: no, secured: yes, marked: yes}}'
const setSnap = (date: string) => visit(`${date}-lind`, 'set-up', snap)

/** A routine visit that stays out of the kitchen, so that the visit is not missed and the board is not passed by. */
const roomOnly = (date: string) => routine(date, 'inspected: [room-1]')

holds('device-overdue', [
  ['14 days after 5 March is 19 March: told ahead', stickyEvery('14 days'), '2026-03-19', ['2026-03-20..']],
  [
    'read on the last day in time',
    stickyEvery('2 weeks') + check('2026-03-19', read),
    '2026-03-20',
    ['2026-04-03..'],
  ],
  [
    'read five days late, and then again in time',
    stickyEvery('14 days') + check('2026-03-25', read),
    '2026-03-26',
    ['2026-03-20..2026-03-25', '2026-04-09..'],
  ],
  [
    'read one day late: no day ends with it overdue, and it is kept for the period',
    stickyEvery('14 days') + check('2026-03-20', read),
    '2026-03-21',
    ['2026-03-20..2026-03-20', '2026-04-04..'],
  ],
  [
    'no access is no check',
    stickyEvery('14 days') + check('2026-03-18', 'readings: {K1: {no-access: locked}}'),
    '2026-03-21',
    ['2026-03-20..'],
  ],
  [
    'picked up in time, and put out again: counted from there',
    stickyEvery('14 days') + check('2026-03-16', 'picked-up: [K1]') + check('2026-03-24', 'put-out: [K1]'),
    '2026-03-26',
    ['2026-04-08..'],
  ],
  [
    'taken up late',
    stickyEvery('14 days') + check('2026-03-24', 'taken-up: {K1: no longer needed}'),
    '2026-03-26',
    ['2026-03-20..2026-03-24'],
  ],
  [
    'days of a closure are not counted for a board',
    district() + stickyEvery('14 days') + check('2026-03-19', read),
    '2026-03-26',
    ['2026-04-08..'],
  ],
  [
    'unless visits go on in recess',
    district() + stickyEvery('14 days', ', in-recess: yes') + check('2026-03-19', read),
    '2026-03-26',
    ['2026-04-03..'],
  ],
  ['monthly: set in March, so April is asked, with its grace', district(), '2026-05-05', ['2026-05-06..']],
  [
    'monthly: a check in the days of grace is April’s, so that May is still asked',
    district() + roomOnly('2026-04-20') + check('2026-05-05', read) + roomOnly('2026-05-19'),
    '2026-05-20',
    ['2026-06-06..'],
  ],
  [
    'monthly: one after them is May’s',
    district() + roomOnly('2026-04-20') + check('2026-05-08', read) + roomOnly('2026-05-19'),
    '2026-05-20',
    ['2026-05-06..2026-05-08', '2026-07-06..'],
  ],
  [
    'monthly: not in the months of recess',
    district() +
      ['2026-04-21', '2026-05-19', '2026-09-15'].map(roomOnly).join('') +
      check('2026-04-20', read) +
      check('2026-05-20', read) +
      check('2026-06-10', read),
    '2026-09-30',
    ['2026-10-06..'],
  ],
  [
    'snap traps are checked daily, over a weekend too: set on Friday 6 March',
    setSnap('2026-03-06') + check('2026-03-09', 'readings: {none: [S1]}', 'picked-up: [S1]'),
    '2026-03-12',
    ['2026-03-08..2026-03-09', '2026-05-06..'],
  ],
  [
    'a closure that is still to come ends nothing yet',
    district() + setSnap('2026-03-18'),
    '2026-03-20',
    ['2026-03-20..', '2026-05-06..'],
  ],
  [
    'read within a closure: only the days left of it are not counted',
    district() + stickyEvery('14 days') + check('2026-03-19', read) + check('2026-04-01', read),
    '2026-04-02',
    ['2026-04-18..'],
  ],
  [
    'picked up wet and put out again the same day: it counts as out from then',
    stickyEvery('14 days') +
      check('2026-03-10', 'readings: {K1: {unusable: wet}}', 'picked-up: [K1]') +
      visit('2026-03-10-marsh', 'trap-check', 'put-out: [K1]'),
    '2026-03-12',
    ['2026-03-25..'],
  ],
  [
    'a lost device is told as lost',
    stickyEvery('14 days') + check('2026-03-10', 'readings: {K1: {unusable: missing}}'),
    '2026-03-30',
    [],
  ],
  [
    'an area refused entry twice running is told by that alone',
    stickyEvery('14 days') +
      routine('2026-03-12', 'inspected: [room-1]', 'no-entry: {kitchen: no key}') +
      routine('2026-03-18', 'inspected: [room-1]', 'no-entry: {kitchen: no key}'),
    '2026-03-25',
    [],
  ],
  [
    'a shorter interval from 23 March is counted from that day',
    site(
      `${terms(`${monthly}, until: 2026-03-22`)}, ${terms('routine-visits: monthly, checks: {sticky-trap: 1 week}', '2026-03-23')}`,
    ),
    '2026-04-02',
    ['2026-03-31..'],
  ],
  [
    'a renewed contract with the same interval changes nothing',
    site(
      `${terms('routine-visits: monthly, checks: {sticky-trap: 14 days}, until: 2026-03-09')}, ${terms('routine-visits: monthly, checks: {sticky-trap: 14 days}', '2026-03-10')}`,
    ),
    '2026-03-21',
    ['2026-03-20..'],
  ],
  [
    'a contract that says nothing of checks: boards read on each monthly visit are never overdue for want of three days',
    district() +
      site(terms('routine-visits: monthly')) +
      routine('2026-04-09') +
      routine('2026-05-28') +
      routine('2026-06-01'),
    '2026-06-05',
    ['2026-10-01..'],
  ],
  [
    'without a contract the published 28 days hold: 5 March and 28 days, 5 of them closed',
    district() + site(''),
    '2026-04-08',
    ['2026-04-08..'],
  ],
])

describe('device-overdue', () => {
  it('is a note where only a rulebook asks, a warning where contract or plan do, and cites them', () => {
    const levels = (example: string, asOf: string) =>
      problemsOf('device-overdue', example, asOf).map(({ level, sources }) => [level, sources[0]?.kind])
    expect(levels(district() + site(''), '2026-04-08')).toEqual([['note', 'published']])
    expect(levels(stickyEvery('14 days'), '2026-03-20')).toEqual([['warning', 'contract']])
    const plan = `
=== plans/german-cockroach.yaml
spans:
  - from: 2026-03-01
    tactics: {clean: {do: clean and dry}}
    checks: {sticky-trap: 10 days}
`
    expect(levels(site(terms('routine-visits: monthly')) + plan, '2026-03-16')).toEqual([['warning', 'plan']])
    expect(lapses('device-overdue', site(terms('routine-visits: monthly')) + plan, '2026-03-16')).toEqual([
      '2026-03-16..',
    ])
  })
})

holds('trap-left-over-closure', [
  [
    'from the fourth closed day, until it is read',
    district() + setSnap('2026-03-27') + check('2026-04-06', 'readings: {none: [S1]}', 'picked-up: [S1]'),
    '2026-04-07',
    ['2026-04-02..2026-04-06'],
  ],
  [
    'picked up before the closure',
    district() + setSnap('2026-03-27') + check('2026-03-28', 'readings: {none: [S1]}', 'picked-up: [S1]'),
    '2026-04-07',
    [],
  ],
  [
    'looked at on Wednesday of the closure, which leaves two closed days',
    district() +
      setSnap('2026-03-27') +
      check('2026-04-01', 'readings: {none: [S1]}') +
      check('2026-04-06', 'readings: {none: [S1]}', 'picked-up: [S1]'),
    '2026-04-07',
    [],
  ],
  [
    'a closure of three days',
    district().replace('2026-03-30 to 2026-04-03', '2026-04-01 to 2026-04-03') +
      setSnap('2026-03-27') +
      check('2026-04-06', 'readings: {none: [S1]}', 'picked-up: [S1]'),
    '2026-04-07',
    [],
  ],
  ['a board for insects is no trap that holds animals', district(), '2026-04-07', []],
  [
    'an interval that the contract states for this kind counts',
    district() +
      site(terms('routine-visits: monthly, checks: {sticky-trap: monthly, multiple-catch-trap: 2 weeks}')) +
      visit(
        '2026-03-27-lind',
        'set-up',
        'set: {M1: {kind: multiple-catch-trap, area: kitchen, within-reach: no, secured: yes, marked: yes}}',
      ) +
      check('2026-04-06', 'readings: {none: [M1]}', 'picked-up: [M1]'),
    '2026-04-07',
    [],
  ],
])

describe('trap-left-over-closure', () => {
  it('takes over from the daily check, so that one cause is told once on any day', () => {
    const example =
      district() + setSnap('2026-03-27') + check('2026-04-06', 'readings: {none: [S1]}', 'picked-up: [S1]')
    expect(lapses('device-overdue', example, '2026-04-07')).toContain('2026-03-29..2026-04-02')
  })
})

const lost = visit('2026-03-10-okafor', 'follow-up', 'readings: {K1: {unusable: wet}}')
holds('lost-device-not-renewed', [
  ['seven days are in time', lost, '2026-03-17', ['2026-03-18..']],
  ['renewed on the seventh', lost + check('2026-03-17', 'readings: {K1: {renewed: yes}}'), '2026-03-20', []],
  [
    'missing, and found again',
    lost.replace('wet', 'missing') + check('2026-03-19', read),
    '2026-03-20',
    ['2026-03-18..2026-03-19'],
  ],
  ['wet, and read again without renewal', lost + check('2026-03-19', read), '2026-03-20', ['2026-03-18..']],
  [
    'found lost again is one trouble, and taken up ends it',
    lost +
      check('2026-03-16', 'readings: {K1: {unusable: missing}}') +
      check('2026-03-19', 'taken-up: {K1: gone}'),
    '2026-03-20',
    ['2026-03-18..2026-03-19'],
  ],
  [
    'no access says nothing',
    lost + check('2026-03-12', 'readings: {K1: {no-access: locked}}'),
    '2026-03-20',
    ['2026-03-18..'],
  ],
])
