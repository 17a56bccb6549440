import { readCarefully } from '../../files/careful-reader.js'
import { clean } from '../../output/clean.js'
import type { RecordKind } from '../../records/kinds.js'
import { recordKinds } from '../../records/kinds.js'
import { nearest } from '../../records/nearest.js'
import { schemaAt } from '../../records/schema-at.js'
import { valueText } from '../../reports/history/changed-keys.js'
import type { KeyPath } from '../../types.js'

/** One change of a record, asked for on the command line. */
export type Edit =
  | { readonly does: 'set'; readonly path: KeyPath; readonly value: unknown }
  | { readonly does: 'remove'; readonly path: KeyPath }

export type Asked<T> = T | { readonly refused: string }

/** `readings.K7` as keys, numbers where they count the items of a list. Nothing of it may be empty. */
function pathOf(text: string, record: unknown): KeyPath | undefined {
  const steps = text.split('.')
  if (steps.some((step) => step.trim() === '')) return undefined
  const path: (string | number)[] = []
  let here: unknown = record
  for (const step of steps) {
    const at: string | number = Array.isArray(here) && /^\d+$/.test(step) ? Number(step) : step
    path.push(at)
    here = childOf(here, at)
  }
  return path
}

/** What stands under a key or at a place of a list; undefined where there is nothing. */
export function childOf(value: unknown, step: string | number): unknown {
  if (typeof value !== 'object' || value === null || !Object.hasOwn(value, step)) return undefined
  return (value as Record<string | number, unknown>)[step]
}

function at(record: unknown, path: KeyPath): unknown {
  return path.reduce(childOf, record)
}

/** `key.path=value`: the value as YAML reads it, or as text where the record wants text. */
export function setEdit(written: string, kind: RecordKind, record: unknown): Asked<Edit> {
  const equals = written.indexOf('=')
  if (equals === -1) return { refused: `--set ${written}: write KEY=VALUE, such as time="06:10 to 06:50".` }
  const [key, text] = [written.slice(0, equals).trim(), written.slice(equals + 1).trim()]
  const path = pathOf(key, record)
  if (!path) return notAKey(`--set ${written}`)
  if (text === '')
    return { refused: `--set ${written}: there is no value. To take the key away: --remove ${key}.` }
  const isBad = refusedPath('--set', key, path, kind, record)
  if (isBad) return isBad
  const read = readCarefully(`value: ${text}\n`)
  if ('faults' in read || Object.keys(read.data).length !== 1) {
    if (!wantsText(kind, path))
      return { refused: `--set ${written}: ${text} is no value that YAML can read.` }
    return { does: 'set', path, value: text }
  }
  const { value } = read.data
  const isOdd = clean(valueText(value) ?? '') !== valueText(value)
  if (isOdd)
    return { refused: `--set ${written}: the value holds a line end or a character that cannot be seen.` }
  return { does: 'set', path, value: typeof value === 'number' && wantsText(kind, path) ? text : value }
}

/** A key to take away; it must be there. */
export function removeEdit(key: string, kind: RecordKind, record: unknown): Asked<Edit> {
  const path = pathOf(key, record)
  if (!path) return notAKey(`--remove ${key}`)
  const isBad = refusedPath('--remove', key, path, kind, record)
  if (isBad) return isBad
  if (at(record, path) !== undefined) return { does: 'remove', path }
  return { refused: `--remove ${key}: ${absentWords(path, record)}` }
}

function notAKey(option: string): { readonly refused: string } {
  return { refused: `${option}: write the key with dots between its parts, such as readings.K7.` }
}

function refusedPath(
  option: string,
  key: string,
  path: KeyPath,
  kind: RecordKind,
  record: unknown,
): { readonly refused: string } | undefined {
  if (path[0] === 'corrections')
    return { refused: `${option} ${key}: corrections are added by this command, and never changed.` }
  const { schema } = recordKinds[kind]
  const unknown = path.findIndex((_, n) => !mayHold(schemaAt(schema, path.slice(0, n + 1))))
  if (unknown !== -1) {
    const meant = nearest(String(path[unknown]), keysAt(kind, path.slice(0, unknown)))
    const where = unknown === 0 ? `a ${kind}` : path.slice(0, unknown).join('.')
    return {
      refused: `${option} ${key}: there is no key ${path[unknown]} in ${where}${meant === undefined ? '.' : `; did you mean ${meant}?`}`,
    }
  }
  const isWithin = path.slice(0, -1).some((_, n) => {
    const here = at(record, path.slice(0, n + 1))
    return here !== undefined && (typeof here !== 'object' || here === null)
  })
  if (isWithin) return { refused: `${option} ${key}: ${absentWords(path, record)}` }
  const list = at(record, path.slice(0, -1))
  const last = path.at(-1)
  const isPastEnd = Array.isArray(list) && (typeof last !== 'number' || last >= list.length)
  if (isPastEnd) return { refused: `${option} ${key}: ${absentWords(path, record)}` }
  return undefined
}

/** A map with known keys alone leads to `never` for every other. */
function mayHold(schema: ReturnType<typeof schemaAt>): boolean {
  return schema !== undefined && schema.type !== 'never'
}

/** Up to where the record leads along a path, and what it has there instead. */
function absentWords(path: KeyPath, record: unknown): string {
  const end = path.findIndex((_, n) => at(record, path.slice(0, n + 1)) === undefined)
  const above = path.slice(0, end)
  const here = at(record, above)
  const where = above.length === 0 ? 'the record' : above.join('.')
  if (Array.isArray(here))
    return `${where} is a list of ${here.length}, counted from 0. To change what it holds, set the whole: ${where}="[…]".`
  if (typeof here !== 'object' || here === null)
    return `${where} is the value ${String(here)}, which holds no keys.`
  const meant = nearest(String(path[end]), Object.keys(here))
  return `${where} has no ${path[end]}${meant === undefined ? '.' : `; did you mean ${[...above, meant].join('.')}?`}`
}

interface Shape {
  readonly type: string
  readonly shape?: Readonly<Record<string, unknown>>
}

function keysAt(kind: RecordKind, path: KeyPath): string[] {
  const def = schemaAt(recordKinds[kind].schema, path)?.def as unknown as Shape | undefined
  return Object.keys(def?.shape ?? {})
}

function wantsText(kind: RecordKind, path: KeyPath): boolean {
  return (schemaAt(recordKinds[kind].schema, path)?.def as unknown as Shape | undefined)?.type === 'string'
}

/** The record as it is to be: nothing of what was given is changed. */
export function edited(record: unknown, edits: readonly Edit[]): unknown {
  return edits.reduce((before, edit) => editedAt(before, edit.path, edit), record)
}

function editedAt(value: unknown, [step, ...rest]: KeyPath, edit: Edit): unknown {
  if (step === undefined) return edit.does === 'set' ? edit.value : undefined
  if (Array.isArray(value)) {
    const inner = editedAt(value[Number(step)], rest, edit)
    return value.flatMap((item, n) => (n === step ? (inner === undefined ? [] : [inner]) : [item]))
  }
  const map = typeof value === 'object' && value !== null ? value : {}
  const inner = editedAt(childOf(map, step), rest, edit)
  if (inner !== undefined) return { ...map, [step]: inner }
  return Object.fromEntries(Object.entries(map).filter(([key]) => key !== String(step)))
}
