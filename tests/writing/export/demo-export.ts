import { memorySource } from '../../../src/files/memory.js'
import type { Source } from '../../../src/files/source.js'
import { dayOf } from '../../../src/measure/calendar.js'
import { demoLedger } from '../../../src/writing/demo/ledger.js'
import type { ExportOptions } from '../../../src/writing/export/export-ledger.js'
import { exportLedger } from '../../../src/writing/export/export-ledger.js'

export const asOf = dayOf('2026-06-30') ?? 0

/** An invented ledger of one school and one school year, held in memory. */
export function demoSource(seed: number, sites = 1, years = 1): Source {
  const files = new Map<string, string>()
  for (const commit of demoLedger({ sites, years, seed, until: asOf, clean: false }))
    for (const { path, text } of commit.files) files.set(path, text)
  return memorySource(files)
}

/** Exports a ledger as of the end of the demo; anything can be said otherwise. */
export function exported(
  source: Source,
  folder: string,
  more: Partial<ExportOptions> = {},
): ReturnType<typeof exportLedger> {
  return exportLedger({
    source,
    root: new URL('.', import.meta.url).pathname,
    folder,
    format: 'parquet',
    asOf,
    asOfIsToday: false,
    programVersion: '0.0.0',
    unique: 'test',
    ...more,
  })
}
