import { lifeStages } from '../../records/fields.js'
import type { CsvRow } from './csv-rows.js'
import type { CountsMapping } from './mapping.js'
import { readCount } from './numbers.js'
import type { Known } from './row-head.js'
import { sentence, unknownName } from './row-head.js'
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

/** The counts of a row. `needsCount`: nothing else in the row says what was found. */
export type CountTaker = (row: CsvRow, needsCount: boolean) => readonly CountEntry[] | 'not looked at'

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
  if (canDoWithout && !pest && !count) return () => []
  if ((!pest && mapping.pest === undefined) || (!count && mapping.count === undefined))
    blameHeader(
      sheet,
      'Nothing says what was counted: `pest` and `count` in the mapping, or `pests` where each pest has a column.',
    )
  return undefined
}

function long(
  sheet: Sheet,
  mapping: CountsMapping,
  pestOf: Take,
  countOf: Take,
  stageOf: Take | undefined,
): CountTaker {
  return (row, needsCount) => {
    const pest = pestOf(row)
    const cell = countOf(row)
    const stage = stageOf?.(row).text ?? ''
    if (stageOf && stage !== '' && !(lifeStages as readonly string[]).includes(stage))
      blame(sheet, stageOf(row), `\`${stage}\` is no life stage; there are ${lifeStages.join(', ')}.`)
    if (cell.text === '') {
      if (!needsCount) return []
      if (mapping['empty-count'] === 'not looked at') return 'not looked at'
    }
    const count = numberIn(sheet, mapping, cell)
    if (count === undefined) return []
    if (count > 0 && pest.text === '') {
      blame(sheet, pest, `${count} of which pest? There is none here.`)
      return []
    }
    return [{ pest: pest.text, stage, count, cell, named: pest }]
  }
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
  return (row, needsCount) => {
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
          'Is empty, while another pest of this device has a count: a reading that does not name a pest says that there was none. Write the number.',
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
    blame(
      sheet,
      cell,
      'There is no count here. Write 0 if it was looked at and there was none; or say in the mapping what an empty cell means: `empty-count: zero` or `empty-count: not looked at`.',
    )
    return undefined
  }
  const read = readCount(cell.text, mapping.decimal)
  if ('count' in read) return read.count
  blame(sheet, cell, sentence(read.refused))
  return undefined
}
