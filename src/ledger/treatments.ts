import type { RecordOf } from '../records/kinds.js'
import { activeTable } from '../records/tables.js'
import type { Formulation, Method } from '../records/use-words.js'
import type { Day, KeyPath, Place } from '../types.js'
import type { DeviceHistory, Moment } from './device-history.js'
import type { DistrictView } from './district-view.js'
import type { Loaded, LoadedEvent } from './loaded.js'
import type { Area } from './site-view.js'
import { standAtEndOf } from './standing.js'

/**
 * One time a product was put to use, told alike whether an application record tells it or a reading that put bait
 * into a device. Bait is written once, in the reading, so what is asked of an application is asked here.
 */
export interface Treatment {
  /** Id of the application, or `<visit>/<device>`. */
  readonly id: string
  readonly how: 'application' | 'bait in a device'
  readonly day: Day
  readonly productId: string
  /** Undefined where the register does not have it. */
  readonly product: Loaded<'product'> | undefined
  /** Target pests, the first one first; none where a device is for nothing in particular. */
  readonly pests: readonly string[]
  readonly areas: readonly TreatedArea[]
  readonly formulation: Formulation | undefined
  readonly method: Method
  /** Undiluted amount in all, as written. */
  readonly amount: string | undefined
  readonly by: string
  readonly record: LoadedEvent<'application'> | LoadedEvent<'visit'>
  /** Where a key of an application stands; for bait in a device always the place of the product. */
  readonly at: (...path: KeyPath) => Place
  /** What only an application record tells. */
  readonly application: RecordOf<'application'> | undefined
  /** The device the bait was put into. */
  readonly device?: DeviceHistory
}

export interface TreatedArea {
  readonly id: string
  /** Undefined where the site has no such area. */
  readonly area: Area | undefined
  readonly amount: string | undefined
  readonly withinReach: 'yes' | 'no' | undefined
}

const pesticideKinds: ReadonlySet<string> = new Set(['pesticide', 'minimum-risk', 'antimicrobial'])

/** Whether what was used is a pesticide in the sense of the law: registered, or exempt as minimum risk. */
export function isPesticide({ product }: Treatment): boolean {
  return product !== undefined && isPesticideKind(product.data.kind)
}

export function isPesticideKind(kind: RecordOf<'product'>['kind']): boolean {
  return pesticideKinds.has(kind)
}

/** Groups of its active ingredients, each ingredient's once; undefined for one that the table does not know. */
export function activeClassesOf(product: RecordOf<'product'>): (string | undefined)[] {
  return Object.keys(product['active-ingredients'] ?? {}).map((id) => activeTable().get(id)?.class)
}

/** Every product put to use at a site, by day and then by record. Planned and cancelled applications are none. */
export function treatmentsOf(
  district: Pick<DistrictView, 'products'>,
  areas: ReadonlyMap<string, Area>,
  applications: readonly LoadedEvent<'application'>[],
  devices: readonly DeviceHistory[],
): Treatment[] {
  const treatments = applications
    .filter(({ data }) => data.status === 'done')
    .map((record) => fromApplication(record, district, areas))
  for (const device of devices) treatments.push(...baitOf(device, district, areas))
  return treatments.sort(
    (a, b) => a.day - b.day || (a.record.file < b.record.file ? -1 : a.record.file > b.record.file ? 1 : 0),
  )
}

function fromApplication(
  record: LoadedEvent<'application'>,
  district: Pick<DistrictView, 'products'>,
  areas: ReadonlyMap<string, Area>,
): Treatment {
  const { data, day, id, file } = record
  const product = district.products.get(data.product)
  return {
    id,
    how: 'application',
    day,
    productId: data.product,
    product,
    pests: [data.pest, ...(data['also-against'] ?? [])],
    areas: Object.entries(data.areas).map(([area, facts]) => ({
      id: area,
      area: areas.get(area),
      amount: facts.amount,
      withinReach: facts['within-reach'],
    })),
    formulation: data.formulation ?? product?.data.formulation,
    method: data.method,
    amount: data.amount,
    by: data.by,
    record,
    at: (...path) => ({ file, path }),
    application: data,
  }
}

function baitOf(
  device: DeviceHistory,
  district: Pick<DistrictView, 'products'>,
  areas: ReadonlyMap<string, Area>,
): Treatment[] {
  const found: Treatment[] = []
  const put = (productId: string, amount: string | undefined, moment: Moment, area: string) => {
    const product = district.products.get(productId)
    const at: Place = { file: moment.visit.file, path: [...moment.path, 'product'] }
    found.push({
      id: `${moment.visit.id}/${device.id}`,
      how: 'bait in a device',
      day: moment.day,
      productId,
      product,
      pests: device.for,
      areas: [
        {
          id: area,
          area: areas.get(area),
          amount,
          withinReach: standAtEndOf(device, moment.day)?.facts['within-reach'],
        },
      ],
      formulation: product?.data.formulation,
      method: 'in-a-station',
      amount,
      by: moment.visit.data.by,
      record: moment.visit,
      at: () => at,
      application: undefined,
      device,
    })
  }
  const { product, area } = device.setFacts
  if (product !== undefined) put(product, device.setFacts['bait-added'], device.set, area)
  for (const check of device.checks) {
    if (check.reading?.product !== undefined)
      put(check.reading.product, check.reading['bait-added'], check.moment, check.area)
  }
  return found
}
