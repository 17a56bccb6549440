import { createHash } from 'node:crypto'
import { lstatSync } from 'node:fs'
import type { Entry } from './source.js'

/**
 * What tells one state of the files from another without reading them, as git does: by time of change, size and place on the
 * disk. A stamp never comes twice for two contents; undefined is no stamp: the file is not to be relied on.
 */
export interface Stamps {
  /** One stamp for all that lies in a group, by its name. */
  readonly groups: ReadonlyMap<string, string | undefined>
  /** Stamps of what is in no group, by path. */
  readonly files: ReadonlyMap<string, string | undefined>
}

/**
 * A file changed in these milliseconds before could change again without a sign: clocks of disks tick in steps, the coarsest
 * in use two seconds long.
 */
const unsettled = 2000

/** Four numbers of a file: times of change in milliseconds, size in bytes, and the file's number on the disk. */
const numbersPerFile = 4

/** Stamps of the files of a work tree; `now` is the time in milliseconds before any of them is read. */
export function stampsOfTree(
  root: string,
  entries: readonly Entry[],
  groupOf: (path: string) => string | undefined,
  now: number,
): Stamps {
  const groups = new Map<string, Group>()
  const files = new Map<string, string | undefined>()
  let folder = '/'
  let name: string | undefined
  for (const entry of entries) {
    // Files of one folder are of one group, and come one after another.
    if (!isIn(folder, entry.path)) {
      folder = entry.path.slice(0, entry.path.lastIndexOf('/') + 1)
      name = groupOf(entry.path)
    }
    if (name === undefined) {
      const alone = new Group()
      alone.add(root, entry, now)
      files.set(entry.path, alone.stamp())
      continue
    }
    let group = groups.get(name)
    if (!group) {
      group = new Group()
      groups.set(name, group)
    }
    group.add(root, entry, now)
  }
  return { groups: new Map([...groups].map(([name, group]) => [name, group.stamp()])), files }
}

function isIn(folder: string, path: string): boolean {
  return path.startsWith(folder) && path.lastIndexOf('/') === folder.length - 1
}

/** Stamps of files whose contents have names of their own, as git gives them; a content without one is not to be relied on. */
export function stampsOfContents(
  entries: readonly Entry[],
  groupOf: (path: string) => string | undefined,
  nameOf: (path: string) => string | undefined,
): Stamps {
  const parts = new Map<string, string[] | undefined>()
  const files = new Map<string, string | undefined>()
  for (const { path, kind } of entries) {
    const name = nameOf(path)
    const group = groupOf(path)
    if (group === undefined) files.set(path, name && `${kind} ${name}`)
    else if (name === undefined) parts.set(group, undefined)
    else if (!parts.has(group)) parts.set(group, [path, kind, name])
    else parts.get(group)?.push(path, kind, name)
  }
  const groups = [...parts].map(
    ([group, told]) => [group, told && createHash('sha1').update(told.join('\0')).digest('base64')] as const,
  )
  return { groups: new Map(groups), files }
}

class Group {
  private readonly names: string[] = []
  private numbers = new Float64Array(numbersPerFile * 16)
  private count = 0
  private isSettled = true

  add(root: string, { path, kind }: Entry, now: number): void {
    this.names.push(path, kind)
    // The times of a folder change with files that are no part of a ledger; what lies in it is stamped itself.
    if (kind === 'folder') return
    const stat = lstatSync(`${root}/${path}`, { throwIfNoEntry: false })
    if (!stat || stat.ctimeMs > now - unsettled) this.isSettled = false
    if (!stat) return
    if (this.count + numbersPerFile > this.numbers.length) {
      const longer = new Float64Array(this.numbers.length * 2)
      longer.set(this.numbers)
      this.numbers = longer
    }
    this.numbers[this.count++] = stat.mtimeMs
    this.numbers[this.count++] = stat.ctimeMs
    this.numbers[this.count++] = stat.size
    this.numbers[this.count++] = stat.ino
  }

  stamp(): string | undefined {
    if (!this.isSettled) return undefined
    return createHash('sha1')
      .update(this.names.join('\0'))
      .update(new Uint8Array(this.numbers.buffer, 0, this.count * Float64Array.BYTES_PER_ELEMENT))
      .digest('base64')
  }
}
