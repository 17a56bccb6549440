import { readFileSync } from 'node:fs'
import { CORE_SCHEMA, load } from 'js-yaml'
import { z } from 'zod'

const dataFolder = new URL('../../src/data/', import.meta.url)

/** A table of src/data, read when it is first asked for and then kept: `--help` does not pay for it. */
export function dataTable<T>(name: string, schema: z.ZodType<T>): () => T {
  let made: { readonly value: T } | undefined
  return () => {
    made ??= {
      value: schema.parse(load(readFileSync(new URL(name, dataFolder), 'utf8'), { schema: CORE_SCHEMA })),
    }
    return made.value
  }
}

/** The same for a table of rows by id. */
export function rowsById<T>(name: string, row: z.ZodType<T>): () => ReadonlyMap<string, T> {
  const rows = dataTable(name, z.record(z.string(), row))
  let byId: ReadonlyMap<string, T> | undefined
  return () => {
    byId ??= new Map(Object.entries(rows()))
    return byId
  }
}
