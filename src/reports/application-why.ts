import { looksOf } from '../ledger/evidence.js'
import { groupOf, isNamedAtSite, isSeenIn } from '../ledger/grounds-for-treatment.js'
import type { SiteView } from '../ledger/site-view.js'
import { dayIn } from '../ledger/spans.js'
import { isoOf } from '../measure/calendar.js'
import { daysBefore } from '../rules/need/applications-to-justify.js'
import type { Day, Row, Table } from '../types.js'
import type { Page } from './application-page.js'
import { answer, answers, areaNames, dayWords, pestWords } from './application-page.js'
import { roleWord } from './application-public-text.js'

/** What was found and where, why something was done about it, and what was tried before. */
export function whyTable(page: Page): Table {
  const { record, status, text } = page
  const { data, file } = record
  const row = (question: string, says: string) => answer(question, says, [file])
  const said = (says: string | undefined, missing: string) => (says === undefined ? missing : text(says))
  const pests = [data.pest, ...(data['also-against'] ?? [])]
  return answers(
    'why',
    status === 'done' ? 'What was found, and why this was done' : 'What was found, and why',
    [
      row('Pest', pests.map(pestWords).join(', ')),
      ...pests.map((pest) => foundRow(page, pest, pests.length > 1)),
      row('How it was recognized', recognized(page, pests)),
      row('Reason', said(data.reason, 'The record does not say why.')),
      row(
        'Limit for acting',
        said(
          data.threshold,
          'The record of this use names no count or sign that reached the limit at which the plan says to act.',
        ),
      ),
      ...emergencyRows(page),
      row(
        'Tried first',
        said(
          data['tried-first'],
          data['nothing-to-correct'] === 'yes'
            ? 'Someone looked for something to put right first, and found nothing.'
            : 'The record does not say what was tried first.',
        ),
      ),
      row(
        'Why this product',
        said(data['chosen-because'], 'The record does not say why this product and no milder one.'),
      ),
    ],
  )
}

/** The days before an application in which a finding counts, as the rules about need have it. */
function daysLookedBack(view: SiteView, until: Day): { readonly first: Day; readonly last: Day } {
  const back = daysBefore(view, { day: until }, 'evidence.days')
  // Before the ledger begins nothing could be shown.
  const begins = Math.min(view.begins, until)
  return { first: Math.max(back?.days.first ?? begins, begins), last: until }
}

function foundRow({ view, record, known }: Page, pest: string, isOneOfSeveral: boolean): Row {
  const days = daysLookedBack(view, Math.min(record.day, known))
  const areas = [...view.areas.keys()].filter((area) => isSeenIn(view, pest, new Set([area]), days))
  const when = `from ${isoOf(days.first)} to ${isoOf(days.last)}`
  const where =
    areas.length > 0
      ? `${areaNames(view, areas)} (by visits and traps ${when})`
      : `No visit and no trap on record shows it ${when}.`
  // The looks that showed this very pest; a word for a whole group of pests is shown by others too.
  const files = [...looksOf(view, () => [])].flatMap(([key, looks]) =>
    key.endsWith(` ${pest}`)
      ? looks
          .filter(
            ({ day, animals, signs }) => days.first <= day && day <= days.last && animals + signs.length > 0,
          )
          .flatMap((look) => look.files)
      : [],
  )
  return answer(isOneOfSeveral ? `Found in: ${pestWords(pest)}` : 'Found in', where, [
    record.file,
    ...[...new Set(files)].sort(),
  ])
}

function recognized({ view, record, known, text }: Page, pests: readonly string[]): string {
  const { identified } = record.data
  if (identified) return text(identified.how)
  if (pests.some((pest) => groupOf(pest) === 'unidentified'))
    return 'The record shows that nobody knew for sure which pest it was.'
  const days = daysLookedBack(view, Math.min(record.day, known))
  return pests.every((pest) => isNamedAtSite(view, pest, days))
    ? `Visits, traps or a sample at this school showed it, by that name, from ${isoOf(days.first)} to ${isoOf(days.last)}.`
    : 'The record does not show who said which pest it is, or how they knew.'
}

function emergencyRows({ view, record, text, withNames }: Page): Row[] {
  const { emergency } = record.data
  if (!emergency) return []
  const decider = view.district.people.get(emergency['decided-by'])?.data
  const row = (question: string, says: string) => answer(question, says, [record.file])
  return [
    row('Emergency', text(emergency.problem)),
    row('Why it could not wait', text(emergency.why)),
    row(
      'So that it does not happen again',
      emergency.prevention === undefined
        ? 'The record does not say how the next one is prevented.'
        : text(emergency.prevention),
    ),
    row(
      'Who decided',
      `${decider ? `the ${roleWord(decider.roles)}${withNames ? `, ${decider.name}` : ''}` : 'someone whose role is not on record'}; ${
        emergency.signed === undefined
          ? 'the record does not show that this was signed'
          : `signed on ${dayWords(dayIn(emergency.signed))}`
      }`,
    ),
  ]
}
