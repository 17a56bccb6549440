import type { Entry, Source } from '../files/source.js'
import { siteOfPath } from '../records/paths.js'

/** The records of the district and of one site. */
export function onlySite(source: Source, site: string): Source {
  const isWanted = ({ path }: Entry) => {
    const of = siteOfPath(path)
    return of === undefined || of === site
  }
  return { ...source, list: () => source.list().filter(isWanted) }
}
