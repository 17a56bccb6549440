import { chmodSync, existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { parse } from 'csv-parse/sync'
import { describe, expect, it } from 'vitest'
import { notUsable, otherSite } from './overlays.js'
import { ledgerFolder, newFolder, run } from './run-doorsweep.js'

const asOf = ['--as-of', '2026-03-20'] as const

async function exported(overlay: string, ...args: string[]) {
  const ledger = ledgerFolder(overlay)
  const out = join(newFolder(), 'out')
  const ran = await run(ledger, ['export', '--format', 'csv', '--out', out, ...asOf, ...args])
  return { ...ran, ledger, out }
}

function rows(out: string, table: string, year?: number): Record<string, string>[] {
  const [district] = readdirSync(join(out, table))
  const ofYear = year === undefined ? '' : `year=${year}/`
  return parse(readFileSync(join(out, table, String(district), `${ofYear}part.csv`), 'utf8'), {
    columns: true,
  })
}

describe('export', () => {
  it('writes tables and says what it wrote', async () => {
    const { code, out, err } = await exported('')
    expect([code, err]).toEqual([0, ''])
    expect(rows(out, 'visits', 2026)).toMatchObject([
      { site: 'oak', visit: '2026-03-05-okafor', day: '2026-03-05', made_by: 'okafor', areas_inspected: '2' },
    ])
    expect(readdirSync(join(out, 'visits'))).toEqual(['district=or-example-district'])
  })

  it('tells on standard output where, whose, how many rows, which years', async () => {
    const ledger = ledgerFolder()
    const ran = await run(ledger, [
      'export',
      '--out',
      join(newFolder(), 'out'),
      ...asOf,
      '--district',
      'alder',
    ])
    expect(ran.out).toMatch(/out: 15 tables of alder, [0-9]+ rows, of 2026, as of 2026-03-20\.\n$/)
  })

  it('holds no name of a person, no address and no free text', async () => {
    const { out } = await exported(`
=== sites/oak/complaints/2026-03-12-lind.yaml
by: lind
from: parent
area: kitchen
pest: house-mouse
says: Someone Invented saw droppings
=== sites/oak/visits/2026-03-13-okafor.yaml
purpose: callback
by: okafor
answers: {2026-03-12-lind: told Someone Invented}
notes: Someone Invented was there
conditions: {gap: {new: gap shown by Someone Invented, area: kitchen, kind: structural, gives: entry}}
=== sites/Someone Invented/notes.yaml
x: y
=== people/Someone Invented.yaml
name: Someone Invented
`)
    const all = readdirSync(out, { recursive: true, encoding: 'utf8' })
      .filter((path) => path.endsWith('.csv'))
      .map((path) => readFileSync(join(out, path), 'utf8'))
      .join('\n')
    expect(rows(out, 'complaints', 2026)).toMatchObject([{ complaint: '2026-03-12-lind', made_by: 'parent' }])
    expect(all).toContain('okafor')
    expect(all).not.toMatch(
      /Someone|Ines Marsh|Ada Okafor|Tor Lind|Example Lane|Example Square|555-0100|XX-1/,
    )
  })

  it('leaves out a site with a record that cannot be used, names it, and exits with 2', async () => {
    const { code, out, err } = await exported(notUsable + otherSite('elm', 'inspected: [kitchen]'))
    expect(code).toBe(2)
    expect(err).toMatch(/^left out: sites\/oak: sites\/oak\/.* cannot be used/)
    expect(rows(out, 'sites').map(({ site }) => site)).toEqual(['elm'])
    expect(rows(out, 'not_examined')).toEqual([{ number: '1', what: 'site', site: 'oak' }])
    expect(rows(out, 'districts')).toMatchObject([{ sites_examined: '1', sites_left_out: '1' }])
    expect(rows(out, 'visits', 2026).every(({ site }) => site === 'elm')).toBe(true)
  })

  it('has a site without a visit among the sites', async () => {
    const { code, out } = await exported(`
=== sites/oak/visits/2026-03-05-okafor.yaml (delete)
`)
    expect(code).toBe(0)
    expect(rows(out, 'sites')).toMatchObject([{ site: 'oak', name: 'Oak School', routine_visits: 'monthly' }])
    expect(rows(out, 'visits', 2026)).toEqual([])
    expect(rows(out, 'catches', 2026)).toEqual([])
  })

  it('keeps to a period, and to the as-of day', async () => {
    const later = `
=== sites/oak/visits/2026-03-12-okafor.yaml
purpose: callback
by: okafor
=== sites/oak/visits/2026-04-12-okafor.yaml
purpose: callback
by: okafor
`
    const days = async (...args: string[]) =>
      rows((await exported(later, ...args)).out, 'visits', 2026).map(({ day }) => day)
    expect(await days()).toEqual(['2026-03-05', '2026-03-12'])
    expect(await days('--from', '2026-03-06')).toEqual(['2026-03-12'])
    expect(await days('--to', '2026-03-11')).toEqual(['2026-03-05'])
    expect(await days('--to', '2027-01-01')).toEqual(['2026-03-05', '2026-03-12'])
    // A year in which there is nothing.
    expect(await days('--from', '2020-01-01', '--to', '2020-12-31')).toEqual([])
  })

  it.each([
    [['--from', '2026-03-10', '--to', '2026-03-01'], /ends before it starts/],
    [['--from', '2027-01-01'], /starts after the as-of day/],
    [['--from', 'yesterday'], /--from yesterday/],
    [['--district', 'Alder Fork'], /an id is lower-case letters/],
    [['--format', 'xlsx'], /xlsx/],
  ])('refuses %j', async (args, says) => {
    const { code, err, out } = await exported('', ...args)
    expect(code).toBe(2)
    expect(err).toMatch(says)
    expect(existsSync(out)).toBe(false)
  })

  it('asks where to', async () => {
    const ran = await run(ledgerFolder(), ['export', ...asOf])
    expect([ran.code, ran.out]).toEqual([2, ''])
    expect(ran.err).toMatch(/--out/)
  })

  const refusedAt = async (out: string, ledger = ledgerFolder()) => {
    const ran = await run(ledger, ['export', '--out', out, ...asOf])
    expect([ran.code, ran.out]).toEqual([2, ''])
    return ran.err
  }

  it('refuses a file, a folder of something else, the ledger, and a way through a file', async () => {
    const folder = newFolder()
    writeFileSync(join(folder, 'file'), 'mine')
    expect(await refusedAt(join(folder, 'file'))).toMatch(/is a file; name a folder/)
    expect(await refusedAt(folder)).toMatch(/holds something else than an export/)
    expect(await refusedAt(join(folder, 'file/out'))).toMatch(/a part of that path is a file/)
    expect(readFileSync(join(folder, 'file'), 'utf8')).toBe('mine')
    const ledger = ledgerFolder()
    expect(await refusedAt('export', ledger)).toMatch(/lies in the ledger/)
    expect(await refusedAt('sites', ledger)).toMatch(/lies in the ledger/)
    expect(existsSync(join(ledger, 'export'))).toBe(false)
  })

  it('refuses another format in the same folder, and says which it holds', async () => {
    const { out } = await exported('')
    expect(await refusedAt(out)).toMatch(/holds an export as csv.*--format csv/)
  })

  it.skipIf(process.getuid?.() === 0)('says so where it has no right to write', async () => {
    const folder = join(newFolder(), 'closed')
    mkdirSync(folder)
    chmodSync(folder, 0o500)
    expect(await refusedAt(join(folder, 'out'))).toMatch(/you have no right to write there/)
    chmodSync(folder, 0o700)
  })

  it('says where there is no ledger, or none that can be read', async () => {
    expect(await refusedAt(join(newFolder(), 'out'), newFolder())).toMatch(/There is no ledger/)
    const broken = ledgerFolder('=== district.yaml\nname: [\n')
    expect(await refusedAt(join(newFolder(), 'out'), broken)).toMatch(/district.yaml cannot be read/)
  })
})
