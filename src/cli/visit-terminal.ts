import { hostname } from 'node:os'
import { join, relative } from 'node:path'
import { isoOf } from '../measure/calendar.js'
import type { Journal, Kept } from '../writing/visit/journal.js'
import { keptFile, keptFolder, openJournal, readKept } from '../writing/visit/journal.js'
import { takeLock } from '../writing/visit/lock.js'
import type { Session } from '../writing/visit/session.js'
import { begun, resumed } from '../writing/visit/session.js'
import type { VisitFlags } from './commands/visit.js'
import { timeZoneOf } from './find-ledger.js'
import type { ExitCode, Here } from './runner.js'
import { UsageError } from './usage-error.js'
import { aroundFor } from './visit-around.js'
import { clockIn } from './visit-clock.js'
import type { Ending } from './visit-conversation.js'
import { converse } from './visit-conversation.js'
import type { Lines } from './visit-lines.js'
import { linesFrom } from './visit-lines.js'
import type { VisitStart } from './visit-start.js'

/**
 * Asks for a visit on the terminal, or goes on with one that was not finished, and writes its record. `spoken` stands in for
 * the terminal.
 */
export async function askVisit(here: Here, start: VisitStart, spoken?: Lines): Promise<ExitCode> {
  if (spoken === undefined && process.stdin.isTTY !== true && start.flags.terminal !== true)
    throw new UsageError(withoutTerminal(start))
  try {
    return await askWhileLocked(here, start, () => spoken ?? linesFrom(process.stdin, here))
  } catch (error) {
    // A folder that may not be written to, or a full disk: nobody's fault in the records, and what is kept stays kept.
    const { code, syscall } = Object(error)
    if (typeof syscall !== 'string') throw error
    throw new UsageError(
      `Answers cannot be kept in ${relative(here.cwd(), join(start.ledger.root, keptFolder))} (${code}). What was kept before stays; mend that and start again.`,
    )
  }
}

async function askWhileLocked(here: Here, start: VisitStart, open: () => Lines): Promise<ExitCode> {
  const { root } = start.ledger
  const now = clockOf(start)
  const lock = takeLock(
    root,
    start.site,
    { process: process.pid, machine: hostname(), begun: now.moment() },
    isRunning,
  )
  const kept = readKept(root, start.site)
  if (lock.is === 'theirs') throw new UsageError(openElsewhere(start, kept, lock.holder, lock.file))
  const lines = open()
  try {
    if (kept.is === 'unreadable')
      throw new UsageError(
        `${relative(here.cwd(), keptFile(root, start.site))} holds an unfinished visit that cannot be read (${kept.why}). Look into it, then move it away.`,
      )
    const wanted = kept.is === 'kept' ? await wantedOf(kept, start, lines) : 'new'
    if (wanted !== 'new' && wanted !== 'kept') return ended(wanted, start, here)
    const plan = wanted === 'kept' && kept.is === 'kept' ? kept.plan : start.plan()
    const journal = openJournal(root, plan, now.moment())
    try {
      const session = wanted === 'kept' && kept.is === 'kept' ? goOn(kept, journal, lines) : begun(plan)
      const ending = await converse(
        session,
        aroundFor({ here, ledger: start.ledger, lines, journal, now: now.clock, holds: lock.holds }),
      )
      return ended(ending, start, here)
    } finally {
      if (lock.holds() && !hasAnswers(root, start.site)) journal.remove()
      journal.close()
    }
  } finally {
    lines.close()
    lock.release()
  }
}

function withoutTerminal({ site, flags }: VisitStart): string {
  const said = saidWith(flags)
    .map(([option, value]) => ` ${option} ${value}`)
    .join('')
  return [
    'Standard input is no terminal, so nothing can be asked. From a file instead:',
    `  doorsweep visit ${site}${said} --blank > visit.yaml    everything due, as blanks`,
    `  doorsweep visit ${site}${said} --file visit.yaml       checks it and writes it, all or nothing`,
  ].join('\n')
}

/** What the command says of the visit itself. */
function saidWith(flags: VisitFlags): (readonly [option: string, value: string])[] {
  const { by, on, enteredBy, onPaper, word } = flags
  const said = { '--by': by, '--on': on, '--entered-by': enteredBy, '--on-paper': onPaper, '--word': word }
  return Object.entries(said).flatMap(([option, value]) =>
    value === undefined ? [] : [[option, value] as const],
  )
}

