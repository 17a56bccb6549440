import type { Document, Pair, Scalar } from 'yaml'
import { isAlias, isMap, isNode, isPair, isScalar, parseDocument, visit } from 'yaml'

/** What is wrong with a file as text, before anyone asks what it says. Offsets are in UTF-16 units of the text. */
export interface TextFault {
  readonly fault: TextFaultKind
  readonly detail: string
  readonly span: readonly [number, number]
}

export type TextFaultKind =
  | 'empty'
  | 'not-utf-8'
  | 'binary'
  | 'control-character'
  | 'not-yaml'
  | 'duplicate-key'
  | 'tab'
  | 'alias'
  | 'tag'
  | 'several-documents'
  | 'too-deep'
  | 'changed-scalar'
  | 'not-a-map'
  | 'bad-key'

/** Records nest five deep; a file that nests deeper was made to be slow. */
const deepest = 24

export type CarefulResult =
  | { readonly data: Record<string, unknown> }
  | { readonly faults: readonly TextFault[] }

/** Reads any YAML the slow and certain way, refusing whatever a record never needs. */
export function readCarefully(text: string): CarefulResult {
  const deep = tooDeep(text)
  if (deep) return { faults: [deep] }
  const document = positionedDocument(text)
  const faults = [...syntaxFaults(document), ...nodeFaults(document, text)]
  if (faults.length > 0) return { faults: faults.slice(0, 20) }
  const contents = document.contents
  if (contents === null || (isScalar(contents) && contents.value === null)) {
    return { faults: [{ fault: 'empty', detail: '', span: [0, 0] }] }
  }
  if (!isMap(contents)) {
    const what = isScalar(contents) ? 'a single value' : 'a list'
    return {
      faults: [
        { fault: 'not-a-map', detail: what, span: [contents.range?.[0] ?? 0, contents.range?.[1] ?? 0] },
      ],
    }
  }
  return { data: document.toJS({ maxAliasCount: 0 }) as Record<string, unknown> }
}

/** The text with every node's place in it, also when it has faults. */
export function positionedDocument(text: string): Document.Parsed {
  return parseDocument(text, {
    version: '1.2',
    schema: 'core',
    strict: true,
    uniqueKeys: true,
    prettyErrors: false,
    logLevel: 'silent',
    customTags: [],
  }) as Document.Parsed
}

function syntaxFaults(document: Document.Parsed): TextFault[] {
  return [...document.errors, ...document.warnings].map((error) => ({
    fault: faultOfCode[error.code] ?? 'not-yaml',
    detail: error.message.split('\n')[0]?.trim() ?? '',
    span: [error.pos[0], error.pos[1]] as const,
  }))
}

const faultOfCode: Record<string, TextFaultKind> = {
  DUPLICATE_KEY: 'duplicate-key',
  TAB_AS_INDENT: 'tab',
  MULTIPLE_DOCS: 'several-documents',
  TAG_RESOLVE_FAILED: 'tag',
  BAD_ALIAS: 'alias',
}

function nodeFaults(document: Document.Parsed, text: string): TextFault[] {
  const faults: TextFault[] = []
  visit(document, (key, node) => {
    if (isPair(node)) {
      const bad = keyFault(node)
      if (bad) faults.push(bad)
      return
    }
    if (!isNode(node)) return
    const span = [node.range?.[0] ?? 0, node.range?.[1] ?? 0] as const
    if (isAlias(node)) faults.push({ fault: 'alias', detail: `*${node.source}`, span })
    else if (node.anchor) faults.push({ fault: 'alias', detail: `&${node.anchor}`, span })
    else if (node.tag && text.charAt(tagStart(text, span[0])) === '!')
      faults.push({ fault: 'tag', detail: node.tag, span })
    else if (isScalar(node) && key !== 'key' && changesInReading(node)) {
      faults.push({ fault: 'changed-scalar', detail: `${node.source} → ${String(node.value)}`, span })
    }
  })
  return faults
}

/** A node's range begins after its tag; look back over the blanks and the tag itself. */
function tagStart(text: string, start: number): number {
  const line = text.lastIndexOf('\n', start - 1) + 1
  const found = text.slice(line, start).lastIndexOf('!')
  return found === -1 ? start : line + found
}

function keyFault(pair: Pair): TextFault | undefined {
  const key = pair.key
  if (isScalar(key)) {
    const span = [key.range?.[0] ?? 0, key.range?.[1] ?? 0] as const
    if (key.value === null || key.value === '' || typeof key.value === 'boolean')
      return { fault: 'bad-key', detail: String(key.source ?? ''), span }
    if (key.value === '__proto__' || key.value === '<<')
      return { fault: 'bad-key', detail: String(key.value), span }
    return undefined
  }
  const range = isNode(key) ? key.range : undefined
  return { fault: 'bad-key', detail: 'a list or map as a key', span: [range?.[0] ?? 0, range?.[1] ?? 0] }
}

/** `007`, `1e3`, `0x1F`, `+1`, `.5`: YAML reads a number whose text is not what was written. */
function changesInReading(scalar: Scalar): boolean {
  if (scalar.type !== 'PLAIN' || typeof scalar.value !== 'number') return false
  const source = scalar.source ?? ''
  if (source === '-0' || !/^-?(?:0|[1-9][0-9]*)(?:\.[0-9]+)?$/.test(source)) return true
  return !Number.isFinite(scalar.value) || source.replace(/[-.]/g, '').length > 15
}

/** Deep nesting is found before parsing, since the parser would recurse into it. */
function tooDeep(text: string): TextFault | undefined {
  let depth = 0
  for (let at = 0; at < text.length; at++) {
    const code = text.charCodeAt(at)
    if (code === 91 || code === 123) depth++
    else if (code === 93 || code === 125) depth--
    else if (code === 10 && /^ {100,}\S/.test(text.slice(at + 1, at + 140)))
      return { fault: 'too-deep', detail: '', span: [at + 1, at + 2] }
    if (depth > deepest) return { fault: 'too-deep', detail: '', span: [at, at + 1] }
  }
  const compact = /^(?:[-?:] ){24,}/m.exec(text)
  return compact ? { fault: 'too-deep', detail: '', span: [compact.index, compact.index + 1] } : undefined
}
