import { z } from 'zod'
import type { RecordKind } from '../records/kinds.js'
import { recordKinds } from '../records/kinds.js'

/** The JSON Schema of a record kind: draft 7, since every editor and validator knows it. */
export function jsonSchemaOf(kind: RecordKind): Record<string, unknown> {
  const { schema, lies } = recordKinds[kind]
  const { $schema, description, ...rest } = z.toJSONSchema(schema as z.ZodType, {
    target: 'draft-7',
    io: 'input',
  }) as Record<string, unknown>
  return {
    $schema,
    $id: `https://doorsweep.example/schemas/${kind}.schema.json`,
    title: kind,
    description: `${description}. Lies at ${lies}`,
    ...rest,
  }
}

export function jsonSchemaText(kind: RecordKind): string {
  return `${JSON.stringify(jsonSchemaOf(kind), null, 2)}\n`
}