/** The clock of the district, with and without the day. */
function clockOf({ ledger }: VisitStart): { readonly moment: () => string; readonly clock: () => string } {
  const zone = timeZoneOf(ledger.source)
  const clock = () => clockIn(zone, ledger.asOf, new Date())
  return { clock, moment: () => `${isoOf(ledger.asOf)} ${clock()}` }
}

/** A visit in which nothing was answered yet is not worth asking about the next time. */
function hasAnswers(root: string, site: string): boolean {
  const kept = readKept(root, site)
  return kept.is !== 'kept' || kept.answers.length > 0
}

function isRunning(id: number): boolean {
  try {
    process.kill(id, 0)
    return true
  } catch (error) {
    return Object(error).code === 'EPERM'
  }
}

function openElsewhere(
  { site }: VisitStart,
  kept: ReturnType<typeof readKept>,
  holder: { readonly process: number; readonly machine: string },
  file: string,
): string {
  const what = kept.is === 'kept' ? describe(kept) : 'a visit that was just begun'
  return `There is an unfinished visit to ${site}: ${what}. It is open in another window (process ${holder.process} on ${holder.machine}); finish it there. If there is no such window, remove ${file}.`
}

function describe({ plan, begun: at, answers }: Kept): string {
  const by = resumed(plan, answers).session.state.draft.by
  return `of ${plan.day}${by === undefined ? '' : `, by ${by}`}, begun ${at}, ${answers.length} ${answers.length === 1 ? 'answer' : 'answers'}`
}

/** One that was killed before anything was answered is begun anew: nobody has to be asked about nothing. */
async function wantedOf(kept: Kept, start: VisitStart, lines: Lines): ReturnType<typeof goOnOrDiscard> {
  if (kept.answers.length > 0) return goOnOrDiscard(kept, start, lines)
  openJournal(start.ledger.root, kept.plan, kept.begun).remove()
  return 'new'
}

/** An unfinished visit is gone on with, unless whoever is asked writes the whole word. */
async function goOnOrDiscard(
  kept: Kept,
  { site, ledger, flags }: VisitStart,
  lines: Lines,
): Promise<'new' | 'kept' | Exclude<Ending, 'written'>> {
  lines.say(`There is an unfinished visit to ${site}: ${describe(kept)}.`)
  const other = otherThanKept(kept, flags)
  if (other.length > 0) lines.say(`  The command says ${other.join(' ')}; what is kept stays as it was told.`)
  for (;;) {
    const heard = await lines.ask('Go on with it [yes], or discard')
    if (heard.is !== 'line') return heard.is
    const text = heard.text.trim().toLowerCase()
    if (text === '' || text === 'yes' || text === 'y') return 'kept'
    if (text === 'q') return 'stopped'
    if (text === 'discard') {
      openJournal(ledger.root, kept.plan, kept.begun).remove()
      lines.say('Discarded.')
      return 'new'
    }
    lines.say('  Enter goes on with it; discard, in full, throws its answers away; q leaves it as it is.')
  }
}

/** What the command says of a visit, where the one that is kept is another. */
function otherThanKept({ plan, answers }: Kept, flags: VisitFlags): string[] {
  const { draft } = resumed(plan, answers).session.state
  const { by, enteredBy, onPaper, word } = draft
  const told = {
    '--by': by,
    '--on': plan.day,
    '--entered-by': enteredBy,
    '--on-paper': onPaper,
    '--word': word,
  }
  return saidWith(flags).flatMap(([option, value]) =>
    told[option as keyof typeof told] === value ? [] : [`${option} ${value}`],
  )
}

function goOn({ plan, answers }: Kept, journal: Journal, lines: Lines): Session {
  const { session, unfit } = resumed(plan, answers)
  for (const { to, text } of unfit) {
    journal.undo()
    lines.say(`  No longer fits, and is left out: ${text} (${to})`)
  }
  const last = session.answers.at(-1)
  if (last) lines.say(`  The last answer was: ${last.text === '' ? 'Enter' : last.text} (${last.to})`)
  return session
}

function ended(ending: Ending, { site }: VisitStart, here: Here): ExitCode {
  if (ending === 'written') return 0
  here.stderr.write(
    `\nNot written. What was answered is kept: \`doorsweep visit ${site}\` goes on with it.\n`,
  )
  return ending === 'interrupted' ? 130 : 2
}
