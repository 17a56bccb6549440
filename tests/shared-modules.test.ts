import { readdirSync, readFileSync } from 'node:fs'
import { expect, it } from 'vitest'

/** All files of tests that one worker runs share their modules, so one put in place of another may come too late to be seen. */
it('no test puts a module in place of another', () => {
  const folder = new URL('.', import.meta.url)
  const files = readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter((file) =>
    file.endsWith('.ts'),
  )
  expect(files.length).toBeGreaterThan(300)
  const replacing = /\bvi\s*\.\s*(?:mock|doMock|resetModules)\b/
  expect(files.filter((file) => replacing.test(readFileSync(new URL(file, folder), 'utf8')))).toEqual([])
})
