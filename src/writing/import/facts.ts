import { isoOf } from '../../measure/calendar.js'
import { reading } from '../../records/reading.js'
import type { Yaml } from '../demo/yaml.js'
import { readAmount } from './amounts.js'
import type { CsvRow } from './csv-rows.js'
import type { CountsMapping } from './mapping.js'
import { readCount } from './numbers.js'
import type { Known } from './row-head.js'
import { blameUnknownName, dateTaker, dayIn } from './row-head.js'
import type { Cell, Sheet, Take } from './sheet.js'
import { blame, blameHeader, takerOf } from './sheet.js'

/** What a reading says beside its counts: the value as a record has it, and the cell it comes from. */
export interface Fact {
  readonly value: Yaml
  readonly cell: Cell
}

/** The facts of a row, by the keys of a reading; what is wrong with one is blamed. */
export type FactTaker = (row: CsvRow) => ReadonlyMap<string, Fact>

/** Words that a record knows for a fact. */
const wordsOf: Readonly<Record<string, readonly string[]>> = {
  ...Object.fromEntries(
    (['unusable', 'bait-taken', 'tracks', 'active', 'block'] as const).map((key) => [
      key,
      reading.shape[key].unwrap().options,
    ]),
  ),
  sprung: ['empty', 'other-animal'],
}

/** Keys in the order in which records have them. */
const keys = [
  'renewed',
  'reset',
  'unusable',
  'no-access',
  'sprung',
  'sprung-empty',
  'sprung-other-animal',
  'bait-taken',
  'bait-added',
  'product',
  'lot',
  'tracks',
  'active',
  'block',
  'lamp',
  'other',
  'other-count',
  'after-flush',
] as const
type Key = (typeof keys)[number]

/** Facts by which a row says what was found, so that it needs no count; on devices with bait nothing is counted. */
const showing = ['sprung', 'bait-taken', 'bait-added', 'tracks', 'active', 'block'] as const
/** Facts of a device that someone had in their hands. */
const atTheDevice = [...showing, 'renewed', 'reset', 'unusable', 'lamp', 'other', 'after-flush']

export interface Facts {
  readonly take: FactTaker
  /** Whether the file has a column that says what was found, other than counts. */
  readonly canShow: boolean
}

/** Whether these facts say what was found. */
export const showsByItself = (facts: ReadonlyMap<string, Fact>) =>
  facts.has('unusable') || showing.some((key) => facts.has(key))

export function factsIn(sheet: Sheet, mapping: CountsMapping, known: Known): Facts {
  const lamp = dateTaker(sheet, 'lamp', mapping.lamp)
  const takes = new Map<Key, Take>(
    keys.flatMap((key) => {
      const take = key === 'lamp' ? lamp?.take : takerOf(sheet, key, mapping[key])
      return take ? [[key, take] as const] : []
    }),
  )
  const unit = takerOf(sheet, 'bait-unit', mapping['bait-unit'])
  refuseHalves(sheet, mapping, takes, unit)
  const read: Readonly<Partial<Record<Key, (cell: Cell, row: CsvRow) => Yaml | undefined>>> = {
    renewed: (cell) => yes(sheet, cell, 'renewed'),
    reset: (cell) => yes(sheet, cell, 'reset'),
    'after-flush': (cell) => yes(sheet, cell, 'after-flush'),
    'sprung-empty': (cell) => number(sheet, cell, mapping),
    'sprung-other-animal': (cell) => number(sheet, cell, mapping),
    'other-count': (cell) => number(sheet, cell, mapping),
    'bait-added': (cell, row) => amount(sheet, cell, unit?.(row).text || undefined, mapping),
    product: (cell) => {
      blameUnknownName(sheet, cell, 'product', known.products)
      return cell.text
    },
    'no-access': (cell) => {
      if (cell.text === 'yes' || cell.text === 'no')
        blame(
          sheet,
          cell,
          `\`${cell.text}\` is no reason why the device could not be reached.`,
          'Say under `names` what it means: `no-access: {column: …, names: {yes: locked, no: ""}}`.',
        )
      return cell.text
    },
    lamp: (cell) => {
      const day = lamp && dayIn(sheet, lamp, cell, known)
      return day === undefined ? undefined : isoOf(day)
    },
  }
  const take = (row: CsvRow) => {
    const found = new Map<string, Fact>()
    for (const [key, takeIt] of takes) {
      const cell = takeIt(row)
      if (cell.text === '') continue
      const words = wordsOf[key]
      const value = words ? oneOf(sheet, cell, key, words) : (read[key] ?? textOf)(cell, row)
      if (value !== undefined) found.set(key, { value, cell })
    }
    withSprung(found)
    withBait(sheet, found, takes, row)
    const count = found.get('other-count')
    if (count && !found.has('other'))
      blame(sheet, count.cell, 'Is a count of an animal that nothing names.', 'Name it under `other`.')
    withoutAccess(sheet, found)
    return found
  }
  const canShow = takes.has('other') || [...takes.keys()].some((key) => isShowing(key))
  return { take, canShow }
}

