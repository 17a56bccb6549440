import { locatable } from '../../files/locate.js'
import { readRecord } from '../../files/read-record.js'
import type { ReadFault } from '../../ledger/loaded.js'
import { lifeStages } from '../../records/fields.js'
import { nearest } from '../../records/nearest.js'
import { shapeOf } from '../../records/shape.js'
import { allRules } from '../../rules/all.js'
import type { KeyPath } from '../../types.js'
import { dateReader } from './dates.js'
import type { ImportKind, MappingOf, ValueFrom } from './mapping.js'
import { mappings } from './mapping.js'
import type { Trouble } from './trouble.js'
import { inOrder } from './trouble.js'

export type ReadMapping<K extends ImportKind> =
  | { readonly mapping: MappingOf<K> }
  | { readonly troubles: readonly Trouble[] }

/** A mapping from the bytes of its file, or all that is wrong with it, each with its spot. */
export function readMapping<K extends ImportKind>(kind: K, file: string, bytes: Uint8Array): ReadMapping<K> {
  const read = readRecord(bytes)
  if ('faults' in read)
    return {
      troubles: read.faults.map((fault) => ({
        file,
        ...spotIn(bytes, { span: fault.span }),
        says: saysOf({ file, kind: 'text', fault }),
      })),
    }
  const shaped = shapeOf(mappings[kind], read.data)
  if (shaped.faults.length > 0)
    return {
      troubles: shaped.faults.map((fault) => ({
        file,
        ...spotIn(bytes, fault),
        says: saysOf({ file, kind: 'shape', fault, record: 'visit' }),
      })),
    }
  const mapping = shaped.record as MappingOf<K>
  const troubles = contradictionsIn(mapping).map(({ path, says }) => ({
    file,
    ...spotIn(bytes, { path, onKey: true }),
    says,
  }))
  return troubles.length > 0 ? { troubles: inOrder(troubles) } : { mapping }
}

function spotIn(
  bytes: Uint8Array,
  at: { readonly span: readonly [number, number] } | { readonly path: KeyPath; readonly onKey: boolean },
) {
  const text = locatable(bytes)
  const { line, column } = 'span' in at ? text.locateSpan(at.span) : text.locate(at.path, at.onKey)
  return { line, column }
}

/** The sentence that the rules of reading have for a fault. */
function saysOf(fault: ReadFault): string {
  for (const rule of allRules) {
    if (rule.reach !== 'file') continue
    const found = rule.judge(fault)
    if (found) return rule.says(found.args)
  }
  return 'It cannot be read.'
}

interface Contradiction {
  readonly path: KeyPath
  readonly says: string
}

const dates: ReadonlySet<string> = new Set(['date', 'on-paper', 'lamp'])

/** What no schema says: parts that exclude one another. */
function contradictionsIn(mapping: Readonly<Record<string, unknown>>): Contradiction[] {
  const found: Contradiction[] = []
  const say = (says: string, ...path: KeyPath) => found.push({ path, says })
  for (const [key, value] of Object.entries(mapping)) {
    if (dates.has(key) && isMap(value)) {
      const reader = dateReader(String(value.format))
      if (typeof reader !== 'function') say(`In \`${key}\`, ${reader.refused}`, key, 'format')
    } else if (key !== 'pests' && isMap(value)) {
      const { column, always } = value as Exclude<ValueFrom, string>
      if ((column === undefined) === (always === undefined))
        say(`\`${key}\` takes either \`column\` or \`always\`.`, key)
    }
  }
  if (isMap(mapping.pests)) {
    for (const other of ['pest', 'count', 'stage'])
      if (mapping[other] !== undefined)
        say(`\`pests\` names a column for each pest, so \`${other}\` has no place beside it.`, other)
    for (const [pest, columns] of Object.entries(mapping.pests)) {
      if (!isMap(columns)) continue
      for (const stage of Object.keys(columns)) {
        if ((lifeStages as readonly string[]).includes(stage)) continue
        const meant = nearest(stage, lifeStages)
        say(
          `\`${stage}\` is no life stage; there are ${lifeStages.join(', ')}${meant === undefined ? '' : `. Did you mean \`${meant}\`?`}`,
          'pests',
          pest,
          stage,
        )
      }
    }
  }
  if (mapping.sprung !== undefined)
    for (const number of ['sprung-empty', 'sprung-other-animal'])
      if (mapping[number] !== undefined)
        say(`\`sprung\` is one word for each reading, so \`${number}\` has no place beside it.`, number)
  const hasStages =
    mapping.stage !== undefined || (isMap(mapping.pests) && Object.values(mapping.pests).some(isMap))
  if (mapping.counts === 'new since the last look' && hasStages)
    say(
      'New animals cannot be added to what was on the device stage by stage, since nymphs become adults. Map totals.',
      'counts',
    )
  return found
}

function isMap(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null && !Array.isArray(value)
}
