import type { DistrictView } from '../../ledger/district-view.js'
import { citationsOf } from '../../ledger/licences.js'
import type { SiteView } from '../../ledger/site-view.js'
import { dayIn } from '../../ledger/spans.js'
import type { Treatment } from '../../ledger/treatments.js'
import { isPesticide } from '../../ledger/treatments.js'
import { dutiesFor } from '../../ledger/use-classes.js'
import { isoOf } from '../../measure/calendar.js'
import type { Day, Place } from '../../types.js'
import { levelOfDuty } from '../adopted.js'
import type { Finding } from '../rule.js'
import { dutySpells } from './duty-spells.js'
import type { TrainingDuty } from './trained-spans.js'
import {
  holdsForEveryUse,
  inTimeThrough,
  isTrainedOn,
  lastTrained,
  tenuresOf,
  trainedSpans,
  untrainedAfter,
} from './trained-spans.js'

export type TrainingArgs = {
  readonly person: string
  readonly course: string
  readonly every: string
  /** Whether it is asked of them as the coordinator. */
  readonly coordinator: boolean
  /** Day of the last such training; '' if there is none. */
  readonly last: string
  /** For the coordinator, the last day in time; for a use ''. */
  readonly due: string
  /** For a use, how many later ones there were in the same gap. */
  readonly more: number
}

type TrainingFinding = Finding<TrainingArgs>

/** Uses by people without a course asked of them: one finding for each person, course and gap in their training. */
export function trainingGapsAtUses(view: SiteView): TrainingFinding[] {
  const gaps = new Map<string, TrainingFinding>()
  for (const [treatment, asked] of trainingAsked(view)) {
    for (const finding of lackingAt(view, treatment, asked)) {
      const key = JSON.stringify(finding.identity)
      const gap = gaps.get(key)
      gaps.set(key, gap ? { ...gap, args: { ...gap.args, more: gap.args.more + 1 } } : finding)
    }
  }
  return [...gaps.values()]
}

interface Asked {
  readonly who: string
  readonly begun: Day
  readonly at: Place
}

/** A course that a duty asks of someone at a use, and how they stand to it. */
export interface AskedCourse extends Asked {
  readonly duty: TrainingDuty
  readonly is: 'trained' | 'in time' | 'lacking' | 'not in the ledger'
}

/** What is asked of people at each use of a pesticide since the records of the site begin. */
export function* trainingAsked(view: SiteView): Iterable<readonly [Treatment, readonly AskedCourse[]]> {
  const begun = new Map<string, Day>()
  for (const treatment of view.treatments) {
    if (!isPesticide(treatment)) continue
    if (!begun.has(treatment.by)) begun.set(treatment.by, treatment.day)
    if (treatment.day < view.begins) continue
    const first = begun.get(treatment.by) ?? treatment.day
    yield [
      treatment,
      dutiesFor(view, 'training', treatment).flatMap((duty) =>
        askedAt(view, treatment, duty, first).map((asked) => ({
          ...asked,
          duty,
          is: standingTo(view, duty, asked, treatment.day),
        })),
      ),
    ]
  }
}

function standingTo(view: SiteView, duty: TrainingDuty, asked: Asked, day: Day): AskedCourse['is'] {
  const person = view.district.people.get(asked.who)
  if (!person) return 'not in the ledger'
  if (isTrainedOn(trainedSpans(person, duty), day)) return 'trained'
  const inTime = inTimeThrough(duty, asked.begun)
  return inTime !== undefined && day <= inTime ? 'in time' : 'lacking'
}

function lackingAt(view: SiteView, treatment: Treatment, courses: readonly AskedCourse[]): TrainingFinding[] {
  const lacking = new Map<string, { readonly asked: Asked; readonly duties: TrainingDuty[] }>()
  for (const { duty, is, ...asked } of courses) {
    if (is !== 'lacking') continue
    const { course, who } = duty.says
    const key = JSON.stringify([who, asked.who, course])
    lacking.set(key, { asked, duties: [...(lacking.get(key)?.duties ?? []), duty] })
  }
  return [...lacking.values()].flatMap(({ asked, duties }) => {
    const person = view.district.people.get(asked.who)
    const [duty] = duties
    if (!person || !duty) return []
    const last = lastTrained(trainedSpans(person, duty), treatment.day)
    const sources = citationsOf(duties)
    const level = levelOfDuty(sources)
    const { course, every, who } = duty.says
    return [
      {
        args: {
          person: person.data.name,
          course,
          every,
          coordinator: who === 'coordinator',
          last: last === undefined ? '' : isoOf(last),
          due: '',
          more: 0,
        },
        at: asked.at,
        from: treatment.day,
        level,
        sources,
        identity: [who, person.id, course, last === undefined ? '' : isoOf(last), level],
      },
    ]
  })
}

/** Of whom a duty asks a course at a use. Of a coordinator it asks so only where it hangs on what is used. */
function askedAt(view: SiteView, treatment: Treatment, duty: TrainingDuty, begun: Day): readonly Asked[] {
  const { file } = treatment.record
  if (duty.says.who === 'whoever applies') return [{ who: treatment.by, begun, at: { file, path: ['by'] } }]
  if (holdsForEveryUse(duty)) return []
  return tenuresOf(view.district.district.data)
    .filter(({ from, through }) => from <= treatment.day && treatment.day <= (through ?? treatment.day))
    .map(({ who, from }) => ({ who, begun: from, at: treatment.at('product') }))
}

/** Days on which a coordinator was, or will be, without a course asked of them whatever is used. */
export function trainingGapsOfCoordinators(view: DistrictView): TrainingFinding[] {
  const found = new Map<string, TrainingFinding & { readonly duties: readonly TrainingDuty[] }>()
  const spells = dutySpells(view, 'training').filter(
    ({ duty }) => duty.says.who === 'coordinator' && holdsForEveryUse(duty),
  )
  const began = new Map<string, Day>()
  for (const { duty } of spells) {
    const name = `${duty.rulebook} ${duty.name}`
    began.set(name, Math.min(began.get(name) ?? Infinity, dayIn(duty.says.from)))
  }
  for (const tenure of tenuresOf(view.district.data)) {
    const person = view.people.get(tenure.who)
    if (!person) continue
    for (const { duty, from, until } of spells) {
      const spans = trainedSpans(person, duty)
      const inTime = inTimeThrough(duty, tenure.from, began.get(`${duty.rulebook} ${duty.name}`))
      for (const gap of untrainedAfter(spans, inTime ?? tenure.from - 1)) {
        const first = Math.max(gap.from, from, tenure.from)
        const ends = [gap.until, until, tenure.through === undefined ? undefined : tenure.through + 1]
        const end = Math.min(...ends.map((day) => day ?? Infinity))
        if (first >= end) continue
        const key = JSON.stringify([tenure.at, duty.says.course, first, end])
        const duties = [...(found.get(key)?.duties ?? []), duty]
        const last = lastTrained(spans, gap.from)
        const sources = citationsOf(duties)
        found.set(key, {
          duties,
          args: {
            person: person.data.name,
            course: duty.says.course,
            every: duty.says.every,
            coordinator: true,
            last: last === undefined ? '' : isoOf(last),
            due: isoOf(gap.from - 1),
            more: 0,
          },
          at: { file: view.district.file, path: ['coordinator', tenure.at, 'who'] },
          from: first,
          ...(end === Infinity ? {} : { until: end }),
          level: levelOfDuty(sources),
          sources,
          identity: [person.id, duty.says.course, isoOf(gap.from - 1)],
        })
      }
    }
  }
  return [...found.values()].map(({ duties: _, ...finding }) => finding)
}
