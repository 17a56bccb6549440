import { rmSync } from 'node:fs'
import { join } from 'node:path'
import stringWidth from 'string-width'
import { describe, expect, it } from 'vitest'
import { main } from '../../src/cli/main.js'
import { notUsable, otherSite } from './overlays.js'
import { ledgerFolder, run } from './run-doorsweep.js'

const application = `
=== sites/oak/applications/2026-03-12-okafor.yaml
by: okafor
status: done
product: bait-a
pest: german-cockroach
areas: {kitchen: {amount: 2 g}}
method: crack-and-crevice
`
const folder = ledgerFolder(application + otherSite('elm'))
const labels = (...args: string[]) => run(folder, ['labels', ...args, '--as-of', '2026-03-20'])

describe('labels', () => {
  it.each([
    ['text', /^Labels and safety data sheets, Oak School\n2025-03-21 to 2026-03-20, as of 2026-03-20\n/],
    ['markdown', /^# Labels and safety data sheets, Oak School\n/],
    ['json', /^\{\n {2}"format-version": 1,\n {2}"report": "labels"/],
    ['csv', /^product,last used,folder,kind,/],
  ])('is written as %s, and nothing else', async (format, begins) => {
    const ran = await labels('oak', '--format', format)
    expect([ran.code, ran.err]).toEqual([0, ''])
    expect(ran.out).toMatch(begins)
    expect(ran.out).toContain('Invented Bait A')
    expect(ran.out).not.toContain('Invented Spray A')
  })

  it('writes the table that is named', async () => {
    const papers = await labels('oak', '--format', 'csv', '--table', 'papers')
    expect(papers.out.split('\n')[1]).toMatch(
      /^label,,2026-01-05,there,bait-a,products\/bait-a\/label.txt,yes,/,
    )
    const wrong = await labels('oak', '--format', 'csv', '--table', 'paper')
    expect([wrong.code, wrong.out, wrong.err]).toEqual([
      2,
      '',
      'doorsweep: This report has no table paper; it has products, papers, kept, wrong.\n',
    ])
  })

  it('is about one site', async () => {
    expect((await labels('elm')).out).toContain('No product was used here')
  })

  it('a missing label is told in the page, which was written all the same', async () => {
    const missing = ledgerFolder(application)
    rmSync(join(missing, 'products/bait-a/label.txt'))
    const ran = await run(missing, ['labels', 'oak', '--as-of', '2026-03-20'])
    expect([ran.code, ran.err]).toEqual([0, ''])
    expect(ran.out).toContain('its label label.txt is not in the ledger')
    expect(ran.out).toContain('NOT THERE')
  })

  it('what could not be examined is said, and is 2', async () => {
    const ran = await run(ledgerFolder(notUsable), ['labels', 'oak', '--as-of', '2026-03-20'])
    expect([ran.code, ran.err]).toEqual([2, ''])
    expect(ran.out).toContain('This site could not be examined.')
    expect(ran.out).toContain('not examined: sites/oak')
  })
})

describe('a mistake', () => {
  it.each<[string[], string]>([
    [['oaks'], 'doorsweep: There is no site oaks; did you mean oak?\n'],
    [
      ['oak', '--from', '2026-3-1'],
      'doorsweep: --from 2026-3-1: write a day as year-month-day, such as 2026-03-12.\n',
    ],
    [
      ['oak', '--from', '2026-03-21'],
      'doorsweep: The period starts after the as-of day: 2026-03-21. Nothing is known of it; name a later day with --as-of.\n',
    ],
  ])('%j is told with its remedy', async (args, err) => {
    expect(await labels(...args)).toEqual({ code: 2, out: '', err })
  })

  it('no site at all', async () => {
    const ran = await run(folder, ['labels'])
    expect([ran.code, ran.out]).toEqual([2, ''])
    expect(ran.err).toContain('site')
  })
})

describe('one screen', () => {
  const district = new URL('../../examples/district/', import.meta.url).pathname

  /** On a terminal of eighty columns. */
  async function shown(site: string): Promise<string[]> {
    let text = ''
    const code = await main(['labels', site, '--as-of', '2026-06-30', '--no-color'], {
      stdout: { isTTY: true, columns: 80, write: (part) => (text += part) },
      stderr: { write: (part) => (text += part) },
      env: {},
      cwd: () => district,
    })
    expect(code).toBe(0)
    return text.trimEnd().split('\n')
  }

  it.each(['ottermere', 'quarry-road', 'tamsin-hill'])('%s fits eighty columns', async (site) => {
    const lines = await shown(site)
    expect(lines.filter((line) => stringWidth(line) > 80)).toEqual([])
    expect(lines.length).toBeLessThan(50)
    // The products stand in a table, with their headings.
    expect(lines.some((line) => /^ +product +EPA number +last used +folder$/.test(line))).toBe(true)
  })

  it('so does its help, which says what the exit codes mean', async () => {
    const ran = await run(folder, ['labels', '--help'])
    expect(ran.out.split('\n').filter((line) => stringWidth(line) > 80)).toEqual([])
    expect(ran.out).toContain('Exit codes: 0')
  })
})