const isShowing = (key: string) => key.startsWith('sprung-') || (showing as readonly string[]).includes(key)
const textOf = ({ text }: Cell) => text

/** Columns that say nothing without another. */
function refuseHalves(
  sheet: Sheet,
  mapping: CountsMapping,
  takes: ReadonlyMap<Key, Take>,
  unit: Take | undefined,
): void {
  const amount = '`bait-added` in the mapping is the column of the amount.'
  if (unit && !takes.has('bait-added'))
    blameHeader(sheet, '`bait-unit` is the unit of an amount, and nothing says the amount.', amount)
  for (const key of ['product', 'lot'] as const) {
    const from = mapping[key]
    if (typeof from === 'object' && from.always !== undefined && !takes.has('bait-added'))
      blameHeader(sheet, `\`${key}\` tells of what was put in, and nothing says how much.`, amount)
  }
  if (takes.has('other-count') && !takes.has('other'))
    blameHeader(
      sheet,
      '`other-count` counts an animal, and nothing says which.',
      '`other` in the mapping is the column of its name.',
    )
}

function yes(sheet: Sheet, cell: Cell, key: string): Yaml | undefined {
  if (cell.text === 'no') return undefined
  if (cell.text !== 'yes')
    blame(
      sheet,
      cell,
      `\`${cell.text}\` is neither yes nor no.`,
      `Say under \`names\` which: \`${key}: {column: …, names: {"${cell.text.slice(0, 20)}": yes}}\`.`,
    )
  return 'yes'
}

function oneOf(sheet: Sheet, cell: Cell, key: string, words: readonly string[]): Yaml {
  if (!words.includes(cell.text))
    blame(
      sheet,
      cell,
      `\`${cell.text}\` is none of ${words.join(', ')}.`,
      `Say under \`names\` which it is (${key}).`,
    )
  return cell.text
}

function number(sheet: Sheet, cell: Cell, { decimal }: CountsMapping): Yaml | undefined {
  const read = readCount(cell.text, decimal)
  if ('count' in read) return read.count
  blame(sheet, cell, read.refused, read.todo)
  return undefined
}

function amount(
  sheet: Sheet,
  cell: Cell,
  unit: string | undefined,
  { decimal }: CountsMapping,
): Yaml | undefined {
  const read = readAmount(cell.text, unit, decimal)
  if ('amount' in read) return read.amount
  if ('refused' in read) blame(sheet, cell, read.refused, read.todo)
  return undefined
}

/** Traps of a set, by how they were sprung: two columns, one fact. Of none there is nothing to say. */
function withSprung(found: Map<string, Fact>): void {
  const empty = found.get('sprung-empty')
  const other = found.get('sprung-other-animal')
  found.delete('sprung-empty')
  found.delete('sprung-other-animal')
  const value = {
    ...(empty && empty.value !== 0 ? { empty: empty.value } : {}),
    ...(other && other.value !== 0 ? { 'other-animal': other.value } : {}),
  }
  const cell = (empty && empty.value !== 0 ? empty : other)?.cell
  if (cell && Object.keys(value).length > 0) found.set('sprung', { value, cell })
}

/** Bait is a use of a product: neither its amount nor its name alone says what was put in. */
function withBait(sheet: Sheet, found: Map<string, Fact>, takes: ReadonlyMap<Key, Take>, row: CsvRow): void {
  const added = found.get('bait-added')
  const product = found.get('product')
  const lot = found.get('lot')
  if (added) {
    if (!product)
      blame(
        sheet,
        added.cell,
        'Bait was put in, and nothing says of which product.',
        undefined,
        'Say it under `product`, as the register names it: what was put in is judged by its label.',
      )
    return
  }
  const amountCell = takes.get('bait-added')?.(row)
  const isSaidEmpty = amountCell !== undefined && amountCell.text !== ''
  // What holds for every row, or stands beside an amount of 0, is of nothing that was put in.
  for (const [key, fact] of [
    ['product', product],
    ['lot', lot],
  ] as const) {
    if (!fact) continue
    if (isSaidEmpty || fact.cell.index < 0) found.delete(key)
    else if (amountCell || key === 'lot')
      blame(
        sheet,
        amountCell && amountCell.index >= 0 ? amountCell : fact.cell,
        `Has a ${key} (${String(fact.value)}), and nothing says how much was put in.`,
        undefined,
        'Write the amount with its unit; 0 where nothing was put in.',
      )
  }
}

function withoutAccess(sheet: Sheet, found: ReadonlyMap<string, Fact>): void {
  if (!found.has('no-access')) return
  for (const key of atTheDevice) {
    const fact = found.get(key)
    if (!fact) continue
    blame(
      sheet,
      fact.cell.index < 0 ? (found.get('no-access')?.cell ?? fact.cell) : fact.cell,
      `Says that the device could not be reached (\`no-access\`), and yet what was found or done there (\`${key}\`).`,
      'Keep one of the two.',
    )
    return
  }
}
