import { existsSync, mkdirSync, readdirSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { memorySource } from '../../../src/files/memory.js'
import type { Source } from '../../../src/files/source.js'
import { dayOf } from '../../../src/measure/calendar.js'
import { ledgerWith } from '../../../src/rules/base-ledger.js'
import { districtIdOf, isDistrictId } from '../../../src/writing/export/district-id.js'
import { putInPlace, workFolder } from '../../../src/writing/export/export-folder.js'
import { exportTables } from '../../../src/writing/export/tables.js'
import { ledgerFolder, newFolder } from '../../cli/run-doorsweep.js'
import { exported } from './demo-export.js'

const asOf = dayOf('2026-03-20') ?? 0
const source = memorySource(ledgerWith(''))

/** Every file below a folder with its content. */
function contentOf(folder: string): Map<string, string> {
  const files = readdirSync(folder, { recursive: true, withFileTypes: true }).filter((entry) =>
    entry.isFile(),
  )
  return new Map(
    files
      .map(({ parentPath, name }) => join(parentPath, name))
      .sort()
      .map((path) => [path.slice(folder.length + 1), readFileSync(path, 'latin1')]),
  )
}

const withoutDot = (folder: string) =>
  readdirSync(folder)
    .filter((name) => !name.startsWith('_'))
    .sort()

describe('the folder of an export', () => {
  it.each(['csv', 'parquet'] as const)('holds the same bytes each time, as %s', async (format) => {
    const folder = newFolder()
    await exported(source, join(folder, 'one'), { asOf, format })
    await exported(source, join(folder, 'two'), { asOf, format, unique: 'other' })
    const one = contentOf(join(folder, 'one'))
    expect(one.size).toBe(exportTables.length + 2)
    expect([...contentOf(join(folder, 'two'))]).toEqual([...one])
    expect(readdirSync(folder).sort()).toEqual(['one', 'two'])
  })

  it('is replaced for this district only', async () => {
    const out = join(newFolder(), 'out')
    await exported(source, out, { asOf, format: 'csv', district: 'alder' })
    await exported(source, out, { asOf, format: 'csv', district: 'birch' })
    const before = contentOf(out)
    // One visit less, and a year that nothing is known of any more.
    const less = memorySource(ledgerWith('=== sites/oak/visits/2026-03-05-okafor.yaml (delete)\n'))
    await exported(less, out, { asOf, format: 'csv', district: 'alder' })
    const after = contentOf(out)
    const changed = [...before.keys()].filter((path) => after.get(path) !== before.get(path))
    expect(changed.length).toBeGreaterThan(0)
    expect(changed.filter((path) => !path.includes('alder'))).toEqual([])
    expect(withoutDot(out)).toEqual(exportTables.map(({ name }) => name).sort())
    const lines = (path: string) => after.get(path)?.trim().split('\n').length
    expect(lines('visits/district=alder/year=2026/part.csv')).toBe(1)
    expect(lines('visits/district=birch/year=2026/part.csv')).toBe(2)
  })

  it('drops years of which nothing is exported any more', async () => {
    const out = join(newFolder(), 'out')
    const old = memorySource(
      ledgerWith(`
=== sites/oak/visits/2025-12-05-okafor.yaml
purpose: callback
by: okafor
`),
    )
    await exported(old, out, { asOf, district: 'alder' })
    expect(readdirSync(join(out, 'visits/district=alder'))).toEqual(['year=2025', 'year=2026'])
    await exported(old, out, { asOf, district: 'alder', from: dayOf('2026-01-01') ?? 0 })
    expect(readdirSync(join(out, 'visits/district=alder'))).toEqual(['year=2026'])
  })

  it('may be empty, and is then filled', async () => {
    const out = newFolder()
    expect(await exported(source, out, { asOf })).toMatchObject({ district: 'or-example-district' })
    expect(withoutDot(out).length).toBe(exportTables.length)
  })

  it.each([
    ['something else', (out: string) => writeFileSync(join(out, 'thesis.doc'), 'x'), 'not an export'],
    ['a marker that cannot be read', (out: string) => mark(out, '{'), 'unreadable marker'],
    ['a marker of something else', (out: string) => mark(out, '7'), 'unreadable marker'],
    [
      'another version',
      (out: string) => mark(out, '{"format-version": 99, "files": "csv"}'),
      'other version',
    ],
    ['another format', (out: string) => mark(out, '{"format-version": 1, "files": "csv"}'), 'other format'],
  ])('is left alone where it holds %s', async (_, fill, refused) => {
    const out = newFolder()
    fill(out)
    const before = contentOf(out)
    expect(await exported(source, out, { asOf })).toMatchObject({ refused })
    expect([...contentOf(out)]).toEqual([...before])
  })

  it('may not lie in the ledger, also by a link or a way that is not there yet', async () => {
    const root = ledgerFolder()
    const elsewhere = newFolder()
    symlinkSync(root, join(elsewhere, 'link'))
    mkdirSync(join(root, 'exports'))
    for (const folder of [
      root,
      join(root, 'exports'),
      join(root, 'sites/oak/new/deep'),
      join(elsewhere, 'link'),
      join(elsewhere, 'link/new'),
      join(root, '..', 'x', '..', root.split('/').at(-1) ?? '', 'y'),
    ])
      expect(await exported(source, folder, { asOf, root })).toEqual({ refused: 'in the ledger' })
    expect(readdirSync(join(root, 'exports'))).toEqual([])
    // A neighbour whose name begins alike is not in it.
    expect(await exported(source, `${root}-out`, { asOf, root })).not.toHaveProperty('refused')
  })

  it('is not there where the export failed on the way, and is as before where it was', async () => {
    const parent = newFolder()
    const out = join(parent, 'out')
    const failing: Source = {
      ...source,
      read: (path) => {
        if (path.startsWith('sites/')) throw Object.assign(new Error('the disk went away'), { code: 'EIO' })
        return source.read(path)
      },
    }
    await expect(exported(failing, out, { asOf })).rejects.toThrow('the disk went away')
    expect(readdirSync(parent)).toEqual([])
    await exported(source, out, { asOf })
    const before = contentOf(out)
    await expect(exported(failing, out, { asOf })).rejects.toThrow('the disk went away')
    expect([...contentOf(out)]).toEqual([...before])
  })

  it('has what it had before put back where the exchange stops half-way', async () => {
    const out = join(newFolder(), 'out')
    await exported(source, out, { asOf, district: 'alder', format: 'csv' })
    const before = contentOf(out)
    const work = workFolder(out, 'export', 'alder', 'test')
    // Only the first two tables were made, so the third cannot be moved.
    for (const { name } of exportTables.slice(0, 2)) {
      mkdirSync(join(work, name, 'district=alder'), { recursive: true })
      writeFileSync(join(work, name, 'district=alder/part.csv'), 'new')
    }
    const stamp = { district: 'alder', name: 'Example District', state: 'OR', 'as-of': '2026-03-20' }
    expect(() => putInPlace(work, out, 'export', 'csv', stamp)).toThrow(/ENOENT/)
    const after = [...contentOf(out)].filter(([path]) => !path.startsWith('_writing'))
    // The stamp is gone, so whoever reads it knows that the district may not be whole.
    expect(after).toEqual([...before].filter(([path]) => path !== '_districts/alder.json'))
    expect(existsSync(join(out, '_districts/alder.json'))).toBe(false)
  })
})

describe('who a district is', () => {
  const named = (name: string, state = 'OR') =>
    memorySource(
      new Map(
        [...ledgerWith('')].map(([path, text]) => [
          path,
          path === 'district.yaml'
            ? text
                .replace('name: Example District', `name: ${JSON.stringify(name)}`)
                .replace('state: OR', `state: ${state}`)
            : text,
        ]),
      ),
    )

  it.each([
    ['Alder Fork School District', 'OR', 'or-alder-fork-school-district'],
    ["St. Mary's — Unified #2", 'CA', 'ca-st-marys-unified-2'],
    ['Peñón Schools', undefined, 'penon-schools'],
    ['../../etc', undefined, 'etc'],
    ['42', undefined, undefined],
    ['学校', undefined, undefined],
    // Half of it would be lost, and another district could lose the other half.
    ['Alder 学校', 'OR', undefined],
    ['Straße', 'OR', undefined],
    ['', undefined, undefined],
    ['x'.repeat(64), undefined, undefined],
  ])('%j of %j is %j', (name, state, id) => {
    expect(districtIdOf({ name, state })).toBe(id)
  })

  it.each(['Alder', 'a/b', 'a--b', 'a-', '-a', '7a', '', 'a b', 'a.b', 'district=a', 'é', 'a'.repeat(64)])(
    'an id is not %j',
    (id) => {
      expect(isDistrictId(id)).toBe(false)
    },
  )

  it('is not taken for another that makes the same id of its name', async () => {
    const out = join(newFolder(), 'out')
    await exported(named("St Mary's"), out, { asOf })
    const before = contentOf(out)
    expect(await exported(named('St. Marys'), out, { asOf })).toEqual({
      refused: 'other district',
      name: "St Mary's",
    })
    expect([...contentOf(out)]).toEqual([...before])
    // Stated, it is taken at its word: the district has a new name.
    expect(await exported(named('St. Marys'), out, { asOf, district: 'or-st-marys' })).toMatchObject({
      district: 'or-st-marys',
      nameBefore: "St Mary's",
    })
  })

  it('must be stated where the name tells no safe one', async () => {
    const out = join(newFolder(), 'out')
    expect(await exported(named('学校'), out, { asOf })).toEqual({ refused: 'no safe id' })
    expect(await exported(named('学校'), out, { asOf, district: '../up' })).toEqual({ refused: 'bad id' })
    expect(existsSync(out)).toBe(false)
    expect(await exported(named('学校'), out, { asOf, district: 'xuexiao' })).not.toHaveProperty('refused')
  })

  it('cannot be told without its record', async () => {
    const none = memorySource(ledgerWith('=== district.yaml\nformat: [\n'))
    const out = join(newFolder(), 'out')
    expect(await exported(none, out, { asOf })).toEqual({ refused: 'no district' })
    expect(existsSync(out)).toBe(false)
  })
})

function mark(out: string, text: string): void {
  writeFileSync(join(out, '_doorsweep-export.json'), text)
}
