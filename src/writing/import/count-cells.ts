import { lifeStages } from '../../records/fields.js'
import type { CsvRow } from './csv-rows.js'
import type { CountsMapping } from './mapping.js'
import { readCount } from './numbers.js'
import type { Known } from './row-head.js'
import { remedyOfUnknown, sentence, unknownName } from './row-head.js'
import type { Cell, Sheet, Take } from './sheet.js'
import { blame, blameHeader, takerOf } from './sheet.js'

/** One count of a row; no pest in particular where the row only says that nothing was there. */
export interface CountEntry {
  readonly pest: string
  readonly stage: string
  readonly count: number
  /** The cell with the number. */
  readonly cell: Cell
  /** The cell with the name of the pest; none where its column is the pest's. */
  readonly named?: Cell
}

/** What the rest of a row says. */
export interface RestOfRow {
  /** Nothing else in it says what was found. */
  readonly needsCount: boolean
  /** It names an animal that is in no table. */
  readonly hasOther: boolean
  readonly device: Cell
}

/** The counts of a row. */
export type CountTaker = (row: CsvRow, rest: RestOfRow) => readonly CountEntry[] | 'not looked at'

/** How a file says its counts: a column for each pest, or a row for each. Undefined, and blamed, where it does not. */
export function countTaker(
  sheet: Sheet,
  mapping: CountsMapping,
  canDoWithout: boolean,
  { pests }: Known,
): CountTaker | undefined {
  if (mapping.pests) return wide(sheet, mapping, mapping.pests, pests)
  const pest = takerOf(sheet, 'pest', mapping.pest)
  const count = takerOf(sheet, 'count', mapping.count)
  const stage = takerOf(sheet, 'stage', mapping.stage)
  if (pest && count) return long(sheet, mapping, pest, count, stage)
  if (canDoWithout && !pest && !count) return (_, rest) => withoutCounts(sheet, mapping, rest)
  if ((!pest && mapping.pest === undefined) || (!count && mapping.count === undefined))
    blameHeader(
      sheet,
      'Nothing says what was counted: `pest` and `count` in the mapping, or `pests` where each pest has a column.',
    )
  return undefined
}

/** No count is asked for; but a row in which nothing says what was found is no zero either. */
function withoutCounts(
  sheet: Sheet,
  mapping: CountsMapping,
  { needsCount, hasOther, device }: RestOfRow,
): readonly CountEntry[] | 'not looked at' {
  if (!needsCount || hasOther || mapping['empty-count'] === 'zero') return []
  if (mapping['empty-count'] === 'not looked at') return 'not looked at'
  blame(sheet, device, 'Nothing in this row says what was found.', undefined, remedyOfNoCount)
  return []
}

function long(
  sheet: Sheet,
  mapping: CountsMapping,
  pestOf: Take,
  countOf: Take,
  stageOf: Take | undefined,
): CountTaker {
  return (row, { needsCount, hasOther }) => {
    const pest = pestOf(row)
    const cell = countOf(row)
    const stage = stageOf?.(row).text ?? ''
    if (stageOf && stage !== '' && !(lifeStages as readonly string[]).includes(stage))
      blame(
        sheet,
        stageOf(row),
        `\`${stage}\` is no life stage; there are ${lifeStages.join(', ')}.`,
        undefined,
        remedyOfUnknown,
      )
    if (pest.text === 'none') return saidNone(sheet, mapping, pest, cell)
    if (cell.text === '' && pest.text === '' && hasOther) return []
    if (cell.text === '') {
      if (!needsCount) return []
      if (mapping['empty-count'] === 'not looked at') return 'not looked at'
    }
    const count = numberIn(sheet, mapping, cell)
    if (count === undefined) return []
    if (count > 0 && pest.text === '') {
      blame(
        sheet,
        pest,
        `${count} of which pest? There is none here.`,
        undefined,
        'Name it; `unidentified` if no one knows. An animal that is in no table stands under `other`, its number under `other-count`.',
      )
      return []
    }
    return [{ pest: pest.text, stage, count, cell, named: pest }]
  }
}

/** `none` in place of a pest: nothing was there, so a number beside it can only be 0. */
function saidNone(sheet: Sheet, mapping: CountsMapping, pest: Cell, cell: Cell): readonly CountEntry[] {
  const count = cell.text === '' ? 0 : numberIn(sheet, mapping, cell)
  if (count === undefined) return []
  if (count > 0) {
    blame(sheet, cell, `Says both: \`none\`, and a count of ${count}.`, undefined, 'Keep one of the two.')
    return []
  }
  return [{ pest: '', stage: '', count: 0, cell: pest }]
}

function wide(
  sheet: Sheet,
  mapping: CountsMapping,
  pests: NonNullable<CountsMapping['pests']>,
  known: ReadonlySet<string>,
): CountTaker | undefined {
  for (const pest of Object.keys(pests))
    if (!known.has(pest))
      blameHeader(sheet, `In \`pests\` of the mapping: ${unknownName('pest', pest, known)}`)
  const columns = Object.entries(pests).flatMap(([pest, from]) =>
    (typeof from === 'string' ? [['', from] as const] : Object.entries(from)).map(([stage, column]) => ({
      pest,
      stage,
      take: takerOf(sheet, column, column),
    })),
  )
  return (row, { needsCount }) => {
    const cells = columns.flatMap(({ pest, stage, take }) => (take ? [{ pest, stage, cell: take(row) }] : []))
    if (cells.every(({ cell }) => cell.text === '')) {
      if (!needsCount) return []
      if (mapping['empty-count'] === 'not looked at') return 'not looked at'
    }
    return cells.flatMap(({ pest, stage, cell }) => {
      if (cell.text === '' && mapping['empty-count'] === 'not looked at') {
        blame(
          sheet,
          cell,
          'Is empty, while another pest of this device has a count: a reading that does not name a pest says that there was none.',
          'Write the number.',
        )
        return []
      }
      const count = numberIn(sheet, mapping, cell)
      return count === undefined ? [] : [{ pest, stage, count, cell }]
    })
  }
}

function numberIn(sheet: Sheet, mapping: CountsMapping, cell: Cell): number | undefined {
  if (cell.text === '') {
    if (mapping['empty-count'] === 'zero') return 0
    blame(sheet, cell, 'There is no count here.', remedyOfNoCount)
    return undefined
  }
  const read = readCount(cell.text, mapping.decimal)
  if ('count' in read) return read.count
  blame(sheet, cell, sentence(read.refused), read.todo)
  return undefined
}

const remedyOfNoCount =
  'Write 0 if it was looked at and there was none; or say in the mapping what an empty cell means: `empty-count: zero` or `empty-count: not looked at`.'
