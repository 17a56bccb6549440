import { isoOf } from '../measure/calendar.js'
import type { Quantity } from '../measure/quantities.js'
import { compareQuantities, parseQuantity } from '../measure/quantities.js'
import type { Opening } from '../records/placing.js'
import { openingTable } from '../records/placing.js'
import type { Day, Report, Row } from '../types.js'
import { pestCautions } from './pest-cautions.js'
import { pestName } from './pest-name.js'

export interface OpeningAsked {
  readonly asOf: Day
  readonly pest?: string
  readonly width?: Quantity
}

/** Holes of this width and more are backed or covered before they are patched. */
const largeHole = '3 in'

/** What passes an opening, and what stops it; all openings where none is named. */
export function layoutOpeningsReport({ asOf, pest, width }: OpeningAsked): Report {
  const rows = [...openingTable().values()].filter(({ pests }) => pest === undefined || pests.includes(pest))
  const told = rows.map((row) => ({ row, passes: passes(row, width) }))
  const passing = told.filter((one) => one.passes === true)
  const sources =
    'Large holes, patches and steel wool: Internet Center for Wildlife Damage Management, rodent exclusion methods.'
  return {
    report: 'layout-openings',
    title: 'What an opening lets in, and what stops it',
    headline: headlineOf(
      told.length,
      passing.flatMap(({ row }) => namesOf(row)),
      width,
      pest,
    ),
    asOf: isoOf(asOf),
    facts: width ? [{ label: 'opening', value: `${width.value} ${width.unit} wide` }] : [],
    tables: [
      {
        id: 'openings',
        title: 'Openings',
        columns: [
          { id: 'pest', title: 'pest' },
          ...(width ? [{ id: 'passes', title: 'passes it' }] : []),
          { id: 'admits', title: 'passes an opening' },
          { id: 'stops', title: 'what stops it' },
          { id: 'source', title: 'source', for: 'work' as const },
        ],
        rows: told.map(
          (one): Row => ({
            cells: {
              pest: namesOf(one.row).join(', '),
              passes: one.passes ? 'yes' : 'not an adult, by these figures',
              admits: admitsWords(one.row),
              stops: one.row.stops,
              source: one.row.source,
            },
            records: [],
          }),
        ),
        empty: 'Nothing is known of what lets this pest in.',
      },
    ],
    cautions: [
      'Close an opening when nothing is shut in, least of all bats or nesting birds.',
      `Holes of ${largeHole} and more are backed or covered with 1/4 in hardware cloth before they are patched; a metal patch of 6 by 6 in covers a hole of 5 by 5 in. Steel wool rusts: copper or stainless mesh lasts. ${sources}`,
      'Under a door no pencil passes and no light shows (common practice, no source). Fire doors, vents and exits stay as fire and building code want them.',
      ...pestCautions(pest === undefined ? [] : [pest]),
    ],
    notExamined: [],
    incomplete: false,
  }
}

const namesOf = ({ pests }: Opening) => pests.map(pestName)

function passes(row: Opening, width: Quantity | undefined): boolean | undefined {
  if (!width) return undefined
  const above = parseQuantity(row['admits-above'] ?? '')
  if (above) return compareQuantities(width, above) === 1
  const from = parseQuantity(row['admits-from'] ?? '')
  return from !== null && (compareQuantities(width, from) ?? -1) >= 0
}

function admitsWords(row: Opening): string {
  return row['admits-above'] === undefined ? `from ${row['admits-from']}` : `above ${row['admits-above']}`
}

function headlineOf(
  known: number,
  passing: readonly string[],
  width: Quantity | undefined,
  pest: string | undefined,
): string {
  if (known === 0)
    return `Nothing is known of what lets ${pest === undefined ? 'it' : `the ${pestName(pest)}`} in.`
  if (!width) return 'What is wide enough for each pest, and what keeps it out.'
  if (passing.length === 0) return `No pest of the table passes an opening of ${width.value} ${width.unit}.`
  return `An opening of ${width.value} ${width.unit} lets in: ${passing.join(', ')}.`
}
