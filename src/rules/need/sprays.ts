import type { Treatment } from '../../ledger/treatments.js'
import type { RecordOf } from '../../records/kinds.js'
import { activeTable } from '../../records/tables.js'
import type { Formulation, Method } from '../../records/use-words.js'
import { baitFormulations, concentrates } from '../../records/use-words.js'

/** Formulations that leave a nozzle. */
const sprays: ReadonlySet<Formulation> = new Set([...concentrates, 'aerosol', 'ready-to-use-liquid'])

/** Ways of applying that cover a surface or fill a room. */
const onSurfaces: ReadonlySet<Method> = new Set(['spot', 'baseboard', 'broadcast', 'space', 'perimeter'])

/** Whether what was used is eaten by what it is for. */
export function isBait({ formulation }: Treatment): boolean {
  return formulation !== undefined && baitFormulations.has(formulation)
}

/** Whether it was sprayed: onto a surface, into a room, or into cracks. */
export function isSprayed({ formulation, method }: Treatment): boolean {
  return (
    formulation !== undefined &&
    sprays.has(formulation) &&
    (onSurfaces.has(method) || method === 'crack-and-crevice')
  )
}

/** Whether it lies afterwards where insects walk: sprayed, or spread in another form. */
export function isOnSurfaces(treatment: Treatment): boolean {
  return isSprayed(treatment) || (onSurfaces.has(treatment.method) && !isBait(treatment))
}

/** Whether a product drives insects away before it kills them, as its record says, else by its active ingredients. */
export function isRepellent(product: RecordOf<'product'>): boolean {
  if (product.repellent !== undefined) return product.repellent === 'yes'
  return Object.keys(product['active-ingredients'] ?? {}).some(
    (active) => activeTable().get(active)?.repellent === 'yes',
  )
}
