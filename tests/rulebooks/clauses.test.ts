import { fileURLToPath } from 'node:url'
import { describe, expect, it } from 'vitest'
import type { RecordOf } from '../../src/records/kinds.js'
import { dutySections } from '../../src/records/rulebook-duties.js'
import { builtInRulebook, builtInRulebooks } from '../../src/records/tables.js'
import { ruleById } from '../../src/rules/all.js'
import { clauseFiles } from '../../src/tools/clauses.js'
import { everyClause } from './every-clause.js'

const files = clauseFiles(fileURLToPath(new URL('../../', import.meta.url)))
const rows = [...files].flatMap(([file, { clauses }]) =>
  Object.entries(clauses).map(([id, row]) => ({ id: `${file}/${id}`, row })),
)

const dutiesOf = (id: (typeof builtInRulebooks)[number]): string[] => {
  const rulebook: RecordOf<'rulebook'> = builtInRulebook(id)
  return dutySections.flatMap((section) =>
    Object.keys(rulebook[section] ?? {}).map((name) => `${id}/${section}/${name}`),
  )
}
const duties = new Set(builtInRulebooks.flatMap(dutiesOf))
const parameters = new Set(
  builtInRulebooks.flatMap((id) =>
    Object.keys(builtInRulebook(id).parameters ?? {}).map((name) => `${id}/${name}`),
  ),
)

it('every clause has its row, and no row is without its clause', () => {
  expect(rows.map(({ id }) => id).sort()).toEqual([...everyClause].sort())
})

it.each(rows)('$id is covered by something that is there, or says why it is not', ({ row }) => {
  expect(row['covered-by'] === undefined).not.toBe(row['not-covered'] === undefined)
  for (const { rule, duty, parameter } of row['covered-by'] ?? []) {
    expect(ruleById(rule), rule).toBeDefined()
    if (duty !== undefined) expect(duties).toContain(duty)
    if (parameter !== undefined) expect(parameters).toContain(parameter)
  }
})

describe.each(builtInRulebooks.filter((id) => id !== 'practice'))('%s', (id) => {
  const named = new Set(
    rows.flatMap(({ row }) => (row['covered-by'] ?? []).flatMap(({ duty, parameter }) => [duty, parameter])),
  )
  it('holds no duty that no clause names', () => {
    expect(dutiesOf(id).filter((duty) => !named.has(duty))).toEqual([])
  })
})
