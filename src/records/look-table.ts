import { readFileSync } from 'node:fs'
import { CORE_SCHEMA, load } from 'js-yaml'
import { z } from 'zod'
import type { AreaKind } from './area-kinds.js'
import { areaKinds } from './area-kinds.js'

const places = z.array(z.string()).min(1)
const schema = z.strictObject(
  Object.fromEntries(areaKinds.map((kind) => [kind, places])) as Record<AreaKind, typeof places>,
)

let known: Readonly<Record<AreaKind, readonly string[]>> | undefined

/** Where to look in an area of each kind, in walking order. */
export function looksTable(): Readonly<Record<AreaKind, readonly string[]>> {
  known ??= schema.parse(
    load(readFileSync(new URL('../../src/data/looks.yaml', import.meta.url), 'utf8'), {
      schema: CORE_SCHEMA,
    }),
  )
  return known
}
