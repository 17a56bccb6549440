import { deviceKinds } from '../../records/device-kinds.js'
import { lengthUnits } from '../../records/units.js'
import { nextName } from './answer-set.js'
import { stoodIn } from './device-work.js'
import { areaIn } from './plan-places.js'
import type { Question } from './questions.js'
import type { Session } from './session.js'
import { placeWords } from './standing-words.js'
import type { Step } from './state.js'
import { listed } from './words.js'

type Words = Partial<Question> & Pick<Question, 'prompt'>

export type WorkStep = Extract<
  Step,
  {
    readonly is:
      | 'moved-to'
      | 'moved-stands'
      | 'taken-up'
      | 'set-marked'
      | 'set-stands'
      | 'set-kind'
      | 'set-name'
      | 'plant'
      | 'plant-what'
      | 'plant-dry'
      | 'photo'
      | 'photo-shows'
  }
>

const standingHelp = [
  `In any order: ${listed(placeWords)}; not before one says no.`,
  `As: secured marked height 4 ft (${lengthUnits.join(', ')}); at 12.5 40 is the place on the property diagram.`,
]

/** What is asked of a device moved, taken up or set, of a plant and of a photo: only what was not said at once. */
export function workWordsOf({ plan, state }: Session, step: WorkStep): Words {
  const nameOf = (area: string | undefined) =>
    area === undefined ? undefined : (areaIn(plan, area)?.name ?? area)
  switch (step.is) {
    case 'moved-to':
      return {
        prompt: `${step.device}: moved to which area? [${nameOf(stoodIn(plan, step.device)) ?? 'not said'}]`,
        help: [
          `One of ${plan.areas.flatMap(({ id, isArea }) => (isArea ? [id] : [])).join(', ')}; - : it was not moved.`,
        ],
      }
    case 'moved-stands':
      return { prompt: `${step.device}: how does it stand there? [not said]`, help: standingHelp }
    case 'taken-up':
      return { prompt: `${step.device}: why was it taken up?`, help: ['As: room closed; - : it was not.'] }
    case 'set-kind':
      return {
        prompt: `Which kind of device was set in ${nameOf(step.area)}? [none]`,
        help: [`One of ${deviceKinds.join(', ')}.`],
      }
    case 'set-name': {
      const name = nextName(plan, state, step.area)
      return {
        prompt: `Its name in the records${name === undefined ? '' : ` [${name}]`}`,
        help: ['Letters and digits, as K9; - : none was set.'],
      }
    }
    case 'set-marked':
      return {
        prompt: `What is printed on it? [${step.device}]`,
        help: ['Only where that is not its name, as: #17.'],
      }
    case 'set-stands':
      return {
        prompt: `${step.device}: for which pests, how does it stand? [not said]`,
        help: [
          'As: for german-cockroach house-mouse secured marked. Not said: the pests of its kind.',
          ...standingHelp,
          'Also traps 2 (as one), tamper-resistant, while-pupils-away, electric-grid, lamp 2026-03-12,',
          'added 1 block block-x (bait put into it).',
        ],
      }
    case 'plant':
      return {
        above: (plan.plantsAway ?? []).map(
          ({ name, since, why }) => `  ${name}: away since ${since}${why === undefined ? '' : `, ${why}`}`,
        ),
        prompt: 'Which plant? A short name [none]',
        help: ['As: fern-12; what became of it may follow, as: fern-12 removed fungus gnats.'],
      }
    case 'plant-what':
      return {
        prompt: `${step.name}: removed, sprayed, dry or returned?`,
        help: [
          'removed WHY, sprayed WHERE (off the property), product PRODUCT, dry WHO (saw it dry), returned WHERE;',
          'more than one with commas, as: removed fungus gnats, sprayed contractor yard. - : nothing.',
        ],
      }
    case 'plant-dry':
      return {
        above: [`  ${step.name} was treated. Back in a room before it is dry, it is touched.`],
        prompt: 'Who saw it dry? [not said]',
        help: [
          'The id of the person, as okafor. If nobody did, leave it out of the room until somebody has.',
        ],
      }
    case 'photo':
      return {
        prompt: 'Which file? [none]',
        help: [
          `A photo or scan in sites/${plan.site}/visits, by its name: 2026-03-12-okafor-1.jpg. What it shows may follow.`,
        ],
      }
    case 'photo-shows':
      return {
        prompt: `What does ${step.file} show?`,
        help: ['As: gap behind the dish machine; - leaves it out.'],
      }
  }
}
