import { join } from 'node:path'
import type { Surroundings } from './terminal.js'

/**
 * Where what was found is kept: never in the ledger, where a branch could bring a cache of its own. DOORSWEEP_CACHE names another
 * folder, or none when it is empty. Undefined on a machine that has no such place.
 */
export function cacheBase(env: Surroundings['env']): string | undefined {
  if (env.DOORSWEEP_CACHE !== undefined) return env.DOORSWEEP_CACHE === '' ? undefined : env.DOORSWEEP_CACHE
  if (env.XDG_CACHE_HOME) return join(env.XDG_CACHE_HOME, 'doorsweep')
  if (process.platform === 'win32') return env.LOCALAPPDATA && join(env.LOCALAPPDATA, 'doorsweep', 'cache')
  if (!env.HOME) return undefined
  return process.platform === 'darwin'
    ? join(env.HOME, 'Library', 'Caches', 'doorsweep')
    : join(env.HOME, '.cache', 'doorsweep')
}
