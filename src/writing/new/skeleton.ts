import { CORE_SCHEMA, load } from 'js-yaml'
import type { z } from 'zod'
import { isoOf } from '../../measure/calendar.js'
import { eventFields } from '../../records/fields.js'
import type { RecordKind } from '../../records/kinds.js'
import { recordKinds } from '../../records/kinds.js'
import { recordExamples } from '../../records/record-examples.js'
import type { Yaml } from '../demo/yaml.js'
import { flowText } from '../demo/yaml.js'
import type { Given } from './example-values.js'
import { blank, definitionOf, exampleKey, exampleValue, isOptional, unwrapped } from './example-values.js'

/**
 * A record to begin with: what is needed first, with values that fit, then every optional field as a comment line
 * that becomes a field when its `# ` is taken away. It has the shape of its kind as it stands.
 */
export function skeletonOf(kind: RecordKind, given: Given): string {
  const schema: z.ZodType = recordKinds[kind].schema
  const example = load(recordExamples[kind].text, { schema: CORE_SCHEMA })
  const head = [
    `# ${remarkOf(schema)}.`,
    `# Change what stands here; ${blank} stands where words are wanted.`,
    '# A line that begins with # and a key is optional: take the # away to use it. All fields: schemas/README.md',
  ]
  return `${[...head, '', ...mapLines(schema, '', { kind, given, example })].join('\n')}\n`
}

interface Context {
  readonly kind: RecordKind
  readonly given: Given
  /** What the complete example of the kind holds here. */
  readonly example: unknown
}

/** Values for needed fields where the schema's own examples would not go together. */
function sensible(kind: RecordKind, path: string, { day }: Given): Yaml | undefined {
  const from = isoOf(day)
  const values: Readonly<Record<string, Yaml>> = {
    'district:calendar': [],
    'district:coordinator.who': 'marsh',
    'district:rulebooks': [
      { from, rulebook: 'practice' },
      { from, rulebook: 'us-federal' },
    ],
    'site:site-manager.who': 'lind',
    'site:areas.kind': 'kitchen',
    'rulebook:parameters': {
      'check.sticky-trap': [
        { from, value: '28 days', source: blank, kind: 'practice', confidence: 'no source' },
      ],
    },
    'exception:by': 'marsh',
    'review:by': 'marsh',
  }
  return values[`${kind}:${path}`]
}

function mapLines(object: z.ZodType, path: string, context: Context): string[] {
  const fields = Object.entries(definitionOf(object).shape)
  const below = (key: string, field: z.ZodType) => ({
    key,
    schema: unwrapped(field),
    path: path === '' ? key : `${path}.${key}`,
    context: { ...context, example: Object(context.example)[key] },
  })
  const needed = fields.filter(([, field]) => !isOptional(field))
  const optional = fields.filter(([, field]) => isOptional(field))
  // What every event may say comes after what this kind is about.
  const isCommon = ([key, field]: [string, z.ZodType]) => Object(eventFields)[key] === field
  const inOrder = [...optional.filter((entry) => !isCommon(entry)), ...optional.filter(isCommon)]
  return [
    ...needed.flatMap(([key, field]) => neededLines(below(key, field))),
    ...inOrder.map(([key, field]) => optionalLine(below(key, field))),
  ]
}

interface Field {
  readonly key: string
  readonly schema: z.ZodType
  readonly path: string
  readonly context: Context
}

function neededLines({ key, schema, path, context }: Field): string[] {
  const { kind, given, example } = context
  const remark = remarkOf(schema)
  const end = remark === '' ? '' : ` # ${remark}`
  const chosen = context.given.by === undefined || !isPerson(key) ? sensible(kind, path, given) : undefined
  if (chosen !== undefined) return [`${key}: ${flowText(chosen)}${end}`]
  const def = definitionOf(schema)
  if (def.type === 'array' && definitionOf(def.element).type === 'object') {
    const lines = mapLines(def.element, path, { ...context, example: Object(example)[0] })
    return [`${key}:${end}`, ...lines.map((line, at) => (at === 0 ? `  - ${line}` : `    ${line}`))]
  }
  if (def.type === 'object')
    return [`${key}:${end}`, ...indented(withOneOpen(mapLines(schema, path, context)))]
  if (def.type === 'record' && definitionOf(def.valueType).type === 'object') {
    const name = exampleKey(def.keyType)
    const lines = mapLines(def.valueType, path, { ...context, example: firstOf(example) })
    if (!lines.every((line) => line.startsWith('# ')))
      return [`${key}:${end}`, `  ${name}:`, ...indented(indented(lines))]
    // A key with comments alone below it would hold nothing, which is not a map.
    const inside = firstOf(example) ?? exampleValue(def.valueType, given, 'example')
    return [`${key}:${end}`, `  ${name}: {} # such as ${flowText(inside as Yaml)}`]
  }
  return [`${key}: ${flowText(exampleValue(schema, given, 'blank'))}${end}`]
}

/** A map with comments alone in it would hold nothing, which is not a map: then its first line stands open. */
function withOneOpen(lines: readonly string[]): readonly string[] {
  const [first = '', ...others] = lines
  return lines.every((line) => line.startsWith('# ')) ? [first.slice(2), ...others] : lines
}

const isPerson = (key: string) => key === 'by' || key === 'who'
const indented = (lines: readonly string[]) => lines.map((line) => `  ${line}`)
const firstOf = (map: unknown): unknown => Object.values(Object(map))[0]

function optionalLine({ key, schema, context }: Field): string {
  const value = (context.example as Yaml | undefined) ?? exampleValue(schema, context.given, 'example')
  return `# ${key}: ${flowText(value)} # ${remarkOf(schema)}`
}

/** What a field means, on one line and without marks that YAML readers stop at; words it may be, where it is one of few. */
function remarkOf(schema: z.ZodType): string {
  const meaning = (schema.meta()?.description ?? '').replaceAll('`', '')
  const def = definitionOf(schema) as unknown as { type: string; entries?: Readonly<Record<string, string>> }
  if (def.type !== 'enum' || def.entries === undefined) return meaning
  return `${meaning}: ${Object.values(def.entries).join(', ')}`
}
