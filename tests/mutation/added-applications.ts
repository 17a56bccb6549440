import { isoOf, weekdayOf } from '../../src/measure/calendar.js'
import { addEvent, addVisit, idOf } from './added.js'
import type { Data, DataMap, Draft } from './draft.js'
import { dataOf, write } from './draft.js'
import { areasOf, coordinatorOf, technicianOf } from './site-records.js'

/** Records of one lawful application, as they were added to a ledger. */
export interface AddedApplication {
  readonly application: string
  readonly notice: string
  readonly day: number
  readonly product: string
}

const everything = [
  'trade-name',
  'active-ingredients',
  'registration',
  'location',
  'date',
  'time',
  'reason',
  'coordinator-contact',
]

/** A liquid of its own, in the register and on the year's list, so that no other application of it is near. */
export const addedSpray: DataMap = {
  name: 'Invented Added Spray',
  kind: 'pesticide',
  registration: '99999-77',
  states: { OR: [{ from: '2000-01-01' }] },
  'active-ingredients': { spinosad: { strength: '0.5 %' } },
  formulation: 'ready-to-use-liquid',
  'signal-word': 'caution',
  'restricted-use': 'no',
  labels: [
    {
      from: '2000-01-01',
      file: 'label.txt',
      says: {
        places: ['indoors', 'outdoors'],
        'pest-groups': ['cockroach', 'ant'],
        methods: ['crack-and-crevice', 'spot'],
        rates: { floor: { 'at-most': '16 fl oz', per: '1000 ft2' } },
        'keep-out-until-dry': 'yes',
        'keep-out': '2 h',
      },
    },
  ],
  sds: [{ from: '2000-01-01', file: 'sds.txt' }],
}

/**
 * A spray of 3 square feet in one area, late on a Friday that is at least nine days past and after the ledger has run for
 * two months, with everything that is asked of it: notice and signs on the Monday before, approval, re-entry on the next
 * morning, signs down on the Tuesday after, and a visit that looked at the effect.
 */
export function addSpray(
  draft: Draft,
  site: string,
  changes: { readonly area?: string; readonly application?: Readonly<Record<string, Data>> } = {},
): AddedApplication {
  const day = fridayBefore(draft.lastDay - 9)
  const who = technicianOf(draft, site)
  const coordinator = coordinatorOf(draft)
  const area = changes.area ?? indoorArea(draft, site)
  addProduct(draft, 'added-spray', addedSpray)
  const application = addEvent(draft, site, 'applications', day, who, {
    status: 'done',
    product: 'added-spray',
    pest: 'german-cockroach',
    areas: {
      [area]: { amount: '0.04 fl oz', extent: '3 ft2', where: 'along the pipe', 'within-reach': 'no' },
    },
    method: 'spot',
    amount: '0.04 fl oz',
    'treated-extent': '3 ft2',
    time: '20:00 to 20:20',
    approved: { by: [coordinator], on: isoOf(day - 4) },
    equipment: 'hand sprayer',
    lot: 'L-77',
    pupils: 'none in the building',
    identified: { by: who, how: 'nymphs under a hand lens' },
    threshold: '4 nymphs at the pipe',
    reason: 'catch went on after cleaning',
    'tried-first': 'cleaned, vacuumed, pipe sealed',
    'chosen-because': 'bait was not taken',
    dry: { at: '20:50', by: who },
    reopened: { on: isoOf(day + 1), at: '06:30', by: who },
    'follow-up': { by: isoOf(day + 8), look: 'the pipe' },
    ...changes.application,
  })
  const notice = addEvent(draft, site, 'notices', day - 4, coordinator, {
    application: idOf(application),
    sent: { to: 'everyone', at: '09:30', how: 'email', recipients: 300, says: everything },
    posted: {
      places: ['main entrance', 'the room'],
      'at-the': ['each-entrance', 'treated-area'],
      at: '10:30',
      size: '8.5 x 11 in',
      says: everything,
      'taken-down': isoOf(day + 4),
      'taken-down-at': '10:00',
    },
  })
  addVisit(draft, site, day + 7, 'follow-up', { inspected: [area] }, 'looked')
  return { application, notice, day, product: 'products/added-spray/product.yaml' }
}

/** Gel in cracks of one area on the same Friday: exempt from notice and signs by the district's rulebook. */
export function addGel(
  draft: Draft,
  site: string,
  changes: { readonly area?: string; readonly application?: Readonly<Record<string, Data>> } = {},
): AddedApplication {
  const day = fridayBefore(draft.lastDay - 9)
  const who = technicianOf(draft, site)
  const area = changes.area ?? indoorArea(draft, site)
  addProduct(draft, 'added-gel', {
    ...addedSpray,
    name: 'Invented Added Gel',
    registration: '99999-78',
    'active-ingredients': { abamectin: { strength: '0.05 %' } },
    formulation: 'gel',
    labels: [
      {
        from: '2000-01-01',
        file: 'label.txt',
        says: {
          places: ['indoors'],
          'pest-groups': ['cockroach'],
          methods: ['crack-and-crevice'],
          rates: { placements: { 'at-most': '0.5 g', per: 'placement' } },
          'out-of-reach': 'yes',
        },
      },
    ],
  })
  const application = addEvent(draft, site, 'applications', day, who, {
    status: 'done',
    product: 'added-gel',
    pest: 'german-cockroach',
    areas: { [area]: { amount: '2 g', placements: 4, where: 'hinge voids', 'within-reach': 'no' } },
    method: 'crack-and-crevice',
    amount: '2 g',
    time: '20:00 to 20:20',
    lot: 'L-78',
    pupils: 'none in the building',
    identified: { by: who, how: 'nymphs under a hand lens' },
    threshold: '4 nymphs at the hinge',
    reason: 'catch went on after cleaning',
    'tried-first': 'cleaned, vacuumed',
    'chosen-because': 'cleaning alone did not help',
    'follow-up': { by: isoOf(day + 8), look: 'the hinge' },
    ...changes.application,
  })
  addVisit(draft, site, day + 7, 'follow-up', { inspected: [area] }, 'looked')
  return { application, notice: '', day, product: 'products/added-gel/product.yaml' }
}

function addProduct(draft: Draft, id: string, data: DataMap): void {
  write(draft, `products/${id}/product.yaml`, data)
  draft.files.set(`products/${id}/label.txt`, 'An invented label.\n')
  draft.files.set(`products/${id}/sds.txt`, 'An invented safety data sheet.\n')
  for (const file of draft.files.keys()) {
    if (!file.startsWith('filings/')) continue
    const filing = dataOf(draft, file) as DataMap
    write(draft, file, { ...filing, products: [...((filing.products ?? []) as Data[]), id] })
  }
}

/** The last Friday on or before a day on which, and in the week before which, there is no federal holiday or closure. */
function fridayBefore(day: number): number {
  let friday = day
  while (weekdayOf(friday) !== 5 || isHoliday(friday)) friday--
  return friday
}

/** Weeks with closures of the generated calendar, roughly: late November, the turn of the year, the end of March. */
function isHoliday(friday: number): boolean {
  const text = isoOf(friday).slice(5)
  return text >= '11-21' || text <= '01-10' || (text >= '03-24' && text <= '04-12')
}

function indoorArea(draft: Draft, site: string): string {
  const indoor = ['utility', 'storage', 'custodial', 'office']
  for (const [id, facts] of areasOf(draft, site)) if (indoor.includes(String(facts.kind))) return id
  throw new RangeError(`no such area at ${site}`)
}
