import type { LocatedProblem } from '../../check/locate-problems.js'
import { overlaid } from '../../files/overlaid.js'
import type { Source } from '../../files/source.js'
import { compareText } from '../../ledger/compare-text.js'
import { getOrMake } from '../../ledger/get-or-make.js'
import { onlySite } from '../../ledger/one-site.js'
import type { ReadOptions } from '../../ledger/read-ledger.js'
import { readLedger } from '../../ledger/read-ledger.js'
import { inventoryOf } from '../../ledger/read-records.js'
import type { SiteView } from '../../ledger/site-view.js'
import { pestTable } from '../../records/tables.js'
import { checkedAt } from './checked.js'
import type { FreshRecord } from './compared.js'
import { compared } from './compared.js'
import { csvRows } from './csv-rows.js'
import { csvText } from './csv-text.js'
import type { EventsMade } from './events.js'
import { eventsIn } from './events.js'
import type { Look } from './looks.js'
import { looksIn } from './looks.js'
import type { ComplaintsMapping, CountsMapping, ImportKind, RepairsMapping } from './mapping.js'
import type { PlannedRecord } from './planned.js'
import type { Given, Known } from './row-head.js'
import type { Sheet } from './sheet.js'
import { isBlamed, leftAsideIn, sheetOf } from './sheet.js'
import type { Trouble } from './trouble.js'
import { inOrder } from './trouble.js'
import { visitPlace, visitsOf } from './visits.js'

/** What one file would bring to a ledger; nothing is written yet. */
export interface ImportPlan {
  readonly rows: number
  /** Rows that are no look, as the mapping says. */
  readonly skipped: number
  /** Headings of columns that nothing was taken from. */
  readonly leftAside: readonly string[]
  /** New records that nothing is wrong with, in order of their rows. All of them may be written if there is no trouble. */
  readonly fresh: readonly FreshRecord[]
  /** Records that lie in the ledger already and say the same. */
  readonly unchanged: readonly PlannedRecord[]
  readonly troubles: readonly Trouble[]
  /**
   * What `check` would say besides, in order of place; it hinders nothing. Told only where there is no trouble: else what
   * would be written is not known.
   */
  readonly brings: readonly LocatedProblem[]
}

export type Planned = ImportPlan | { readonly unreadable: string }

/** A file, what its columns mean, and what holds for all of it. */
export type Asked = { readonly file: string; readonly bytes: Uint8Array; readonly given: Given } & (
  | { readonly kind: 'counts'; readonly mapping: CountsMapping }
  | { readonly kind: 'complaints'; readonly mapping: ComplaintsMapping }
  | { readonly kind: 'repairs'; readonly mapping: RepairsMapping }
)

/** Turns a file into records, holds them against the ledger, and tells all that is wrong at once. */
export function planImport(source: Source, asked: Asked, options: ReadOptions): Planned {
  const { mapping, file, bytes } = asked
  const decoded = csvText(bytes, mapping.encoding ?? 'utf-8')
  if ('refused' in decoded) return { unreadable: `${file} cannot be read: ${decoded.refused}` }
  const table = csvRows(decoded.text, mapping.delimiter ?? ',')
  if ('refused' in table)
    return {
      unreadable: `${file}${table.line === undefined ? '' : `:${table.line}`} cannot be read: ${table.refused}`,
    }
  const sheet = sheetOf(file, table)
  const known = knownIn(source, options)
  const made = recordsIn(sheet, source, asked, known, options)
  if ('unreadable' in made) return made
  if (table.rows.length === 0 && sheet.troubles.length === 0)
    sheet.troubles.push({
      file,
      line: table.header.line,
      column: 1,
      says: 'There are no rows below the header.',
      remedy: 'Save the sheet that has the rows; with this one there is nothing to take over.',
    })
  return held(sheet, source, asked.kind, made, options)
}

/** Names from the names of files alone. */
function knownIn(source: Source, { asOf }: ReadOptions): Known {
  const { sites, district } = inventoryOf(source)
  const ids = (kind: 'person' | 'plan' | 'product') =>
    district.flatMap((path) => (path.kind === kind ? [path.id] : []))
  return {
    sites: new Set(sites.keys()),
    people: new Set(ids('person')),
    pests: new Set([...pestTable().keys(), ...ids('plan')]),
    products: new Set(ids('product')),
    today: asOf,
  }
}

interface Made extends EventsMade {
  readonly skipped: number
}

