/** The site in whose folder a path lies, whatever it holds; undefined for what is the district's. */
export function siteOfPath(file: string): string | undefined {
  const match = /^sites\/([^/]+)\//.exec(file)
  return match?.[1]
}

/** Whether a path is the district's, or lies in the folder of a site: what that site is judged by. */
export function isSeenFrom(site: string, path: string): boolean {
  const of = siteOfPath(path)
  return of === undefined || of === site
}
