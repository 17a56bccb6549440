import type { Row } from '../../types.js'
import { counted } from '../outcomes.js'
import { answered } from './answered.js'
import type { YearFacts } from './facts.js'
import { commandFor } from './facts.js'
import { pick, rowsOf, sumOf } from './pick.js'
import type { Answer, Point } from './review.js'

const notLookedAt = new Set(['seen, no device for it', 'could not be entered', 'not inspected'])

/**
 * Areas that nobody entered or that were left too long, pests seen or complained of where no device for them stands, and
 * places that stand out without a condition on record there.
 */
export function overlooked(facts: YearFacts): Answer {
  const { contract, coverage, hotspots } = facts.reports
  const visits = rowsOf(contract, 'on-visits')
  const notEntered = sumOf(visits, 'area-not-entered')
  const leftTooLong = sumOf(visits, 'area-not-inspected')
  const seenWithout = rowsOf(coverage, 'needs').filter(({ cells }) => cells.need === 'seen, no device for it')
  const spots = [...rowsOf(hotspots, 'places'), ...rowsOf(hotspots, 'devices')]
  const withoutCause = spots.filter((spot) => !hasCause(spot, rowsOf(hotspots, 'conditions')))
  return answered(facts, {
    id: 'overlooked',
    question: 'Were breeding or hiding places overlooked?',
    answer: [
      `On ${counted(sumOf(visits, 'routine-visit'), 'routine visit')}, areas could not be entered ${timesOf(notEntered)} and had been left too long ${timesOf(leftTooLong)}`,
      `a pest was seen or complained of in ${counted(seenWithout.length, 'area')} without a device for it`,
      spots.length === 0
        ? 'no place surely catches more than the others.'
        : `of ${counted(spots.length, 'place or device', 'places or devices')} that stand out, ${withoutCause.length} ${withoutCause.length === 1 ? 'has' : 'have'} no condition on record there.`,
    ].join('; '),
    tables: [
      ...pick(facts, {
        report: 'contract',
        table: 'on-visits',
        title: 'Areas on routine visits: not entered, or left longer than the rulebooks in force let them',
        columns: ['site', 'routine-visit', 'area-not-entered', 'area-not-inspected'],
      }),
      ...['needs-shown', 'needs'].flatMap((table) =>
        pick(facts, {
          report: 'coverage',
          table,
          title: 'Areas nobody looked at, and pests people saw where no device for them stands',
          columns: ['site', 'area', 'pest', 'need', 'last-seen'],
          only: ({ cells }) => notLookedAt.has(String(cells.need)),
          empty: 'By these records there is none.',
        }),
      ),
      ...pick(facts, {
        report: 'hotspots',
        table: 'places',
        columns: [
          'site',
          'floor',
          'pest',
          'where',
          'by-shown',
          'caught-shown',
          'times-shown',
          'caught',
          'times',
        ],
        empty: 'None does surely.',
      }),
      ...(spots.length === 0 ? [] : spotTables(facts)),
    ],
    commands: ['coverage', 'hotspots'].map((report) => commandFor(facts, report)),
    points: [
      ...pointIf(
        notEntered,
        2,
        `areas could not be entered ${timesOf(notEntered)} on routine visits: settle keys and times`,
      ),
      ...pointIf(leftTooLong, 2, `areas were left too long between inspections ${timesOf(leftTooLong)}`),
      ...pointIf(
        seenWithout.length,
        2,
        `a pest was seen or complained of in ${counted(seenWithout.length, 'area')} without a device for it`,
      ),
      ...pointIf(
        withoutCause.length,
        2,
        `${counted(withoutCause.length, 'place or device stands', 'places or devices stand')} out without a condition on record there: look for the cause`,
      ),
    ],
  })
}

/** Single devices that stand out, and what is on record in the areas of all that do. */
function spotTables(facts: YearFacts) {
  return [
    ...pick(facts, {
      report: 'hotspots',
      table: 'devices',
      columns: [
        'site',
        'area',
        ...(facts.withParts.has('floor-plan') ? ['device'] : []),
        'pest',
        'caught-shown',
        'trap-nights',
        'times-shown',
      ],
    }),
    ...pick(facts, {
      report: 'hotspots',
      table: 'conditions',
      columns: ['site', 'area', 'pest', 'what', 'gives', 'since', 'state', 'owner'],
    }),
  ]
}

/** Whether a condition is on record where a place or a device stands out for a pest. */
function hasCause({ cells }: Row, conditions: readonly Row[]): boolean {
  return conditions.some(
    ({ cells: there }) =>
      there.site === cells.site &&
      there.pest === cells.pest &&
      (cells.area === undefined
        ? String(cells.where).includes(`${there.area} (`)
        : there.area === cells.area),
  )
}

export function pointIf(count: number, rank: Point['rank'], says: string): Point[] {
  return count > 0 ? [{ rank, says }] : []
}

export function timesOf(count: number): string {
  return count === 1 ? 'once' : `${count} times`
}
