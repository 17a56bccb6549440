import { createHash } from 'node:crypto'
import { realpathSync } from 'node:fs'
import { availableParallelism } from 'node:os'
import { join } from 'node:path'
import type { Means } from '../check/means.js'
import { cacheFolder } from '../files/cache-folder.js'
import type { Source } from '../files/source.js'
import { cacheBase } from './cache-base.js'
import { programState } from './program-state.js'
import type { Progress } from './progress.js'
import type { Surroundings } from './terminal.js'

/** More would wait for the disk and take memory for nothing. */
const mostThreads = 4

export interface MeansFlags {
  /** False with `--no-cache`. */
  readonly cache: boolean
  readonly threads?: number
}

/** What a check may use of this machine to be quicker. */
export function meansFor(
  root: string,
  flags: MeansFlags,
  { env }: Surroundings,
  tell: Progress['tell'],
): Means {
  // One thread of ours keeps nearly two cores busy, since V8 compiles and collects garbage beside it.
  const suited = Math.min(Math.floor(availableParallelism() / 2), mostThreads)
  const threads = (flags.threads ?? Math.max(suited, 1)) - 1
  const folder = flags.cache ? cacheFolderFor(root, env) : undefined
  // Who says how many has a reason; else a small ledger is checked before another thread has begun.
  const filesPerThread = flags.threads === undefined ? 1500 : 1
  const means = { threads, filesPerThread, ...(tell ? { progress: tell } : {}) }
  if (folder === undefined) return means
  // What lies on disk and what lies in git have stamps of different kinds, and are asked for in turn.
  const folderFor = ({ opening }: Source) =>
    cacheFolder(join(folder, opening?.kind === 'work tree' ? 'disk' : 'git'))
  return { ...means, memory: { folderFor, program: programState(), now: Date.now() } }
}

/** What is kept of one ledger. Undefined on a machine that has no place for it. */
function cacheFolderFor(root: string, env: Surroundings['env']): string | undefined {
  const base = cacheBase(env)
  if (base === undefined) return undefined
  return join(base, createHash('sha1').update(realpathSync.native(root)).digest('hex'))
}
