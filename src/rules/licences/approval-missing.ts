import type { DistrictView } from '../../ledger/district-view.js'
import { citationsOf, isCertifiedOn, isCoordinatorOn } from '../../ledger/licences.js'
import type { Duty } from '../../ledger/rulebooks-in-force.js'
import { dayIn } from '../../ledger/spans.js'
import { isPesticide } from '../../ledger/treatments.js'
import { dutiesFor } from '../../ledger/use-classes.js'
import { isoOf } from '../../measure/calendar.js'
import { lastDayOf, monthsIn } from '../../measure/retention.js'
import type { RecordOf } from '../../records/kinds.js'
import type { Day, KeyPath } from '../../types.js'
import { levelOfDuty } from '../adopted.js'
import { siteRule } from '../rule.js'
import { askedByRulebooks } from './asked-by-rulebooks.js'
import { gelInCracks, inventedAct, ownRulebook } from './example-ledgers.js'

type Approver = Duty<'approvals'>['says']['by'][number]

type ApprovalArgs = {
  readonly lacks: Lack['lacks']
  /** Day of the approval, and the last day it was good; '' where that is not the matter. */
  readonly on: string
  readonly goodUntil: string
  /** Of which kinds nobody approved. */
  readonly kinds: readonly string[]
}

const own = ownRulebook(`
approvals:
  before-use: [{${inventedAct} 6, by: [certified-applicator, coordinator], good-for: 6 months}]
`)

export const approvalMissing = siteRule<ApprovalArgs>({
  id: 'approval-missing',
  title: 'the approval asked for before an application is not shown',
  level: 'error',
  judgedOn: 'the day of the application; who may approve, on the day of the approval',
  why: 'Someone who does not apply the pesticide looks beforehand whether it has to be used; afterwards there is nothing left to decide.',
  remedy:
    'If it was approved beforehand in writing, enter that: `approved: {by: [vale, marsh], on: 2026-03-10}`. An approval given afterwards does not take its place.',
  source: askedByRulebooks('approvals'),
  actor: 'coordinator',
  gap: true,
  says: ({ lacks, on, goodUntil, kinds }) => {
    if (lacks === 'approval') return `No approval by ${kinds.map(words).join(' and ')} is recorded.`
    if (lacks === 'time') return `The approval is of ${on}, after the day of the application.`
    if (lacks === 'approver')
      return `Nobody who approved on ${on} is shown to have been ${kinds.map(words).join(' or ')} on that day.`
    return `The approval of ${on} was good until ${goodUntil}, and the application is later.`
  },
  *check(view) {
    for (const treatment of view.treatments) {
      // Bait in a device is told by a visit, which has no place for an approval.
      const { application } = treatment
      if (!application || treatment.day < view.begins || !isPesticide(treatment)) continue
      const lacking = dutiesFor(view, 'approvals', treatment).flatMap((duty) => {
        const lack = lackOf(view.district, application, treatment.day, duty)
        return lack ? [{ ...lack, duty }] : []
      })
      const first = inOrder.flatMap((lacks) => lacking.filter((lack) => lack.lacks === lacks))[0]
      if (!first) continue
      const alike = lacking.filter(({ lacks }) => lacks === first.lacks)
      const ends = alike.flatMap(({ goodUntil }) => (goodUntil === undefined ? [] : [goodUntil]))
      const sources = citationsOf(lacking.map(({ duty }) => duty))
      yield {
        args: {
          lacks: first.lacks,
          on: application.approved?.on ?? '',
          goodUntil: ends.length === 0 ? '' : isoOf(Math.min(...ends)),
          kinds: [...new Set(alike.flatMap(({ kinds }) => kinds))],
        },
        at: treatment.at(...placeOf[first.lacks]),
        from: treatment.day,
        level: levelOfDuty(sources),
        sources,
      }
    }
  },
  failing: own + gelInCracks('okafor', 'approved: {by: [okafor], on: 2026-03-10} # expect: approval-missing'),
  passing: own + gelInCracks('okafor', 'approved: {by: [okafor, marsh], on: 2026-03-10}'),
})

export interface Lack {
  readonly lacks: 'approval' | 'time' | 'approver' | 'freshness'
  readonly kinds: readonly Approver[]
  readonly goodUntil?: Day
}

/** Of several lacks the one that is told; what comes first leaves the least to stand on. */
const inOrder = ['approval', 'time', 'approver', 'freshness'] as const

const placeOf: Readonly<Record<Lack['lacks'], KeyPath>> = {
  approval: ['product'],
  time: ['approved', 'on'],
  approver: ['approved', 'by'],
  freshness: ['approved', 'on'],
}

export function lackOf(
  district: DistrictView,
  { approved }: RecordOf<'application'>,
  day: Day,
  { says }: Duty<'approvals'>,
): Lack | undefined {
  if (!approved) return { lacks: 'approval', kinds: says.by }
  const on = dayIn(approved.on)
  if (on > day) return { lacks: 'time', kinds: [] }
  const kinds = says.by.filter((kind) => !approved.by.some((person) => mayBe(district, person, kind, on)))
  if (kinds.length > 0) return { lacks: 'approver', kinds }
  const months = says['good-for'] === undefined ? null : monthsIn(says['good-for'])
  if (months === null || day <= lastDayOf(on, months)) return undefined
  return { lacks: 'freshness', kinds: [], goodUntil: lastDayOf(on, months) }
}

/** Whether someone was of the kind asked on the day; of someone who is not in the ledger another rule speaks. */
function mayBe(district: DistrictView, id: string, kind: Approver, on: Day): boolean {
  const person = district.people.get(id)
  if (!person) return true
  return kind === 'coordinator' ? isCoordinatorOn(district, id, on) : isCertifiedOn(person, on)
}

function words(kind: string): string {
  return kind === 'coordinator' ? 'the coordinator' : 'a certified applicator'
}
