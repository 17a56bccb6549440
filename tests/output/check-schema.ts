import { readFileSync } from 'node:fs'
import { Ajv } from 'ajv'

export type Json = { readonly [key: string]: unknown }

/** The schema that is published for `check --format json`. */
export const checkSchema = JSON.parse(
  readFileSync(new URL('../../schemas/results/check.schema.json', import.meta.url), 'utf8'),
) as Json

const isMap = (value: unknown): value is Json =>
  typeof value === 'object' && value !== null && !Array.isArray(value)

/**
 * The schema lets readers meet fields that a later version adds. For a test it is closed: a field that it does not know is
 * one that nobody described.
 */
function closed(schema: unknown): unknown {
  if (Array.isArray(schema)) return schema.map(closed)
  if (!isMap(schema)) return schema
  const inside = Object.fromEntries(Object.entries(schema).map(([key, part]) => [key, closed(part)]))
  return isMap(schema.properties) && schema.type === 'object'
    ? { ...inside, additionalProperties: false }
    : inside
}

const validate = new Ajv({ strict: true, allowUnionTypes: true, allErrors: true }).compile(
  closed(checkSchema) as Json,
)

/** Where a document departs from the schema, or has a field that the schema does not describe. */
export function departuresFromCheckSchema(document: unknown): string[] {
  return validate(document)
    ? []
    : (validate.errors ?? []).map((error) => `${error.instancePath} ${error.message}`)
}
