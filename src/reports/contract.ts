import type { Source } from '../files/source.js'
import { readLedger } from '../ledger/read-ledger.js'
import { isoOf } from '../measure/calendar.js'
import { siteOfPath } from '../records/paths.js'
import type { Report } from '../types.js'
import type { SpanFacts } from './contract-collect.js'
import { contractFacts } from './contract-collect.js'
import { eachComplaintTable, eachVisitTable, lateChecksTable } from './contract-detail.js'
import { exceptionCautions } from './contract-exceptions.js'
import { contractHeadline } from './contract-headline.js'
import { overviewTable } from './contract-overview.js'
import { checksTable, complaintsTable, visitsTable } from './contract-tables.js'
import { contractsTable, openTable } from './contract-terms.js'
import { filesWithUnknownKeys, withUnknownKeys } from './contract-unknown-keys.js'
import { notExaminedOf, unknownKeyLines } from './not-examined.js'
import type { ReportOptions } from './options.js'
import { isWanted } from './options.js'
import { cutCautions, periodOf } from './period.js'

/**
 * What the contract of each site asks for and what the records show was done, in the year up to the as-of day if no
 * period is asked for: routine visits, answers to complaints, checks of devices, and what routine visits leave open.
 * What is due, and late, is what the rules of inspection say it is.
 */
export function contractReport(source: Source, options: ReportOptions): Report {
  const period = periodOf(options)
  const all: SpanFacts[] = []
  const silent: string[] = []
  const read = readLedger(source, options, (view) => {
    const found = contractFacts(view, period)
    all.push(...found)
    if (found.length === 0) silent.push(view.id)
  })
  const misspelt = filesWithUnknownKeys(read.faults)
  const facts = all
    .filter(({ span }) => isWanted({ site: span.site }, options))
    .map((one) => withUnknownKeys(one, misspelt))
  const shown = new Set(facts.map(({ span }) => span.site))
  return {
    report: 'contract',
    title: 'What the contract asks for, and what was done',
    headline: contractHeadline(facts, options),
    asOf: isoOf(options.asOf),
    period: { from: isoOf(period.from), to: isoOf(period.to) },
    facts: [],
    tables: [
      ...(options.site === undefined ? [overviewTable(facts)] : []),
      visitsTable(facts),
      complaintsTable(facts),
      checksTable(facts),
      openTable(facts),
      contractsTable(facts),
      eachVisitTable(facts),
      eachComplaintTable(facts),
      lateChecksTable(facts),
    ],
    cautions: [
      'No record is not the same as not done: work may have been done and not written down. Any visit recorded as routine counts, whoever made it.',
      'A visit or a check counts in the period by its day if it was in time, else by the first day on which it was late; a complaint by the day it came in. What falls due later is not yet due. Withdrawn complaints are left out.',
      'A device whose check was late because a routine visit was late counts here as late too; `doorsweep check` tells one cause once. Intervals of shares of checks allow for checks due on one day being made or left together.',
      'How long an area may be left and how soon a lost device is to be renewed is asked by rulebooks, not by the contract.',
      ...exceptionCautions(read.district, period, options),
      ...cutCautions(options),
    ],
    notExamined: [
      ...notExaminedOf(read),
      ...unknownKeyLines([...misspelt].filter((file) => shown.has(siteOfPath(file) ?? ''))),
      ...silent
        .filter((site) => isWanted({ site }, options))
        .map((site) => `${site}: the records do not answer for it in this period.`),
    ],
    incomplete: read.notChecked.length > 0,
  }
}
