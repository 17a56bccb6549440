import { createHash } from 'node:crypto'
import { lstatSync } from 'node:fs'
import { join } from 'node:path'
import { gitFolderOf, topOfCheckout } from '../../files/git-environment.js'
import type { Source } from '../../files/source.js'
import type { Stamps } from '../../files/stamps.js'
import { onlySite } from '../../ledger/one-site.js'
import { siteOfPath } from '../../records/site-of-path.js'

/**
 * One name for the state of all files a command reads: of the whole ledger, or of the district and one site. Undefined while a
 * file is so new that it could change again without a sign.
 */
export function stateOfFiles(
  root: string,
  source: Source,
  site: string | undefined,
  now: number,
): string | undefined {
  const entries = (site === undefined ? source : onlySite(source, site)).list()
  const stamps = source.stamps?.(entries, siteOfPath, now)
  return stamps && stateOf(root, stamps)
}

/** The same from stamps that were taken before any file was read. */
export function stateOf(root: string, stamps: Stamps): string | undefined {
  const hash = createHash('sha1').update(stateOfIndex(root))
  for (const [name, stamp] of [...stamps.groups, ...stamps.files]) {
    if (stamp === undefined) return undefined
    hash.update(`${name}\0${stamp}\0`)
  }
  return hash.digest('base64')
}

/** The index of git says which files were left out of the checkout. */
function stateOfIndex(root: string): string {
  const top = topOfCheckout(root)
  const folder = top === undefined ? undefined : gitFolderOf(top)
  if (folder === undefined) return 'no checkout'
  const stat = lstatSync(join(folder, 'index'), { throwIfNoEntry: false })
  return stat ? `${stat.size} ${stat.mtimeMs} ${stat.ctimeMs} ${stat.ino}` : 'no index'
}
