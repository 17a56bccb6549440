import { execFileSync } from 'node:child_process'
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { traps } from '../writing/import/plan-of.js'
import { ledgerFolder, newFolder, run, writeFiles } from './run-doorsweep.js'

const today = { DOORSWEEP_TODAY: '2026-03-20' }
const map = `
date: {column: Date, format: MM/DD/YYYY}
site: {always: oak}
by: {always: okafor}
device: Trap
pest: {column: Pest, names: {GC: german-cockroach}}
count: Count
note: Remark
`
const good =
  'Date,Trap,Pest,Count,Remark,Sky\n03/12/2026,K2,GC,1,,dry\n03/12/2026,K10,GC,0,=1+1,dry\n03/19/2026,K2,GC,1,,wet\n'

/** A ledger with a file to take over and its mapping beside it, outside the ledger. */
function fresh(csv: string, mapping = map) {
  const folder = ledgerFolder(traps)
  const desk = newFolder()
  writeFiles(
    desk,
    new Map([
      ['in.csv', csv],
      ['map.yaml', mapping],
    ]),
  )
  return {
    folder,
    desk,
    import: (...args: string[]) =>
      run(desk, ['import', 'counts', 'in.csv', '--map', 'map.yaml', '--ledger', folder, ...args], today),
    visits: () => readdirSync(join(folder, 'sites/oak/visits')),
    text: (path: string) => readFileSync(join(folder, path), 'utf8'),
  }
}

