import { rmSync } from 'node:fs'
import { runCheck } from '../../check/run-check.js'
import type { Source } from '../../files/source.js'
import type { DistrictView } from '../../ledger/district-view.js'
import type { SiteView } from '../../ledger/site-view.js'
import { isoOf } from '../../measure/calendar.js'
import { siteOfPath } from '../../records/paths.js'
import type { Period } from '../../reports/period.js'
import type { Day, NotChecked } from '../../types.js'
import { applicationRows } from './application-rows.js'
import { catchRows, readingRows } from './catch-rows.js'
import { csvPart } from './csv-part.js'
import { districtIdOf, isDistrictId } from './district-id.js'
import { districtRecord } from './district-record.js'
import type { FolderRefused } from './export-folder.js'
import { lookAtFolder, putInPlace, workFolder } from './export-folder.js'
import type { ExportFormat, PartMaker } from './part.js'
import type { Written } from './partitions.js'
import { Partitions } from './partitions.js'
import { problemRows } from './problem-rows.js'
import { areaRows, deviceRows, ingredientRows, productRows, siteRow } from './reference-rows.js'
import { complaintRows, conditionRows } from './standing-rows.js'
import type { ExportRow } from './table-words.js'
import { visitRows } from './visit-rows.js'

export interface ExportOptions {
  readonly source: Source
  /** Root of the ledger on the disk, into which nothing is exported. */
  readonly root: string
  readonly folder: string
  readonly format: ExportFormat
  readonly asOf: Day
  readonly asOfIsToday: boolean
  readonly from?: Day
  readonly to?: Day
  /** The id that was stated; else it is made from state and name. */
  readonly district?: string
  readonly programVersion: string
  /** Tells apart two exports that run at once. */
  readonly unique: string
}

export type Exported =
  | (Written & {
      readonly district: string
      readonly notChecked: readonly NotChecked[]
      /** Another name under which this folder held the district. */
      readonly nameBefore: string | undefined
    })
  | FolderRefused
  | { readonly refused: 'no district' | 'no safe id' | 'bad id' }

/**
 * Writes the ledger as tables that an engine for many districts can read. A site is read, linked, judged, written and
 * let go, so memory does not grow with the ledger. Nothing is seen in the folder before all of it is written. Throws
 * what the file system does.
 */
export async function exportLedger(options: ExportOptions): Promise<Exported> {
  const { source, folder, format, root } = options
  const record = districtRecord(source)
  if (!record) return { refused: 'no district' }
  const district = options.district ?? districtIdOf(record)
  if (district === undefined) return { refused: 'no safe id' }
  if (!isDistrictId(district)) return { refused: 'bad id' }
  const state = lookAtFolder(folder, root, format, district)
  if ('refused' in state) return state
  const { stamp } = state
  const isOther =
    stamp !== undefined && (stamp.name !== record.name || stamp.state !== (record.state ?? null))
  // One that was made from a name may be the id of another district too; one that was stated is taken at its word.
  if (isOther && options.district === undefined) return { refused: 'other district', name: stamp.name }
  const makePart = format === 'csv' ? csvPart : (await import('./parquet-part.js')).parquetPart
  const work = workFolder(folder, state.kind, district, options.unique)
  try {
    const { written, notChecked } = await writeTables(options, work, district, makePart)
    putInPlace(work, folder, state.kind, format, {
      district,
      name: record.name,
      state: record.state ?? null,
      'as-of': isoOf(options.asOf),
    })
    return { ...written, district, notChecked, nameBefore: isOther ? stamp.name : undefined }
  } finally {
    rmSync(work, { recursive: true, force: true })
  }
}

async function writeTables(options: ExportOptions, work: string, district: string, makePart: PartMaker) {
  const { source, asOf, format } = options
  const period: Period = {
    from: options.from ?? Number.NEGATIVE_INFINITY,
    to: Math.min(options.to ?? asOf, asOf),
  }
  const parts = new Partitions(work, district, format, makePart)
  let examined = 0
  const result = runCheck(source, options, (view) => {
    examined++
    addSite(parts, view, period)
  })
  const { notChecked } = result
  const missing = notChecked.map(({ what }, n) => missingRow(what, n + 1))
  parts.add('problems', problemRows(result, period, asOf))
  parts.add('not_examined', missing)
  if (result.district) {
    parts.add('products', productRows(result.district))
    parts.add('ingredients', ingredientRows(result.district))
    parts.add('districts', [
      {
        ...districtCells(result.district),
        from_day: options.from ?? null,
        to_day: period.to,
        sites_examined: examined,
        sites_left_out: missing.filter(({ what }) => what === 'site').length,
        program_version: options.programVersion,
      },
    ])
  }
  return { written: await parts.finish(Number(isoOf(asOf).slice(0, 4))), notChecked }
}

function addSite(parts: Partitions, view: SiteView, period: Period): void {
  const { applications, ingredients } = applicationRows(view, period)
  parts.add('sites', [siteRow(view)])
  parts.add('areas', areaRows(view))
  parts.add('devices', deviceRows(view))
  parts.add('visits', visitRows(view, period))
  parts.add('readings', readingRows(view, period))
  parts.add('catches', catchRows(view, period))
  parts.add('applications', applications)
  parts.add('active_ingredients', ingredients)
  parts.add('conditions', conditionRows(view, period))
  parts.add('complaints', complaintRows(view, period))
}

function districtCells({ district, recordsBegin, asOf }: DistrictView): ExportRow {
  const { name, state, 'time-zone': zone } = district.data
  return { name, state: state ?? null, time_zone: zone, records_begin: recordsBegin, as_of: asOf }
}

/** Names of files that are no records are left out: they can bear any name. */
function missingRow(what: string, number: number): ExportRow & { readonly what: string } {
  const site = /^sites\/([a-z][a-z0-9-]*)$/.exec(what)?.[1] ?? siteOfPath(what)
  return site === undefined
    ? { number, what: 'record of the district', site: null }
    : { number, what: 'site', site }
}
