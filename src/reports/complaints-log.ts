import { compareText } from '../ledger/compare-text.js'
import { isoOf } from '../measure/calendar.js'
import type { Cell, Column, Day, Table } from '../types.js'
import type { ComplaintFacts } from './complaints-collect.js'
import { isOpenOn } from './complaints-collect.js'
import { pestWordsOf } from './complaints-tables.js'
import { pestName } from './pest-name.js'

const work = { for: 'work' } as const

const whereAndWhat: readonly Column[] = [
  { id: 'site', title: 'site' },
  { id: 'area', title: 'area' },
  { id: 'pest', title: 'pest' },
  { id: 'received', title: 'received' },
]

/** What someone said can tell who said it, so it is left to those who ask to see the work. */
const told: readonly Column[] = [
  { id: 'from', title: 'from', ...work },
  { id: 'says', title: 'what was said', ...work },
  { id: 'asked-by', title: 'its day rests on', ...work },
  { id: 'complaint', title: 'complaint', ...work },
]

/** What waits for an answer on the as-of day, whenever it came in: the longest overdue first. */
export function openComplaintsTable(open: readonly ComplaintFacts[], asOf: Day): Table {
  const overdueDays = ({ overdueNow, due }: ComplaintFacts) =>
    overdueNow && due !== undefined ? asOf - due : 0
  return {
    id: 'open',
    title: 'Waiting for an answer now, the longest overdue first',
    columns: [
      ...whereAndWhat,
      { id: 'open-days', title: 'open', unit: 'days', decimals: 0 },
      { id: 'due', title: 'to be answered by' },
      { id: 'overdue-days', title: 'overdue', unit: 'days', decimals: 0 },
      ...told,
    ],
    shownToPeople: 30,
    rows: [...open]
      .sort((a, b) => overdueDays(b) - overdueDays(a) || a.day - b.day || compareText(placeOf(a), placeOf(b)))
      .map((one) => ({
        cells: {
          ...cellsOf(one),
          'open-days': asOf - one.day,
          due: one.due === undefined ? 'no term' : isoOf(one.due),
          'overdue-days': overdueDays(one),
        },
        records: one.files,
      })),
    empty: 'No complaint waits for an answer.',
  }
}

/** Each complaint of the period with what became of it; for the work, since it is the log itself. */
export function logTable(complaints: readonly ComplaintFacts[], asOf: Day): Table {
  return {
    id: 'complaints',
    title: 'Each complaint of the period, the latest first',
    columns: [
      ...whereAndWhat,
      { id: 'state', title: 'how it stands' },
      { id: 'answered', title: 'answered' },
      { id: 'days', title: 'answered after', unit: 'days', decimals: 0 },
      { id: 'due', title: 'to be answered by' },
      { id: 'in-time', title: 'in time' },
      { id: 'found', title: 'what the visit found' },
      { id: 'later-answers', title: 'answered again' },
      { id: 'withdrawn', title: 'why it was withdrawn' },
      { id: 'repeat-of', title: 'came again after the one of' },
      { id: 'confirmed', title: 'caught or seen there' },
      { id: 'evidence', title: 'what was caught or seen, and when' },
      ...told,
    ],
    rows: [...complaints]
      .sort((a, b) => b.day - a.day || compareText(placeOf(a), placeOf(b)))
      .map((one) => ({ cells: { ...cellsOf(one), ...outcomeOf(one, asOf) }, records: one.files })),
    ...work,
    empty: 'No complaint came in within this period.',
  }
}

const placeOf = ({ site, id }: ComplaintFacts) => `${site} ${id}`

function cellsOf(one: ComplaintFacts): Record<string, Cell> {
  return {
    site: one.site,
    area: one.area ?? 'not named',
    pest: pestWordsOf(one),
    received: isoOf(one.day),
    from: one.from,
    says: one.says,
    'asked-by': one.sources.map(({ text }) => text).join('; '),
    complaint: one.id,
  }
}

function outcomeOf(one: ComplaintFacts, asOf: Day): Record<string, Cell> {
  const { answered, day, answers, confirmed } = one
  const [first, ...later] = answers
  return {
    state: stateOf(one, asOf),
    answered: answered === undefined ? null : isoOf(answered),
    days: answered === undefined || answered < day ? null : answered - day,
    due: one.due === undefined ? null : isoOf(one.due),
    'in-time': one.inTime === undefined ? 'not judged' : one.inTime ? 'yes' : 'no',
    found: first?.says ?? null,
    'later-answers': later.map((answer) => `${isoOf(answer.day)}: ${answer.says}`).join('; ') || null,
    withdrawn: one.withdrawn ?? null,
    'repeat-of': one.repeatOf === undefined ? null : isoOf(one.repeatOf),
    confirmed: confirmed === true ? 'yes' : confirmed === false ? 'no' : notToldWords[confirmed],
    evidence: one.evidence.map((seen) => `${isoOf(seen.day)} ${pestName(seen.pest)}`).join('; ') || null,
  }
}

function stateOf(one: ComplaintFacts, asOf: Day): string {
  if (one.withdrawn !== undefined) return 'withdrawn'
  if (one.answered !== undefined) return 'answered'
  if (!isOpenOn(one, asOf)) return 'not answered before the site closed'
  return one.overdueNow ? 'open, overdue' : 'open'
}

const notToldWords = {
  'no-area': 'cannot tell: no area is named',
  'no-pest': 'cannot tell: no pest is named',
  'not-looked': 'cannot tell: nobody looked there within the days',
  'too-soon': 'cannot tell yet',
} as const
