import type { DraftedApplication } from '../../src/check/precheck.js'
import { precheck } from '../../src/check/precheck.js'
import { memorySource } from '../../src/files/memory.js'
import { recordPathOf } from '../../src/records/paths.js'
import { precheckReport } from '../../src/reports/precheck.js'
import { ledgerWith } from '../../src/rules/base-ledger.js'
import { day } from '../ledger/small-site.js'

export const okafor = (date: string) => `sites/oak/applications/${date}-okafor.yaml`

export function draftAt(file: string, text: string): DraftedApplication {
  const path = recordPathOf(file)
  if (path === null || 'stray' in path || path.site === undefined || path.day === undefined)
    throw new RangeError(`${file} is no place of an application`)
  return { path: { ...path, site: path.site, day: path.day }, text: Buffer.from(text) }
}

export const asPlanned = (text: string) => text.replace(/^status: done/m, 'status: planned')

/** A ledger of the examples, and one of its applications taken as a draft. */
export function draftedIn(overlay: string, file: string) {
  const files = ledgerWith(overlay)
  const planned = asPlanned(files.get(file) ?? '')
  files.set(file, planned)
  return { source: memorySource(files), draft: draftAt(file, planned) }
}

export function precheckOf(overlay: string, date: string, today = date) {
  const { source, draft } = draftedIn(overlay, okafor(date))
  const found = precheck(source, draft, day(today))
  return {
    ...found,
    brokenRules: found.broken.map(({ rule }) => rule).sort(),
    openRules: found.stillToDo.map(({ problem }) => problem.rule).sort(),
  }
}

export function reportOf(overlay: string, date: string, today = date) {
  const { source, draft } = draftedIn(overlay, okafor(date))
  const { report, isBroken } = precheckReport(source, draft, day(today))
  const rows = (table: string) =>
    report.tables.find(({ id }) => id === table)?.rows.map(({ cells }) => cells) ?? []
  return { report, isBroken, rows }
}
