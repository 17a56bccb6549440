import {
  district,
  holds,
  kitchenOnly,
  monthly,
  noVisit,
  read,
  refused,
  routine,
  site,
  terms,
  visit,
} from './inspection-examples.js'

holds('visit-overdue', [
  ['April is in time to 5 May, and told ahead', district(), '2026-05-05', ['2026-05-06..']],
  ['and overdue on 6 May, with May to come', district(), '2026-05-06', ['2026-05-06..', '2026-06-06..']],
  [
    'a visit on the last day of grace counts for April, so that May still waits',
    district() + routine('2026-05-05'),
    '2026-05-20',
    ['2026-06-06..'],
  ],
  [
    'one on the day after is a day late and counts for May; June has ten school days',
    district() + routine('2026-05-06'),
    '2026-05-20',
    ['2026-05-06..2026-05-06', '2026-07-06..'],
  ],
  [
    'two visits in one month: the first for the month before, the second for its own',
    district() + routine('2026-05-04') + routine('2026-05-20'),
    '2026-05-20',
    ['2026-07-06..'],
  ],
  [
    'in the days of grace of a month that has its visit, a visit counts for its own month',
    district() + routine('2026-04-02'),
    '2026-05-10',
    ['2026-06-06..'],
  ],
  [
    'nothing is due in July and August',
    district() + routine('2026-04-07') + routine('2026-05-07') + routine('2026-06-04'),
    '2026-09-30',
    ['2026-10-06..'],
  ],
  [
    'unless the contract says in-recess',
    district() +
      site(terms(`${monthly}, in-recess: yes`)) +
      routine('2026-04-07') +
      routine('2026-05-07') +
      routine('2026-06-04'),
    '2026-09-01',
    ['2026-08-06..', '2026-09-06..'],
  ],
  [
    'the next routine visit ends it',
    district() + routine('2026-05-18'),
    '2026-05-20',
    ['2026-05-06..2026-05-18', '2026-07-06..'],
  ],
  [
    'a first month with eight school days left is not due',
    district('', '2026-03-18') + noVisit,
    '2026-04-05',
    ['2026-05-06..'],
  ],
  [
    'one with ten is (without the spring break)',
    district('', '2026-03-18').replace(', closed: {spring-break: 2026-03-30 to 2026-04-03}', '') + noVisit,
    '2026-04-06',
    ['2026-04-06..', '2026-05-06..'],
  ],
  [
    'a site closed before the last day in time owes nothing',
    district() + site(terms(monthly), 'until: 2026-05-05'),
    '2026-05-20',
    [],
  ],
  [
    'what a closed site owed ends with it',
    district() + site(terms(monthly), 'until: 2026-05-10'),
    '2026-05-20',
    ['2026-05-06..2026-05-11'],
  ],
  [
    'nothing is due between two contracts',
    district() + noVisit + site(`${terms(`${monthly}, until: 2026-03-31`)}, ${terms(monthly, '2026-05-01')}`),
    '2026-05-20',
    ['2026-06-06..'],
  ],
  [
    'weekly with two days of grace',
    district() + site(terms('routine-visits: weekly, grace: 2 days, checks: {sticky-trap: monthly}')),
    '2026-03-14',
    ['2026-03-15..'],
  ],
  [
    'weekly, made on the last day in time, then missed',
    district() +
      site(terms('routine-visits: weekly, grace: 2 days, checks: {sticky-trap: monthly}')) +
      routine('2026-03-14'),
    '2026-03-26',
    ['2026-03-24..'],
  ],
  [
    'a due day in a closure moves to the next school day',
    district() + site(terms('routine-visits: every 14 days')) + routine('2026-03-19') + routine('2026-04-08'),
    '2026-04-08',
    ['2026-04-07..2026-04-08', '2026-04-23..'],
  ],
  [
    'but not where visits are due in recess too',
    district() +
      site(terms('routine-visits: every 14 days, in-recess: yes')) +
      routine('2026-03-19') +
      routine('2026-04-08'),
    '2026-04-08',
    ['2026-04-03..2026-04-08', '2026-04-23..'],
  ],
  [
    'nor do days of grace end in a closure',
    district() + site(terms('routine-visits: every 14 days, grace: 3 days')) + routine('2026-03-13'),
    '2026-04-01',
    ['2026-04-07..'],
  ],
  [
    'a renewed contract does not start the count anew',
    district() +
      site(
        `${terms('routine-visits: weekly, until: 2026-03-09')}, ${terms('routine-visits: weekly', '2026-03-10')}`,
      ),
    '2026-03-13',
    ['2026-03-13..'],
  ],
  [
    'a new interval counts from its first day',
    district() +
      site(`${terms(`${monthly}, until: 2026-04-12`)}, ${terms('routine-visits: weekly', '2026-04-13')}`),
    '2026-04-20',
    ['2026-04-21..'],
  ],
])

holds('site-manager-not-told', [
  [
    'until the next routine visit that names one',
    routine('2026-03-10', read, 'site-manager: designee') +
      visit(
        '2026-03-05-okafor',
        'routine',
        'set: {K1: {kind: sticky-trap, area: kitchen, within-reach: no}}',
      ).replace('site-manager: lind\n', ''),
    '2026-03-12',
    ['2026-03-05..2026-03-10'],
  ],
  ['only routine visits are asked', visit('2026-03-10-okafor', 'callback', read), '2026-03-12', []],
])

