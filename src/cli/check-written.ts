import type { Source } from '../files/source.js'
import type { FailOn, ProblemsPage } from '../output/problems.js'
import type { OpenLedger } from './find-ledger.js'
import type { Here } from './runner.js'

export const checkFormats = ['text', 'json', 'sarif', 'junit', 'annotations'] as const

export type CheckFormat = (typeof checkFormats)[number]

/** What `check` found, in the format asked for. `root` is the folder of the ledger, `asked` the paths in it asked for. */
export async function checkWritten(
  page: ProblemsPage,
  format: CheckFormat,
  {
    root,
    source,
    asked,
    failOn,
  }: Pick<OpenLedger, 'root' | 'source' | 'asked'> & { readonly failOn: FailOn },
  here: Here,
): Promise<string> {
  switch (format) {
    case 'text':
      return (await import('../output/problems-text.js')).problemsText(page, here.painter)
    case 'json':
      return (await import('../output/problems-json.js')).problemsJson(page)
    case 'sarif': {
      const { version } = await import('./version.js')
      const { problemsSarif } = await import('../output/problems-sarif.js')
      return problemsSarif(page, { version: version(), prefix: await prefixOf(root) })
    }
    case 'junit': {
      const { problemsJunit } = await import('../output/problems-junit.js')
      return problemsJunit(page, {
        failOn,
        prefix: await prefixOf(root),
        sites: await sitesOf(source, asked),
      })
    }
    case 'annotations': {
      const { problemsAnnotations } = await import('../output/problems-annotations.js')
      return problemsAnnotations(page, { prefix: await prefixOf(root) })
    }
  }
}

/** Services that show problems beside the lines look for a file from the root of the repository. */
async function prefixOf(root: string): Promise<string> {
  const { ledgerInCheckout } = await import('../files/git-hooks.js')
  return ledgerInCheckout(root)?.prefix ?? ''
}

/** The sites that were looked at, so that one without a problem is told too. */
async function sitesOf(source: Source, asked: readonly string[]): Promise<string[]> {
  if (asked.length === 0) {
    const { inventoryOf } = await import('../ledger/read-records.js')
    return [...inventoryOf(source).sites.keys()]
  }
  const sites = asked.flatMap((path) => /^sites\/([^/]+)(?:\/|$)/.exec(path)?.[1] ?? [])
  return [...new Set(sites)]
}
