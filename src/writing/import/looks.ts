import { getOrMake } from '../../ledger/get-or-make.js'
import { isoOf } from '../../measure/calendar.js'
import { nameIdPattern } from '../../records/fields.js'
import type { CountEntry, CountTaker } from './count-cells.js'
import { countTaker } from './count-cells.js'
import type { CsvRow } from './csv-rows.js'
import type { Fact, Facts } from './facts.js'
import { factsIn, showsByItself } from './facts.js'
import type { CountsMapping } from './mapping.js'
import type { Given, Known, RowHead } from './row-head.js'
import { blameUnknownName, headReader } from './row-head.js'
import type { Cell, Sheet, Take } from './sheet.js'
import { blame, blameHeader, isBlamed, takerOf } from './sheet.js'

/** One device looked at on one day, from the rows that speak of it. */
export interface Look {
  readonly head: RowHead
  readonly device: Cell
  readonly rows: CsvRow[]
  /** By pest, and there by life stage; `''` is no stage in particular. */
  readonly counts: Map<string, Map<string, CountEntry>>
  readonly facts: Map<string, Fact>
  /** Texts that each row adds to. */
  readonly notes: Cell[]
}

export interface ReadLooks {
  readonly looks: readonly Look[]
  /** Rows that the mapping says are no look. */
  readonly skipped: number
  /** Rows that were blamed before they could join a look, with when and where they were; nothing where not even that is known. */
  readonly lost: readonly (RowHead | undefined)[]
}

interface Takers {
  readonly device: Take
  readonly counts: CountTaker
  readonly facts: Facts
  /** Whether a row says that nothing was there. */
  readonly none: Take | undefined
  readonly note: Take | undefined
}

/** Every look the file tells of; what is wrong with it is blamed in the sheet. */
export function looksIn(sheet: Sheet, mapping: CountsMapping, given: Given, known: Known): ReadLooks {
  const head = headReader(sheet, mapping, given, known)
  const takers = takersOf(sheet, mapping, known)
  if (!head || !takers || sheet.troubles.length > 0) return { looks: [], skipped: 0, lost: [] }
  const looks = new Map<string, Look>()
  const lost: (RowHead | undefined)[] = []
  let skipped = 0
  for (const row of sheet.table.rows) {
    const at = head(row)
    const isLook = at && addRow(sheet, looks, at, row, takers, known)
    if (isLook === false) skipped++
    if (isBlamed(sheet, row)) lost.push(at)
  }
  return { looks: [...looks.values()], skipped, lost }
}

function takersOf(sheet: Sheet, mapping: CountsMapping, known: Known): Takers | undefined {
  const device = takerOf(sheet, 'device', mapping.device)
  if (!device && mapping.device === undefined)
    blameHeader(sheet, 'Nothing says which column the device is in: `device` in the mapping.')
  const facts = factsIn(sheet, mapping, known)
  const none = takerOf(sheet, 'none', mapping.none)
  const note = takerOf(sheet, 'note', mapping.note)
  const counts = countTaker(sheet, mapping, facts.canShow || none !== undefined, known)
  return device && counts ? { device, counts, facts, none, note } : undefined
}

/** False where the row is no look, as the mapping says. */
function addRow(
  sheet: Sheet,
  looks: Map<string, Look>,
  head: RowHead,
  row: CsvRow,
  takers: Takers,
  known: Known,
): boolean {
  const device = takers.device(row)
  if (!isDevice(device.text)) {
    blame(
      sheet,
      device,
      device.text === ''
        ? 'There is no device here.'
        : `\`${device.text}\` cannot be the id of a device: letters, digits and hyphens, beginning with a letter.`,
      device.text === '' ? undefined : 'Say under `names` which it is.',
      device.text === '' ? 'Write its id, or leave the row out.' : undefined,
    )
    return true
  }
  const facts = takers.facts.take(row)
  const isReached = !facts.has('no-access')
  const none = noneIn(sheet, takers, row)
  // A cell that was blamed may be the one that says it.
  const needsCount = isReached && none === undefined && !showsByItself(facts) && !isBlamed(sheet, row)
  const counted = takers.counts(row, { needsCount, hasOther: facts.has('other'), device })
  if (counted === 'not looked at') return false
  if (!isReached && counted.length > 0)
    blame(
      sheet,
      counted[0]?.cell ?? device,
      `${device.text} could not be reached, and yet has a count.`,
      undefined,
      'Keep one of the two.',
    )
  for (const { pest, named } of counted)
    if (named && pest !== '') blameUnknownName(sheet, named, 'pest', known.pests)
  const entries = none && counted.length === 0 ? [{ pest: '', stage: '', count: 0, cell: none }] : counted
  if (none) againstNone(sheet, none, counted, facts)
  if (isBlamed(sheet, row)) return true
  const look = getOrMake(looks, JSON.stringify([head.site, head.day, device.text]), () => ({
    head,
    device,
    rows: [],
    counts: new Map(),
    facts: new Map(),
    notes: [],
  }))
  if (!isOfOneVisit(sheet, look, head, device)) return true
  addEntries(sheet, look, entries, device, row)
  // One cause is told once.
  if (!isBlamed(sheet, row)) addFacts(sheet, look, facts)
  const note = takers.note?.(row)
  if (note && note.text !== '') look.notes.push(note)
  look.rows.push(row)
  return true
}

