import { needs } from '../../records/condition.js'
import { evidenceKinds, owners } from '../../records/event-words.js'
import { purposes } from '../../records/visit.js'
import { flowText } from '../demo/yaml.js'
import { defaultPurpose } from './answer-visit.js'
import type { PlannedCondition, VisitPlan } from './plan.js'
import { areaIn } from './plan-places.js'
import { awayFrom, deviceQuestion } from './question-devices.js'
import { workWordsOf } from './question-work.js'
import type { Session } from './session.js'
import { nextQuestion } from './session.js'
import type { Step, VisitState } from './state.js'
import { isFollowUp } from './state.js'
import { devicesAsked } from './walk.js'

/** What is shown for one step. */
export interface Question {
  /** Lines above the prompt: what one has to know to answer. */
  readonly above: readonly string[]
  readonly prompt: string
  /** What Enter alone stands for, where that is the time of day at the moment of the answer. */
  readonly onEnter?: 'now'
  readonly help: readonly string[]
}

/** The question that comes next, in words. A visit gone on with on a later day is not told by the clock. */
export function questionOf(session: Session, isStillToday: boolean): Question {
  const { plan, state } = session
  const step = nextQuestion(session)
  const { above = [], prompt, help = [], onEnter } = wordsOf(session, plan, step, isStillToday)
  const isFirst = state.pending.length > 0 && session.answers.length === 0
  return {
    above: isFirst ? [...greeting(plan), ...above] : above,
    prompt,
    ...(onEnter === undefined ? {} : { onEnter }),
    help: [...help, ...(isFollowUp(step) ? leavingHelp : alwaysHelp)],
  }
}

type Words = Partial<Question> & Pick<Question, 'prompt'>

function greeting({
  siteName,
  day,
  areas,
  complaints,
  cautions,
  away = [],
  plantsAway = [],
}: VisitPlan): string[] {
  const due = areas.flatMap(({ devices }) => devices).filter(({ isDue }) => isDue).length
  const conditions = areas.flatMap((area) => area.conditions).length
  return [
    `${siteName}, ${day}: ${counted(due, 'device')} due, ${counted(conditions, 'condition')} to look at, ${counted(complaints.length, 'complaint')} waiting.`,
    ...(away.length === 0
      ? []
      : [
          `Picked up, to be put out again: ${away.map(({ id }) => id).join(', ')} (put-out and their names, or all).`,
        ]),
    ...(plantsAway.length === 0
      ? []
      : [`Plants away: ${plantsAway.map(({ name }) => name).join(', ')} (plant NAME returned WHERE).`]),
    'Enter takes what stands in brackets. ? help, u takes the last answer back, q stops and keeps everything.',
    'Never the name of a pupil, or of anyone who asked to be told.',
    ...cautions,
  ]
}

const counted = (many: number, what: string) => `${many === 0 ? 'no' : many} ${what}${many === 1 ? '' : 's'}`

const leavingHelp = [
  'u              take the last answer back',
  'q              stop; what was answered is kept, and the same command goes on with it',
]

const alwaysHelp = [
  's PEST WHAT    a sighting here, as: s house-mouse droppings fresh 3 cleaned',
  `               what is one of ${evidenceKinds.join(', ')}`,
  'c WHAT         something wrong that pests gain by, as: c drip under the prep sink',
  '               either may end in @AREA to mean another place',
  'go AREA        to another area, or back to one: everything in it is asked, due or not',
  'did TACTIC WHAT   something done here, as: did vacuuming vacuumed the cable channel',
  'set            a new device here; it asks, or on one line: set K9 sticky-trap for german-cockroach secured marked',
  'moved ID AREA  a device moved;  taken-up ID WHY   for good;  picked-up ID ID   for now;  put-out ID ID   again',
  'plant NAME     a plant taken away or brought back, as: plant fern-12 removed fungus gnats',
  'photo FILE WHAT   a photo or scan beside the record, as: photo 2026-03-12-okafor-1.jpg gap behind the dish machine',
  'supervised-by PERSON   who supervised the bait put into devices;  with PERSON   who else took part',
  'note TEXT      anything else worth keeping;  advise TEXT   advice to the site manager',
  '               - after the name of any of these takes it out again, as: moved K3 -',
  ...leavingHelp,
  'All that a record of a visit can say: schemas/README.md.',
]