describe('import', () => {
  it('shows a diff and writes nothing, unless asked to', async () => {
    const { import: importIt, visits } = fresh(good)
    const ran = await importIt()
    expect(ran).toEqual({
      code: 0,
      err: '',
      out: `--- /dev/null
+++ b/sites/oak/visits/2026-03-12-okafor.yaml
@@ -0,0 +1,5 @@ in.csv, lines 2 to 3
+purpose: trap-check
+by: okafor
+readings:
+  K2: {german-cockroach: 1}
+  K10: {german-cockroach: 0, note: =1+1}
--- /dev/null
+++ b/sites/oak/visits/2026-03-19-okafor.yaml
@@ -0,0 +1,4 @@ in.csv, line 4
+purpose: trap-check
+by: okafor
+readings:
+  K2: {german-cockroach: 1}

Nothing was taken from these columns: Sky.

in.csv: 3 rows; 2 new records. Nothing was written; add --write to write them.
`,
    })
    expect(visits()).toEqual(['2026-03-05-okafor.yaml', '2026-03-06-okafor.yaml'])
  })

  it('git takes the diff, and what it writes is what --write writes', async () => {
    const { import: importIt, folder, text } = fresh(good)
    const { out } = await importIt()
    const other = newFolder()
    writeFileSync(join(other, 'new.diff'), out)
    execFileSync('git', ['init', '--quiet'], { cwd: other })
    execFileSync('git', ['apply', 'new.diff'], { cwd: other })
    expect((await importIt('--write')).code).toBe(0)
    for (const day of ['12', '19']) {
      const path = `sites/oak/visits/2026-03-${day}-okafor.yaml`
      expect(readFileSync(join(other, path), 'utf8')).toBe(text(path))
    }
    expect((await run(folder, ['check', '--fail-on', 'error'], today)).code).toBe(0)
  })

  it('writes with --write; the same file once more changes nothing', async () => {
    const { import: importIt, visits } = fresh(good)
    const ran = await importIt('--write')
    expect([ran.code, ran.out.split('\n').slice(0, 2), ran.out.trimEnd().split('\n').at(-1)]).toEqual([
      0,
      ['sites/oak/visits/2026-03-12-okafor.yaml', 'sites/oak/visits/2026-03-19-okafor.yaml'],
      'in.csv: 3 rows; 2 new records written.',
    ])
    expect(visits()).toHaveLength(4)
    const again = await importIt('--write')
    expect([again.code, again.out.trimEnd().split('\n').at(-1)]).toEqual([
      0,
      'in.csv: 3 rows; 0 new records, 2 there already and the same. There is nothing to write.',
    ])
  })

  it('writes nothing at all while one cell is wrong', async () => {
    const { import: importIt, visits } = fresh(good.replace('03/19/2026,K2', '03/19/2026,K22'))
    const ran = await importIt('--write')
    expect([ran.code, ran.err]).toEqual([1, ''])
    expect(ran.out).toContain('in.csv:4:12: There is no device `K22` at oak; did you mean `K2`?\n')
    expect(ran.out.trimEnd().split('\n').at(-1)).toBe('in.csv: 3 rows; 1 problem. Nothing was written.')
    expect(visits()).toHaveLength(2)
  })

  it('leaves a record that says otherwise as it is, and says how to go on', async () => {
    const { import: importIt, folder, text } = fresh(good)
    const path = 'sites/oak/visits/2026-03-12-okafor.yaml'
    const mine = 'purpose: routine\nby: okafor\nreadings: {none: [K2, K10]}\n'
    writeFiles(folder, new Map([[path, mine]]))
    const ran = await importIt('--write')
    expect(ran.code).toBe(1)
    expect(ran.out).toContain(
      `in.csv:2:1: ${path} is there already and says otherwise: purpose is routine there and trap-check here.\n  do:  If the record is right,`,
    )
    expect(text(path)).toBe(mine)
    expect(existsSync(join(folder, 'sites/oak/visits/2026-03-19-okafor.yaml'))).toBe(false)
    const apart = await importIt('--write', '--word', 'scanner')
    expect([apart.code, apart.out.split('\n')[0]]).toEqual([
      0,
      'sites/oak/visits/2026-03-12-okafor-scanner.yaml',
    ])
  })

  it('says what the new records bring besides, and lets them in', async () => {
    const { import: importIt } = fresh(`Date,Trap,Pest,Count,Remark\n03/12/2026,K2,house-mouse,3,\n`)
    const ran = await importIt()
    expect(ran.code).toBe(0)
    expect(ran.out).toMatch(
      /Once they are written, `doorsweep check` also says, which hinders nothing:\n {2}\w+: /,
    )
  })

  it('as JSON: what would be written, what was written, what is refused', async () => {
    const { import: importIt, visits } = fresh(good)
    const shown = await importIt('--format', 'json')
    expect([shown.code, shown.err, JSON.parse(shown.out)]).toMatchObject([
      0,
      '',
      {
        'format-version': 1,
        file: 'in.csv',
        written: false,
        counts: { rows: 3, refused: 0, added: 2, unchanged: 0 },
        refused: [],
        files: [
          { outcome: 'added', rows: [2, 3] },
          { outcome: 'added', rows: [4] },
        ],
        'columns-left-aside': ['Sky'],
        brings: [],
      },
    ])
    expect(visits()).toHaveLength(2)
    expect(JSON.parse((await importIt('--format', 'json', '--write')).out).written).toBe(true)
    expect(visits()).toHaveLength(4)
    const again = JSON.parse((await importIt('--format', 'json', '--write')).out)
    expect([again.counts, again.written]).toEqual([
      { rows: 3, 'rows-left-out': 0, refused: 0, added: 0, unchanged: 2 },
      false,
    ])
    const wrong = fresh(good.replace('03/19/2026,K2', '03/19/2026,K22'))
    const refused = await wrong.import('--format', 'json', '--write')
    expect([refused.code, JSON.parse(refused.out)]).toMatchObject([
      1,
      {
        written: false,
        refused: [{ row: 4, column: { number: 2, heading: 'Trap' }, value: 'K22' }],
        brings: null,
      },
    ])
    expect(wrong.visits()).toHaveLength(2)
    expect((await importIt('--format', 'csv')).code).toBe(2)
  })

  it('a file without its mapping says where one is to be found', async () => {
    const { desk, folder } = fresh(good)
    const bare = ['import', 'counts', 'in.csv', '--ledger', folder, '--site', 'oak', '--by', 'okafor']
    const { code, out } = await run(desk, bare, today)
    expect(code).toBe(1)
    expect(out).toContain(
      'in.csv:1:1: Nothing says which column the device is in: `device` in the mapping.\n',
    )
    // Told once for all of them.
    expect(out.match(/`--help` shows a mapping to copy/g)).toHaveLength(1)
    writeFileSync(join(desk, 'in.csv'), 'date;device;pest;count\n2026-03-12;K2;german-cockroach;1\n')
    expect((await run(desk, bare, today)).out.match(/say `delimiter: ";"` in the mapping/g)).toHaveLength(1)
  })

  it('called wrongly, or on what cannot be read, it says why', async () => {
    const { import: importIt, desk, folder } = fresh(good)
    expect(await importIt('--site', 'oakk')).toMatchObject({
      code: 2,
      err: 'doorsweep: There is no site oakk; did you mean oak?\n',
    })
    expect((await importIt('--word', 'No Good')).err).toContain('No Good cannot be the name of a record')
    writeFileSync(join(desk, 'map.yaml'), `${map}devce: x\n`)
    expect(await importIt()).toEqual({
      code: 2,
      out: '',
      err: 'doorsweep: the mapping cannot be used.\nmap.yaml:9:1: `devce` is not a key here; did you mean `device`?\n',
    })
    writeFileSync(join(desk, 'in.csv'), Buffer.from('Date,ñ\n', 'latin1'))
    writeFileSync(join(desk, 'map.yaml'), map)
    expect(await importIt()).toMatchObject({
      code: 2,
      out: '',
      err: expect.stringContaining('it is not valid UTF-8'),
    })
    const missing = await run(folder, ['import', 'counts', 'nowhere.csv'], today)
    expect(missing).toMatchObject({
      code: 2,
      err: 'doorsweep: nowhere.csv cannot be read: there is no such file.\n',
    })
    expect((await run(folder, ['import', 'counts', 'sites'], today)).err).toContain('it is a folder')
    expect(existsSync(join(folder, 'sites/oak/visits/2026-03-12-okafor.yaml'))).toBe(false)
  })

  it('complaints and repairs come in with columns that bear the names of the fields', async () => {
    const folder = ledgerFolder(traps)
    writeFiles(
      folder,
      new Map([
        ['log.csv', 'date,from,says,area\n2026-03-12,staff,ants on the sill,room-1\n'],
        ['orders.csv', 'date,done,order\n2026-03-13,sill caulked,WO-7\n'],
      ]),
    )
    const both = ['--site', 'oak', '--by', 'lind', '--write']
    expect((await run(folder, ['import', 'complaints', 'log.csv', ...both], today)).code).toBe(0)
    expect((await run(folder, ['import', 'repairs', 'orders.csv', ...both], today)).code).toBe(0)
    expect(readFileSync(join(folder, 'sites/oak/complaints/2026-03-12-lind.yaml'), 'utf8')).toBe(
      'by: lind\nfrom: staff\narea: room-1\nsays: ants on the sill\n',
    )
    expect(readFileSync(join(folder, 'sites/oak/repairs/2026-03-13-lind.yaml'), 'utf8')).toBe(
      'by: lind\norder: WO-7\ndone: sill caulked\n',
    )
  })

  it.each(['counts', 'complaints', 'repairs'])(
    'the mapping in the help of %s can be used as it stands',
    async (kind) => {
      const { readMapping } = await import('../../src/writing/import/read-mapping.js')
      const { out } = await run('.', ['import', kind, '--help'])
      const after = out.slice(out.indexOf('.map.yaml:\n') + '.map.yaml:\n'.length)
      const lines = after.slice(1).split('\n\n')[0] ?? ''
      expect(lines.split('\n').length).toBeGreaterThan(5)
      const text = lines.replace(/^ {2}/gm, '')
      expect(readMapping(kind as 'counts', 'map.yaml', Buffer.from(text, 'utf8'))).toHaveProperty('mapping')
    },
  )
})
