import type { LoadedEvent } from '../ledger/loaded.js'
import { dayIn } from '../ledger/spans.js'
import type { Row, Table } from '../types.js'
import type { Page } from './application-page.js'
import { hourWords } from './application-page.js'
import { audienceWords } from './application-words.js'

/** Notices and signs about it, as far as they are on record by the as-of day. */
function noticesAbout({ view, record, known }: Page): LoadedEvent<'notice'>[] {
  return view.notices.filter(({ data, day }) => data.application === record.id && day <= known)
}

export function toldTable(page: Page): Table {
  return {
    id: 'told',
    title: 'Who was told',
    columns: [
      { id: 'who', title: 'who' },
      { id: 'when', title: 'when' },
      { id: 'how', title: 'how' },
      { id: 'how-many', title: 'how many' },
    ],
    rows: noticesAbout(page).flatMap(({ data: { sent }, day, file }): Row[] =>
      sent
        ? [
            {
              cells: {
                who: audienceWords[sent.to],
                when: hourWords(day, sent.at),
                how: sent.how === undefined ? 'not recorded' : page.text(sent.how),
                'how-many': sent.recipients ?? 'not recorded',
              },
              records: [file],
            },
          ]
        : [],
    ),
    empty: `The record shows no notice sent${page.status === 'planned' ? ' so far' : ''}.`,
  }
}

export function signsTable(page: Page): Table {
  const { known, text } = page
  return {
    id: 'signs',
    title: 'Signs',
    columns: [
      { id: 'place', title: 'place' },
      { id: 'from', title: 'put up' },
      { id: 'until', title: 'taken down' },
    ],
    rows: noticesAbout(page).flatMap(({ data: { posted }, day, file }): Row[] =>
      (posted?.places ?? []).map((place) => {
        const down = posted?.['taken-down']
        const isDown = down !== undefined && dayIn(down) <= known
        return {
          cells: {
            place: text(place),
            from: hourWords(day, posted?.at),
            until: isDown ? hourWords(dayIn(down), posted?.['taken-down-at']) : 'not recorded',
          },
          records: [file],
        }
      }),
    ),
    empty: `The record shows no sign put up${page.status === 'planned' ? ' so far' : ''}.`,
  }
}
