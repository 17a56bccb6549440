import type { LocatedProblem } from '../check/locate-problems.js'
import { isoOf } from '../measure/calendar.js'
import { ruleById } from '../rules/all.js'
import { jsonText } from './clean.js'
import type { ImportPage, RowOfFile } from './import-page.js'

/** Version of this JSON: fields may be added, none is renamed or removed within a version. */
const formatVersion = 1

/**
 * For machines: what is refused, each with its row, column and value; the files that would be written, with their text, and
 * those that lie there already and say the same; what `check` would say besides, or null where refused rows keep that from
 * being known. While anything is refused nothing is written, and the files are those that nothing is wrong with.
 */
export function importJson(page: ImportPage): string {
  const { troubles, fresh, unchanged } = page
  return jsonText({
    'format-version': formatVersion,
    file: page.file,
    written: page.isWritten,
    counts: {
      rows: page.rows,
      'rows-left-out': page.skipped,
      refused: troubles.length,
      added: fresh.length,
      unchanged: unchanged.length,
    },
    refused: troubles.map(({ file, line, column, says, todo, remedy, cell }) => ({
      row: cell?.row ?? null,
      column: cell?.column ?? null,
      value: cell?.value ?? null,
      says,
      remedy: [todo, remedy].filter((part) => part !== undefined && part !== '').join(' '),
      location: { file, line, column },
    })),
    files: [
      ...fresh.map(({ file, rows, text }) => ({ file, outcome: 'added', rows: numbersOf(rows), text })),
      ...unchanged.map(({ file, rows }) => ({ file, outcome: 'unchanged', rows: numbersOf(rows) })),
    ],
    'columns-left-aside': page.leftAside,
    brings: troubles.length > 0 ? null : page.brings.map(broughtOf),
  })
}

const numbersOf = (rows: readonly RowOfFile[]) => rows.map(({ number }) => number)

function broughtOf({ problem, fingerprint, location }: LocatedProblem) {
  const rule = ruleById(problem.rule)
  return {
    rule: problem.rule,
    level: problem.level,
    says: rule?.says(problem.args) ?? problem.rule,
    key: problem.at.path.join('.'),
    site: problem.site ?? null,
    from: problem.at.span || problem.from <= 0 ? null : isoOf(problem.from),
    remedy: rule?.remedy ?? '',
    sources: problem.sources,
    fingerprint,
    location: { file: problem.at.file, line: location?.line ?? null, column: location?.column ?? null },
  }
}
