import { readFileSync } from 'node:fs'
import { expect, it } from 'vitest'
import { readmeTables } from './readme-tables.js'

/** Tables are told apart by their cells, not by how their columns are padded. */
const unpadded = (text: string) => text.replaceAll(/ {2,}/g, ' ').replaceAll(/-{3,}/g, '---')

const page = unpadded(readFileSync(new URL('../../../src/writing/demo/README.md', import.meta.url), 'utf8'))

it.each(Object.entries(readmeTables()))('the page states the %s of the model as they are', (_, table) => {
  expect(page).toContain(unpadded(table))
})
