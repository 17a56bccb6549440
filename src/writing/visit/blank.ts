import { owners } from '../../records/event-words.js'
import { deviceTable } from '../../records/tables.js'
import { purposes } from '../../records/visit.js'
import { flowText, scalarText } from '../demo/yaml.js'
import { blank } from '../new/example-values.js'
import type { PlannedArea, VisitPlan } from './plan.js'

/**
 * The record of a visit to fill in with an editor: everything due stands in it as a blank, in walking order. What is left
 * blank is refused, so that nothing is claimed that nobody wrote.
 */
export function blankVisit(plan: VisitPlan): string {
  const areas = plan.areas.filter(({ isArea }) => isArea).map(({ id }) => id)
  return `${[
    `# A visit to ${oneLine(plan.siteName)}. Fill it in, then: doorsweep visit ${plan.site} --on ${plan.day} --file THIS-FILE`,
    `# Keep this file outside the ledger. Where ${blank} stands, write what you saw, or take the whole line out.`,
    '# Never the name of a pupil, or of anyone who asked to be told. All fields: schemas/README.md',
    `purpose: ${blank} # ${purposes.join(', ')}`,
    `by: ${plan.by ?? blank}`,
    ...(plan.asksWhoTypes === true
      ? [
          '# entered-by: reyes # who types this, when that is not who made the visit',
          `# on-paper: ${plan.day} # day the page was filled in, when it is typed from one`,
        ]
      : []),
    ...(plan.enteredBy === undefined ? [] : [`entered-by: ${plan.enteredBy}`]),
    ...(plan.onPaper === undefined ? [] : [`on-paper: ${plan.onPaper}`]),
    `time: ${blank} # 06:10 to 06:50`,
    `site-manager: ${blank} # ${[...(plan.siteManager === undefined ? [] : [plan.siteManager]), 'designee', 'left word'].join(', ')}`,
    `complaint-log: ${blank} # read, not found, locked away (${oneLine(plan.complaintLog)})`,
    ...answerLines(plan),
    `inspected: ${blank} # ${flowText(areas)}`,
    '# no-entry: {boiler-room: no key}',
    ...readingLines(plan),
    '# found:',
    '#   behind-dish-machine: {pest: house-mouse, area: kitchen, evidence: droppings, age: fresh, cleaned: yes}',
    ...conditionLines(plan),
  ].join('\n')}\n`
}

const oneLine = (text: string) => text.replace(/\s+/g, ' ')

function answerLines({ complaints }: VisitPlan): string[] {
  if (complaints.length === 0) return []
  return ['answers:', ...complaints.map(({ id, says }) => `  ${id}: ${blank} # ${oneLine(says)}`)]
}

function readingLines({ areas }: VisitPlan): string[] {
  const due = areas.map((area) => ({ ...area, devices: area.devices.filter(({ isDue }) => isDue) }))
  const ids = due.flatMap(({ devices }) => devices.map(({ id }) => id))
  if (ids.length === 0) return []
  return [
    'readings:',
    `  none: ${blank} # looked at, nothing there: ${flowText(ids)}`,
    '  # The others, such as {german-cockroach: {nymphs: 4, adults: 1}, renewed: yes} or {unusable: missing}:',
    ...due.flatMap(devicesOf),
  ]
}

function devicesOf({ name, devices }: PlannedArea): string[] {
  if (devices.length === 0) return []
  return [
    `  # ${oneLine(name)}`,
    ...devices.map(
      ({ id, kind, last }) => `  ${scalarText(id)}: ${blank} # ${deviceTable()[kind].name}; ${oneLine(last)}`,
    ),
  ]
}

function conditionLines({ areas }: VisitPlan): string[] {
  const waiting = areas.flatMap(({ conditions }) => conditions)
  return [
    ...(waiting.length === 0
      ? ['# conditions:']
      : [
          'conditions:',
          ...waiting.map(({ name, says, repairedOn }) => {
            const words =
              repairedOn === undefined
                ? '{still: how}, {fixed: how} or {closed: how}'
                : '{holds: how} or {still: how}'
            return `  ${scalarText(name)}: ${blank} # ${oneLine(says)}: ${words}`
          }),
        ]),
    '#   sink-drip: {new: drip under prep sink, area: kitchen, gives: water, owner: maintenance, by: 2026-03-26}',
    `#   mended by ${owners.join(', ')}`,
  ]
}

/** Lines of a filled-in record that still hold a blank, by number from 1. Comments do not count. */
export function blanksIn(text: string): number[] {
  return text
    .split('\n')
    .flatMap((line, at) => (line.replace(/(?:^|\s)#.*$/, '').includes(blank) ? [at + 1] : []))
}
