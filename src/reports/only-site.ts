import type { Entry, Source } from '../files/source.js'
import type { ReadLedger } from '../ledger/read-ledger.js'
import { readLedger } from '../ledger/read-ledger.js'
import type { SiteView } from '../ledger/site-view.js'
import { siteOfPath } from '../records/paths.js'
import type { ReportOptions } from './options.js'

/** The records of the district and of one site. */
export function onlySite(source: Source, site: string): Source {
  const isWanted = ({ path }: Entry) => {
    const of = siteOfPath(path)
    return of === undefined || of === site
  }
  return { ...source, list: () => source.list().filter(isWanted) }
}

/** One site alone, with what of it and of the district could not be read. No view where it cannot be judged. */
export function readOnlySite(
  source: Source,
  site: string,
  asOf: Pick<ReportOptions, 'asOf' | 'asOfIsToday'>,
): { readonly read: ReadLedger; readonly view: SiteView | undefined } {
  let view: SiteView | undefined
  const read = readLedger(onlySite(source, site), asOf, (one) => {
    view = one
  })
  return { read, view }
}
