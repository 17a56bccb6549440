import type { LocatedProblem } from '../check/locate-problems.js'
import { ruleById } from '../rules/all.js'
import type { Level, NotChecked } from '../types.js'
import { clean } from './clean.js'
import type { ProblemsPage } from './problems.js'
import {
  countByLevel,
  isPath,
  notComparedSentence,
  pathInRepository,
  plural,
  sentenceOf,
} from './problems.js'
import { wellFormed } from './well-formed.js'

export interface AnnotationsOptions {
  /** Folder of the ledger in the git repository that holds it; `''` when the ledger is its root. */
  readonly prefix?: string
  /** How many annotations of each level there are at most. */
  readonly most?: number
}

/** Services that read such lines show ten errors, ten warnings and ten notices of one step, and drop the rest unsaid. */
const shownOfEachLevel = 10

const commands: Record<Level, string> = { error: 'error', warning: 'warning', note: 'notice' }

/**
 * A check as lines that CI services turn into annotations beside the lines of a change: the worst first, since only so
 * many are shown, and at the end in plain words how much there is and how much was left out. What is excepted is counted only.
 */
export function problemsAnnotations(page: ProblemsPage, options: AnnotationsOptions = {}): string {
  const { prefix = '', most = shownOfEachLevel } = options
  const errors = [
    ...page.notChecked.map((entry) => notCheckedLine(entry, prefix)),
    ...linesOf(page, 'error', prefix),
  ]
  const warnings = [
    ...(page.compared?.notCompared ?? []).map((entry) =>
      command('warning', { title: 'not compared' }, [notComparedSentence(entry)]),
    ),
    ...linesOf(page, 'warning', prefix),
  ]
  const all = [errors, warnings, linesOf(page, 'note', prefix)]
  const shown = all.flatMap((lines) => lines.slice(0, most))
  return [...shown, summary(page, all.flat().length - shown.length)].map((line) => `${line}\n`).join('')
}

function linesOf({ problems }: ProblemsPage, level: Level, prefix: string): string[] {
  return problems.filter(({ problem }) => problem.level === level).map((located) => lineOf(located, prefix))
}

/** Columns are left out of a stretch over several lines: a service takes them within one line only. */
function lineOf({ problem, location }: LocatedProblem, prefix: string): string {
  const place = location
    ? {
        line: location.line,
        ...(location.line === location.endLine ? { col: location.column } : {}),
        endLine: location.endLine,
      }
    : {}
  const remedy = ruleById(problem.rule)?.remedy
  return command(
    problem.level,
    { file: pathInRepository(problem.at.file, prefix), ...place, title: problem.rule },
    [sentenceOf(problem), ...(remedy === undefined ? [] : [`Do: ${remedy}`])],
  )
}

function notCheckedLine({ what, why }: NotChecked, prefix: string): string {
  const file = isPath(what) ? { file: pathInRepository(what, prefix) } : {}
  return command('error', { ...file, title: 'not checked' }, [`${what}: ${why}.`])
}

/**
 * `::level key=value,key=value::message`. In the message `%` and line ends are escaped, in values also `:` and `,`, by the
 * rules that services publish for such lines. Control characters have become visible before.
 */
function command(
  level: Level,
  properties: Readonly<Record<string, string | number>>,
  lines: readonly string[],
): string {
  const values = Object.entries(properties).map(([key, value]) => `${key}=${escapedValue(String(value))}`)
  return `::${commands[level]} ${values.join(',')}::${lines.map(escapedText).join('%0A')}`
}

function escapedText(text: string): string {
  return wellFormed(clean(text)).replaceAll('%', '%25').replaceAll('\r', '%0D').replaceAll('\n', '%0A')
}

function escapedValue(text: string): string {
  return escapedText(text).replaceAll(':', '%3A').replaceAll(',', '%2C')
}

function summary(page: ProblemsPage, leftOut: number): string {
  const counts = countByLevel(page.problems)
  const found = [
    plural(counts.error, 'error'),
    plural(counts.warning, 'warning'),
    plural(counts.note, 'note'),
    `${page.excepted.length} excepted`,
    `${plural(page.notChecked.length, 'thing')} not checked`,
  ]
  const hidden = page.hidden > 0 ? `; ${page.hidden} more not shown` : ''
  const rest =
    leftOut === 0
      ? ''
      : ` ${plural(leftOut, 'more is', 'more are')} not annotated here: \`doorsweep check\` shows everything.`
  const older = page.compared
    ? ` ${plural(page.compared.known, 'older problem')} that the change did not bring ${page.compared.known === 1 ? 'is' : 'are'} left out.`
    : ''
  return `${plural(page.records, 'record')} of ${plural(page.sites, 'site')} read as of ${page.asOf}: ${found.join(', ')}${hidden}.${older}${rest}`
}
