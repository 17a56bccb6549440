/**
 * Writes records the way a person would: short maps on one line, the rest in blocks, quotes only where YAML needs
 * them.
 */
export type Yaml = string | number | readonly Yaml[] | YamlMap
export interface YamlMap {
  readonly [key: string]: Yaml | undefined
}

/** Key, value, and a remark at the end of its line; a text alone is a remark on a line of its own. */
export type Line = readonly [key: string, value: Yaml | undefined, remark?: string] | string

const widest = 120

const resolvesElsewhere =
  /^(?:~|null|Null|NULL|true|True|TRUE|false|False|FALSE|[-+]?(?:\.[0-9]+|[0-9][0-9_]*(?:\.[0-9_]*)?)(?:[eE][-+]?[0-9]+)?|0[xob][0-9a-fA-F_]+|[-+]?\.(?:inf|Inf|INF)|\.(?:nan|NaN|NAN))$/
const needsQuotes = /^[\s\-?:,[\]{}#&*!|>'"%@`]|: |:$| #|\s$|[\n\t]/
const needsQuotesInFlow = /[,[\]{}]/

export function scalarText(value: string | number, inFlow = false): string {
  if (typeof value === 'number') return `${value}`
  if (value === '' || resolvesElsewhere.test(value) || needsQuotes.test(value)) return quoted(value)
  return inFlow && needsQuotesInFlow.test(value) ? quoted(value) : value
}

/** Double quotes, unless something inside would need a backslash there. */
function quoted(value: string): string {
  return /["\\]/.test(value) && !/[\n\t]/.test(value)
    ? `'${value.replaceAll("'", "''")}'`
    : JSON.stringify(value)
}

/** The value on one line, whatever its length. */
export function flowText(value: Yaml): string {
  if (typeof value === 'string' || typeof value === 'number') return scalarText(value, true)
  if (isList(value)) return `[${value.map(flowText).join(', ')}]`
  const parts: string[] = []
  for (const key in value) {
    const inner = value[key]
    if (inner !== undefined) parts.push(`${scalarText(key, true)}: ${flowText(inner)}`)
  }
  return `{${parts.join(', ')}}`
}

function isList(value: Yaml): value is readonly Yaml[] {
  return Array.isArray(value)
}

function isScalar(value: Yaml): value is string | number {
  return typeof value === 'string' || typeof value === 'number'
}

function holdsMaps(value: YamlMap): boolean {
  for (const key in value) {
    const inner = value[key]
    if (inner !== undefined && !isScalar(inner) && !isList(inner)) return true
  }
  return false
}

function writeEntry(lines: string[], indent: string, key: string, value: Yaml, oneLine: boolean): void {
  const start = `${indent}${scalarText(key)}:`
  if (isScalar(value)) {
    lines.push(`${start} ${scalarText(value)}`)
    return
  }
  if (isList(value)) {
    if (value.every((item) => isScalar(item) || isList(item))) {
      lines.push(`${start} ${flowText(value)}`)
      return
    }
    lines.push(start)
    for (const item of value) writeItem(lines, `${indent}  `, item)
    return
  }
  const flow = `${start} ${flowText(value)}`
  const fits = flow.length <= widest && (indent !== '' || !holdsMaps(value))
  if (oneLine || fits) {
    lines.push(flow)
    return
  }
  lines.push(start)
  for (const inner in value) {
    const item = value[inner]
    if (item !== undefined) writeEntry(lines, `${indent}  `, inner, item, false)
  }
}

function writeItem(lines: string[], indent: string, item: Yaml): void {
  const flow = `${indent}- ${flowText(item)}`
  if (flow.length <= widest || isScalar(item) || isList(item)) {
    lines.push(flow)
    return
  }
  const inner: string[] = []
  for (const key in item) {
    const value = item[key]
    if (value !== undefined) writeEntry(inner, `${indent}  `, key, value, false)
  }
  lines.push(...inner.map((line, position) => (position === 0 ? `${indent}- ${line.trimStart()}` : line)))
}

/** A whole record. Keys in `oneLine` are written in flow style even when they hold maps. */
export function recordText(entries: readonly Line[], oneLine: readonly string[] = []): string {
  const lines: string[] = []
  for (const entry of entries) {
    if (typeof entry === 'string') {
      lines.push(`# ${entry}`)
      continue
    }
    const [key, value, remark] = entry
    if (value === undefined) continue
    const before = lines.length
    writeEntry(lines, '', key, value, oneLine.includes(key))
    if (remark !== undefined) lines[before] = `${lines[before]}   # ${remark}`
  }
  return `${lines.join('\n')}\n`
}

/** A record from an object, its keys in the order they stand. */
export function mapText(record: YamlMap): string {
  return recordText(Object.entries(record))
}
