import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { expect, it } from 'vitest'
import { exportPages } from '../../../src/tools/export-page.js'
import { exportTables } from '../../../src/writing/export/tables.js'

const root = new URL('../../../', import.meta.url)

it.each([...exportPages()])('%s says what the tables of the program say', (path, text) => {
  expect(existsSync(new URL(path, root))).toBe(true)
  expect(readFileSync(new URL(path, root), 'utf8')).toBe(text)
})

it('every column of every table stands on the page', () => {
  const page = exportPages().get('schemas/export/README.md') ?? ''
  for (const { name, columns } of exportTables) {
    const section = page.split(`\n## ${name}\n`)[1]?.split('\n## ')[0] ?? ''
    for (const column of columns) expect(section).toContain(`| \`${column.name}\` |`)
  }
})

it('every query is told of on their page', () => {
  const page = readFileSync(new URL('src/data/queries/README.md', root), 'utf8')
  const queries = readdirSync(new URL('src/data/queries/', root)).filter((name) => name.endsWith('.sql'))
  expect(queries.length).toBeGreaterThan(8)
  for (const name of queries) expect(page).toContain(name)
})
