import type { DistrictView } from '../../ledger/district-view.js'
import { getOrMake } from '../../ledger/get-or-make.js'
import type { LoadedEvent } from '../../ledger/loaded.js'
import type { SiteDigest } from '../../ledger/site-digest.js'
import type { DutyOf } from '../../records/rulebook-duties.js'
import type { Day } from '../../types.js'
import { levelOfDuty } from '../adopted.js'
import type { Finding } from '../rule.js'
import { districtRule } from '../rule.js'
import { annualNotice, underYearlyDuty } from './example-ledgers.js'
import { askedByRulebooks, filingWords } from './words.js'
import type { YearlyDuty } from './years.js'
import { dueDay, yearsOf } from './years.js'

type Filing = LoadedEvent<'filing'>
type IncompleteArgs = {
  readonly what: string
  readonly year: string
  /** What it does not say, in the words of the record. */
  readonly lacks: readonly string[]
  /** Who was not reached; empty when all were. */
  readonly unreached: string
}

export const yearlyFilingIncomplete = districtRule<IncompleteArgs>({
  id: 'yearly-filing-incomplete',
  title: 'what was sent or filed for a year says too little, or reached too few',
  level: 'error',
  judgedOn: 'the day it was sent or filed',
  why: 'A notice without whom to ask, or one that reached only some, leaves the others as if there had been none.',
  remedy:
    'Send what is missing as a further filing for the same year; if it did say so, add the words to `says`, or whom it went to under `to`.',
  source: askedByRulebooks,
  actor: 'coordinator',
  gap: true,
  says: ({ what, year, lacks, unreached }) => {
    const parts = [
      ...(lacks.length === 0 ? [] : [`does not say: ${lacks.join(', ')}`]),
      ...(unreached === '' ? [] : [`is not recorded as sent to ${unreached}`]),
    ]
    return `The ${what} for ${year} ${parts.join('; it ')}.`
  },
  *check(view, digests) {
    const byYear = new Map<string, Filing[]>()
    for (const filing of view.filings)
      getOrMake(byYear, `${filing.data.what} ${filing.data.year}`, () => []).push(filing)
    for (const filings of byYear.values()) {
      const found = judge(view, digests, filings)
      if (found) yield found
    }
  },
  failing: `${underYearlyDuty('to: everyone, says: [policy, coordinator-contact]')}
${annualNotice('to: everyone\nsays: [policy] # expect: yearly-filing-incomplete')}`,
  passing: `${underYearlyDuty('to: everyone, says: [policy, coordinator-contact]')}
${annualNotice('to: everyone\nsays: [policy, coordinator-contact]')}`,
})

/** Whom an audience reaches, so that what went to parents and what went to staff together reach everyone. */
const reachOf: Record<string, readonly string[]> = {
  everyone: ['all parents', 'all staff'],
  'all parents': ['all parents'],
  'all staff': ['all staff'],
  'the state': ['the state'],
  'the public': ['the public'],
}

/**
 * Several filings for one year add up. Nothing is told where they are whole by the day they were due; else it is told at
 * the first that lacks something, until what is missing was sent too.
 */
function judge(
  view: DistrictView,
  digests: readonly SiteDigest[],
  filings: readonly Filing[],
): Finding<IncompleteArgs> | undefined {
  const first = filings[0]
  if (!first || first.day < view.recordsBegin) return undefined
  const duties = view.rulebooks
    .duties('yearly', first.day)
    .filter((duty) => duty.says.what === first.data.what && isAsked(view, digests, duty, first.data.year))
  const broken = duties.filter(({ says }) => !isWhole(says, [first]))
  if (broken.length === 0) return undefined
  const count = filings.findIndex((_, at) =>
    broken.every(({ says }) => isWhole(says, filings.slice(0, at + 1))),
  )
  const whole = count < 0 ? undefined : filings[count]?.day
  if (whole !== undefined && broken.every(({ says }) => isInTime(view, says, first.data.year, whole)))
    return undefined
  // What is still missing is missing from all of them together; what was made good, from the first.
  const held = count < 0 ? filings : [first]
  const stillBroken = broken.filter(({ says }) => !isWhole(says, held))
  const lacks = [...new Set(stillBroken.flatMap(({ says }) => lacking(says, held).lacks))]
  const unreached = [...new Set(stillBroken.flatMap(({ says }) => lacking(says, held).unreached))]
  const sources = broken.map(({ citation }) => citation)
  const key = lacks.length > 0 ? 'says' : 'to'
  const faulty =
    held.find(({ data }) => lacks.some((word) => !data.says?.some((said) => said === word))) ?? first
  return {
    args: {
      what: filingWords[first.data.what],
      year: first.data.year,
      lacks,
      unreached: unreached.join(' and '),
    },
    at: { file: faulty.file, path: [faulty.data[key] === undefined ? 'what' : key] },
    from: faulty.day,
    ...(whole === undefined ? {} : { until: whole }),
    identity: [first.data.what, first.data.year],
    sources,
    level: levelOfDuty(sources),
  }
}

/** Whether a day is still within the term of a duty for a year. */
function isInTime(view: DistrictView, says: DutyOf<'yearly'>, written: string, day: Day): boolean {
  const year = yearsOf(view, says.year).find(({ name }) => name === written)
  return year !== undefined && day <= dueDay(year, says)
}

/** Whether a duty asks for a filing of that year: of its kind of year, and in a year with a use where it takes one. */
function isAsked(
  view: DistrictView,
  digests: readonly SiteDigest[],
  { rulebook, name, says }: YearlyDuty,
  written: string,
): boolean {
  const year = yearsOf(view, says.year).find((one) => one.name === written)
  if (!year) return written.includes('-') === (says.year === 'school') && says['only-if-used'] === undefined
  if (says['only-if-used'] === undefined) return true
  return digests.some(({ yearlyUses }) =>
    yearlyUses.some(
      (use) =>
        use.rulebook === rulebook && use.duty === name && year.first <= use.day && use.day <= year.through,
    ),
  )
}

export function isWhole(says: DutyOf<'yearly'>, filings: readonly Filing[]): boolean {
  const { lacks, unreached } = lacking(says, filings)
  return lacks.length === 0 && unreached.length === 0
}

/** What some filings together do not say to someone they reached, and whom they did not reach. */
export function lacking(
  says: DutyOf<'yearly'>,
  filings: readonly Filing[],
): { readonly lacks: readonly string[]; readonly unreached: readonly string[] } {
  const wanted = says.to === undefined ? [] : (reachOf[says.to] ?? [])
  const reached = wanted.filter((who) => filings.some((filing) => reaches(filing, who)))
  const told = (who: string | undefined) =>
    new Set(
      filings
        .filter((filing) => who === undefined || reaches(filing, who))
        .flatMap((filing) => filing.data.says ?? []),
    )
  const perAudience = reached.length === 0 ? [told(undefined)] : reached.map(told)
  return {
    lacks: (says.says ?? []).filter((word) => perAudience.some((words) => !words.has(word))),
    unreached:
      reached.length === 0 && says.to !== undefined
        ? [says.to]
        : wanted.filter((who) => !reached.includes(who)),
  }
}

function reaches({ data }: Filing, who: string): boolean {
  return data.to !== undefined && (reachOf[data.to]?.includes(who) ?? false)
}
