import { timesOf } from '../ledger/instants.js'
import { labelInForce } from '../ledger/labels.js'
import type { SiteView } from '../ledger/site-view.js'
import { dayIn } from '../ledger/spans.js'
import type { Treatment } from '../ledger/treatments.js'
import { isPesticide } from '../ledger/treatments.js'
import { durationText } from '../measure/reentry.js'
import type { Applied } from '../rules/reentry/applications.js'
import { askingForDry, staysPut } from '../rules/reentry/dry-not-seen.js'
import { dayReopened, reopenedEarly } from '../rules/reentry/reopened-too-early.js'
import type { RequiredWait } from '../rules/reentry/required-waits.js'
import { longestOf, requiredWaits } from '../rules/reentry/required-waits.js'
import type { Row, Table } from '../types.js'
import type { Page } from './application-page.js'
import { answer, answers, hourWords, momentWords } from './application-page.js'
import { keptOutWords } from './application-words.js'

/** How long people stay out, from what moment they may be back at the earliest, and what the record shows of it. */
export function reentryTable(page: Page, treatment: Treatment & Applied): Table {
  const { record, status } = page
  const kept = record.data['kept-out']
  const row = (question: string, says: string) => answer(question, says, [record.file])
  const waits = waitsOf(page, treatment)
  return answers(
    'staying-out',
    status === 'done' ? 'How long people stayed out' : 'How long people are to stay out',
    [
      row('What the label says', labelWords(treatment)),
      ...waitRows(page, treatment, waits),
      ...dryRows(page, treatment),
      ...(status === 'done' ? openedRows(page, treatment) : []),
      ...(kept
        ? [
            row(
              'Kept out by',
              `${keptOutWords[kept.how]}, until ${kept.until === 'dry' ? 'it was dry' : 'it was opened again'}`,
            ),
          ]
        : []),
    ],
  )
}

/** Of what is no pesticide only a label can ask people to stay out. */
function waitsOf({ view }: Page, treatment: Treatment): RequiredWait[] {
  const waits = requiredWaits(view, treatment)
  return isPesticide(treatment) ? waits : waits.filter(({ by }) => by === 'label')
}

function labelWords(treatment: Treatment): string {
  if (!treatment.product)
    return 'The product is not in the register, so this is not shown; read the label itself.'
  const label = labelInForce(treatment)
  if (!label) return 'The register does not tell what its label says; read the label itself.'
  const { says } = label
  const parts = [
    says['keep-out'] === undefined ? [] : `stay out for ${says['keep-out']}`,
    says['keep-out-until-dry'] === 'yes' ? 'stay out until it is dry or settled' : [],
    says.ventilate === undefined ? [] : `let in fresh air for ${says.ventilate} first`,
  ].flat()
  return parts.length > 0
    ? `As the register has it: ${parts.join('; ')}.`
    : 'The register has nothing from it about staying out; read the label itself.'
}

function waitRows(
  { view, record, status }: Page,
  treatment: Treatment,
  waits: readonly RequiredWait[],
): Row[] {
  const row = (question: string, says: string) => answer(question, says, [record.file])
  const longest = longestOf(waits)
  const decides = status === 'planned' ? ' The label on the container decides; it may ask for longer.' : ''
  const moment = (says: string) =>
    row(status === 'done' ? 'Asked: not back before' : 'Back not earlier than', `${says}${decides}`)
  if (!longest)
    return [
      row(
        'Time to stay out',
        treatment.product
          ? 'Neither the rules the district works by nor the label, as entered in the register, give a number of hours.'
          : 'It cannot be told without the product in the register.',
      ),
      ...(status === 'planned' ? [moment('No moment can be told from the record.')] : []),
    ]
  const source = longest.by === 'label' ? 'the label as entered' : longest.citation.text
  return [
    row('Time to stay out', `${durationText(longest.minutes)} after the end (${source})`),
    moment(earliestWords(view, record.data.time, treatment, longest.minutes)),
  ]
}

function earliestWords(
  view: SiteView,
  hours: string | undefined,
  treatment: Treatment,
  minutes: number,
): string {
  if (hours === undefined) return 'It cannot be told: the record does not say at what hours.'
  const { start, end } = timesOf(view.district, treatment)
  if (end.latest < start.earliest) return 'It cannot be told: by the record it ended before it began.'
  return `${momentWords(view, end.latest + minutes)}.`
}

/** Who did it, where names were asked for. */
function byWords({ view, withNames }: Page, person: string): string {
  return withNames ? `, ${view.district.people.get(person)?.data.name ?? person}` : ''
}

function dryRows(page: Page, treatment: Applied): Row[] {
  const { view, record, status, known } = page
  const row = (says: string) => [answer('Seen dry or settled', says, [record.file])]
  const { dry } = record.data
  if (status !== 'done')
    return staysPut(treatment) || askingForDry(view, treatment).length === 0
      ? []
      : row('People also stay out until someone has looked and seen it dry or settled.')
  if (dry && record.day <= known) return row(`at ${dry.at}${byWords(page, dry.by)}`)
  if (staysPut(treatment))
    return row('The record does not say. Bait stays where it is put: nothing has to dry.')
  return row('The record does not show that anyone looked whether it was dry or settled.')
}

function openedRows(page: Page, treatment: Applied): Row[] {
  const { view, record, known } = page
  const row = (says: string) => [answer('Opened again', says, [record.file])]
  const { reopened } = record.data
  if (!reopened || dayReopened(treatment, reopened) > known)
    return row('The record does not show when people were let in again.')
  const when =
    hourWords(reopened.on === undefined ? record.day : dayIn(reopened.on), reopened.at) +
    byWords(page, reopened.by)
  const early = isPesticide(treatment) ? reopenedEarly(view, treatment) : undefined
  if (!early) return row(when)
  return row(
    early.args.shown === 'not shown'
      ? `${when}. The record does not show whether the time to stay out was over.`
      : `${when}. By the record, the time to stay out was not over then.`,
  )
}
