import { mkdirSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import stringWidth from 'string-width'
import { describe, expect, it } from 'vitest'
import { main } from '../../src/cli/main.js'
import { districtUnder, ownRulebook, sprayed } from '../reports/notice-ledgers.js'
import { notUsable } from './overlays.js'
import { ledgerFolder, run } from './run-doorsweep.js'

const law = 'from: 2026-03-01, kind: law, confidence: read, source: "Invented Pest Act, section 3"'
const duties =
  districtUnder('own', 'America/Los_Angeles') +
  ownRulebook(`
notices:
  parents: [{${law}, to: parents, reach: all, lead: 72 hours, says: [trade-name, date, reason]}]
postings:
  signs: [{${law}, before: 24 hours, after: 72 hours, size: 8.5 x 11 in, says: [trade-name, date]}]
`)
const record = (text: string, on = '2026-03-12') => `\n=== sites/oak/applications/${on}-okafor.yaml\n${text}`
const aviso = `
=== wordings/aviso.yaml
language: es
for: [parents, sign]
lines: {date: "Fecha: {date}"}
`
const folder = ledgerFolder(duties + record(sprayed()) + aviso)
const notice = (...args: string[]) => run(folder, ['notice', ...args, '--as-of', '2026-03-06'])
const application = 'oak/2026-03-12-okafor'

describe('notice', () => {
  it('writes the moments first, then each text', async () => {
    const ran = await notice(application)
    expect([ran.code, ran.err]).toEqual([0, ''])
    expect(ran.out).toMatch(/^Notices and signs for an application, Oak School\nas of 2026-03-06\n/)
    const places = ['2026-03-09 07:00', '2026-03-15 07:30', 'NOTICE TO PARENTS\n', 'SIGN\n'].map((part) =>
      ran.out.indexOf(part),
    )
    expect(places).toEqual([...places].sort((a, b) => a - b))
    expect(places).not.toContain(-1)
    expect(ran.out).toContain('Invented Pest Act, section 3')
    expect(ran.out).toContain('This does not authorise an application.')
    expect(ran.out).toContain('Product: Invented Spray A\nDate: Thursday, March 12, 2026\nWhy: nymphs')
  })

  it.each([
    'sites/oak/applications/2026-03-12-okafor.yaml',
    './sites/oak/applications/2026-03-12-okafor.yaml',
    'oak/2026-03-12-okafor.yaml',
  ])('takes the application as %s', async (name) => {
    expect((await notice(name)).out).toBe((await notice(application)).out)
  })

  it('takes its file from another folder, which tells where the ledger is', async () => {
    const file = join(folder, 'sites/oak/applications/2026-03-12-okafor.yaml')
    const ran = await run('/', ['notice', file, '--as-of', '2026-03-06'])
    expect(ran.out).toBe((await notice(application)).out)
  })

  it('only one text, and only the text', async () => {
    expect((await notice(application, '--for', 'parents')).out).not.toContain('SIGN')
    const sign = await notice(application, '--for', 'sign', '--text-only')
    expect(sign.out).toBe(`Notice of a pesticide application

Oak School, Example District

Product: Invented Spray A

Date: Thursday, March 12, 2026

The label of the product is the law, local code governs, and a licensed applicator decides. This paper does not authorise an application.
`)
    const markdown = await notice(application, '--for', 'sign', '--text-only', '--format', 'markdown')
    expect(markdown.out).toMatch(/^# Notice of a pesticide application\n\n# Oak School, Example District\n\n/)
  })

  it('a text that is not asked for is said to be none, also alone', async () => {
    const ran = await notice(application, '--for', 'staff', '--text-only')
    expect([ran.code, ran.out.includes('asks for a notice to staff for this application')]).toEqual([0, true])
  })

  it.each([
    ['markdown', /^# Notices and signs for an application, Oak School\n/],
    ['json', /^\{\n {2}"format-version": 1,\n {2}"report": "notice"/],
    ['csv', /^what to do,so far,/],
  ])('is written as %s', async (format, begins) => {
    const ran = await notice(application, '--format', format)
    expect([ran.code, ran.err]).toEqual([0, ''])
    expect(ran.out).toMatch(begins)
  })

  it('each line with what asks for it, for machines', async () => {
    const ran = await notice(application, '--format', 'csv', '--table', 'texts')
    expect(ran.out).toContain(
      '\nparents,en,trade-name,Product: Invented Spray A,"Invented Pest Act, section 3",no,\n',
    )
  })

  it('fits a terminal of 80 columns', async () => {
    let out = ''
    await main(['notice', application, '--as-of', '2026-03-06', '--text-only'], {
      stdout: { isTTY: true, columns: 80, write: (text) => (out += text) },
      stderr: { write: () => undefined },
      env: {},
      cwd: () => folder,
    })
    // Twice: the notice to parents and the sign; each with a caution that is longer than 80.
    expect(out.split('This paper does not authorise an').length).toBe(3)
    expect(out.split('\n').filter((line) => stringWidth(line) > 80)).toEqual([])
  })

  it('blanks make it 1, and each is listed', async () => {
    const open = ledgerFolder(duties + record(sprayed({ more: '' })))
    const ran = await run(open, ['notice', application, '--as-of', '2026-03-06'])
    expect([ran.code, ran.err]).toEqual([1, ''])
    expect(ran.out).toContain('Why: [...]\n')
    expect(ran.out).toContain('sites/oak/applications/2026-03-12-okafor.yaml: reason')
    expect(ran.out).toContain('one blank is left to fill in')
  })

  it('a moment that has passed, and a notice that is recorded', async () => {
    const late = await run(folder, ['notice', application, '--as-of', '2026-03-10'])
    expect(late.out).toContain('none recorded, and the moment has passed')
    const sent = ledgerFolder(
      `${duties}${record(sprayed())}
=== sites/oak/notices/2026-03-08-marsh.yaml
by: marsh
application: 2026-03-12-okafor
sent: {to: all parents, at: 15:00, how: email, says: [trade-name, date, reason]}
`,
    )
    const ran = await run(sent, ['notice', application, '--for', 'parents', '--as-of', '2026-03-10'])
    expect(ran.out).toMatch(/by Mon 2026-03-09 07:00 {2}send notice to parents {2}recorded {2}/)
  })
})

describe('in the words of the district', () => {
  it('in a language it has', async () => {
    const ran = await notice(application, '--language', 'es')
    expect(ran.code).toBe(0)
    expect(ran.out).toContain('Fecha: jueves, 12 de marzo de 2026\n')
  })

  it.each([
    ['ess', 'The district has no wording in ess; did you mean es?'],
    ['korean', 'The district has no wording in korean; it has: es.'],
  ])('not in %s', async (language, says) => {
    const ran = await notice(application, '--language', language)
    expect([ran.code, ran.out, ran.err]).toEqual([2, '', `doorsweep: ${says}\n`])
  })

  it('where it has none at all, says how to begin', async () => {
    const none = ledgerFolder(duties + record(sprayed()))
    const ran = await run(none, ['notice', application, '--language', 'es'])
    expect(ran.err).toContain('Write one with `doorsweep new wording ID`.')
  })
})

describe('a draft kept elsewhere', () => {
  const drafts = ledgerFolder('')
  mkdirSync(join(drafts, 'desk'), { recursive: true })
  writeFileSync(join(drafts, 'desk/2026-03-12-okafor.yaml'), sprayed())
  writeFileSync(join(drafts, 'desk/draft.yaml'), sprayed())

  it('is read as if it lay in the ledger', async () => {
    const ran = await notice(join(drafts, 'desk/2026-03-12-okafor.yaml'), '--site', 'oak')
    expect(ran.out).toBe((await notice(application)).out)
    const named = await notice(join(drafts, 'desk/draft.yaml'), '--site', 'oak', '--on', '2026-03-12')
    expect(named.out).toBe((await notice(application)).out)
  })

  it('needs its day, and a site that is there', async () => {
    const ran = await notice(join(drafts, 'desk/draft.yaml'), '--site', 'oak')
    expect([ran.code, ran.err.includes('add --on')]).toEqual([2, true])
    const site = await notice(join(drafts, 'desk/draft.yaml'), '--site', 'oat')
    expect(site.err).toBe('doorsweep: There is no site oat; did you mean oak?\n')
  })
})

describe('called wrongly, or not to be looked at', () => {
  it.each([
    [
      'oak/2026-03-13-okafor',
      'There is no application sites/oak/applications/2026-03-13-okafor.yaml that can be read; did you mean 2026-03-12-okafor?',
    ],
    ['oat/2026-03-12-okafor', 'There is no site oat; did you mean oak?'],
    [
      'kitchen',
      'kitchen is no application: name its file, or its site and name, as ottermere/2026-04-02-okafor; for a draft kept elsewhere add --site.',
    ],
    [
      'oak/2026-02-30-okafor',
      'oak/2026-02-30-okafor is no application: name its file, or its site and name, as ottermere/2026-04-02-okafor; for a draft kept elsewhere add --site.',
    ],
    [
      '../../etc/2026-03-12-okafor',
      '../../etc/2026-03-12-okafor is no application: name its file, or its site and name, as ottermere/2026-04-02-okafor; for a draft kept elsewhere add --site.',
    ],
  ])('%s', async (name, says) => {
    const ran = await notice(name)
    expect([ran.code, ran.out, ran.err]).toEqual([2, '', `doorsweep: ${says}\n`])
  })

  it('a cancelled application', async () => {
    const off = ledgerFolder(
      duties + record(sprayed({ status: 'cancelled', more: 'cancelled: source found' })),
    )
    const ran = await run(off, ['notice', application])
    expect([ran.code, ran.out]).toEqual([2, ''])
    expect(ran.err).toContain('says that it was cancelled: there is no notice of it to draft')
  })

  it('flags that do not go together', async () => {
    expect((await notice(application, '--on', '2026-03-12')).code).toBe(2)
    const ran = await notice(application, '--text-only', '--format', 'json')
    expect([ran.code, ran.err]).toEqual([
      2,
      'doorsweep: --text-only goes with text and markdown; json has the table `texts`.\n',
    ])
    expect((await notice(application, '--for', 'pupils')).code).toBe(2)
  })

  it('a record of the site that cannot be used: nothing is said to be asked or not', async () => {
    const broken = ledgerFolder(duties + record(sprayed()) + notUsable)
    const ran = await run(broken, ['notice', application, '--as-of', '2026-03-06'])
    // The record is of 2026-03-11: as of the 6th and for the 12th it counts.
    expect(ran.code).toBe(2)
    expect(ran.out).toContain('It cannot be said what is asked: it could not be read.')
    expect(ran.out).toContain('sites/oak/visits/2026-03-11-okafor.yaml cannot be used')
  })

  it('a record that cannot be used at another site does not matter', async () => {
    const elsewhere = `\n=== sites/elm/site.yaml\nname: 7\n`
    const ran = await run(ledgerFolder(duties + record(sprayed()) + elsewhere), ['notice', application])
    expect(ran.code).toBe(0)
  })

  it('where no rulebook asks, says that, and never that none is needed', async () => {
    const plain = ledgerFolder(record(sprayed()))
    const ran = await run(plain, ['notice', application, '--as-of', '2026-03-06'])
    expect([ran.code, ran.err]).toEqual([0, ''])
    expect(ran.out).toContain('No rulebook that the district lists for that day asks for a notice or a sign')
    expect(ran.out).toContain('Local code, the label or the contract may.')
    expect(ran.out).not.toMatch(/not needed|allowed|permitted|safe/)
  })
})
