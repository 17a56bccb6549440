import type { Dirent } from 'node:fs'
import { accessSync, constants, readdirSync } from 'node:fs'
import { fileNameOf } from './file-name.js'
import type { Entry } from './source.js'

/** Every entry below a folder but for dot files, sorted by path; folders for which `goesInto` says no are not looked into. */
export function listFolder(root: string, goesInto: (folder: string) => boolean): Entry[] {
  const entries: Entry[] = []
  const walk = (folder: string) => {
    for (const found of namesIn(folder === '' ? root : `${root}/${folder}`)) {
      const { name } = found
      if (name.startsWith('.') || name === 'node_modules') continue
      const path = folder === '' ? name : `${folder}/${name}`
      if (found.isFile()) entries.push({ path, kind: 'file', size: 0 })
      else if (found.isDirectory()) {
        const isOpen = mayBeRead(`${root}/${path}`)
        entries.push({ path, kind: isOpen ? 'folder' : 'closed', size: 0 })
        if (isOpen && goesInto(path)) walk(path)
      } else entries.push({ path, kind: found.isSymbolicLink() ? 'link' : 'other', size: 0 })
    }
  }
  walk('')
  return entries.sort((a, b) => (a.path < b.path ? -1 : 1))
}

/** What a folder holds, with names as text: see `fileNameOf`. A name that is no UTF-8 leads nowhere. */
type Named = Pick<Dirent, 'name' | 'isDirectory' | 'isSymbolicLink' | 'isFile'>

function namesIn(folder: string): Named[] {
  try {
    const entries = readdirSync(folder, { withFileTypes: true })
    // Text has this character in place of every byte that is no letter, so that two names could become one.
    if (!entries.some(({ name }) => name.includes('\ufffd'))) return entries
    return readdirSync(folder, { withFileTypes: true, encoding: 'buffer' }).map((found) => ({
      name: fileNameOf(found.name),
      isDirectory: () => found.isDirectory(),
      isSymbolicLink: () => found.isSymbolicLink(),
      isFile: () => found.isFile(),
    }))
  } catch {
    return []
  }
}

function mayBeRead(folder: string): boolean {
  try {
    accessSync(folder, constants.R_OK | constants.X_OK)
    return true
  } catch {
    return false
  }
}
