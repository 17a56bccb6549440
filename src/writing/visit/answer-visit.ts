import { clockTimeOf } from '../../measure/zone.js'
import { purposes } from '../../records/visit.js'
import { notEntered } from './answer-devices.js'
import type { VisitPlan } from './plan.js'
import { areaIn } from './plan-places.js'
import type { Outcome, Step, VisitState } from './state.js'
import { answered, needsWord } from './state.js'
import { insideAgain, insideSteps, stepsOf } from './walk.js'
import { firstWord, matched, wordIn } from './words.js'

/** Who made the visit; Enter is who made the last one. */
export function answerBy(plan: VisitPlan, state: VisitState, text: string): Outcome {
  const typed = text === '' ? plan.lastVisitor : text
  if (typed === undefined) return { complaint: 'Write who made the visit, by the id of the person.' }
  const found = matched(typed, plan.people, 'person')
  if ('complaint' in found) return found
  return answered(
    state,
    { by: found.word },
    { next: needsWord(plan, found.word) ? [{ is: 'word' }] : [], understood: [`by ${found.word}`] },
  )
}

export function answerWord(plan: VisitPlan, state: VisitState, text: string): Outcome {
  if (!/^[a-z0-9][a-z0-9-]*$/.test(text))
    return { complaint: 'Write one word of small letters, such as evening.' }
  return needsWord({ ...plan, word: text }, state.draft.by ?? '')
    ? { complaint: `There is a visit with ${text} too; write another word.` }
    : answered(state, { word: text })
}

/** A clock time as a record has it: `6:10` and `0610` are understood. */
export function clockTyped(text: string): string | undefined {
  const match = /^([0-9]{1,2}):?([0-9]{2})([+-][0-9]{2}:[0-9]{2})?$/.exec(text)
  const padded = match && `${(match[1] ?? '').padStart(2, '0')}:${match[2]}${match[3] ?? ''}`
  return padded && clockTimeOf(padded) ? padded : undefined
}

const notATime = (text: string) => ({
  complaint: text === '' ? 'Write the time of day, as 06:10.' : `${text} is no time of day, such as 06:10.`,
})

/** When it began. `-`: not known. The end is asked last. */
export function answerStart(state: VisitState, text: string): Outcome {
  if (text === '-') return answered(state, {})
  const start = clockTyped(text)
  return start === undefined ? notATime(text) : answered(state, { start })
}

export function answerEnd(state: VisitState, text: string): Outcome {
  const { start } = state.draft
  if (start === undefined || text === '-') return answered(state, {})
  const end = clockTyped(text)
  if (end === undefined) return notATime(text)
  return inOrder(start, end) ? answered(state, { end }) : endsFirst(start, end)
}

/** Start and end as a page has them, in one line. */
export function answerTimes(state: VisitState, text: string): Outcome {
  if (text === '' || text === '-') return answered(state, {})
  const [from = '', to = '', ...others] = text.split(/ to | - |[ ,–-]+(?=[0-9])/)
  const start = clockTyped(from.trim())
  const end = clockTyped(to.trim())
  if (start === undefined || end === undefined || others.length > 0)
    return { complaint: `Write start and end, as 06:10 to 06:50.` }
  return inOrder(start, end) ? answered(state, { start, end }) : endsFirst(start, end)
}

function inOrder(start: string, end: string): boolean {
  const minutes = (text: string) => clockTimeOf(text)?.minutes ?? 0
  // Two offsets mean that the clock was set in between; whether that is in order, the check tells.
  return start.length > 5 || end.length > 5 || minutes(start) < minutes(end)
}

const endsFirst = (start: string, end: string) => ({
  complaint: `It would end at ${end}, not after it began at ${start}; write when it ended, or u to mend the beginning.`,
})

/** The purpose, from which everything after it follows. */
export function answerPurpose(plan: VisitPlan, state: VisitState, text: string): Outcome {
  const typed = text === '' ? defaultPurpose(plan) : text.split(' ').join('-')
  const found = matched(typed, purposes, 'purpose')
  if ('complaint' in found) return found
  const next = stepsOf(plan, found.word).filter(({ is }) => is !== 'end' || state.draft.start !== undefined)
  return answered(state, { purpose: found.word }, { next, understood: [found.word] })
}

/** What is due says what the visit is likely for; it is only what Enter stands for. */
export function defaultPurpose({ isRoutineDue, areas, complaints }: VisitPlan): (typeof purposes)[number] {
  if (isRoutineDue) return 'routine'
  if (areas.some(({ devices }) => devices.some(({ isDue }) => isDue))) return 'trap-check'
  if (complaints.length > 0) return 'callback'
  return areas.some(({ conditions }) => conditions.length > 0) ? 'follow-up' : 'routine'
}

export function answerSiteManager(plan: VisitPlan, state: VisitState, text: string): Outcome {
  if (text === '-' || (text === '' && plan.siteManager === undefined)) return answered(state, {})
  if (text === '') return answered(state, { siteManager: plan.siteManager ?? '' })
  const found = matched(text, ['designee', 'left word', ...plan.people], 'person')
  return 'complaint' in found
    ? found
    : answered(state, { siteManager: found.word }, { understood: [found.word] })
}

const logStates = ['read', 'not found', 'locked away'] as const

export function answerComplaintLog(state: VisitState, text: string): Outcome {
  if (text === '-') return answered(state, {})
  const found = matched(text === '' ? 'read' : text, logStates, 'answer')
  return 'complaint' in found ? found : answered(state, { complaintLog: found.word })
}

/** Enter: inspected. `no` and why: could not be entered. `d`: only its devices. `-`: not come to. */
export function answerArea(
  plan: VisitPlan,
  state: VisitState,
  { area, again }: Extract<Step, { readonly is: 'area' }>,
  text: string,
): Outcome {
  const planned = areaIn(plan, area)
  if (!planned) return answered(state, {})
  const inArea = { ...state, area }
  const { [area]: _why, ...noEntry } = state.draft.noEntry
  const inspected = state.draft.inspected.filter((one) => one !== area)
  const inside = again === true ? insideAgain(plan, area) : insideSteps(plan, area)
  if (text === '-') return answered(inArea, { inspected, noEntry })
  if (text === '' || wordIn(text, ['yes', 'inspected']) !== undefined)
    return answered(inArea, { inspected: [...inspected, area], noEntry }, { next: inside })
  const [word, rest] = firstWord(text)
  if (word.toLowerCase() === 'no') return notEntered(state, planned, rest)
  if (text.toLowerCase() === 'd')
    return answered(inArea, {}, { next: inside.filter(({ is }) => is === 'devices') })
  return {
    complaint: 'Enter: inspected; no and why: could not be entered; d: only its devices; -: not come to.',
  }
}

/** What was found and said; Enter leaves it waiting. */
export function answerComplaint(state: VisitState, id: string, text: string): Outcome {
  if (text === '' || text === '-') return answered(state, {})
  return answered(state, { answers: { ...state.draft.answers, [id]: text } })
}
