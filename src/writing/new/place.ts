import { isoOf } from '../../measure/calendar.js'
import type { RecordKind } from '../../records/kinds.js'
import { recordKinds } from '../../records/kinds.js'
import { recordPathOf } from '../../records/paths.js'
import type { Day } from '../../types.js'

/** What is known of a record before it is written. */
export interface NewRecord {
  readonly kind: RecordKind
  readonly day: Day
  /** Its id, for a record that is not an event; the year of a review. */
  readonly id?: string
  readonly site?: string
  /** Who did or noted it. */
  readonly by?: string
  /** Tells two events of one kind, person and day apart. */
  readonly word?: string
}

/** What the place of a kind asks for. */
export interface Asks {
  readonly id: boolean
  readonly year: boolean
  readonly site: boolean
  readonly by: boolean
}

export function asksOf(kind: RecordKind): Asks {
  const { lies } = recordKinds[kind]
  const isSite = kind === 'site'
  return {
    id: lies.includes('<id>') || isSite,
    year: lies.includes('<year>'),
    site: lies.includes('<site>') && !isSite,
    by: lies.includes('<who>'),
  }
}

/** The file of a record, from the root of the ledger. Refused when a name in it is not one a record can have. */
export function placeOf(record: NewRecord): { readonly file: string } | { readonly refused: string } {
  const { kind, day, id = '', site = kind === 'site' ? id : '', by = '', word } = record
  const who = word === undefined ? by : `${by}-${word}`
  const file = recordKinds[kind].lies
    .replace('<id>', id)
    .replace('<site>', site)
    .replace('<year>', id)
    .replace('<date>', isoOf(day))
    .replace('<who>', who)
  const found = recordPathOf(file)
  if (found !== null && !('stray' in found) && found.kind === kind) return { file }
  const wrong = [id, site, who].find((name) => name !== '' && !fits(name)) ?? file
  return {
    refused: asksOf(kind).year
      ? `${id} is not a year, such as 2026.`
      : `${wrong} cannot be the name of a record: small letters, digits and hyphens, beginning with a letter, and no word like yes, no or null.`,
  }
}

function fits(name: string): boolean {
  const found = recordPathOf(`people/${name}.yaml`)
  return found !== null && !('stray' in found)
}