const attic = (facts: string, until = '') => site(terms(monthly), `  attic: {kind: storage${facts}}`, until)
const withAttic = 'inspected: [kitchen, room-1, attic]'
holds('area-never-inspected', [
  [
    '92 days that are no closure after 1 March: 1 June, and five more for the break',
    district() + attic('') + routine('2026-04-09'),
    '2026-06-06',
    ['2026-06-07..'],
  ],
  [
    'an area that begins later counts from then',
    district('area.inspect: 20 days') + attic(', from: 2026-04-06') + routine('2026-04-09'),
    '2026-04-28',
    ['2026-04-27..'],
  ],
  [
    'until it is inspected, or no longer there',
    district('area.inspect: 20 days') +
      attic('') +
      routine('2026-03-10') +
      visit('2026-03-24-okafor', 'follow-up', 'inspected: [attic]'),
    '2026-03-26',
    ['2026-03-22..2026-03-24'],
  ],
  [
    'no longer part of the site',
    district('area.inspect: 20 days') + attic(', until: 2026-03-23'),
    '2026-03-26',
    ['2026-03-22..2026-03-24'],
  ],
  [
    'no routine visit since: that is told instead',
    district('area.inspect: 2 days') + noVisit,
    '2026-03-20',
    [],
  ],
  [
    'refused entry twice running: that is told instead',
    district('area.inspect: 20 days') +
      attic('') +
      routine('2026-03-10', read, 'no-entry: {attic: no key}') +
      routine('2026-03-17', read, 'no-entry: {attic: no key}'),
    '2026-03-26',
    [],
  ],
])

holds('area-not-inspected-lately', [
  [
    'counted from the last inspection, once a routine visit has left it out',
    district('area.inspect: 20 days') +
      attic('') +
      routine('2026-03-06', read, withAttic) +
      routine('2026-03-25'),
    '2026-03-26',
    ['2026-03-27..'],
  ],
  [
    'every long gap is told, each with its end',
    district('area.inspect: 7 days') +
      attic('') +
      routine('2026-03-06', read, withAttic) +
      routine('2026-03-12') +
      routine('2026-03-16', read, withAttic) +
      routine('2026-03-22') +
      routine('2026-03-24', read, withAttic),
    '2026-03-28',
    ['2026-03-14..2026-03-16', '2026-03-24..2026-03-24'],
  ],
])

holds('no-entry-running', [
  [
    'from the second refusal until an inspection, whatever the visit',
    routine('2026-03-10', read, kitchenOnly, refused) +
      routine('2026-03-14', read, kitchenOnly, refused) +
      visit('2026-03-18-okafor', 'callback', 'inspected: [room-1]'),
    '2026-03-20',
    ['2026-03-14..2026-03-18'],
  ],
  [
    'an inspection between breaks the run',
    routine('2026-03-10', read, kitchenOnly, refused) +
      visit('2026-03-12-okafor', 'callback', 'inspected: [room-1]') +
      routine('2026-03-14', read, kitchenOnly, refused),
    '2026-03-20',
    [],
  ],
  [
    'two refusals of one day are one attempt',
    routine('2026-03-10', read, kitchenOnly, refused) +
      visit('2026-03-10-lind', 'routine', kitchenOnly, refused),
    '2026-03-20',
    [],
  ],
  [
    'refused at first and inspected after all on the same visit',
    routine('2026-03-10', read, kitchenOnly, refused) + routine('2026-03-14', read, refused),
    '2026-03-20',
    [],
  ],
  [
    'a third refusal adds nothing',
    routine('2026-03-10', read, kitchenOnly, refused) +
      routine('2026-03-14', read, kitchenOnly, refused) +
      routine('2026-03-18', read, kitchenOnly, refused),
    '2026-03-20',
    ['2026-03-14..'],
  ],
  [
    'refused on callbacks only',
    visit('2026-03-10-okafor', 'callback', refused) + visit('2026-03-12-okafor', 'callback', refused),
    '2026-03-20',
    [],
  ],
])

const review = (year: number, held: string) => `=== reviews/${year}.yaml
held: ${held}
by: marsh
present: [IPM coordinator]
decisions: {}
`
const years = (begins: string) =>
  district('', begins) + site(terms(monthly, '2026-09-08'), 'from: 2026-09-08')
holds('review-not-held', [
  [
    'records that begin in January are six months old by the end of June',
    years('2025-12-31'),
    '2026-06-30',
    ['2026-07-01..'],
  ],
  ['those that begin a day later are not', years('2026-01-01'), '2026-06-30', ['2027-07-01..']],
  [
    'held late',
    years('2025-12-01') + review(2026, '2026-07-15'),
    '2026-08-01',
    ['2026-07-01..2026-07-15', '2027-07-01..'],
  ],
  ['held in time', years('2025-12-01') + review(2026, '2026-06-30'), '2026-08-01', ['2027-07-01..']],
  [
    'every year, and the next to come',
    years('2024-08-01'),
    '2026-08-01',
    ['2025-07-01..', '2026-07-01..', '2027-07-01..'],
  ],
])
