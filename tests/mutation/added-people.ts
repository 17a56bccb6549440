import { isoOf } from '../../src/measure/calendar.js'
import { addGel } from './added-applications.js'
import type { DataMap, Draft } from './draft.js'
import { put, rename, write } from './draft.js'
import { technicianOf } from './site-records.js'
import { personFile } from './used-products.js'

/** Someone who puts gel out once and is not in the ledger otherwise, and someone who supervises. */
export const hand = 'hobden'
export const overseer = 'ulfsby'

/** A licence that lacks nothing; in the records of these two it is called `own`. */
export function licensed(changes: DataMap = {}): DataMap {
  const own = {
    number: 'AB-9001',
    state: 'OR',
    kind: 'commercial applicator, invented number',
    ...changes,
    categories: ['structural'],
    spans: [{ from: '2000-01-01' }],
  }
  return { licences: { own } }
}

/**
 * Gel put out by the first of them, trained and of the firm, under the other if there is anything of them to write,
 * else under the technician of the site.
 */
export function addGelByHand(
  draft: Draft,
  site: string,
  handHolds: DataMap,
  overseerHolds?: DataMap,
): { readonly application: string; readonly day: number } {
  const { application: gel, day } = addGel(draft, site)
  const application = `sites/${site}/applications/${isoOf(day)}-${hand}.yaml`
  const course = { on: isoOf(day - 100), topic: 'Pests in schools', course: 'school-ipm' }
  const person = { roles: ['applicator'], firm: 'invented-pest-services', training: { course } }
  write(draft, personFile(hand), { name: 'Ida Hobden', ...person, ...handHolds })
  if (overseerHolds) write(draft, personFile(overseer), { name: 'Per Ulfsby', ...person, ...overseerHolds })
  rename(draft, gel, application)
  put(draft, application, ['by'], hand)
  put(draft, application, ['supervised-by'], overseerHolds ? overseer : technicianOf(draft, site))
  return { application, day }
}
