import { areasVisited } from '../../ledger/inspections.js'
import type { LoadedEvent } from '../../ledger/loaded.js'
import type { SiteView } from '../../ledger/site-view.js'
import type { tactics } from '../../records/action.js'
import type { RecordOf } from '../../records/kinds.js'
import type { purposes } from '../../records/visit.js'
import type { Day, Place } from '../../types.js'
import { earliest } from './lapse.js'

/** A sign of a pest that asks for something to be done soon. */
export interface Sign {
  readonly day: Day
  readonly visit: LoadedEvent<'visit'>
  readonly area: string
  /** What was seen, in a few words. */
  readonly what: string
  readonly at: Place
  /** Day it was identified as some other animal. */
  readonly dismissed: Day | undefined
}

/** What counts as having answered such a sign. */
export interface Answering {
  readonly sameAnimal: (pest: string) => boolean
  /** Whether what is done against the animal elsewhere in the site answers it too. */
  readonly anywhere: boolean
  /** Tactics that answer it when the action names only the area, not the pest. */
  readonly tactics: ReadonlySet<(typeof tactics)[number]>
  /** Visits that answer it by looking at the area again. */
  readonly lookedAgain: ReadonlySet<(typeof purposes)[number]>
}

interface Answer {
  readonly day: Day
  readonly answers: (sign: Sign) => boolean
}

/** A sign with the day of the first answer to it, if there is one. */
export interface AnsweredSign {
  readonly sign: Sign
  readonly answered: Day | undefined
}

/**
 * Signs of one kind in order of day, each with its first answer. A sign seen again in the same area before the
 * first was answered is the same trouble and is left out.
 */
export function* answeredSigns(
  view: SiteView,
  signs: readonly Sign[],
  how: Answering,
): Iterable<AnsweredSign> {
  if (signs.length === 0) return
  const answers = answersOf(view, how)
  const waiting = new Map<string, Day>()
  for (const sign of [...signs].sort((a, b) => a.day - b.day)) {
    if (sign.day < view.begins || sign.day < (waiting.get(sign.area) ?? sign.day)) continue
    const answered = earliest(firstAnswer(answers, sign), sign.dismissed)
    waiting.set(sign.area, answered ?? Number.POSITIVE_INFINITY)
    yield { sign, answered }
  }
}

function firstAnswer(answers: readonly Answer[], sign: Sign): Day | undefined {
  let low = 0
  let high = answers.length
  while (low < high) {
    const middle = (low + high) >> 1
    if ((answers[middle]?.day ?? 0) >= sign.day) high = middle
    else low = middle + 1
  }
  for (let at = low; at < answers.length; at++) if (answers[at]?.answers(sign)) return answers[at]?.day
  return undefined
}

/** Actions, applications done or planned, bait put into devices, and visits that look again, by day. */
function answersOf(view: SiteView, how: Answering): Answer[] {
  const answers: Answer[] = []
  const areas = areasVisited(view)
  for (const visit of view.visits) {
    for (const action of Object.values(visit.data.actions ?? {})) {
      const answersSign = actionAnswers(action, visit, how)
      if (answersSign) answers.push({ day: visit.day, answers: answersSign })
    }
    if (!how.lookedAgain.has(visit.data.purpose)) continue
    const looked = areas.get(visit.file)
    answers.push({
      day: visit.day,
      answers: (sign) => sign.visit !== visit && looked?.has(sign.area) === true,
    })
  }
  for (const { data, day } of view.applications) {
    if (data.status === 'cancelled' || !how.sameAnimal(data.pest)) continue
    answers.push({ day, answers: (sign) => how.anywhere || data.areas[sign.area] !== undefined })
  }
  for (const { how: told, pests, areas, day } of view.treatments)
    if (told === 'bait in a device' && pests.some(how.sameAnimal))
      answers.push({ day, answers: (sign) => areas.some(({ id }) => id === sign.area) })
  return answers.sort((a, b) => a.day - b.day)
}

type Action = NonNullable<RecordOf<'visit'>['actions']>[string]

/**
 * An action that names the pest answers its signs, unless it names another area and that matters. One that names no pest answers signs of its area if the tactic
 * fits; on the very visit that saw the sign it need not name the area or the tactic.
 */
function actionAnswers(
  action: Action,
  visit: LoadedEvent<'visit'>,
  how: Answering,
): Answer['answers'] | undefined {
  const { area } = action
  if (action.pest !== undefined)
    return how.sameAnimal(action.pest)
      ? (sign) => how.anywhere || area === undefined || area === sign.area
      : undefined
  if (action.condition !== undefined) return undefined
  const fits = action.tactic !== undefined && how.tactics.has(action.tactic)
  return (sign) => {
    const sameVisit = sign.visit === visit && (fits || action.tactic === undefined)
    return sameVisit ? area === undefined || area === sign.area : fits && area === sign.area
  }
}