function wordsOf(session: Session, plan: VisitPlan, step: Step, isStillToday: boolean): Words {
  switch (step.is) {
    case 'by':
      return {
        prompt: `Who made the visit?${plan.lastVisitor === undefined ? '' : ` [${plan.lastVisitor}]`}`,
        help: [`People on record: ${plan.people.join(', ')}`],
      }
    case 'word':
      return {
        above: [`${session.state.draft.by} has a visit on ${plan.day} already.`],
        prompt: 'A word that tells this one apart, such as evening',
      }
    case 'start':
      return { ...timeWords('Began', isStillToday), help: ['A time, as 06:10; - leaves the times out.'] }
    case 'times':
      return { prompt: 'From when to when, as 06:10 to 06:50 [not on the page]' }
    case 'purpose':
      return { prompt: `Purpose [${defaultPurpose(plan)}]`, help: [`One of ${purposes.join(', ')}.`] }
    case 'site-manager':
      return {
        prompt: `Site manager met [${plan.siteManager ?? 'not said'}]`,
        help: ['designee: someone standing in; left word; -: not said; or the id of another person.'],
      }
    case 'complaint-log':
      return {
        prompt: `Complaint log (${plan.complaintLog}) [read]`,
        help: ['not found; locked away; -: not said.'],
      }
    case 'area':
      return areaWords(session, step)
    case 'devices':
      return deviceQuestion(plan, session.state, step)
    case 'condition':
      return conditionWords(session, step)
    case 'new-condition':
      return {
        prompt: 'What it gives, who mends it, by when [not said]',
        help: [
          'In any order, as: water maintenance 2026-03-26. If it was put right at once, last: fixed swept out.',
          `Gives ${needs.join(', ')}; mended by ${owners.join(', ')}.`,
        ],
      }
    case 'entered-by':
      return {
        prompt: `Who types this? [${session.state.draft.by}]`,
        help: [
          'The id of whoever sits here, when that is not who made the visit.',
          `People on record: ${plan.people.join(', ')}`,
        ],
      }
    case 'on-paper':
      return {
        prompt: `On which day was the page filled in? [${plan.day}]`,
        help: ['- : there is no page. A page that was filled in on the day and is typed later is not late.'],
      }
    case 'where':
      return {
        prompt: `Where was that (${step.told})?`,
        help: [`One of ${plan.areas.map(({ id }) => id).join(', ')}; - leaves it out.`],
      }
    case 'complaint':
      return complaintWords(plan, step.id)
    case 'end':
      return {
        ...timeWords('Ended', isStillToday),
        help: ['A time, as 06:50; - leaves both times out of the record.'],
      }
    case 'confirm':
      return {
        prompt: 'Anything else? [no, write it]',
        help: ['Enter writes the record; go AREA goes back to an area.'],
      }
    default:
      return workWordsOf(session, step)
  }
}

function areaWords(session: Session, { area: id, again }: Extract<Step, { readonly is: 'area' }>): Words {
  const { plan, state } = session
  const area = areaIn(plan, id)
  const facts = [
    ...(area?.keys === undefined ? [] : [`key: ${area.keys}`]),
    ...(area?.letInBy === undefined ? [] : [`let in by: ${area.letInBy}`]),
    ...complaintsIn(plan, id),
  ]
  const asked = area ? devicesAsked(area, state.draft.purpose, again) : []
  const notDue = (area?.devices ?? []).filter((device) => !asked.includes(device)).map((one) => one.id)
  return {
    above: [
      '',
      `${area?.name ?? id}${facts.length === 0 ? '' : `   ${facts.join('; ')}`}`,
      ...(notDue.length === 0 ? [] : [`  not due yet: ${notDue.join(', ')} (go ${id} asks for them too)`]),
      ...awayFrom(plan, state, id),
    ],
    prompt: `Inspected [yes]${again === true ? toldOf(state, id) : ''}`,
    help: [
      ...(area?.lookAt ?? []).map((one) => `look at: ${one}`),
      'no and why, as no key: could not be entered; d: only its devices; -: not come to.',
      'set: a new device was set here; plant: a plant was taken away or brought back.',
    ],
  }
}

function timeWords(what: 'Began' | 'Ended', isStillToday: boolean): Words {
  return isStillToday
    ? { prompt: `${what} at [now]`, onEnter: 'now' }
    : { prompt: `${what} at, as ${what === 'Began' ? '06:10' : '06:50'}` }
}

function complaintsIn(plan: VisitPlan, id: string): string[] {
  return plan.complaints.filter(({ area }) => area === id).map(({ says }) => `complaint: ${says}`)
}

function toldOf({ draft }: VisitState, id: string): string {
  const why = draft.noEntry[id]
  if (why !== undefined) return ` (told: could not be entered, ${why})`
  return draft.inspected.includes(id) ? ' (told: yes)' : ''
}

function conditionWords(
  { plan, state }: Session,
  { area, name }: Extract<Step, { readonly is: 'condition' }>,
): Words {
  const condition = areaIn(plan, area)?.conditions.find((one) => one.name === name)
  const isRepaired = condition?.repairedOn !== undefined
  const told = state.draft.conditions[name]
  const onEnter = told === undefined ? 'not looked at' : `as told, ${flowText(told)}`
  return {
    above: condition ? [conditionLine(condition)] : [],
    prompt: `${isRepaired ? 'holds, or back again' : 'still, fixed or closed'} [${onEnter}]`,
    help: isRepaired
      ? ['holds: looked at, still good; back: there again. How it is now may follow, as: holds dry.']
      : [
          'still: there; fixed HOW: put right by you now; closed HOW: found put right by someone else.',
          'The first letters do, as: st, fi tightened the nut, cl new trap fitted.',
        ],
  }
}

function conditionLine({ name, says, since, owner, due, repairedOn }: PlannedCondition): string {
  const facts = [
    `since ${since}`,
    ...(repairedOn === undefined ? [] : [`put right ${repairedOn}`]),
    ...(owner === undefined ? [] : [owner]),
    ...(due === undefined || repairedOn !== undefined ? [] : [`by ${due}`]),
  ]
  return `  ${name}: ${says} (${facts.join(', ')})`
}

function complaintWords(plan: VisitPlan, id: string): Words {
  const complaint = plan.complaints.find((one) => one.id === id)
  const place =
    complaint?.area === undefined ? '' : ` in ${areaIn(plan, complaint.area)?.name ?? complaint.area}`
  return {
    above: ['', `Complaint ${id}${place}: ${complaint?.says ?? ''}`],
    prompt: 'What was found and said [not answered]',
  }
}
