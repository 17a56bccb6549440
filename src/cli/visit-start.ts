import { isoOf } from '../measure/calendar.js'
import { nearest } from '../records/nearest.js'
import type { Day } from '../types.js'
import { knownIds } from '../writing/new/write-new.js'
import type { VisitPlan } from '../writing/visit/plan.js'
import { planOf } from '../writing/visit/plan.js'
import { refuseUnknownNames } from './commands/report.js'
import type { VisitFlags } from './commands/visit.js'
import { dayOption } from './day-option.js'
import type { OpenLedger } from './find-ledger.js'
import { openLedger } from './find-ledger.js'
import type { Here } from './runner.js'
import { UsageError } from './usage-error.js'

/** Everything that is settled before anything is asked. */
export interface VisitStart {
  readonly ledger: OpenLedger
  readonly site: string
  readonly day: Day
  readonly flags: VisitFlags
  /** Made when it is needed: going on with an unfinished visit takes the plan that it was begun with. */
  readonly plan: () => VisitPlan
}

/** Refuses names that nobody bears, and days that are none or to come. */
export async function startOf(here: Here, site: string, flags: VisitFlags): Promise<VisitStart> {
  const ledger = openLedger([], flags.ledger === undefined ? {} : { ledger: flags.ledger }, here)
  await refuseUnknownNames(ledger.source, { ...ledger, site })
  refuseUnknownPerson(ledger.root, '--by', flags.by)
  refuseUnknownPerson(ledger.root, '--entered-by', flags.enteredBy)
  const day = dayNotToCome('--on', flags.on, ledger.asOf) ?? ledger.asOf
  const onPaper = dayNotToCome('--on-paper', flags.onPaper, ledger.asOf)
  if (onPaper !== undefined && onPaper < day)
    throw new UsageError(
      `--on-paper ${flags.onPaper}: a page about ${isoOf(day)} was not filled in before it. Say with --on when the visit was made.`,
    )
  return { ledger, site, day, flags, plan: () => planFor(ledger, site, day, flags) }
}

function refuseUnknownPerson(root: string, option: string, id: string | undefined): void {
  if (id === undefined) return
  const known = knownIds(root, 'person')
  if (known.includes(id)) return
  const meant = nearest(id, known)
  throw new UsageError(
    `${option}: there is no person ${id}${meant === undefined ? `; start with \`doorsweep new person ${id}\`.` : `; did you mean ${meant}?`}`,
  )
}

function dayNotToCome(option: string, text: string | undefined, today: Day): Day | undefined {
  if (text === undefined) return undefined
  const day = dayOption(option, text)
  if (day > today)
    throw new UsageError(`${option} ${text} is still to come; a visit is told once it was made.`)
  return day
}

function planFor(ledger: OpenLedger, site: string, day: Day, flags: VisitFlags): VisitPlan {
  const isToday = day === ledger.asOf
  const made = planOf(
    ledger.source,
    site,
    { asOf: day, asOfIsToday: isToday },
    {
      isToday: isToday && flags.on === undefined,
      ...(day < ledger.asOf && flags.enteredBy === undefined ? { asksWhoTypes: true } : {}),
      ...(flags.by === undefined ? {} : { by: flags.by }),
      ...(flags.enteredBy === undefined ? {} : { enteredBy: flags.enteredBy }),
      ...(flags.onPaper === undefined ? {} : { onPaper: flags.onPaper }),
      ...(flags.word === undefined ? {} : { word: flags.word }),
    },
  )
  if ('plan' in made) return made.plan
  throw new UsageError(
    [
      `${site} cannot be read, so what is due there is not known. \`doorsweep check\` says what to mend; until then note the visit with \`doorsweep new visit\`.`,
      ...made.unread.map((line) => `  ${line}`),
    ].join('\n'),
  )
}
