import type { PestModel } from './pest-model.js'
import { settlers } from './settlers.js'
import { strays } from './strays.js'

/** Every pest of the model; its place in this list is its index everywhere in the simulation. */
export const pestModels: readonly PestModel[] = [...settlers, ...strays]

export const pestIndex: ReadonlyMap<string, number> = new Map(
  pestModels.map((model, index) => [model.id, index]),
)

export function pestModel(index: number): PestModel {
  const model = pestModels[index]
  if (!model) throw new RangeError(`no pest ${index}`)
  return model
}
