import { compareText } from '../ledger/compare-text.js'
import { ruleById } from '../rules/all.js'
import type { Level } from '../types.js'
import { clean } from './clean.js'
import type { ImportPage } from './import-page.js'
import type { Painter } from './painter.js'
import { plural } from './problems.js'

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
  return troubles.map(({ file, line, column, says, todo, remedy }) => {
    const isNew = remedy !== undefined && !told.has(remedy)
    if (isNew) told.add(remedy)
    const spot = paint.strong(`${clean(file)}:${line}:${column}:`)
    const ofItsKind = isNew ? `  do:  ${clean(remedy)}\n` : ''
    return `${spot} ${clean(todo === undefined ? says : `${says} ${todo}`)}\n${ofItsKind}`
  })
}

function bringsLines({ brings, isWritten }: ImportPage, paint: Painter): string[] {
  if (brings.length === 0) return []
  return [
    `${isWritten ? 'With them' : 'Once they are written'}, \`doorsweep check\` also says, which hinders nothing:\n`,
    ...byRule(brings).map(
      ({ rule, title, level, times }) =>
        `  ${paint[level](level)}: ${title} (${plural(times, 'time')}) [${rule}]\n`,
    ),
  ]
}

interface Repeated {
  readonly rule: string
  readonly title: string
  readonly level: Level
  readonly times: number
}

/** A season of counts can bring the same thing a hundred times; told once, with how often. */
function byRule(brings: ImportPage['brings']): Repeated[] {
  const found = new Map<string, Repeated>()
  for (const { problem } of brings) {
    const key = `${problem.level} ${problem.rule}`
    const times = (found.get(key)?.times ?? 0) + 1
    const title = ruleById(problem.rule)?.title ?? problem.rule
    found.set(key, { rule: problem.rule, title, level: problem.level, times })
  }
  return [...found.values()].sort((a, b) => compareText(a.level, b.level) || compareText(a.rule, b.rule))
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
  const there = unchanged.length > 0 ? `, ${unchanged.length} there already and the same` : ''
  const begin = `${clean(file)}: ${plural(rows, 'row')}`
  if (troubles.length > 0) return `${begin}; ${plural(troubles.length, 'problem')}. Nothing was written.`
  const records = plural(fresh.length, 'new record')
  if (fresh.length === 0) return `${begin}; ${records}${there}. There is nothing to write.`
  if (isWritten) return `${begin}; ${records} written${there}.`
  return `${begin}; ${records}${there}. Nothing was written; add --write to write ${fresh.length === 1 ? 'it' : 'them'}.`
}
