import { existsSync, mkdirSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { readXml } from '../output/read-xml.js'
import { notUsable } from './overlays.js'
import { git, ledgerFolder, newFolder, run } from './run-doorsweep.js'

const asOf = ['--as-of', '2026-03-20']
const map = (...args: string[]) => run(ledgerFolder(), ['map', ...args, ...asOf])

describe('map', () => {
  it('draws a picture, and on a terminal tells the tables', async () => {
    const drawn = await map('oak')
    expect([drawn.code, drawn.err]).toEqual([0, ''])
    expect(readXml(drawn.out).name).toBe('svg')
    const told = await run(ledgerFolder(), ['map', 'oak', ...asOf], {}, true)
    expect([told.code, told.out.startsWith('<')]).toEqual([0, false])
    expect(told.out).toContain('Areas in walking order')
  })

  it('tells the same in every other format', async () => {
    const json = JSON.parse((await map('oak', '--format', 'json', '--pest', 'german-cockroach')).out)
    expect(json).toMatchObject({ report: 'map', 'as-of': '2026-03-20' })
    expect(json.tables.map(({ id }: { id: string }) => id)).toEqual([
      'devices',
      'areas',
      'conditions',
      'places',
      'needs',
      'stretches',
    ])
    const devices: { no: number; device: string }[] = json.tables[0].rows
    expect(devices.length).toBeGreaterThan(0)
    const picture = (await map('oak', '--format', 'svg', '--pest', 'german-cockroach')).out
    for (const { no, device } of devices) expect(picture).toContain(`>n${no} ${device}, `)
    const csv = await map('oak', '--format', 'csv', '--table', 'areas')
    expect(csv.out.split('\n')[0]).toBe(
      'number,area,short name,kind,floor,outline,corners,devices (devices),open conditions,not watched,records',
    )
    expect((await map('oak', '--format', 'markdown')).out).toContain('| number |')
    expect((await map('oak', '--format', 'html')).out).toMatch(/^<!doctype html>[\s\S]*<svg /)
  })

  it('shows only the areas asked for, with the numbers of the whole', async () => {
    const part = JSON.parse((await map('oak', '--area', 'room-1', '--format', 'json')).out)
    const whole = JSON.parse((await map('oak', '--format', 'json')).out)
    const room = whole.tables[1].rows.filter(({ id }: { id: string }) => id === 'room-1')
    expect(part.tables[1].rows).toEqual(room)
    expect(part['not-examined'].join()).toContain('Areas that were not asked for and are not shown: ')
  })

  it.each([
    [['oakk'], 'There is no site oakk; did you mean oak?'],
    [['oak', '--pest', 'german-cockroch'], 'did you mean german-cockroach?'],
    [['oak', '--area', 'kitchn'], 'There is no area kitchn; did you mean kitchen?'],
    [['oak', '--format', 'pdf'], "argument 'pdf' is invalid"],
    [['oak', '--from', '2026-02-30'], '--from'],
    [['oak', '--from', '2026-03-10', '--to', '2026-03-01'], 'The period ends before it starts'],
    [['oak', '--from', '2026-04-01'], 'The period starts after the as-of day'],
    [['oak', '--format', 'csv', '--table', 'rooms'], 'This report has no table rooms; it has devices, areas'],
    [['oak', '--out', 'site.yaml'], 'a map is written to a file that ends in .svg'],
    [['oak', '--out', 'map.svg', '--format', 'json'], 'a file of --format json ends in .json'],
    [['oak', '--out', 'nowhere/map.svg'], 'its folder is not there'],
    [[], "missing required argument 'site'"],
  ])('%j is called wrongly', async (args, says) => {
    const ran = await map(...args)
    expect([ran.code, ran.out]).toEqual([2, ''])
    expect(ran.err).toContain(says)
  })

  it('writes nothing of a site that cannot be read, and says what to do', async () => {
    const folder = ledgerFolder(notUsable)
    const ran = await run(folder, ['map', 'oak', '--out', 'map.svg', ...asOf])
    expect([ran.code, ran.out, existsSync(join(folder, 'map.svg'))]).toEqual([2, '', false])
    expect(ran.err).toContain('oak could not be read, so no map was written')
  })

  it('reads a revision', async () => {
    const folder = ledgerFolder()
    git(folder, 'init')
    git(folder, 'add', '.')
    git(folder, 'commit', '-m', 'all')
    const then = await run(folder, ['map', 'oak', '--rev', 'HEAD', ...asOf])
    writeFileSync(join(folder, 'sites/oak/site.yaml'), 'name: gone\n')
    expect((await run(folder, ['map', 'oak', '--rev', 'HEAD', ...asOf])).out).toBe(then.out)
    expect(then.code).toBe(0)
  })
})

describe('map --out', () => {
  it('takes the format from the ending, and tells the path apart from the result', async () => {
    const folder = ledgerFolder()
    const plain = await run(folder, ['map', 'oak', ...asOf])
    const ran = await run(folder, ['map', 'oak', '--out', 'map.svg', ...asOf])
    expect(ran).toEqual({ code: 0, out: '', err: 'map.svg is written.\n' })
    expect(readFileSync(join(folder, 'map.svg'), 'utf8')).toBe(plain.out)
    await run(folder, ['map', 'oak', '--out', 'map.json', ...asOf])
    expect(JSON.parse(readFileSync(join(folder, 'map.json'), 'utf8')).report).toBe('map')
  })

  it('writes over a file only if asked to, never over a folder, and never through a link', async () => {
    const folder = ledgerFolder()
    const file = join(folder, 'map.svg')
    writeFileSync(file, 'mine')
    const refused = await run(folder, ['map', 'oak', '--out', 'map.svg', ...asOf])
    expect([refused.code, refused.err]).toEqual([
      2,
      'doorsweep: --out map.svg is there already; --replace writes over it.\n',
    ])
    expect(readFileSync(file, 'utf8')).toBe('mine')
    expect((await run(folder, ['map', 'oak', '--out', 'map.svg', '--replace', ...asOf])).code).toBe(0)
    expect(readFileSync(file, 'utf8')).toContain('<svg ')
    mkdirSync(join(folder, 'folder.svg'))
    const onFolder = await run(folder, ['map', 'oak', '--out', 'folder.svg', '--replace', ...asOf])
    expect([onFolder.code, onFolder.err]).toEqual([2, 'doorsweep: --out folder.svg is a folder.\n'])
    const elsewhere = join(newFolder(), 'other.svg')
    writeFileSync(elsewhere, 'theirs')
    symlinkSync(elsewhere, join(folder, 'link.svg'))
    expect((await run(folder, ['map', 'oak', '--out', 'link.svg', '--replace', ...asOf])).code).toBe(0)
    expect(readFileSync(elsewhere, 'utf8')).toBe('theirs')
  })
})
