import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { allRecordKinds } from '../records/kinds.js'
import { coveragePage } from './coverage-page.js'
import { exportPages } from './export-page.js'
import { fieldReference } from './field-reference.js'
import { jsonSchemaText } from './json-schemas.js'
import { pictures } from './pictures.js'
import { rulePages } from './rule-pages.js'

/** Every generated file of the checkout at `root`, by its path there, with what it should hold. */
export function generatedFiles(root: string): Map<string, string> {
  return new Map([
    ...allRecordKinds.map((kind) => [`schemas/${kind}.schema.json`, jsonSchemaText(kind)] as const),
    ['schemas/README.md', fieldReference()],
    ['src/rules/README.md', rulePages(root)],
    ['src/data/rulebooks/README.md', coveragePage(root)],
    ...exportPages(),
    ...pictures(root),
  ])
}

/** Generated files that are missing or hold something else, and schemas of kinds that are no more. */
export function staleFiles(root: string): { readonly stale: string[]; readonly leftOver: string[] } {
  const wanted = generatedFiles(root)
  const stale = [...wanted].filter(([path, text]) => textAt(join(root, path)) !== text).map(([path]) => path)
  const schemas = existsSync(join(root, 'schemas')) ? readdirSync(join(root, 'schemas')) : []
  const leftOver = schemas
    .filter((name) => name.endsWith('.schema.json'))
    .map((name) => `schemas/${name}`)
    .filter((path) => !wanted.has(path))
  return { stale, leftOver }
}

function textAt(path: string): string | undefined {
  return existsSync(path) ? readFileSync(path, 'utf8') : undefined
}