function recordsIn(
  sheet: Sheet,
  source: Source,
  asked: Asked,
  known: Known,
  options: ReadOptions,
): Made | { readonly unreadable: string } {
  switch (asked.kind) {
    case 'counts':
      return visitsIn(sheet, source, asked.mapping, asked.given, known, options)
    case 'complaints':
      return { ...eventsIn(sheet, 'complaint', asked.mapping, asked.given, known), skipped: 0 }
    case 'repairs':
      return { ...eventsIn(sheet, 'repair', asked.mapping, asked.given, known), skipped: 0 }
  }
}

function visitsIn(
  sheet: Sheet,
  source: Source,
  mapping: CountsMapping,
  given: Given,
  known: Known,
  options: ReadOptions,
): Made | { readonly unreadable: string } {
  const { looks, skipped, lost } = looksIn(sheet, mapping, given, known)
  const bySite = new Map<string, Look[]>()
  for (const look of looks) getOrMake(bySite, look.head.site, () => []).push(look)
  const broken = new Set(lost.flatMap((head) => (head ? [visitPlace(head, given.word)] : [])))
  const records: PlannedRecord[] = []
  for (const [site, ofSite] of inSiteOrder(bySite)) {
    // What is new is added to what stood there before. Imported already, it would stand there before itself.
    const before =
      mapping.counts === 'new since the last look'
        ? overlaid(source, new Map(ofSite.map((look) => [visitPlace(look.head, given.word), null])))
        : source
    const view = siteOf(before, site, options)
    if ('unreadable' in view) return view
    records.push(...visitsOf(sheet, ofSite, view.devices, mapping, given.word))
  }
  return {
    records: records.filter(({ file }) => !broken.has(file)),
    skipped,
    isAllPlaced: lost.every((head) => head !== undefined),
  }
}

function siteOf(
  source: Source,
  site: string,
  options: ReadOptions,
): SiteView | { readonly unreadable: string } {
  let found: SiteView | undefined
  const read = readLedger(onlySite(source, site), options, (view) => {
    if (view.id === site) found = view
  })
  if (found) return found
  const why = read.notChecked.map(({ what, why }) => `${what}: ${why}`).join('; ')
  return {
    unreadable: `The ledger cannot be read at sites/${site}, so nothing can be held against it: ${why}.`,
  }
}

const inSiteOrder = <T>(bySite: ReadonlyMap<string, T>) => [...bySite].sort(([a], [b]) => compareText(a, b))

/** The records beside what lies in the ledger, and under the rules of `check`. */
function held(
  sheet: Sheet,
  source: Source,
  kind: ImportKind,
  { records, skipped, isAllPlaced }: Made,
  options: ReadOptions,
): Planned {
  const rowTroubles = sheet.troubles.length > 0
  const fresh = new Map<string, FreshRecord[]>()
  const conflicts: Trouble[] = []
  const unchanged: PlannedRecord[] = []
  // A record with a row that was blamed is not whole, nor may any be, where it is not known to which a row belongs.
  const whole = records.filter(({ rows }) => !rows.some((row) => isBlamed(sheet, row)))
  for (const record of [...whole].sort((a, b) => compareText(a.file, b.file))) {
    const beside = compared(sheet, source, record)
    if (beside.is === 'fresh') getOrMake(fresh, record.site, () => []).push(beside.record)
    else if (beside.is === 'unchanged') unchanged.push(record)
    else if (isAllPlaced) conflicts.push(beside.trouble)
  }
  const found: Trouble[] = []
  const right: FreshRecord[] = []
  const brings: LocatedProblem[] = []
  for (const [site, ofSite] of inSiteOrder(fresh)) {
    // Looks were held against the site already, which had to be read for it.
    const view = kind === 'counts' ? undefined : siteOf(source, site, options)
    if (view && 'unreadable' in view) return view
    const checked = checkedAt(sheet, source, site, ofSite, options, !rowTroubles)
    found.push(...checked.troubles)
    right.push(...ofSite.filter(({ file }) => !checked.wrong.has(file)))
    brings.push(...checked.brings)
  }
  const troubles = inOrder([...sheet.troubles, ...conflicts, ...found])
  return {
    rows: sheet.table.rows.length,
    skipped,
    leftAside: leftAsideIn(sheet),
    fresh: right.sort(inRowOrder),
    unchanged,
    troubles,
    brings: troubles.length > 0 ? [] : brings,
  }
}

const inRowOrder = (a: FreshRecord, b: FreshRecord) =>
  (a.rows[0]?.line ?? 0) - (b.rows[0]?.line ?? 0) || compareText(a.file, b.file)
