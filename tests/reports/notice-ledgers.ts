import { expect } from 'vitest'
import type { DraftedApplication } from '../../src/check/precheck.js'
import { memorySource } from '../../src/files/memory.js'
import type { Source } from '../../src/files/source.js'
import { recordPathOf } from '../../src/records/paths.js'
import type { NoticeOptions, NoticeReport } from '../../src/reports/notice.js'
import { noticeReport } from '../../src/reports/notice.js'
import type { TextId } from '../../src/reports/notice-texts.js'
import { ledgerWith } from '../../src/rules/base-ledger.js'
import { day } from '../ledger/small-site.js'

/** Ledgers under a rulebook of the program, or of one's own, with what a notice can tell written down. */

export const yearWithSpringBreak =
  '[{from: 2025-09-02, until: 2026-06-12, closed: {spring-break: 2026-03-16 to 2026-03-20}}]'

export const districtUnder = (
  rulebook: string,
  zone = 'America/New_York',
  calendar = yearWithSpringBreak,
) => `
=== district.yaml
format: 1
name: Example District
time-zone: ${zone}
records-begin: 2026-03-01
coordinator: [{from: 2026-03-01, who: marsh}]
rulebooks: [{from: 2026-03-01, rulebook: ${rulebook}}]
calendar: ${calendar}
=== people/marsh.yaml
name: Ines Marsh
roles: [coordinator]
phone: 555-0120
`

export const ownRulebook = (sections: string) => `
=== rulebooks/own.yaml
title: Invented rules
jurisdiction: Example District
read-on: 2026-03-01
covers: what this test shows
does-not-cover: [everything else]
${sections.trim()}
`

export interface Facts {
  readonly time?: string
  readonly status?: string
  readonly product?: string
  readonly area?: string
  readonly method?: string
  readonly more?: string
}

/** A spray that is planned, unless said otherwise. */
export function sprayed(facts: Facts = {}): string {
  const { time = 'time: 07:00 to 07:30', status = 'planned', product = 'spray-a' } = facts
  return `by: okafor
status: ${status}
product: ${product}
pest: german-cockroach
areas: {${facts.area ?? 'kitchen'}: {}}
method: ${facts.method ?? 'spot'}
${time}
${facts.more ?? 'reason: nymphs in the kitchen after cleaning'}
`
}

export function draftOn(on: string, text: string, site = 'oak'): DraftedApplication {
  const found = recordPathOf(`sites/${site}/applications/${on}-okafor.yaml`)
  if (found === null || 'stray' in found) throw new Error('no place for an application')
  return { path: { ...found, site, day: day(on) }, text: Buffer.from(text) }
}

export function noticesIn(
  source: Source,
  draft: DraftedApplication,
  options: Partial<NoticeOptions> & { readonly asOf?: string } = {},
): NoticeReport {
  const { asOf = '2026-03-02', ...rest } = options
  return noticeReport(source, draft, { today: day(asOf), language: 'en', ...rest })
}

/** The texts of a small ledger for an application on a day. */
export function noticesOn(
  on: string,
  text: string,
  overlay: string,
  options: Parameters<typeof noticesIn>[2] = {},
): NoticeReport {
  return noticesIn(memorySource(ledgerWith(overlay)), draftOn(on, text), options)
}

/** What a text says, as what each line is about; without what stands around it. */
export function saidIn({ texts }: NoticeReport, id: TextId): string[] {
  const lines = texts.find((text) => text.id === id)?.lines ?? []
  return lines.filter(({ about }) => about !== 'frame').map(({ about }) => about)
}

/** The line about one matter. */
export function lineIn({ texts }: NoticeReport, id: TextId, about: string): string | undefined {
  return texts.find((text) => text.id === id)?.lines.find((line) => line.about === about)?.text
}

/** One cell of the moments, by what they are for. */
export function moments({ report }: NoticeReport, cell: string): [unknown, unknown][] {
  const rows = report.tables.find(({ id }) => id === 'moments')?.rows ?? []
  return rows
    .filter(({ cells }) => !String(cells.do).startsWith('take down'))
    .map(({ cells }) => [cells.what, cells[cell]])
}

export function blanksOf({ report }: NoticeReport): unknown[][] {
  const rows = report.tables.find(({ id }) => id === 'missing')?.rows ?? []
  return rows.map(({ cells }) => [cells.about, cells.texts, cells.where])
}

/** What a text says against the list of a clause, as src/data/rulebooks has it; a text has its own order. */
export function sameMatters(said: readonly string[], asked: readonly string[]): void {
  expect([...said].sort()).toEqual([...asked].sort())
}
