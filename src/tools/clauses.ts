import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { CORE_SCHEMA, load } from 'js-yaml'
import { z } from 'zod'

/**
 * The clauses of law and the published standards that the program was held against, one row each: what covers it, or
 * why nothing does. They are for readers of the project; the program itself never reads them.
 */
const coveredBy = z.strictObject({
  rule: z.string(),
  /** `<rulebook>/<section>/<name>` */
  duty: z.string().optional(),
  /** `<rulebook>/<name>` */
  parameter: z.string().optional(),
})
export type CoveredBy = z.infer<typeof coveredBy>

const clause = z.strictObject({
  clause: z.string(),
  says: z.string(),
  confidence: z.enum(['read', 'from memory', 'no source', 'computed']),
  'covered-by': z.array(coveredBy).min(1).optional(),
  'not-covered': z.string().min(1).optional(),
})
export type Clause = z.infer<typeof clause>

const clauseFile = z.strictObject({ section: z.string(), clauses: z.record(z.string(), clause) })
export type ClauseFile = z.infer<typeof clauseFile>

/** Every file of clauses in the checkout at `root`, by its name, in the order of the alphabet. */
export function clauseFiles(root: string): Map<string, ClauseFile> {
  const folder = join(root, 'src/data/rulebooks/clauses')
  return new Map(
    readdirSync(folder)
      .filter((name) => name.endsWith('.yaml'))
      .sort()
      .map((name) => [
        name.replace(/\.yaml$/, ''),
        clauseFile.parse(load(readFileSync(join(folder, name), 'utf8'), { schema: CORE_SCHEMA })),
      ]),
  )
}
