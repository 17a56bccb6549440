import type { Precheck } from '../check/precheck.js'
import type { SiteView } from '../ledger/site-view.js'
import type { Treatment } from '../ledger/treatments.js'
import { isPesticide } from '../ledger/treatments.js'
import { dutiesFor } from '../ledger/use-classes.js'
import type { RecordElement } from '../rules/application-records/record-elements.js'
import { elementWords, missingElements } from '../rules/application-records/record-elements.js'
import { askingForDry, staysPut } from '../rules/reentry/dry-not-seen.js'
import { requiredWaits } from '../rules/reentry/required-waits.js'
import type { Citation, Row, Table } from '../types.js'

/** What the record holds once it is done, by every record duty that holds for this use. */
export function recordTable({ view, treatment }: Precheck): Table {
  return {
    id: 'record',
    title: 'What goes on the record when it is done',
    columns: [
      { id: 'what', title: 'what' },
      { id: 'draft', title: 'so far' },
      { id: 'asked-by', title: 'asked by' },
      { id: 'element', title: 'element', for: 'work' },
    ],
    rows: view && treatment && isPesticide(treatment) ? recordRows(view, treatment) : [],
    empty:
      !view || !treatment
        ? 'Not looked at.'
        : 'The rulebooks in force ask for nothing beyond product, day, place and who, as drafted.',
  }
}

interface Asked {
  readonly sources: string[]
  /** Only where the total treated on the day is not below a size. */
  readonly exceptUnder: string[]
}

function recordRows(view: SiteView, treatment: Treatment): Row[] {
  const asked = new Map<RecordElement, Asked>()
  const terms: Row[] = []
  for (const { says, citation } of dutiesFor(view, 'records', treatment)) {
    const short = new Set(says['short-form'] ?? [])
    for (const element of new Set([...(says.elements ?? []), ...short])) {
      const one = asked.get(element) ?? { sources: [], exceptUnder: [] }
      one.sources.push(citation.text)
      const limit = says['short-form-under']
      if (limit !== undefined && !short.has(element)) one.exceptUnder.push(limit)
      asked.set(element, one)
    }
    if (says.within !== undefined)
      terms.push({
        cells: {
          what: `all of it, within ${says.within}`,
          draft: null,
          'asked-by': citation.text,
          element: null,
        },
        records: [],
      })
  }
  const missing = new Set(missingElements(view, treatment, [...asked.keys()]))
  const rows = [...asked].map(
    ([element, { sources, exceptUnder }]): Row => ({
      cells: {
        what:
          exceptUnder.length === sources.length
            ? `${elementWords[element]} (not in the short form, under ${exceptUnder[0]} a day)`
            : elementWords[element],
        draft: missing.has(element) ? 'not shown' : 'nothing found missing',
        'asked-by': [...new Set(sources)].join('; '),
        element,
      },
      records: [],
    }),
  )
  return [...rows, ...reentryFacts(view, treatment), ...terms]
}

/** What shows that people stayed out for as long as is asked. */
function reentryFacts(view: SiteView, treatment: Treatment): Row[] {
  const { application } = treatment
  if (!application) return []
  const applied = { ...treatment, application }
  const dry = staysPut(applied) ? [] : askingForDry(view, applied)
  const waits = requiredWaits(view, applied)
  const row = (what: string, element: 'dry' | 'reopened', sources: readonly Citation[]): Row => ({
    cells: {
      what,
      draft: application[element] === undefined ? 'not shown' : 'nothing found missing',
      'asked-by': [...new Set(sources.map(({ text }) => text))].join('; '),
      element,
    },
    records: [],
  })
  return [
    ...(dry.length === 0 ? [] : [row('when it was seen dry or settled, and by whom', 'dry', dry)]),
    ...(waits.length === 0
      ? []
      : [
          row(
            'when the area was opened again, and by whom',
            'reopened',
            waits.map(({ citation }) => citation),
          ),
        ]),
  ]
}
