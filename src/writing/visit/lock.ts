import { linkSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { keptFolder, makeFolder, refuseLinks } from './journal.js'

/** Who holds a visit open. */
export interface Holder {
  readonly process: number
  readonly machine: string
  readonly begun: string
}

export type Taken =
  | { readonly is: 'mine'; readonly holds: () => boolean; readonly release: () => void }
  | { readonly is: 'theirs'; readonly holder: Holder; readonly file: string }

/**
 * Takes the one place at which a visit of a site is told. A holder of this machine whose process is gone holds nothing;
 * of one on another machine nobody can tell, so it is believed.
 */
export function takeLock(
  root: string,
  site: string,
  me: Holder,
  isRunning: (process: number) => boolean,
): Taken {
  makeFolder(root)
  const path = join(root, keptFolder, `visit-${site}.lock`)
  refuseLinks(root, path)
  const text = JSON.stringify(me)
  const own = `${path}.${me.process}.tmp`
  rmSync(own, { force: true })
  writeFileSync(own, text, { flag: 'wx' })
  try {
    if (!isLinked(own, path)) {
      const holder = holderIn(path)
      const isMine = holder?.machine === me.machine && holder.process === me.process
      if (holder && !isMine && (holder.machine !== me.machine || isRunning(holder.process)))
        return { is: 'theirs', holder, file: path }
      renameSync(own, path)
    }
  } finally {
    rmSync(own, { force: true })
  }
  const holds = () => read(path) === text
  return {
    is: 'mine',
    holds,
    release: () => {
      if (holds()) rmSync(path, { force: true })
    },
  }
}

/** A hard link fails where the name is taken. */
function isLinked(from: string, to: string): boolean {
  try {
    linkSync(from, to)
    return true
  } catch (error) {
    if (error instanceof Error && 'code' in error && error.code === 'EEXIST') return false
    throw error
  }
}

function holderIn(path: string): Holder | undefined {
  try {
    const found: unknown = JSON.parse(read(path) ?? '')
    const { process, machine, begun } = Object(found)
    return typeof process === 'number' && typeof machine === 'string' && typeof begun === 'string'
      ? { process, machine, begun }
      : undefined
  } catch {
    return undefined
  }
}

function read(path: string): string | undefined {
  try {
    return readFileSync(path, 'utf8')
  } catch {
    return undefined
  }
}
