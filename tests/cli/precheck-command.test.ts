import { mkdirSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import stringWidth from 'string-width'
import { describe, expect, it } from 'vitest'
import { parse } from 'yaml'
import { main } from '../../src/cli/main.js'
import { baitApplication } from '../../src/rules/example-applications.js'
import { noticeDuties, postingDuties } from '../../src/rules/notices/example-ledgers.js'
import { underOwnRulebook } from '../../src/rules/own-rulebook.js'
import { notUsable } from './overlays.js'
import { ledgerFolder, newFolder, run } from './run-doorsweep.js'

const planned = (...lines: string[]) => baitApplication('2026-03-12', 'status: planned', ...lines)
const file = 'sites/oak/applications/2026-03-12-okafor.yaml'
const folder = ledgerFolder(planned())
const precheck = (...args: string[]) => run(folder, ['precheck', ...args, '--as-of', '2026-03-10'])
const said = [
  ...['--site', 'oak', '--by', 'okafor', '--on', '2026-04-02', '--time', '15:40 to 16:05'],
  ...['--product', 'bait-a', '--pest', 'german-cockroach', '--area', 'kitchen'],
  ...['--method', 'crack-and-crevice', '--amount', '2 g'],
]
const without = (flag: string, replaced?: string) => {
  const at = said.indexOf(flag)
  return [...said.slice(0, at), ...(replaced === undefined ? [] : [flag, replaced]), ...said.slice(at + 2)]
}

describe('precheck of a file', () => {
  it.each([
    ['text', /^Before an application, Oak School\nas of 2026-03-12\n/],
    ['markdown', /^# Before an application, Oak School\n/],
    ['json', /^\{\n {2}"format-version": 1,\n {2}"report": "precheck"/],
    ['csv', /^level,what,where,rule,/],
  ])('is written as %s, and nothing else', async (format, begins) => {
    const ran = await precheck(file, '--format', format)
    expect([ran.code, ran.err]).toEqual([0, ''])
    expect(ran.out).toMatch(begins)
  })

  it('never passes for a permission, in any format for people', async () => {
    for (const format of ['text', 'markdown', 'json']) {
      const { out } = await precheck(file, '--format', format)
      expect(out).toContain('This is no permission.')
      expect(out).toContain('local code and a licensed applicator decide')
      expect(out).not.toMatch(/\ballowed\b|\bpermitted\b/)
    }
  })

  it('leaves the ledger as it is', async () => {
    const before = readFileSync(join(folder, file), 'utf8')
    await precheck(file)
    expect(readFileSync(join(folder, file), 'utf8')).toBe(before)
  })

  it('is 1 where something would be broken, and names it', async () => {
    const broken = ledgerFolder(planned('tried-first:'))
    const ran = await run(broken, ['precheck', file, '--as-of', '2026-03-10'])
    expect([ran.code, ran.err]).toEqual([1, ''])
    expect(ran.out).toContain('As drafted, one rule would be broken')
    expect(ran.out).toContain('nothing-tried-first')
  })

  it('is 2 where something could not be looked at', async () => {
    const ran = await run(ledgerFolder(planned() + notUsable), ['precheck', file, '--as-of', '2026-03-10'])
    expect([ran.code, ran.err]).toEqual([2, ''])
    expect(ran.out).toContain('NOT EVERYTHING COULD BE LOOKED AT')
    expect(ran.out).toContain('sites/oak')
  })

  it('writes the table that is named', async () => {
    const ran = await precheck(file, '--format', 'csv', '--table', 'still-to-do')
    expect(ran.out.split('\n')[1]).toMatch(/^afterwards,2026-04-02,/)
  })

  it('takes a draft kept elsewhere for the site that is said', async () => {
    const elsewhere = newFolder()
    const text = readFileSync(join(folder, file), 'utf8').replace(/^status:.*\n/m, '')
    writeFileSync(join(elsewhere, '2026-03-13-okafor.yaml'), text)
    mkdirSync(join(elsewhere, 'drafts'))
    writeFileSync(join(elsewhere, 'drafts/next.yaml'), text)
    const named = await precheck(join(elsewhere, '2026-03-13-okafor.yaml'), '--site', 'oak')
    expect([named.code, named.err]).toEqual([0, ''])
    expect(named.out).toContain('draft: sites/oak/applications/2026-03-13-okafor.yaml')
    const other = join(elsewhere, 'drafts/next.yaml')
    const dated = await precheck(other, '--site', 'oak', '--on', '2026-03-14')
    expect([dated.code, dated.err]).toEqual([0, ''])
    expect(dated.out).toContain('draft: sites/oak/applications/2026-03-14-okafor.yaml')
    const undated = await precheck(other, '--site', 'oak')
    expect([undated.code, undated.out]).toEqual([2, ''])
    expect(undated.err).toContain('does not tell day and person')
    expect(undated.err).toContain('add --on.')
  })
})

describe('precheck of what is said', () => {
  it('judges it like a record', async () => {
    const ran = await precheck(...said)
    expect([ran.code, ran.err]).toEqual([1, ''])
    // Nothing is said of why, and the base ledger shows no cockroach.
    expect(ran.out).toContain('need-not-shown')
    expect(ran.out).toContain('draft: sites/oak/applications/2026-04-02-okafor.yaml')
    expect(ran.out).toContain('time: 15:40 to 16:05')
  })

  it('the same as the file that says the same', async () => {
    const same = ledgerFolder(`
=== sites/oak/applications/2026-04-02-okafor.yaml
by: okafor
status: planned
product: bait-a
pest: german-cockroach
areas: {kitchen: {amount: 2 g}}
method: crack-and-crevice
amount: 2 g
time: 15:40 to 16:05
`)
    const path = 'sites/oak/applications/2026-04-02-okafor.yaml'
    const ofFile = await run(same, ['precheck', path, '--as-of', '2026-03-10'])
    const ofFlags = await run(ledgerFolder(), ['precheck', ...said, '--as-of', '2026-03-10'])
    expect(ofFlags).toEqual(ofFile)
  })

  it('a place that is taken asks for a word', async () => {
    const taken = await precheck(...without('--on', '2026-03-12'))
    expect([taken.code, taken.out]).toEqual([2, ''])
    expect(taken.err).toContain(`${file} is there already: name that file, or add --word`)
    const told = await precheck(...without('--on', '2026-03-12'), '--word', 'second')
    expect(told.out).toContain('draft: sites/oak/applications/2026-03-12-okafor-second.yaml')
  })

  it('what the ledger does not know is said plainly, and is 2', async () => {
    const product = await precheck(...without('--product', 'bait-z'))
    expect([product.code, product.err]).toEqual([2, ''])
    expect(product.out).toContain('bait-z is not in the register')
    const area = await precheck(...without('--area', 'kitchn'))
    expect([area.code, area.err]).toEqual([2, ''])
    expect(area.out).toContain('the site has no area kitchn')
    const method = await precheck(...without('--method', 'magic'))
    expect([method.code, method.err]).toEqual([2, ''])
    expect(method.out).toContain('magic')
  })

  it('a day in the past is looked at like any other', async () => {
    const ran = await run(folder, ['precheck', ...without('--on', '2026-03-09'), '--as-of', '2026-11-01'])
    expect([ran.code, ran.err]).toEqual([1, ''])
    expect(ran.out).toContain('as of 2026-03-09')
  })
})

describe('a draft instead of the report', () => {
  const duties = underOwnRulebook(noticeDuties + postingDuties)
  const path = 'sites/oak/applications/2026-04-02-okafor.yaml'
  const drafted = (what: string, at: string) =>
    run(at, ['precheck', ...said, '--as-of', '2026-03-10', '--draft', what])

  it('of the record: laid where it says, it is judged like what was said', async () => {
    const at = ledgerFolder(duties)
    const { out, err } = await drafted('record', at)
    expect(err).toBe('')
    expect(out.split('\n')[0]).toBe(
      `# ${path}. This is no permission: the label on the container, local code and a licensed applicator decide.`,
    )
    expect(parse(out)).toEqual({
      by: 'okafor',
      status: 'planned',
      product: 'bait-a',
      pest: 'german-cockroach',
      areas: { kitchen: { amount: '2 g' } },
      method: 'crack-and-crevice',
      amount: '2 g',
      time: '15:40 to 16:05',
    })
    // What is left to fill in is a remark, and only that.
    expect(out).toContain('\n# lot: FILL IN # lot number on the container\n')
    expect(out).not.toContain('# time:')
    const before = await run(at, ['precheck', ...said, '--as-of', '2026-03-10'])
    mkdirSync(join(at, 'sites/oak/applications'), { recursive: true })
    writeFileSync(join(at, path), out)
    expect(await run(at, ['precheck', path, '--as-of', '2026-03-10'])).toEqual(before)
  })

  it('of the notice and the signs: nothing is sent, and blanks are told until they are filled in', async () => {
    const at = ledgerFolder(duties + planned())
    const { out, err } = await run(at, ['precheck', file, '--as-of', '2026-03-10', '--draft', 'notice'])
    expect(err).toBe('')
    // 72 hours before 15:40 on 12 March.
    expect(out).toContain('# notice to parents: by 2026-03-09 15:40 (72 hours before)\n')
    expect(out).toContain('# sign: by 2026-03-09 15:40 (72 hours before)\n')
    expect(out).toContain('\n# trade-name: Invented Bait A\n# date: 2026-03-12\n')
    expect(parse(out)).toEqual({
      by: 'marsh',
      application: '2026-03-12-okafor',
      sent: { to: 'everyone', how: 'FILL IN', says: ['trade-name', 'date'] },
      posted: {
        places: ['FILL IN'],
        'at-the': ['treated-area', 'each-entrance'],
        size: '8.5 x 11 in',
        says: ['trade-name', 'date'],
      },
    })
    mkdirSync(join(at, 'sites/oak/notices'), { recursive: true })
    writeFileSync(join(at, 'sites/oak/notices/2026-03-09-marsh.yaml'), out)
    const checked = await run(at, ['check', '--as-of', '2026-03-09', '--only', 'left-to-fill-in'])
    expect([checked.code, checked.out.match(/still says FILL IN/g)?.length]).toEqual([1, 2])
  })

  it('where no notice is asked, says so', async () => {
    const { code, out } = await run(folder, ['precheck', file, '--as-of', '2026-03-10', '--draft', 'notice'])
    expect([code, parse(out)]).toEqual([0, null])
    expect(out).toContain('ask for no notice and no sign, as drafted.')
  })

  it('of what could not be judged there is none', async () => {
    const at = ledgerFolder(planned() + notUsable)
    const ran = await run(at, ['precheck', file, '--as-of', '2026-03-10', '--draft', 'notice'])
    expect([ran.code, ran.out]).toEqual([2, ''])
    expect(ran.err).toContain('could not be judged')
  })
})

describe('a mistake', () => {
  it.each<[string[], string]>([
    [without('--site', 'oaks'), 'doorsweep: There is no site oaks; did you mean oak?\n'],
    [
      without('--pest', 'german-cockroch'),
      'doorsweep: There is no pest german-cockroch; did you mean german-cockroach?\n',
    ],
    [without('--area'), 'doorsweep: Name the file of a draft, or say it: --area is missing.\n'],
    [
      without('--on', '2026-4-2'),
      'doorsweep: --on 2026-4-2: write a day as year-month-day, such as 2026-03-12.\n',
    ],
    [[file, '--product', 'bait-a'], 'doorsweep: A file says it all: --product does not go with it.\n'],
    [
      [file, '--on', '2026-03-12'],
      'doorsweep: Day and person of a record are in its name; --on, --by and --word do not go with it.\n',
    ],
    [
      ['sites/oak/site.yaml'],
      'doorsweep: sites/oak/site.yaml does not lie where an application does, as sites/<site>/applications/<date>-<who>.yaml; if it is a draft kept elsewhere, add --site.\n',
    ],
    [['nowhere.yaml'], 'doorsweep: nowhere.yaml does not exist.\n'],
    [
      ['nowhere.yaml', '--site', 'oak'],
      'doorsweep: nowhere.yaml cannot be read; name the file of a draft.\n',
    ],
  ])('%j is told with its remedy', async (args, err) => {
    expect(await precheck(...args)).toEqual({ code: 2, out: '', err })
  })

  it('a cancelled application', async () => {
    const cancelled = ledgerFolder(planned('status: cancelled', 'cancelled: source found and removed'))
    const ran = await run(cancelled, ['precheck', file])
    expect([ran.code, ran.out]).toEqual([2, ''])
    expect(ran.err).toContain('says that it was cancelled')
  })
})

describe('on a terminal of eighty columns', () => {
  const district = new URL('../../examples/district/', import.meta.url).pathname

  it('a spray in the example district fits', async () => {
    let text = ''
    const code = await main(
      [
        ...['precheck', '--site', 'tamsin-hill', '--by', 'okafor', '--on', '2026-07-10'],
        ...['--time', '10:00 to 10:15', '--product', 'wasp-foam', '--pest', 'yellowjacket'],
        ...['--area', 'grounds', '--method', 'spot', '--amount', '6 fl oz'],
        ...['--as-of', '2026-07-01', '--no-color'],
      ],
      {
        stdout: { isTTY: true, columns: 80, write: (part) => (text += part) },
        stderr: { write: (part) => (text += part) },
        env: {},
        cwd: () => district,
      },
    )
    expect(code).toBe(1)
    // 72 hours before 10:00 on 10 July, by the policy of that district.
    expect(text).toContain('2026-07-07 10:00')
    expect(text.split('\n').filter((line) => stringWidth(line) > 80)).toEqual([])
    // Each moment says which it is, also where the table is laid out line by line.
    expect(text).toMatch(/notice to parents +by 2026-07-07 10:00 +none recorded/)
  })

  it('so does its help, which says what the exit codes mean', async () => {
    const ran = await run(folder, ['precheck', '--help'])
    expect(ran.out.split('\n').filter((line) => stringWidth(line) > 80)).toEqual([])
    expect(ran.out).toContain('Exit codes: 0')
  })
})
