import { dayIn } from '../ledger/spans.js'
import type { RecordOf } from '../records/kinds.js'
import { activeTable } from '../records/tables.js'
import { baitFormulations, concentrates } from '../records/use-words.js'
import type { Row, Table } from '../types.js'
import type { Page, Status } from './application-page.js'
import { answer, answers, publicAreaName } from './application-page.js'
import { formWords, kindWords, methodWords, quantityWords, signalWords } from './application-words.js'

const used: Readonly<Record<Status, string>> = {
  done: 'was used',
  planned: 'is to be used',
  passed: 'was to be used',
  cancelled: 'was to be used',
}
const amounts: Readonly<Record<Status, string>> = {
  done: 'How much',
  planned: 'How much is planned',
  passed: 'How much was planned',
  cancelled: 'How much was planned',
}
const asked: ReadonlySet<RecordOf<'product'>['kind']> = new Set([
  'pesticide',
  'minimum-risk',
  'antimicrobial',
])

/** Which product, what kind of thing it is, how it was put out, and how much. */
export function productTable(page: Page): Table {
  return answers('product', `What ${used[page.status]}`, [...productRows(page), ...useRows(page)])
}

export function productName({ view, record }: Page): string {
  const id = record.data.product
  return view.district.products.get(id)?.data.name ?? id.replaceAll('-', ' ')
}

/** Whether the register has a record of the product that cannot be used. */
export function isBrokenProduct({ view, record }: Page): boolean {
  return view.district.broken.has(`product ${record.data.product}`)
}

function productRows(page: Page): Row[] {
  const { view, record, known } = page
  const product = view.district.products.get(record.data.product)
  const row = (question: string, says: string) => answer(question, says, [product?.file ?? record.file])
  if (!product)
    return [
      row('Product', productName(page)),
      row(
        'What it is',
        isBrokenProduct(page)
          ? 'Its record in the product register cannot be used, so what it is, what is in it and its number are not shown here.'
          : 'It is not in the product register, so what it is, what is in it and its number are not shown.',
      ),
    ]
  const { data } = product
  const form = formWords[record.data.formulation ?? data.formulation ?? 'other']
  const word = data['signal-word']
  return [
    row('Product', data.maker === undefined ? data.name : `${data.name}, made by ${data.maker}`),
    row('What it is', form === undefined ? kindWords[data.kind] : `${form}: ${kindWords[data.kind]}`),
    row('Active ingredient', ingredients(data)),
    row('EPA number', registration(data)),
    row(
      'Warning word on the label',
      word === undefined ? notRecorded(data.kind, 'warning word') : signalWords[word],
    ),
    ...(data['restricted-use'] === 'yes'
      ? [
          row(
            'Restricted use',
            'The label says that only certified people, or those they watch over, use it.',
          ),
        ]
      : []),
    ...(data.cancelled && dayIn(data.cancelled.on) <= known
      ? [row('Registration ended', `cancelled or suspended on ${data.cancelled.on}`)]
      : []),
  ]
}

function ingredients({ kind, 'active-ingredients': actives }: RecordOf<'product'>): string {
  const listed = Object.entries(actives ?? {}).map(
    ([id, { strength }]) =>
      `${activeTable().get(id)?.name ?? id.replaceAll('-', ' ')}${strength === undefined ? ' (how strong it is is not on record)' : ` ${strength}`}`,
  )
  return listed.length > 0
    ? `${listed.join(', ')} (the part of it that works on the pest)`
    : notRecorded(kind, 'active ingredient (the part of it that works on the pest)')
}

function registration({ kind, registration: number }: RecordOf<'product'>): string {
  if (number !== undefined) return `${number} (the number under which the government registered it)`
  if (kind === 'minimum-risk') return 'none; see above'
  return notRecorded(kind, 'registration number')
}

function notRecorded(kind: RecordOf<'product'>['kind'], what: string): string {
  return asked.has(kind) ? `The record does not show its ${what}.` : 'none on record'
}

function useRows(page: Page): Row[] {
  const { record, status, view } = page
  const { data, file } = record
  const row = (question: string, says: string) => answer(question, says, [file])
  const areas = Object.entries(data.areas)
  const inEach = areas.filter(([, { amount }]) => amount !== undefined)
  const sizes = [data['treated-extent'], data['treated-length'], data['treated-space']].filter(
    (size) => size !== undefined,
  )
  const form = data.formulation ?? view.district.products.get(data.product)?.data.formulation
  const isMixed = data.dilution !== undefined || (form !== undefined && concentrates.has(form))
  return [
    row(`How it ${used[status]}`, methodWords[data.method]),
    row(
      amounts[status],
      data.amount !== undefined
        ? `${quantityWords(data.amount)}${isMixed ? ', not counting the water it is mixed with' : ''}`
        : inEach.length > 0
          ? 'The record does not give the amount in all.'
          : 'The record does not say how much.',
    ),
    ...(inEach.length > 0 && (areas.length > 1 || data.amount === undefined)
      ? [
          row(
            'How much in each place',
            areas
              .map(
                ([area, { amount }]) =>
                  `${publicAreaName(view, area)} ${amount === undefined ? 'not recorded' : quantityWords(amount)}`,
              )
              .join('; '),
          ),
        ]
      : []),
    ...(data.dilution
      ? [row('Mixed with', `${quantityWords(data.dilution.water)} of water or the like`)]
      : []),
    ...(sizes.length > 0 ? [row('Size of what was treated', sizes.map(quantityWords).join('; '))] : []),
    ...reachRows(page),
  ]
}

/** Bait lies where it was put, so whether children can get at it is asked of bait alone. */
function reachRows({ record, view, status }: Page): Row[] {
  const { data, file } = record
  const formulation = data.formulation ?? view.district.products.get(data.product)?.data.formulation
  const isBait =
    data.method === 'in-a-station' ||
    data.method === 'bait-placement' ||
    (formulation !== undefined && baitFormulations.has(formulation))
  if (!isBait || status === 'cancelled') return []
  const says = Object.entries(data.areas).map(
    ([area, facts]) => `${publicAreaName(view, area)}: ${reachWords(facts)}`,
  )
  return [answer('Can children reach it?', says.join('; '), [file])]
}

function reachWords(facts: RecordOf<'application'>['areas'][string]): string {
  const { 'within-reach': reach, 'tamper-resistant': isBox } = facts
  if (reach === undefined) return 'the record does not say'
  if (reach === 'no') return 'no, by the record'
  return isBox === 'yes'
    ? 'yes, by the record, in a box made so that children cannot open it'
    : 'yes, by the record'
}
