import { mkdirSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { ledgerWith } from '../../src/rules/base-ledger.js'
import { git, ledgerFolder, newFolder, run, writeFiles } from './run-doorsweep.js'

const file = 'sites/oak/applications/2026-03-12-okafor.yaml'
const application = (reason: string) => `
=== ${file}
by: okafor
status: done
product: bait-a
pest: german-cockroach
areas: {kitchen: {amount: 2 g, where: hinge voids of the dish machine}}
method: crack-and-crevice
amount: 2 g
time: 15:40 to 16:05
reason: ${reason}
`
const folder = ledgerFolder(application('two nymphs on K1'))
const page = (typed: string, ...args: string[]) =>
  run(folder, ['report', 'application', typed, '--as-of', '2026-03-20', ...args])

describe('the page of an application', () => {
  it('is found by its file, from where you are or from the root, and by site and name', async () => {
    const found = await page(file)
    expect([found.code, found.err]).toEqual([0, ''])
    expect(found.out).toMatch(/^What parents may want to know, Oak School, 2026-03-12\n/)
    for (const typed of [
      `./${file}`,
      join(folder, file),
      'oak/2026-03-12-okafor',
      'oak/2026-03-12-okafor.yaml',
    ])
      expect((await page(typed)).out).toBe(found.out)
    for (const [inside, typed] of [
      ['sites', 'oak/applications/2026-03-12-okafor.yaml'],
      ['sites/oak', 'applications/2026-03-12-okafor.yaml'],
      ['sites/oak/applications', '2026-03-12-okafor.yaml'],
      ['people', 'oak/2026-03-12-okafor'],
    ] as const) {
      const ran = await run(join(folder, inside), ['report', 'application', typed, '--as-of', '2026-03-20'])
      expect([ran.code, ran.out]).toEqual([0, found.out])
    }
  })

  it.each([
    ['text', /^What parents/],
    ['markdown', /^# What parents/],
    ['json', /^\{\n {2}"format-version": 1/],
    ['csv', /^about,what the record shows,records\n/],
  ] as const)('is written as %s, without names or records unless asked', async (format, begins) => {
    const ran = await page(file, '--format', format)
    expect([ran.code, ran.err]).toEqual([0, ''])
    expect(ran.out).toMatch(begins)
    expect(ran.out).not.toMatch(/okafor|marsh|lind|\bK1\b|hinge voids/i)
  })

  it('is given with names and records when asked, and with records alone', async () => {
    const named = await page(file, '--names', '--format', 'json')
    expect([named.code, named.out.includes('Ada Okafor'), named.out.includes(`"${file}"`)]).toEqual([
      0,
      true,
      true,
    ])
    expect(named.out).not.toMatch(/\bK1\b|hinge voids/)
    const work = await page(file, '--show-work')
    expect([work.out.includes(file), work.out.includes('Ada Okafor')]).toEqual([true, false])
  })

  it('as CSV is the table that is named', async () => {
    const ran = await page(file, '--format', 'csv', '--table', 'papers')
    expect(ran.out.split('\n')).toEqual([
      'paper,file,is it there?,records',
      'label,products/bait-a/label.txt,yes,',
      'safety data sheet,products/bait-a/sds.txt,yes,',
      '',
    ])
    const wrong = await page(file, '--format', 'csv', '--table', 'notices')
    expect([wrong.code, wrong.out]).toEqual([2, ''])
    expect(wrong.err).toContain(
      'it has why, product, where, staying-out, told, signs, afterwards, papers, ask',
    )
  })

  it('is written, and is 2, when part of what it says could not be read', async () => {
    const broken = ledgerFolder(`${application('x')}=== products/bait-a/product.yaml\nname: [\n`)
    const ran = await run(broken, ['report', 'application', file, '--as-of', '2026-03-20'])
    expect([ran.code, ran.err]).toEqual([2, ''])
    expect(ran.out).toContain('not examined: product bait-a: the record cannot be used.')
  })
})

describe('where there is none, the exit code is 2, nothing is written, and it says why:', () => {
  it('a name nearly right', async () => {
    for (const typed of ['oak/2026-03-12-okafr', 'oaks/2026-03-12-okafor', file.replace('okafor', 'okafr')])
      expect(await page(typed)).toEqual({
        code: 2,
        out: '',
        err: `doorsweep: There is no application ${typed}; did you mean oak/2026-03-12-okafor?\n`,
      })
  })

  it.each(['oak', '', 'zzz', '../../etc/passwd', 'sites/oak/site.yaml', 'sites/oak/visits/none.yaml'])(
    'a name like no other (%j)',
    async (typed) => {
      const ran = await page(typed)
      expect([ran.code, ran.out]).toEqual([2, ''])
      expect(ran.err).toMatch(
        /^doorsweep: There is no application .*name its file, or its site and name: ottermere\/2026-01-10-okafor\.\n$/,
      )
    },
  )

  it.each(['oak/2026-03-05-okafor', 'sites/oak/visits/2026-03-05-okafor.yaml'])(
    'a visit (%s), whose bait is told on its own page',
    async (typed) => {
      expect(await page(typed)).toEqual({
        code: 2,
        out: '',
        err: `doorsweep: ${typed} is a visit. This page is made of application records only; bait put into a device is told in the visit: \`doorsweep report service oak/2026-03-05-okafor\`.\n`,
      })
    },
  )

  it('an as-of day before it', async () => {
    const ran = await run(folder, ['report', 'application', file, '--as-of', '2026-03-11'])
    expect(ran).toEqual({
      code: 2,
      out: '',
      err: `doorsweep: The application ${file} is of 2026-03-12, after the as-of day: nothing is known of it yet.\n`,
    })
    expect((await run(folder, ['report', 'application', file, '--as-of', '2026-03-12'])).code).toBe(0)
  })

  it.each([
    ['no YAML', 'by: [\n'],
    ['another shape', 'by: okafor\nstatus: done\nareas: kitchen\n'],
    ['bytes that are no text', '\u0000\u0001'],
    ['nothing', ''],
  ])('a record that cannot be read: %s', async (_, text) => {
    const broken = ledgerFolder(application('x'))
    writeFileSync(join(broken, file), text)
    const ran = await run(broken, ['report', 'application', file, '--as-of', '2026-03-20'])
    expect([ran.code, ran.out]).toEqual([2, ''])
    expect(ran.err).toContain('something could not be read')
    expect(ran.err).toContain(`${file} cannot be used`)
    expect(ran.err).toContain('`doorsweep check` tells what is wrong.')
  })

  it('a folder where the record should be', async () => {
    const broken = ledgerFolder()
    mkdirSync(join(broken, file), { recursive: true })
    const ran = await run(broken, ['report', 'application', file, '--as-of', '2026-03-20'])
    expect([ran.code, ran.out]).toEqual([2, ''])
  })

  it('control characters that were typed are shown as such', async () => {
    expect((await page('oak/\u001b[31m')).err).toContain('oak/\\u001b[31m')
  })

  it('a ledger without a district', async () => {
    const broken = ledgerFolder(application('x'))
    writeFileSync(join(broken, 'district.yaml'), 'format: 9\n')
    const ran = await run(broken, ['report', 'application', file, '--as-of', '2026-03-20'])
    expect([ran.code, ran.out]).toEqual([2, ''])
    expect(ran.err).toContain('the whole ledger: district.yaml is missing or cannot be used')
  })
})

it('--rev reads it as it stands in a revision', async () => {
  const ledger = join(newFolder(), 'records')
  mkdirSync(ledger)
  git(ledger, 'init', '-q')
  const commit = (reason: string) => {
    writeFiles(ledger, ledgerWith(application(reason)))
    git(ledger, 'add', '-A')
    git(ledger, 'commit', '-q', '-m', reason)
  }
  commit('first words')
  commit('second words')
  writeFileSync(join(ledger, file), 'by: [')
  const at = (...args: string[]) =>
    run(ledger, ['report', 'application', 'oak/2026-03-12-okafor', '--as-of', '2026-03-20', ...args])
  expect((await at()).code).toBe(2)
  expect((await at('--rev', 'HEAD')).out).toContain('second words')
  const before = await at('--rev', 'HEAD~1')
  expect([before.code, before.out.includes('first words'), before.out.includes('second words')]).toEqual([
    0,
    true,
    false,
  ])
})