const devicePattern = new RegExp(nameIdPattern)
const isDevice = (text: string) => devicePattern.test(text)

/** The cell that says that nothing was there, if it does. */
function noneIn(sheet: Sheet, { none }: Takers, row: CsvRow): Cell | undefined {
  const cell = none?.(row)
  if (!cell || cell.text === '' || cell.text === 'no') return undefined
  if (cell.text !== 'yes')
    blame(
      sheet,
      cell,
      `\`${cell.text}\` is neither yes nor no.`,
      `Say under \`names\` which: \`none: {column: …, names: {"${cell.text.slice(0, 20)}": yes}}\`.`,
    )
  return cell
}

/** Nothing there, and yet something: one of the two is a slip, and which cannot be known. */
function againstNone(
  sheet: Sheet,
  none: Cell,
  counted: readonly CountEntry[],
  facts: ReadonlyMap<string, Fact>,
): void {
  const some = counted.find(({ count }) => count > 0)
  const against = some
    ? `${some.count} of ${some.pest}`
    : facts.has('other')
      ? 'an animal under `other`'
      : undefined
  const why = facts.has('no-access')
    ? 'that the device could not be reached'
    : against && `a count: ${against}`
  if (why !== undefined)
    blame(
      sheet,
      none,
      `Says that nothing was there (\`none\`), and the row has ${why}.`,
      undefined,
      'Keep one of the two.',
    )
}

/** One person looks at a device on one day, in this file; whose look came first could not be told. */
function isOfOneVisit(sheet: Sheet, look: Look, head: RowHead, device: Cell): boolean {
  const [first] = look.rows
  if (look.head.by === head.by || !first) return true
  blame(
    sheet,
    device,
    `${device.text} was looked at by ${head.by} and, on line ${first.line}, by ${look.head.by}, both on ${isoOf(head.day)}; which came first, no one can tell.`,
    'Enter one of the two by hand.',
  )
  return false
}

function addEntries(
  sheet: Sheet,
  look: Look,
  entries: readonly CountEntry[],
  device: Cell,
  row: CsvRow,
): void {
  const twice = (cell: Cell, what: string, line: number) =>
    blame(
      sheet,
      cell,
      `${what} stands here a second time for ${isoOf(look.head.day)}; the first is on line ${line}.`,
      undefined,
      'Take one of the rows out.',
    )
  const [first] = look.rows
  const isRepeated = entries.every(({ pest, stage }) => look.counts.get(pest)?.has(stage))
  if (first && isRepeated && entries.length !== 1) {
    twice(device, device.text, first.line)
    return
  }
  for (const entry of entries) {
    const { pest, stage } = entry
    const stages = getOrMake(look.counts, pest, () => new Map<string, CountEntry>())
    const before = stages.get(stage)
    if (before)
      twice(
        entry.cell.index < 0 ? device : entry.cell,
        [device.text, pest, stage].filter((word) => word !== '').join(' '),
        before.cell.row.line,
      )
    else if (stages.size > 0 && (stage === '' || stages.has('')))
      blame(
        sheet,
        entry.cell,
        `${device.text} has a count of ${pest} in all and one by life stage.`,
        'Keep one of the two.',
      )
    else stages.set(stage, entry)
  }
  const [one] = look.counts.get('')?.values() ?? []
  if (one && look.counts.size > 1 && row !== one.cell.row)
    twice(device, `${device.text}, here with a pest and there with none,`, one.cell.row.line)
}

function addFacts(sheet: Sheet, look: Look, facts: ReadonlyMap<string, Fact>): void {
  for (const [key, fact] of facts) {
    const before = look.facts.get(key)
    if (!before) look.facts.set(key, fact)
    else if (JSON.stringify(before.value) !== JSON.stringify(fact.value))
      blame(
        sheet,
        fact.cell,
        `${look.device.text} is \`${factText(fact)}\` here and \`${factText(before)}\` on line ${before.cell.row.line} (${key}).`,
        undefined,
        'All rows of one device and day speak of one look; make them agree.',
      )
  }
}

const factText = ({ value }: Fact) => (typeof value === 'object' ? JSON.stringify(value) : String(value))
