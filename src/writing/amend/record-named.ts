import { existsSync, readdirSync } from 'node:fs'
import { join, relative, resolve, sep } from 'node:path'
import { nearest } from '../../records/nearest.js'
import type { RecordPath } from '../../records/paths.js'
import { recordPathOf } from '../../records/paths.js'
import { statesCorrections } from '../../reports/history/versions-read.js'

/** The event that was typed, or why it is none that can be corrected. */
export type Named = { readonly record: RecordPath } | { readonly refused: string }

/**
 * The record that was typed: its file, from the folder one is in or from the root of the ledger; or `site/date-who`,
 * where one record alone has that name there.
 */
export function recordNamed(root: string, cwd: string, typed: string): Named {
  const files = [...new Set([inside(root, resolve(cwd, typed)), inside(root, resolve(root, typed))])]
  const file = files.find((path) => path !== undefined && existsSync(join(root, path)))
  if (file !== undefined) return asEvent(file, typed)
  const short = /^([a-z][a-z0-9-]*)\/(\d{4}-\d{2}-\d{2}-[a-z][a-z0-9-]*)$/.exec(typed)
  const site = short?.[1] ?? ''
  const all = short ? eventsAt(root, site) : []
  const found = all.filter((path) => path.endsWith(`/${short?.[2]}.yaml`))
  const [one, ...others] = found
  if (one !== undefined && others.length === 0) return asEvent(one, typed)
  if (one !== undefined) return { refused: `${typed} can be any of ${found.join(', ')}: name the file.` }
  const meant = nearest(
    typed,
    all.map(
      (path) =>
        `${site}/${path
          .split('/')
          .at(-1)
          ?.replace(/\.yaml$/, '')}`,
    ),
  )
  const known = files.some((path) => path !== undefined && isEvent(path))
  return {
    refused: `${typed} does not exist.${meant === undefined ? (known ? '' : ' Name the file of the record, or its site and name: ottermere/2026-03-12-okafor.') : ` Did you mean ${meant}?`}`,
  }
}

function inside(root: string, path: string): string | undefined {
  const from = relative(root, path).split(sep).join('/')
  return from === '' || from.startsWith('..') ? undefined : from
}

function isEvent(path: string): boolean {
  const found = recordPathOf(path)
  return found !== null && !('stray' in found) && statesCorrections(found.kind)
}

function asEvent(file: string, typed: string): Named {
  const found = recordPathOf(file)
  if (found === null || 'stray' in found)
    return { refused: `${typed} is no record of the ledger, so there is nothing in it to correct.` }
  if (statesCorrections(found.kind)) return { record: found }
  return {
    refused: `${typed} is a reference file. It is not corrected: what it says in dated spans stays as it was, and what holds from a later day is a new entry with its own \`from:\`. Edit the file; \`doorsweep history\` tells when a past span was changed.`,
  }
}

function eventsAt(root: string, site: string): string[] {
  const folder = join(root, 'sites', site)
  if (!existsSync(folder)) return []
  return readdirSync(folder, { withFileTypes: true })
    .filter((entry) => entry.isDirectory())
    .flatMap(({ name }) => readdirSync(join(folder, name)).map((file) => `sites/${site}/${name}/${file}`))
    .filter(isEvent)
}
