import type { Licence } from '../ledger/licences.js'
import { licencesOf } from '../ledger/licences.js'
import { dayIn, inForce } from '../ledger/spans.js'
import { isPesticide } from '../ledger/treatments.js'
import { noticeAssessments } from '../rules/notices/assess-notice.js'
import { groupWords } from '../rules/notices/words.js'
import type { Row, Table } from '../types.js'
import type { Page, Status } from './application-page.js'
import { answer, answers, areaNames, dayWords, momentWords } from './application-page.js'
import { roleWord } from './application-public-text.js'
import { pupilWords, withArticle } from './application-words.js'

const titles: Readonly<Record<Status, string>> = {
  done: 'Where, when and by whom',
  planned: 'Where, when and by whom it is to be used',
  passed: 'Where, when and by whom it was to be used',
  cancelled: 'Where, when and by whom it was to be used',
}

export function whereTable(page: Page): Table {
  const { view, record, status } = page
  const { data, day, file } = record
  const row = (question: string, says: string) => answer(question, says, [file])
  const isDone = status === 'done'
  return answers('where', titles[status], [
    row('Where', areaNames(view, Object.keys(data.areas))),
    row('Day', dayWords(day)),
    row(isDone ? 'Hours' : 'Planned hours', data.time ?? 'The record does not say at what hours.'),
    ...(data['rain-dates'] && status === 'planned'
      ? [row('If the weather is wrong', data['rain-dates'].map((date) => dayWords(dayIn(date))).join(', '))]
      : []),
    ...(isDone
      ? [
          row(
            'Where pupils were',
            data.pupils === undefined
              ? 'The record does not say where pupils were.'
              : pupilWords[data.pupils],
          ),
        ]
      : []),
    ...byRows(page),
    ...noticeDueRows(page),
  ])
}

/** The firm or department and its licences; the person only by trade, and by the number of the licence. */
function byRows({ view, record, treatment, status, withNames }: Page): Row[] {
  const { data, day, file } = record
  const person = view.district.people.get(data.by)
  const firmId = person?.data.firm
  const firm = firmId === undefined ? undefined : view.district.firms.get(firmId)
  const role = roleWord(person?.data.roles ?? [])
  const who = withNames && person ? `${person.data.name}, ${role}` : withArticle(role)
  const employer = firm?.data.name ?? person?.data.employer
  const isAsked = treatment === undefined || isPesticide(treatment)
  const supervisor = data['supervised-by']
  const licenceRow = (question: string, held: readonly Licence[], whose: string): Row[] => {
    const now = held.filter(({ spans }) => inForce(spans, day) !== undefined)
    if (now.length === 0 && !isAsked) return []
    const says =
      now.length === 0
        ? `The record shows no licence of ${whose} for this day.`
        : now.map(({ number, state, kind }) => `${number} (${state}, ${kind})`).join('; ')
    return [answer(question, says, [file])]
  }
  return [
    answer(
      status === 'done' ? 'By whom' : 'By whom, as planned',
      employer === undefined ? `${who}; the record does not say of which firm` : `${who} of ${employer}`,
      [file],
    ),
    ...licenceRow('Licence of the firm', firm ? licencesOf(firm) : [], 'the firm'),
    ...licenceRow('Licence of the person', person ? licencesOf(person) : [], 'the person'),
    ...(supervisor === undefined
      ? []
      : licenceRow(
          'Watched over by',
          [view.district.people.get(supervisor)].flatMap((one) => (one ? licencesOf(one) : [])),
          'whoever watched over it',
        )),
  ]
}

/** For one that is still to come: by when the rulebooks want people told. */
function noticeDueRows({ view, record, treatment, status, known }: Page): Row[] {
  if (status !== 'planned' || !treatment) return []
  const due = noticeAssessments(view)
    .filter((one) => one.treatment === treatment && one.asked.when === 'before')
    .map((one) => {
      const { asked } = one
      const latest = asked.latest ? `${momentWords(view, asked.latest.earliest)} at the latest` : asked.term
      const isOpen = one.told === 'nobody' || one.notice.day > known
      return `${groupWords([asked])}: by ${latest}${isOpen ? '; none is on record so far' : ''}`
    })
  const says =
    due.length > 0
      ? [...new Set(due)].join('. ')
      : isPesticide(treatment)
        ? 'None of the rules the district works by asks for notice of this use.'
        : 'This is no pesticide; the rules about notice are for pesticides.'
  return [answer('Notice beforehand', says, [record.file])]
}
