import { resolve } from 'node:path'

/**
 * The file of an event, from the root of the ledger: `sites/oak/visits/2026-03-12-okafor.yaml`, wherever it was typed
 * from, or `oak/2026-03-12-okafor`, which is taken to lie in the given folder. With `cwd` also a bare file name, typed
 * where it lies.
 */
export function eventFile(folder: 'visits' | 'applications', written: string, cwd?: string): string {
  const where = cwd === undefined ? written : resolve(cwd, written)
  const path = /(?:^|\/)(sites\/[^/]+\/[^/]+\/[^/]+\.yaml)$/.exec(where.replaceAll('\\', '/'))
  if (path) return path[1] ?? ''
  const [site = '', stem = ''] = written.split('/')
  return `sites/${site}/${folder}/${stem.replace(/\.yaml$/, '')}.yaml`
}
