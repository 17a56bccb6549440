import { join, relative } from 'node:path'
import { isoOf } from '../measure/calendar.js'
import { ruleById } from '../rules/all.js'
import type { RecordToBe } from '../writing/visit/finish.js'
import { filesNotThere, foreseen, recordToBe, writeRecord, wrongSoFar } from '../writing/visit/finish.js'
import type { Journal } from '../writing/visit/journal.js'
import type { Session } from '../writing/visit/session.js'
import type { OpenLedger } from './find-ledger.js'
import { problemsShown } from './problems-shown.js'
import type { Here } from './runner.js'
import { UsageError } from './usage-error.js'
import type { Around } from './visit-conversation.js'
import type { Lines } from './visit-lines.js'
import { tellNext } from './visit-next.js'

/** What surrounds one conversation. */
interface Given {
  readonly here: Here
  readonly ledger: OpenLedger
  readonly lines: Lines
  readonly journal: Journal
  readonly now: () => string
  /** Whether the lock is still held. */
  readonly holds: () => boolean
}

export function aroundFor(given: Given): Around {
  const { ledger, lines, journal, now } = given
  return {
    lines,
    now,
    isStillToday: ({ plan }) => plan.day === isoOf(ledger.asOf),
    keep: (answer) => {
      refuseIfTaken(given)
      journal.add(answer)
    },
    keepUndone: () => {
      refuseIfTaken(given)
      journal.undo()
    },
    wrongSoFar: quickly((session) => wrongLines(given, session)),
    filesNotThere: (session) => filesNotThere(ledger.source, session),
    review: (session) => review(given, session),
    write: (session) => {
      const record = recordToBe(session)
      if (record === undefined || !write(given, record)) return false
      tellNext(given.here, ledger, record)
      return true
    },
  }
}

function refuseIfTaken({ holds }: Given): void {
  if (!holds())
    throw new UsageError('Another window took this visit over; what was answered here is kept there.')
}

/** Milliseconds that nobody minds between two questions. */
const mostWaited = 1500

/** Where a check takes long, the next ones wait for the end: nobody stands in a kitchen waiting for a prompt. */
function quickly(check: (session: Session) => string[]): (session: Session) => string[] {
  let isSlow = false
  return (session) => {
    if (isSlow) return []
    const before = performance.now()
    const lines = check(session)
    isSlow = performance.now() - before > mostWaited
    return lines
  }
}

function wrongLines({ ledger }: Given, session: Session): string[] {
  const record = recordToBe(session)
  if (record === undefined) return []
  return wrongSoFar(ledger.source, record, ledger).map(({ problem }) => {
    const says = ruleById(problem.rule)?.says(problem.args) ?? problem.rule
    return `  ${problem.level}: ${says} [${problem.rule}]`
  })
}

function review({ here, ledger, lines }: Given, session: Session): boolean {
  const record = recordToBe(session)
  if (record === undefined) {
    lines.say('Who made the visit, or what for, is not said yet: u goes back.')
    return false
  }
  lines.say(`\n${record.file}:\n${record.text}`)
  const { problems, isWrong } = foreseen(ledger.source, record, ledger)
  if (problems.length > 0) here.stderr.write(`With it stands:\n${problemsShown(problems, ledger, here)}`)
  else lines.say('With it stands no new problem.')
  if (!isWrong && problems.some(({ problem }) => problem.level === 'error'))
    lines.say('It tells what was done, so it can be written; what stands above stays open.')
  return !isWrong
}

function write({ here, ledger, lines, journal }: Given, record: RecordToBe): boolean {
  const done = writeRecord(ledger.root, ledger.source, record, ledger)
  if (done.is === 'written') {
    journal.remove()
    here.stdout.write(`${relative(here.cwd(), join(ledger.root, record.file))}\n`)
    return true
  }
  if (done.is === 'wrong') here.stderr.write(problemsShown(done.brought, ledger, here))
  else {
    const remedy =
      done.why.refused === 'taken' ? ' Type word and one that tells the two apart, as: word evening.' : ''
    lines.say(`  ${record.file} ${done.why.detail}.${remedy}`)
  }
  lines.say('  Nothing was written; the answers are kept.')
  return false
}
