import stringWidth from 'string-width'
import type { LocatedException, LocatedProblem } from '../check/locate-problems.js'
import type { Location } from '../files/locate.js'
import { isoOf } from '../measure/calendar.js'
import { ruleById } from '../rules/all.js'
import { clean } from './clean.js'
import type { Painter } from './painter.js'
import type { Compared, ProblemsPage } from './problems.js'
import { countByLevel, notComparedSentence, plural } from './problems.js'

/** How many problems of one rule are shown with their line, reason and remedy; the rest take one line each. */
const shownInFull = 3

/** Problems for a person at a terminal: place first, so that editors can jump to it; the summary last. */
export function problemsText(page: ProblemsPage, paint: Painter): string {
  const shown = new Map<string, number>()
  const parts = page.problems.map((located) => {
    const times = (shown.get(located.problem.rule) ?? 0) + 1
    shown.set(located.problem.rule, times)
    return times <= shownInFull ? inFull(located, paint) : inOneLine(located, paint)
  })
  for (const excepted of page.excepted) parts.push(exceptedLine(excepted, paint))
  for (const { what, why } of page.notChecked)
    parts.push(`${paint.error('not checked:')} ${clean(what)}: ${clean(why)}.\n`)
  for (const entry of page.compared?.notCompared ?? [])
    parts.push(`${paint.warning('not compared:')} ${clean(notComparedSentence(entry))}\n`)
  return `${parts.join('')}${summary(page, paint)}\n`
}

function placeText(file: string, location: Location | null): string {
  return location ? `${clean(file)}:${location.line}:${location.column}` : clean(file)
}

function headline(located: LocatedProblem, paint: Painter): string {
  const { problem } = located
  const says = ruleById(problem.rule)?.says(problem.args) ?? problem.rule
  return `${paint.strong(placeText(problem.at.file, located.location))}: ${paint[problem.level](problem.level)}: ${clean(says)} ${paint.faint(`[${problem.rule}]`)}\n`
}

function inOneLine(located: LocatedProblem, paint: Painter): string {
  return headline(located, paint)
}

function inFull(located: LocatedProblem, paint: Painter): string {
  const { problem, location, related } = located
  const rule = ruleById(problem.rule)
  const lines = [headline(located, paint)]
  if (location && location.lineText.trim() !== '') lines.push(frame(located, paint))
  for (const other of related) {
    const line = other.location ? `:${other.location.line}` : ''
    lines.push(`  see: ${clean(other.related.place.file)}${line}: ${clean(other.related.says)}\n`)
  }
  if (rule) {
    lines.push(`  why: ${rule.why}\n`)
    lines.push(`  do:  ${clean(rule.remedy)}\n`)
  }
  return `${lines.join('')}\n`
}

/** The user's own line with carets under the spot. Columns count UTF-16 units; carets follow what is seen. */
function frame({ location }: LocatedProblem, paint: Painter): string {
  if (!location) return ''
  const number = String(location.line)
  const text = clean(location.lineText)
  const start = Math.min(location.column - 1, location.lineText.length)
  const end =
    location.endLine === location.line
      ? Math.min(location.endColumn - 1, location.lineText.length)
      : location.lineText.length
  const before = ' '.repeat(stringWidth(clean(location.lineText.slice(0, start))))
  const carets = '^'.repeat(Math.max(1, stringWidth(clean(location.lineText.slice(start, end)))))
  const gutter = ' '.repeat(number.length)
  return `  ${paint.faint(`${number} |`)} ${text}\n  ${paint.faint(`${gutter} |`)} ${before}${paint.strong(carets)}\n`
}

function exceptedLine(
  { problem, location, exception, why, until }: LocatedException,
  paint: Painter,
): string {
  const says = ruleById(problem.rule)?.says(problem.args) ?? problem.rule
  const end = until === undefined ? '' : ` until ${isoOf(until)}`
  return `${placeText(problem.at.file, location)}: ${paint.faint('excepted')}${end}: ${clean(says)} ${paint.faint(`[${problem.rule}]`)} — ${clean(why)} (${clean(exception)})\n`
}

function summary(page: ProblemsPage, paint: Painter): string {
  const counts = countByLevel(page.problems)
  const looked = `${plural(page.records, 'record')} of ${plural(page.sites, 'site')} read as of ${page.asOf}`
  const later = page.later > 0 ? `; ${plural(page.later, 'later record')} not looked at` : ''
  const found =
    page.problems.length === 0
      ? `no ${page.compared ? 'new ' : ''}problems`
      : [
          counts.error > 0 ? paint.error(plural(counts.error, 'error')) : '',
          counts.warning > 0 ? paint.warning(plural(counts.warning, 'warning')) : '',
          counts.note > 0 ? paint.note(plural(counts.note, 'note')) : '',
        ]
          .filter((part) => part !== '')
          .join(', ')
  const excepted = page.excepted.length > 0 ? `, ${page.excepted.length} excepted` : ''
  const notChecked =
    page.notChecked.length > 0 ? `, ${plural(page.notChecked.length, 'thing')} not checked` : ''
  const hidden = page.hidden > 0 ? `; ${page.hidden} more not shown` : ''
  const hint =
    page.problems.length > 0
      ? `\nFor the reason behind a rule: doorsweep explain ${page.problems[0]?.problem.rule ?? ''}`
      : ''
  return `${looked}${later}: ${found}${excepted}${notChecked}${hidden}.${page.compared ? comparedLine(page.compared) : ''}${hint}`
}

function comparedLine({ with: words, commits, known }: Compared): string {
  const ids = commits.map((id) => id.slice(0, 12)).join(', ')
  const older =
    known === 0
      ? 'no older problem stands'
      : `${plural(known, 'older problem')} that the change did not bring ${known === 1 ? 'stands' : 'stand'} too; \`doorsweep check\` shows all`
  return `\nCompared with ${clean(words)}${ids === '' ? '' : ` (${ids})`}: ${older}.`
}
