import { isoOf } from '../../src/measure/calendar.js'
import type { Data, DataMap, Draft } from './draft.js'
import { dataOf, put, rename, textAt, write } from './draft.js'
import { coordinatorOf } from './site-records.js'

export const policy = 'rulebooks/tarn-hollow.yaml'

export const basis = {
  source: 'Pest management policy, section 9',
  kind: 'standard',
  confidence: 'read',
} as const

/** The annual notice of 2025-2026, which every one of the ledgers has. */
export function annualNotice(draft: Draft): string {
  const notice = [...draft.files.keys()].find(
    (file) => file.startsWith('filings/') && textAt(dataOf(draft, file), 'what') === 'annual-notice',
  )
  if (notice === undefined) throw new RangeError('no annual notice in this ledger')
  return notice
}

export function redated(draft: Draft, file: string, day: string): string {
  const other = file.replace(/\/\d{4}-\d{2}-\d{2}-/, `/${day}-`)
  rename(draft, file, other)
  return other
}

export function addFiling(draft: Draft, day: string, fields: Readonly<Record<string, Data>>): string {
  const who = coordinatorOf(draft)
  const file = `filings/${day}-${who}-added.yaml`
  write(draft, file, { by: who, ...fields })
  return file
}

export function addDuty(draft: Draft, name: string, says: DataMap): void {
  put(draft, policy, ['yearly', name], [{ from: '2000-01-01', ...says, ...basis }])
}

/** A report of what the school year used so far, filed with the state on the last day of the ledger. */
export function addReport(draft: Draft): string {
  addDuty(draft, 'report', {
    what: 'report-to-the-state',
    year: 'school',
    'days-after-end': 60,
    to: 'the state',
    'lists-products': 'yes',
  })
  const { year = '', products = [] } = dataOf(draft, annualNotice(draft)) as DataMap
  return addFiling(draft, isoOf(draft.lastDay), {
    what: 'report-to-the-state',
    year,
    to: 'the state',
    products,
  })
}
