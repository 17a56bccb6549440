import { existsSync, mkdirSync, readdirSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { Command } from 'commander'
import { describe, expect, it } from 'vitest'
import { runCheck } from '../../src/check/run-check.js'
import { addNew } from '../../src/cli/commands/new.js'
import type { Here } from '../../src/cli/runner.js'
import { UsageError } from '../../src/cli/usage-error.js'
import { workTree } from '../../src/files/work-tree.js'
import { dayOf } from '../../src/measure/calendar.js'
import { plainPainter } from '../../src/output/painter.js'
import { allRecordKinds } from '../../src/records/kinds.js'
import { recordPathOf } from '../../src/records/paths.js'
import { ledgerWith } from '../../src/rules/base-ledger.js'
import { temporaryFolder, writeFiles } from '../files/temporary-folder.js'

interface Run {
  readonly code: number
  readonly out: string
  readonly err: string
}

/** Runs `doorsweep new` in a folder on a stated day, as the program would. */
async function doorsweepNew(cwd: string, ...args: string[]): Promise<Run> {
  const said = { out: '', err: '' }
  const here: Here = {
    args: [],
    stdout: { write: (text) => (said.out += text) },
    stderr: { write: (text) => (said.err += text) },
    env: { DOORSWEEP_TODAY: '2026-03-12' },
    cwd: () => cwd,
    painter: plainPainter,
  }
  let code = 0
  const program = new Command('doorsweep').exitOverride()
  addNew(program, (work) => async (...given) => {
    code = await work(here, given)
  })
  for (const command of program.commands)
    command.exitOverride().configureOutput({ writeErr: () => undefined })
  try {
    await program.parseAsync(['new', ...args], { from: 'user' })
    return { code, ...said }
  } catch (error) {
    if (!(error instanceof UsageError)) throw error
    return { code: 2, out: said.out, err: error.message }
  }
}

function baseOnDisk(): string {
  const root = temporaryFolder()
  writeFiles(root, ledgerWith(''))
  return root
}

const faultsIn = (root: string) =>
  runCheck(workTree(root), { asOf: dayOf('2026-03-20') ?? 0, asOfIsToday: true }).problems.filter(
    ({ rule }) =>
      [
        'shape',
        'unknown-key',
        'stray-file',
        'not-plain-yaml',
        'impossible-date',
        'unreadable-file',
        'text-yaml-changes',
      ].includes(rule),
  )

it('builds a ledger from nothing, and everything in it has its shape and place', async () => {
  const root = temporaryFolder()
  const lines = [
    ['district'],
    ['person', 'okafor'],
    ['person', 'marsh'],
    ['person', 'lind'],
    ['site', 'oak'],
    ['product', 'bait-a'],
    ['plan', 'german-cockroach'],
    ['rulebook', 'own'],
    ['wording', 'aviso'],
    ['visit', '--site', 'oak', '--by', 'okafor'],
    ['application', '--site', 'oak', '--by', 'okafor', '--on', '2026-03-11'],
    ['complaint', '--site', 'oak', '--by', 'lind'],
    ['repair', '--site', 'oak', '--by', 'lind'],
    ['notice', '--site', 'oak', '--by', 'marsh'],
    ['incident', '--site', 'oak', '--by', 'okafor'],
    ['storage', '--site', 'oak', '--by', 'okafor'],
    ['specimen', '--site', 'oak', '--by', 'okafor'],
    ['education', '--by', 'marsh'],
    ['filing', '--by', 'marsh'],
    ['firm', 'invented-pest-services'],
    ['review', '2026', '--by', 'marsh'],
    ['exception', 'boiler-room', '--by', 'marsh'],
  ]
  const kinds = new Set<string>()
  for (const args of lines) {
    const { code, out, err } = await doorsweepNew(root, ...args)
    expect({ args, code, err }).toEqual({ args, code: 0, err: 'Fill it in, then run `doorsweep check`.\n' })
    const path = out.trimEnd()
    expect(existsSync(join(root, path))).toBe(true)
    expect(recordPathOf(path)).toMatchObject({ kind: args[0] })
    kinds.add(String(args[0]))
  }
  expect([...kinds].sort()).toEqual([...allRecordKinds].sort())
  expect(faultsIn(root)).toEqual([])
})

describe('where and when', () => {
  it('prints the path from where you are', async () => {
    const root = baseOnDisk()
    const visit = await doorsweepNew(join(root, 'sites/oak'), 'visit', '--site', 'oak', '--by', 'okafor')
    expect(visit.out).toBe('visits/2026-03-12-okafor.yaml\n')
    const person = await doorsweepNew(join(root, 'sites/oak'), 'person', 'reyes')
    expect(person.out).toBe('../../people/reyes.yaml\n')
  })

  it('takes the day from --on, else today', async () => {
    const root = baseOnDisk()
    const early = await doorsweepNew(root, 'visit', '--site', 'oak', '--by', 'okafor', '--on', '2026-03-09')
    expect(early.out).toBe('sites/oak/visits/2026-03-09-okafor.yaml\n')
    expect((await doorsweepNew(root, 'review')).out).toBe('reviews/2026.yaml\n')
    expect(
      await doorsweepNew(root, 'visit', '--site', 'oak', '--by', 'okafor', '--on', '9 March'),
    ).toMatchObject({
      code: 2,
      err: '--on 9 March: write a day as year-month-day, such as 2026-03-12.',
    })
    expect(
      (await doorsweepNew(root, 'visit', '--site', 'oak', '--by', 'okafor', '--on', '2026-02-30')).code,
    ).toBe(2)
  })

  it('finds the ledger by --ledger, and begins a district there', async () => {
    const elsewhere = temporaryFolder()
    expect((await doorsweepNew(elsewhere, 'district', '--ledger', 'records/new')).out).toBe(
      'records/new/district.yaml\n',
    )
    expect((await doorsweepNew(elsewhere, 'person', 'okafor', '--ledger', 'records/new')).out).toBe(
      'records/new/people/okafor.yaml\n',
    )
  })

  it('is told apart by a word', async () => {
    const root = baseOnDisk()
    const args = ['visit', '--site', 'oak', '--by', 'okafor']
    await doorsweepNew(root, ...args)
    const again = await doorsweepNew(root, ...args)
    expect(again).toEqual({
      code: 2,
      out: '',
      err: 'sites/oak/visits/2026-03-12-okafor.yaml is there already. Open it; or, if it is another, add --word and a word that tells them apart.',
    })
    expect((await doorsweepNew(root, ...args, '--word', 'evening')).out).toBe(
      'sites/oak/visits/2026-03-12-okafor-evening.yaml\n',
    )
  })
})

describe('never overwrites and never leaves the ledger', () => {
  it('a record that is there', async () => {
    const root = baseOnDisk()
    const before = readFileSync(join(root, 'people/okafor.yaml'), 'utf8')
    const { code, out, err } = await doorsweepNew(root, 'person', 'okafor')
    expect({ code, out, err }).toEqual({
      code: 2,
      out: '',
      err: 'people/okafor.yaml is there already. Open it, or choose another id.',
    })
    expect(readFileSync(join(root, 'people/okafor.yaml'), 'utf8')).toBe(before)
  })

  it('a folder or a broken link with its name', async () => {
    const root = baseOnDisk()
    mkdirSync(join(root, 'people/reyes.yaml'))
    symlinkSync('/nowhere/at/all', join(root, 'people/hale.yaml'))
    expect((await doorsweepNew(root, 'person', 'reyes')).code).toBe(2)
    expect((await doorsweepNew(root, 'person', 'hale')).code).toBe(2)
  })

  it('a district in or below a ledger', async () => {
    const root = baseOnDisk()
    for (const folder of [root, join(root, 'sites/oak')]) {
      const { code, err } = await doorsweepNew(folder, 'district')
      expect(code).toBe(2)
      expect(err).toBe(
        `There is a ledger at ${root} already. Go to a folder outside it, or name one with --ledger.`,
      )
    }
    expect((await doorsweepNew(root, 'district', '--print')).code).toBe(0)
  })

  it('through a folder that is a link out of it', async () => {
    const root = baseOnDisk()
    const outside = temporaryFolder()
    symlinkSync(outside, join(root, 'sites/oak/repairs'))
    const { code, err } = await doorsweepNew(root, 'repair', '--site', 'oak', '--by', 'lind')
    expect(code).toBe(2)
    expect(err).toMatch(/lies behind a link that leads out of the ledger\.$/)
    expect(readdirSync(outside)).toEqual([])
  })

  it('where a file stands in the way of the folder', async () => {
    const root = baseOnDisk()
    writeFileSync(join(root, 'rulebooks'), 'a file\n')
    const { code, err } = await doorsweepNew(root, 'rulebook', 'own')
    expect(code).toBe(2)
    expect(err).toMatch(
      /^rulebooks\/own\.yaml could not be written: a file stands where a folder belongs \(E[A-Z]+\)\.$/,
    )
  })
})

it('--print writes the same text to standard output, and no file', async () => {
  const root = baseOnDisk()
  const args = ['visit', '--site', 'oak', '--by', 'okafor']
  const printed = await doorsweepNew(root, ...args, '--print')
  expect(printed).toMatchObject({ code: 0, err: '' })
  expect(existsSync(join(root, 'sites/oak/visits/2026-03-12-okafor.yaml'))).toBe(false)
  await doorsweepNew(root, ...args)
  expect(readFileSync(join(root, 'sites/oak/visits/2026-03-12-okafor.yaml'), 'utf8')).toBe(printed.out)
})

describe('is told what it needs', () => {
  it.each([
    [['vist'], 'There is no kind of record vist; did you mean visit?'],
    [['blueprint'], /^There is no kind of record blueprint; there are: district, person, /],
    [['person'], 'Which one? Write `doorsweep new person ID`.'],
    [['visit'], 'A new visit also needs --site ID and --by ID.'],
    [['visit', '--site', 'oak'], 'A new visit also needs --by ID.'],
    [
      ['visit', 'x', '--site', 'oak', '--by', 'okafor'],
      /^A visit has no id of its own: its place follows from its day and who noted it\. Leave out x\.$/,
    ],
    [['district', 'x'], /^A district has no id of its own/],
    [['person', 'reyes', '--site', 'oak'], 'A person does not lie at a site; leave out --site.'],
    [['person', 'reyes', '--word', 'two'], 'Only events, named by day and person, take --word.'],
    [['person', 'Reyes'], /^Reyes cannot be the name of a record/],
    [['person', '../reyes'], /^\.\.\/reyes cannot be the name of a record/],
    [['review', 'next'], 'next is not a year, such as 2026.'],
    [
      ['visit', '--site', 'oaks', '--by', 'okafor'],
      'There is no site oaks; did you mean oak? If not, start with `doorsweep new site oaks`.',
    ],
    [
      ['visit', '--site', 'oak', '--by', 'okafo'],
      'There is no person okafo; did you mean okafor? If not, start with `doorsweep new person okafo`.',
    ],
    [
      ['visit', '--site', 'birchwood', '--by', 'okafor'],
      'There is no site birchwood; start with `doorsweep new site birchwood`.',
    ],
    [['exception', 'x', '--by', 'nobody-here'], /^There is no person nobody-here/],
  ])('%j', async (args, expected) => {
    const root = baseOnDisk()
    const files = workTree(root).list().length
    const { code, out, err } = await doorsweepNew(root, ...args)
    expect({ code, out }).toEqual({ code: 2, out: '' })
    if (typeof expected === 'string') expect(err).toBe(expected)
    else expect(err).toMatch(expected)
    expect(workTree(root).list()).toHaveLength(files)
  })

  it('outside a ledger', async () => {
    const { code, err } = await doorsweepNew(temporaryFolder(), 'person', 'okafor')
    expect(code).toBe(2)
    expect(err).toMatch(/^There is no ledger at .*doorsweep new district/)
  })
})

it('its help names every kind', () => {
  const program = new Command('doorsweep')
  addNew(program, () => async () => undefined)
  let help = ''
  program.commands[0]?.configureOutput({ writeOut: (text) => (help += text) }).outputHelp()
  for (const kind of allRecordKinds) expect(help).toMatch(new RegExp(`[ \\n]${kind}[,.]`))
})
