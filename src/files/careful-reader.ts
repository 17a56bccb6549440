import type { Document, Pair, Scalar, YAMLMap } from 'yaml'
import { isAlias, isMap, isNode, isPair, isScalar, Lexer, Parser, parseDocument, visit } from 'yaml'

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
  const syntax = firstSyntaxFault(document)
  if (syntax) return { faults: [syntax] }
  const faults = nodeFaults(document, text)
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
    // Done below in one pass; the library compares every key with every other.
    uniqueKeys: false,
    prettyErrors: false,
    // With 'silent' a second document would be left out without a word.
    logLevel: 'error',
    customTags: [],
  }) as Document.Parsed
}

/**
 * Where YAML first loses the thread; what it finds after that is mostly the shadow of it. Tags and aliases are left
 * to `nodeFaults`, which sees each of them once.
 */
function firstSyntaxFault(document: Document.Parsed): TextFault | undefined {
  const errors = [...document.errors, ...document.warnings].filter((error) => !seenOnNodes.has(error.code))
  const first = errors.sort((a, b) => a.pos[0] - b.pos[0])[0]
  if (!first) return undefined
  return {
    fault: faultOfCode[first.code] ?? 'not-yaml',
    detail: first.message.split('\n')[0]?.trim() ?? '',
    span: [first.pos[0], first.pos[1]],
  }
}

const seenOnNodes: ReadonlySet<string> = new Set(['TAG_RESOLVE_FAILED', 'BAD_ALIAS'])

const faultOfCode: Record<string, TextFaultKind> = {
  TAB_AS_INDENT: 'tab',
  MULTIPLE_DOCS: 'several-documents',
}

function nodeFaults(document: Document.Parsed, text: string): TextFault[] {
  const faults: TextFault[] = []
  visit(document, (key, node) => {
    if (isPair(node)) {
      const bad = keyFault(node)
      if (bad) faults.push(bad)
      return
    }
    if (isMap(node)) for (const twice of duplicateKeys(node)) faults.push(twice)
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

/** Keys are compared as text, since `1` and `"1"` name one thing in a record. */
function duplicateKeys(map: YAMLMap): TextFault[] {
  const seen = new Set<string>()
  const faults: TextFault[] = []
  for (const { key } of map.items) {
    if (!isScalar(key)) continue
    const name = String(key.value)
    if (seen.has(name))
      faults.push({ fault: 'duplicate-key', detail: name, span: [key.range?.[0] ?? 0, key.range?.[1] ?? 0] })
    seen.add(name)
  }
  return faults
}

/** `007`, `1e3`, `0x1F`, `+1`, `.5`: YAML reads a number whose text is not what was written. */
function changesInReading(scalar: Scalar): boolean {
  if (scalar.type !== 'PLAIN' || typeof scalar.value !== 'number') return false
  const source = scalar.source ?? ''
  if (source === '-0' || !/^-?(?:0|[1-9][0-9]*)(?:\.[0-9]+)?$/.test(source)) return true
  return !Number.isFinite(scalar.value) || source.replace(/[-.]/g, '').length > 15
}

/** Deep nesting is found before composing, which recurses; the parser below it does not. */
function tooDeep(text: string): TextFault | undefined {
  if (!mayBeDeep(text)) return undefined
  const parser = new Parser()
  for (const lexeme of new Lexer().lex(text)) {
    for (const _token of parser.next(lexeme));
    // The stack holds the document, the open collections and the scalar at hand.
    if (parser.stack.length > deepest + 2) {
      const at = Math.min(parser.offset, text.length)
      return { fault: 'too-deep', detail: '', span: [at, at + 1] }
    }
  }
  return undefined
}

/** A cheap look: many brackets more opened than closed, a long row of dashes, or a line that is indented far. */
function mayBeDeep(text: string): boolean {
  if (/^ {100}|^ *(?:[-?:] +){24}/m.test(text)) return true
  let depth = 0
  for (let at = 0; at < text.length; at++) {
    const code = text.charCodeAt(at)
    if (code === 91 || code === 123) depth++
    // Brackets in quotes and comments are counted too, so a closing one may not undo what was opened elsewhere.
    else if ((code === 93 || code === 125) && depth > 0) depth--
    if (depth > deepest) return true
  }
  return false
}
