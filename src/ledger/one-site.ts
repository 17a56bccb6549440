import type { Source } from '../files/source.js'
import { isSeenFrom } from '../records/site-of-path.js'

/** The records of the district and of one site. */
export function onlySite(source: Source, site: string): Source {
  // Thousands of folders of other sites need not be walked.
  const goesInto = (folder: string) => isSeenFrom(site, `${folder}/`)
  return { ...source, list: () => source.list(goesInto).filter(({ path }) => isSeenFrom(site, path)) }
}
