import type { DistrictView } from '../ledger/district-view.js'
import type { Duty } from '../ledger/rulebooks-in-force.js'
import type { SiteView } from '../ledger/site-view.js'
import { dayIn } from '../ledger/spans.js'
import { isPesticide } from '../ledger/treatments.js'
import { holdsFor } from '../ledger/use-classes.js'
import { isoOf } from '../measure/calendar.js'
import { monthsIn, oldestKeptOn } from '../measure/retention.js'
import type { Discarded } from '../rules/licences/records-discarded-too-early.js'
import { discardedTooEarly } from '../rules/licences/records-discarded-too-early.js'
import { namedFiles } from '../rules/products/named-files.js'
import type { Day, Row, Table } from '../types.js'
import type { Outcome } from './outcomes.js'
import { counted, listInWords } from './outcomes.js'
import type { Period } from './period.js'

type Keeping = Duty<'keeping'>

/** Records of a site that a duty has kept, from the oldest day it asks for on. */
export interface HeldRecords {
  readonly site: string
  readonly rulebook: string
  readonly duty: string
  readonly records: number
  readonly oldest: Day | undefined
  /** The oldest record itself. */
  readonly file: string | undefined
}

/** What a site holds of the records that keeping duties are about, as of the as-of day whatever the period. */
export function collectKeeping(view: SiteView, _period: Period): HeldRecords[] {
  return view.district.rulebooks.duties('keeping', view.asOf).flatMap((duty): HeldRecords[] => {
    const since = oldestOf(duty, view.asOf)
    if (duty.says.what === 'sds') return []
    const held = duty.says.what === 'notices' ? view.notices : usesUnder(view, duty)
    const byFile = new Map(
      held.filter(({ day }) => since <= day && day <= view.asOf).map(({ file, day }) => [file, day]),
    )
    const [oldest] = [...byFile].sort(([, a], [, b]) => a - b)
    return [
      {
        site: view.id,
        rulebook: duty.rulebook,
        duty: duty.name,
        records: byFile.size,
        oldest: oldest?.[1],
        file: oldest?.[0],
      },
    ]
  })
}

/** Records of the uses that a duty holds for; of bait in a device the visit. */
function usesUnder(view: SiteView, duty: Keeping) {
  return view.treatments
    .filter((use) => isPesticide(use) && holdsFor(view, duty, use))
    .map(({ day, record }) => ({ day, file: record.file }))
}

function oldestOf({ says }: Keeping, asOf: Day): Day {
  return oldestKeptOn(asOf, monthsIn(says.keep) ?? 0)
}

/** Which records are still to be kept on the as-of day, what the ledger holds of them, and what was discarded. */
export function keepingTable(
  facts: readonly (readonly HeldRecords[])[],
  district: DistrictView,
  _period: Period,
  asOf: Day,
): Table {
  const duties = district.rulebooks.duties('keeping', asOf)
  const discarded = (district.district.data.discarded ?? []).filter(({ on }) => dayIn(on) <= asOf)
  return {
    id: 'keeping',
    title: 'How long records are kept',
    columns: [
      { id: 'what', title: 'records of' },
      { id: 'outcome', title: 'outcome' },
      { id: 'why', title: 'what the records show' },
      { id: 'entry', title: 'row', for: 'work' },
      { id: 'duty', title: 'duty', for: 'work' },
      { id: 'clause', title: 'clause', for: 'work' },
      { id: 'keep', title: 'kept for', for: 'work' },
      { id: 'since', title: 'to be kept since', for: 'work' },
      { id: 'held', title: 'records held', for: 'work', decimals: 0 },
      { id: 'oldest', title: 'oldest held', for: 'work' },
      { id: 'discarded-on', title: 'discarded on', for: 'work' },
      { id: 'discarded-before', title: 'of events before', for: 'work' },
    ],
    rows: [
      ...duties.map((duty) => dutyRow(duty, facts, discarded, district, asOf)),
      ...discarded.map((entry) => discardedRow(entry, district)),
    ],
    empty: 'No rulebook in force says how long records are kept, and none are recorded as discarded.',
  }
}

export const keepingCautions: readonly string[] = [
  'Only what the ledger holds now, and what is entered under `discarded`, was looked at: not records deleted from it, in git or otherwise, nor copies that others keep.',
  'Where a duty counts from a later day than that of the event, records are kept longer than told here.',
]

const words: Readonly<Record<Keeping['says']['what'], string>> = {
  applications: 'applications',
  notices: 'notices',
  sds: 'safety data sheets',
}

