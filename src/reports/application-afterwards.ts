import { firstLookAt, isSeenIn } from '../ledger/grounds-for-treatment.js'
import { dayIn, inForce } from '../ledger/spans.js'
import type { Day, Row, Table } from '../types.js'
import type { Page } from './application-page.js'
import { answer, answers, dayWords, pestWords } from './application-page.js'
import { labelOf, type Paper, sheetOf } from './product-papers.js'

/** Whether someone went back to look, and what the first and the latest look showed. */
export function afterwardsTable(page: Page): Table {
  const { record, status } = page
  const { data, file } = record
  const next = data['follow-up']
  const row = (question: string, says: string) => answer(question, says, [file])
  const look = (question: string, day: Day) =>
    answer(
      question,
      shownOn(page, day),
      page.view.visits.filter((visit) => visit.day === day).map((visit) => visit.file),
    )
  const looks = status === 'done' ? looksAfter(page) : []
  const [first] = looks
  const latest = looks.at(-1)
  return answers('afterwards', 'Looking afterwards whether it helped', [
    row(
      'Planned',
      next
        ? `by ${dayWords(dayIn(next.by))}`
        : 'The record does not say when someone looks whether it helped.',
    ),
    ...(first === undefined
      ? status === 'done'
        ? [row('Done', 'The record shows no visit to the place since.')]
        : []
      : [look('First visit after it', first)]),
    ...(latest === undefined || latest === first ? [] : [look('Latest visit', latest)]),
  ])
}

/** Days after it on which a visit was in one of the treated areas, as far as they are known. */
function looksAfter({ view, record, known }: Page): Day[] {
  const areas = new Set(Object.keys(record.data.areas))
  const days: Day[] = []
  for (
    let day = firstLookAt(view, areas, record.day);
    day !== undefined && day <= known;
    day = firstLookAt(view, areas, day)
  )
    days.push(day)
  return days
}

/** Nothing found is no proof, and what is on a trap may hang there since before. */
function shownOn({ view, record }: Page, day: Day): string {
  const { pest, areas, 'also-against': others } = record.data
  const there = new Set(Object.keys(areas))
  const found = [pest, ...(others ?? [])].map((one) =>
    isSeenIn(view, one, there, { first: day, last: day })
      ? `${pestWords(one)} was seen, or was on a trap (it may have been caught before)`
      : `${pestWords(one)} is not on record there; that does not prove that it is gone`,
  )
  return `${dayWords(day)}: ${found.join('; ')}`
}

/** The label and the safety data sheet of the day, and whether their files are in the control file. */
export function papersTable({ view, record }: Page): { table: Table; unreadable: readonly string[] } {
  const product = view.district.products.get(record.data.product)
  const papers = product
    ? [labelOf(view.district, product, record.day), sheetOf(view.district, product, record.day)]
    : []
  const table: Table = {
    id: 'papers',
    title: 'Papers you can ask to see, with their files in the pest control file',
    columns: [
      { id: 'paper', title: 'paper' },
      { id: 'file', title: 'file' },
      { id: 'remark', title: 'is it there?' },
    ],
    rows: papers.map(
      (paper): Row => ({
        cells: {
          paper: paper.kind === 'label' ? 'label' : 'safety data sheet',
          file: paper.path ?? 'none on record',
          remark: stateOf(paper),
        },
        records: product ? [product.file] : [],
      }),
    ),
    empty: 'The record does not show a label or a safety data sheet: the product is not in the register.',
  }
  const unreadable = papers.flatMap(({ present, path }) =>
    present === 'could not be read' && path !== undefined ? [path] : [],
  )
  return { table, unreadable }
}

function stateOf({ path, present, intact, current }: Paper): string {
  if (path === undefined) return 'no: the register names none for this day'
  if (present === 'no') return 'no: the file is missing'
  if (present === 'could not be read') return 'the file could not be read'
  if (intact === 'no') return 'yes, but it is not the file that was recorded'
  return current === 'no' ? 'yes, but it was no longer in force on this day' : 'yes'
}

/** Whom to ask: the office of the coordinator, by its phone. */
export function askTable({ view, known, withNames }: Page): Table {
  const { people, district } = view.district
  const who = inForce(district.data.coordinator, known)?.who
  const person = who === undefined ? undefined : people.get(who)?.data
  const row = (question: string, says: string) => answer(question, says, [district.file])
  return answers('ask', 'Whom you can ask', [
    row(
      'Office',
      who === undefined
        ? `${district.data.name}; the record names no coordinator for pest control on this day`
        : `coordinator for pest control, ${district.data.name}${withNames && person ? `: ${person.name}` : ''}`,
    ),
    row('Phone', person?.phone ?? 'The record does not show a phone number.'),
    ...(district.data.address === undefined ? [] : [row('Address', district.data.address)]),
  ])
}
