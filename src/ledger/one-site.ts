import type { Entry, Source } from '../files/source.js'
import { siteOfPath } from '../records/paths.js'

/** The records of the district and of one site. */
export function onlySite(source: Source, site: string): Source {
  const isWanted = ({ path }: Pick<Entry, 'path'>) => {
    const of = siteOfPath(path)
    return of === undefined || of === site
  }
  // Thousands of folders of other sites need not be walked.
  const goesInto = (folder: string) => isWanted({ path: `${folder}/` })
  return { ...source, list: () => source.list(goesInto).filter(isWanted) }
}