function dutyRow(
  duty: Keeping,
  facts: readonly (readonly HeldRecords[])[],
  discarded: readonly Discarded[],
  district: DistrictView,
  asOf: Day,
): Row {
  const { says, rulebook, name, citation } = duty
  const since = oldestOf(duty, asOf)
  const held = says.what === 'sds' ? sheetsHeld(district, since) : recordsHeld(duty, facts.flat())
  const early = discarded.filter((entry) =>
    discardedTooEarly(district, entry).broken.some(
      (broken) => broken.duty.rulebook === rulebook && broken.duty.name === name,
    ),
  )
  const begins = district.recordsBegin
  const unit = says.what === 'sds' ? 'sheet' : 'record'
  const of = district.siteIds.size
  // A site that was left out, or could not be read, may hold more.
  const isPartial = says.what !== 'sds' && facts.length < of
  const where = isPartial ? ` at ${facts.length} of ${counted(of, 'site')} looked at` : ''
  const has =
    held.oldest === undefined
      ? `no ${unit} is held that it is about${where}`
      : `${counted(held.count, unit)} held${where}, the oldest of ${isoOf(held.oldest)}`
  const [outcome, why]: readonly [Outcome, string] =
    early.length > 0
      ? [
          'not shown',
          `discarded too early on ${listInWords(
            early.map(({ on }) => on),
            'days',
          )}; ${has}`,
        ]
      : held.missing.length > 0
        ? ['not shown', `not in the ledger: ${listInWords(held.missing, 'files')}; ${has}`]
        : since < begins
          ? [
              'cannot be checked',
              `${has}; the ledger begins on ${isoOf(begins)} (\`records-begin\`) and tells nothing of the time before`,
            ]
          : held.count === 0
            ? [isPartial ? 'cannot be checked' : 'not applicable', has]
            : ['shown', has]
  return {
    cells: {
      what: words[says.what],
      since: isoOf(since),
      outcome,
      why: `${says.keep} (${rulebook}: ${name}), so since ${isoOf(since)}: ${why}`,
      entry: 'duty',
      duty: `${rulebook}: ${name}`,
      clause: citation.text,
      keep: says.keep,
      held: held.count,
      oldest: held.oldest === undefined ? null : isoOf(held.oldest),
    },
    records: [district.district.file, ...held.records],
  }
}

interface Held {
  readonly count: number
  readonly oldest: Day | undefined
  /** Files that a record names and that are not there. */
  readonly missing: readonly string[]
  readonly records: readonly string[]
}

function recordsHeld({ rulebook, name }: Keeping, facts: readonly HeldRecords[]): Held {
  const of = facts
    .filter((fact) => fact.rulebook === rulebook && fact.duty === name && fact.oldest !== undefined)
    .sort((a, b) => (a.oldest ?? 0) - (b.oldest ?? 0))
  return {
    count: of.reduce((sum, { records }) => sum + records, 0),
    oldest: of[0]?.oldest,
    missing: [],
    records: of[0]?.file === undefined ? [] : [of[0].file],
  }
}

/** Sheets that were in force on any day from one on; the one that came first is the oldest. */
function sheetsHeld({ products, hasFile }: DistrictView, since: Day): Held {
  const wanted = [...products.values()].flatMap((product) => {
    const sheets = product.data.sds ?? []
    const files = [...namedFiles([product], since)].filter(({ at }) => at.path[0] === 'sds')
    return sheets.flatMap((sheet, position) => {
      const isWanted = sheet.until === undefined || dayIn(sheet.until) >= since
      const path = files.find(({ at }) => at.path[1] === position)?.path
      return isWanted && path !== undefined
        ? [{ from: dayIn(sheet.from), path, name: `${product.id}/${sheet.file}`, record: product.file }]
        : []
    })
  })
  return {
    count: wanted.filter(({ path }) => hasFile(path)).length,
    oldest: oldestOfAll(wanted.filter(({ path }) => hasFile(path)).map(({ from }) => from)),
    missing: wanted.filter(({ path }) => !hasFile(path)).map(({ name }) => name),
    records: [...new Set(wanted.map(({ record }) => record))],
  }
}

function oldestOfAll(days: readonly Day[]): Day | undefined {
  return days.length === 0 ? undefined : Math.min(...days)
}

function discardedRow(entry: Discarded, district: DistrictView): Row {
  const { on, what, before } = entry
  const { youngest, broken } = discardedTooEarly(district, entry)
  const asked = district.rulebooks.duties('keeping', dayIn(on)).some(({ says }) => says.what === what)
  const [longest] = broken
  const [outcome, why]: readonly [Outcome, string] = longest
    ? [
        'not shown',
        `the youngest, of ${isoOf(youngest)}, would have been kept until ${isoOf(longest.earliest)} (${longest.duty.rulebook})`,
      ]
    : dayIn(on) < district.recordsBegin
      ? ['cannot be checked', 'they were discarded before the ledger begins (`records-begin`)']
      : asked
        ? ['shown', 'their time was over by every rulebook in force']
        : ['not applicable', 'no rulebook in force said how long they are kept']
  return {
    cells: {
      what: words[what],
      since: null,
      outcome,
      why: `discarded on ${on}, of events before ${before}: ${why}`,
      entry: 'discarded',
      clause: longest?.duty.citation.text ?? null,
      keep: longest?.duty.says.keep ?? null,
      'discarded-on': on,
      'discarded-before': before,
    },
    records: [district.district.file],
  }
}
