import { createHash } from 'node:crypto'
import { lstatSync, readdirSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'

/**
 * Names the program in the very state it is in: any file of it that is another makes another name, and so does another Node.
 * By size and time of change, which is quick enough to be asked at every run.
 */
export function programState(): string {
  known ??= stateNow()
  return known
}

/** It cannot become another program while it runs. */
let known: string | undefined

function stateNow(): string {
  const root = fileURLToPath(new URL('../..', import.meta.url))
  const hash = createHash('sha1').update(`${process.version} ${process.arch} ${root}`)
  for (const part of ['package.json', 'node_modules/.package-lock.json', 'dist', 'src/data'])
    hash.update(statesBelow(root, part).join('\n'))
  return hash.digest('base64')
}

function statesBelow(root: string, path: string): string[] {
  const stat = lstatSync(join(root, path), { throwIfNoEntry: false })
  if (!stat) return [`${path} is not there`]
  if (!stat.isDirectory()) return [`${path} ${stat.size} ${stat.mtimeMs} ${stat.ctimeMs}`]
  return readdirSync(join(root, path))
    .sort()
    .flatMap((name) => statesBelow(root, `${path}/${name}`))
}
