import { createHash } from 'node:crypto'
import { lstatSync, mkdirSync, readdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs'
import { dirname, join } from 'node:path'

/**
 * A folder of texts that may be lost at any moment. What cannot be read, was cut short or altered, or belongs to someone else
 * is as if it were not there; what cannot be written is not kept.
 */
export interface CacheFolder {
  read(name: string): string | undefined
  write(name: string, text: string): void
}

/** With `most`, the oldest entries go when there are more. */
export function cacheFolder(folder: string, most?: number): CacheFolder {
  let isOurs: boolean | undefined
  const mayBeUsed = () => {
    isOurs ??= belongsToUs(folder)
    return isOurs
  }
  return {
    read(name) {
      if (!mayBeUsed()) return undefined
      try {
        const text = readFileSync(join(folder, name), 'utf8')
        const end = text.indexOf('\n')
        const body = text.slice(end + 1)
        return end > 0 && text.slice(0, end) === sumOf(body) ? body : undefined
      } catch {
        return undefined
      }
    },
    write(name, text) {
      if (!mayBeUsed()) return
      const file = join(folder, name)
      const unfinished = `${file}.${process.pid}.part`
      try {
        mkdirSync(dirname(file), { recursive: true, mode: 0o700 })
        writeFileSync(unfinished, `${sumOf(text)}\n${text}`, { mode: 0o600 })
        renameSync(unfinished, file)
        if (most !== undefined) forgetOldest(folder, most)
      } catch {
        rmSync(unfinished, { force: true })
      }
    },
  }
}

function forgetOldest(folder: string, most: number): void {
  const names = readdirSync(folder)
  if (names.length <= most) return
  const ages = names.map((name) => ({ name, time: lstatSync(join(folder, name)).mtimeMs }))
  ages.sort((a, b) => a.time - b.time)
  for (const { name } of ages.slice(0, names.length - most)) rmSync(join(folder, name), { force: true })
}

function sumOf(text: string): string {
  return createHash('sha1').update(text).digest('base64')
}

/** Someone else's folder, or a link to anywhere, could hold answers that no check ever gave. */
function belongsToUs(folder: string): boolean {
  try {
    mkdirSync(folder, { recursive: true, mode: 0o700 })
    const stat = lstatSync(folder)
    return (
      stat.isDirectory() &&
      (process.getuid === undefined || stat.uid === process.getuid()) &&
      !(stat.mode & 0o022)
    )
  } catch {
    return false
  }
}
