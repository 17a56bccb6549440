import type { Source } from '../files/source.js'
import { onlySite } from '../ledger/one-site.js'
import type { ReadLedger } from '../ledger/read-ledger.js'
import { readLedger } from '../ledger/read-ledger.js'
import type { SiteView } from '../ledger/site-view.js'
import type { ReportOptions } from './options.js'

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
