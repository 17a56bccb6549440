import { isoOf } from '../../src/measure/calendar.js'
import { addEvent, idOf } from './added.js'
import { addSpray } from './added-applications.js'
import type { Data, DataMap, Draft } from './draft.js'
import { copyOf, dataOf, mapAt, put, rename, take, write } from './draft.js'
import type { Fault, FaultKind, Random } from './fault.js'
import { coordinatorOf, sitesOf } from './site-records.js'

/** A lawful spray on a Friday from 20:00 to 20:20, its notice in one record and its signs in another. */
export interface ToldSpray {
  readonly site: string
  readonly day: number
  readonly application: string
  /** Sent to everyone on the Monday before. */
  readonly notice: string
  /** Put up on the Monday before, taken down on the Tuesday after. */
  readonly signs: string
}

export function addToldSpray(draft: Draft, random: Random): ToldSpray {
  const site = random.pick(sitesOf(draft)) ?? ''
  const { application, notice, day } = addSpray(draft, site)
  const posted = mapAt(dataOf(draft, notice), 'posted')
  take(draft, notice, ['posted'])
  const fields = { application: idOf(application), posted }
  const signs = addEvent(draft, site, 'notices', day - 4, coordinatorOf(draft), fields, 'signs')
  return { site, day, application, notice, signs }
}

/**
 * The same spray as an emergency that could not wait: stated and signed that day, signs up at 19:30, half an hour
 * before it began, and everyone told on the next morning.
 */
export function addEmergencySpray(draft: Draft, random: Random): ToldSpray {
  const told = addToldSpray(draft, random)
  const coordinator = coordinatorOf(draft)
  put(draft, told.application, ['approved', 'on'], isoOf(told.day))
  put(draft, told.application, ['emergency'], {
    problem: 'cockroaches on the trays at supper',
    why: 'meals are given out again on the next morning',
    prevention: 'the drain is looked at every week',
    'decided-by': coordinator,
    signed: isoOf(told.day),
  })
  const notice = dated(draft, told.notice, told.day + 1)
  const signs = dated(draft, told.signs, told.day)
  put(draft, signs, ['posted', 'at'], '19:30')
  return { ...told, notice, signs }
}

/** One fact changed after something lawful was added; what was added is checked to be clean. */
export function faultAfter(
  add: (draft: Draft, random: Random) => ToldSpray,
  change: (draft: Draft, told: ToldSpray, random: Random) => Fault,
): FaultKind['make'] {
  return (draft, random) => {
    const told = add(draft, random)
    const before = copyOf(draft)
    return { ...change(draft, told, random), before }
  }
}

/** Gives a record of a day the date of another; it lies in another file then. */
export function dated(draft: Draft, file: string, day: number): string {
  const other = file.replace(/\/\d{4}-\d{2}-\d{2}-/, `/${isoOf(day)}-`)
  rename(draft, file, other)
  return other
}

/** A copy of a record beside it, with another word after the name of whoever wrote it. */
export function addCopy(
  draft: Draft,
  file: string,
  word: string,
  changes: Readonly<Record<string, Data>> = {},
): string {
  const other = file.replace(/-[a-z]+\.yaml$/, `-${word}.yaml`)
  write(draft, other, { ...mapAt(dataOf(draft, file)), ...changes })
  return other
}

/** An application of the same day that was planned and then cancelled; its id. */
export function addCancelled(draft: Draft, { application }: ToldSpray): string {
  const { by, product, pest, areas, method, amount } = mapAt(dataOf(draft, application))
  const planned = { by, product, pest, areas, method, amount } as DataMap
  const file = application.replace(/-[a-z]+\.yaml$/, '-cancelled.yaml')
  write(draft, file, { ...planned, status: 'cancelled', cancelled: 'nothing caught any more' })
  return idOf(file)
}
