import type { Level } from '../types.js'
import { clean } from './clean.js'
import type { Painter } from './painter.js'
import { plural } from './problems.js'

/** What a file brought, or would bring, to a ledger. */
export interface ImportPage {
  readonly file: string
  readonly rows: number
  readonly skipped: number
  readonly leftAside: readonly string[]
  readonly fresh: readonly {
    readonly file: string
    readonly text: string
    readonly rows: readonly { readonly line: number }[]
  }[]
  readonly unchanged: number
  readonly troubles: readonly {
    readonly file: string
    readonly line: number
    readonly column: number
    readonly says: string
    readonly remedy?: string
  }[]
  readonly brings: readonly {
    readonly rule: string
    readonly title: string
    readonly level: Level
    readonly times: number
  }[]
  readonly isWritten: boolean
}

/** Problems shown one by one; a mapping that names a wrong column can make one of every row. */
const mostShown = 1000

/**
 * For a terminal: what would be written as a unified diff, which `git apply` takes; then every problem at its spot in the
 * file; then what `check` would say besides; the summary last. Of what was written only the paths are told.
 */
export function importText(page: ImportPage, paint: Painter): string {
  const records = page.isWritten
    ? page.fresh.map(({ file }) => `${clean(file)}\n`)
    : page.fresh.map((record) => diffOf(page.file, record, paint))
  const shown = troubleLines(page.troubles.slice(0, mostShown), paint)
  const more = page.troubles.length - mostShown
  if (more > 0) shown.push(`... and ${plural(more, 'more problem', 'more problems')}.\n`)
  const parts = [records, shown, bringsLines(page, paint), leftLines(page), [`${summary(page)}\n`]]
  return parts
    .filter((lines) => lines.length > 0)
    .map((lines) => lines.join(''))
    .join('\n')
}

function diffOf(source: string, { file, text, rows }: ImportPage['fresh'][number], paint: Painter): string {
  const lines = text.replace(/\n$/, '').split('\n')
  return [
    paint.faint('--- /dev/null'),
    paint.strong(`+++ b/${clean(file)}`),
    paint.faint(`@@ -0,0 +1,${lines.length} @@ ${clean(source)}, ${linesOf(rows)}`),
    ...lines.map((line) => `+${clean(line)}`),
    '',
  ].join('\n')
}

function linesOf(rows: readonly { readonly line: number }[]): string {
  const first = rows[0]?.line
  const last = rows.at(-1)?.line
  return first === last ? `line ${first}` : `lines ${first} to ${last}`
}

/** A remedy is told once, with the first that it is for. */
function troubleLines(troubles: ImportPage['troubles'], paint: Painter): string[] {
  const told = new Set<string>()
  return troubles.map(({ file, line, column, says, remedy }) => {
    const isNew = remedy !== undefined && !told.has(remedy)
    if (isNew) told.add(remedy)
    const todo = isNew ? `  do:  ${clean(remedy)}\n` : ''
    return `${paint.strong(`${clean(file)}:${line}:${column}:`)} ${clean(says)}\n${todo}`
  })
}

function bringsLines({ brings, isWritten }: ImportPage, paint: Painter): string[] {
  if (brings.length === 0) return []
  return [
    `${isWritten ? 'With them' : 'Once they are written'}, \`doorsweep check\` also says, which hinders nothing:\n`,
    ...brings.map(
      ({ rule, title, level, times }) =>
        `  ${paint[level](level)}: ${title} (${plural(times, 'time')}) [${rule}]\n`,
    ),
  ]
}

function leftLines({ leftAside, skipped }: ImportPage): string[] {
  return [
    ...(leftAside.length > 0
      ? [`Nothing was taken from these columns: ${leftAside.map(clean).join(', ')}.\n`]
      : []),
    ...(skipped > 0
      ? [`Left out, since the mapping says that an empty count is no look: ${plural(skipped, 'row')}.\n`]
      : []),
  ]
}

function summary({ file, rows, fresh, unchanged, troubles, isWritten }: ImportPage): string {
  const there = unchanged > 0 ? `, ${unchanged} there already and the same` : ''
  const begin = `${clean(file)}: ${plural(rows, 'row')}`
  if (troubles.length > 0) return `${begin}; ${plural(troubles.length, 'problem')}. Nothing was written.`
  const records = plural(fresh.length, 'new record')
  if (fresh.length === 0) return `${begin}; ${records}${there}. There is nothing to write.`
  if (isWritten) return `${begin}; ${records} written${there}.`
  return `${begin}; ${records}${there}. Nothing was written; add --write to write ${fresh.length === 1 ? 'it' : 'them'}.`
}
