import type { AreaKind } from '../records/area-kinds.js'
import { liesOutdoors } from '../records/area-kinds.js'
import type { RecordOf } from '../records/kinds.js'
import { pestTable } from '../records/tables.js'
import type { Method } from '../records/use-words.js'
import type { Day, KeyPath, Place } from '../types.js'
import type { RegisterEntry } from './register.js'
import type { DatedSpan } from './spans.js'
import { inForce } from './spans.js'
import type { Treatment } from './treatments.js'

type Label = NonNullable<RecordOf<'product'>['labels']>[number]
export type LabelSays = NonNullable<Label['says']>

/** The label of a product that was in force on a day, with what the register tells of it in data. */
export interface LabelInForce {
  readonly says: LabelSays
  /** Its position among the labels of the product. */
  readonly number: number
  /** Where something it says stands. */
  readonly at: (...path: KeyPath) => Place
}

/** Labels of a product of which the register tells more than their file, as they are listed. */
export function toldLabels(product: RegisterEntry): (LabelInForce & DatedSpan)[] {
  return (product.data.labels ?? []).flatMap(({ from, until, says }, number) =>
    says
      ? [
          {
            from,
            until,
            says,
            number,
            at: (...path: KeyPath) => ({ file: product.file, path: ['labels', number, 'says', ...path] }),
          },
        ]
      : [],
  )
}

/** Undefined where no label was in force, or the register tells nothing of it but its file. */
export function labelOn(product: RegisterEntry, day: Day): LabelInForce | undefined {
  const label = inForce(product.data.labels, day)
  const number = label ? (product.data.labels?.indexOf(label) ?? -1) : -1
  return toldLabels(product).find((told) => told.number === number)
}

export function labelInForce({ product, day }: Treatment): LabelInForce | undefined {
  return product && labelOn(product, day)
}

/** What a label says of a use: that it is named, that it is not, or that it is forbidden; undefined where nothing tells. */
export type OnLabel = 'named' | 'not named' | 'forbidden' | undefined

/** Whether an area of this kind is a place where a label has the product used. */
export function placeOnLabel({ places, 'not-in': notIn }: LabelSays, kind: AreaKind): OnLabel {
  if (notIn?.includes(kind)) return 'forbidden'
  if (!places) return undefined
  if (places.includes(kind)) return 'named'
  const outdoors = liesOutdoors(kind)
  if (outdoors !== undefined)
    return places.includes(outdoors ? 'outdoors' : 'indoors') ? 'named' : 'not named'
  return places.includes('outdoors') || places.includes('indoors') ? undefined : 'not named'
}

/** Whether a label names a pest, alone or with its whole group. */
export function pestOnLabel({ pests, 'pest-groups': groups }: LabelSays, pest: string): OnLabel {
  const group = pestTable().get(pest)?.group
  if ((!pests && !groups) || group === undefined || group === 'unidentified') return undefined
  if (groups?.includes(group)) return 'named'
  if (pests?.some((named) => isKindOf(pest, named))) return 'named'
  // A pest whose kind was not told may be the one that is named.
  return pests?.some((named) => isKindOf(named, pest)) ? undefined : 'not named'
}

/** Whether one pest is another, or a kind of it: the ids of the kinds end in the word for all (`norway-rat`, `rat`). */
export function isKindOf(pest: string, whole: string): boolean {
  return pest === whole || pest.endsWith(`-${whole}`)
}

/**
 * Whether a label names a method. Bait in a station is bait placed, so a label that has it placed has it placed there;
 * and a method that no word fits can be neither found nor missed.
 */
export function methodOnLabel({ methods }: LabelSays, method: Method): OnLabel {
  if (!methods) return undefined
  if (methods.includes(method)) return 'named'
  if (method === 'in-a-station' && methods.includes('bait-placement')) return 'named'
  return method === 'other' || methods.includes('other') ? undefined : 'not named'
}
