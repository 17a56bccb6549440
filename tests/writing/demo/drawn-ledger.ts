import { memorySource } from '../../../src/files/memory.js'
import type { ReadLedger } from '../../../src/ledger/read-ledger.js'
import { readLedger } from '../../../src/ledger/read-ledger.js'
import type { SiteView } from '../../../src/ledger/site-view.js'
import { dayOf } from '../../../src/measure/calendar.js'
import type { Day } from '../../../src/types.js'
import { demoRun } from '../../../src/writing/demo/ledger.js'
import type { DemoTruth } from '../../../src/writing/demo/truth.js'
import type { DemoCommit, DemoOptions } from '../../../src/writing/demo/world.js'

export function dayOfText(text: string): Day {
  const day = dayOf(text)
  if (day === null) throw new RangeError(`no such day: ${text}`)
  return day
}

export interface DrawnLedger {
  readonly options: DemoOptions
  readonly commits: readonly DemoCommit[]
  /** The files as the last commit leaves them. */
  readonly files: ReadonlyMap<string, string>
  readonly truth: DemoTruth
  readonly read: ReadLedger
  readonly views: readonly SiteView[]
}

/** A whole invented ledger in memory, read back through the same floors as any other. */
export function drawLedger(given: Partial<Omit<DemoOptions, 'until'>> & { until?: string }): DrawnLedger {
  const { until = '2026-06-30', ...rest } = given
  const options: DemoOptions = {
    sites: 4,
    years: 2,
    seed: 1,
    clean: true,
    ...rest,
    until: dayOfText(until),
  }
  const run = demoRun(options)
  const commits = [...run.commits]
  const files = new Map<string, string>()
  for (const commit of commits) for (const file of commit.files) files.set(file.path, file.text)
  const views: SiteView[] = []
  const read = readLedger(memorySource(files), { asOf: options.until, asOfIsToday: false }, (view) =>
    views.push(view),
  )
  return { options, commits, files, truth: run.truth, read, views }
}
