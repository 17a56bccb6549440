import { execFileSync } from 'node:child_process'
import {
  closeSync,
  existsSync,
  fstatSync,
  ftruncateSync,
  openSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  writeFileSync,
  writeSync,
} from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it, onTestFinished } from 'vitest'
import { ledgerWith } from '../../src/rules/base-ledger.js'
import { makeFolder, openJournal, readKept } from '../../src/writing/visit/journal.js'
import { newFolder } from '../cli/run-doorsweep.js'
import { temporaryFolder, writeFiles } from '../files/temporary-folder.js'
import { oakPlan } from '../writing/visit/oak-plan.js'
import { commitAll, git } from './git-checkout.js'
import { doorsweep } from './run-main.js'

const isRoot = process.getuid?.() === 0
const why = isRoot ? whyNoMount() : 'only root can mount a small disk'
if (why !== undefined) console.warn(`Left out: a disk that is full, since ${why}`)

/** Why no disk of one's own can be mounted here; undefined where one can. */
function whyNoMount(): string | undefined {
  const folder = newFolder()
  try {
    execFileSync('mount', ['-t', 'tmpfs', '-o', 'size=64k', 'tmpfs', folder], { stdio: 'ignore' })
    execFileSync('umount', [folder], { stdio: 'ignore' })
    return undefined
  } catch {
    return 'mounting is not allowed here'
  }
}

const page = 4096

/** A disk of 512 KiB with a ledger on it. */
function smallDisk() {
  const top = temporaryFolder()
  execFileSync('mount', ['-t', 'tmpfs', '-o', 'size=512k', 'tmpfs', top])
  onTestFinished(() => {
    execFileSync('umount', ['--lazy', top])
  })
  const ledger = join(top, 'ledger')
  writeFiles(ledger, ledgerWith(traps))
  return { top, ledger }
}

/** Fills a disk up to a number of pages of 4 KiB. */
function fill(top: string, pagesLeft: number): void {
  const handle = openSync(join(top, 'fill'), 'a')
  try {
    for (;;) writeSync(handle, Buffer.alloc(page))
  } catch {
    ftruncateSync(handle, Math.floor(fstatSync(handle).size / page - pagesLeft) * page)
  } finally {
    closeSync(handle)
  }
}

/** Everything that lies in a folder, with what it holds. */
function everythingIn(folder: string): Map<string, string> {
  const found = new Map<string, string>()
  for (const path of readdirSync(folder, { recursive: true, encoding: 'utf8' }).sort())
    if (path.split('/')[0] !== '.git')
      found.set(path, statSync(join(folder, path)).isFile() ? readFileSync(join(folder, path), 'utf8') : '')
  return found
}

const traps = `
=== sites/oak/visits/2026-03-06-okafor.yaml
purpose: set-up
by: okafor
time: 06:10 to 06:50
set:
  S1: {kind: sticky-trap, area: room-1, within-reach: no}
`

/** Every command that writes into a ledger, each with a record longer than two pages or with several. */
function writers(ledger: string): [string, string[]][] {
  const desk = newFolder()
  const long = 'a drip under the sink '.repeat(500)
  writeFileSync(
    join(desk, 'visit.yaml'),
    `purpose: callback\nby: okafor\ntime: 09:00 to 09:20\nnotes: ${long}\n`,
  )
  writeFileSync(
    join(desk, 'map.yaml'),
    'date: Date\nsite: {always: oak}\nby: {always: okafor}\ndevice: Trap\npest: {always: german-cockroach}\ncount: Count\n',
  )
  writeFileSync(
    join(desk, 'counts.csv'),
    `Date,Trap,Count\n${['10', '11', '12', '13', '16'].map((day) => `2026-03-${day},S1,0\n`).join('')}`,
  )
  const at = ['--ledger', ledger]
  return [
    ['log complaint', ['log', 'complaint', long, '--site', 'oak', '--by', 'lind', ...at]],
    ['log repair', ['log', 'repair', long, '--site', 'oak', '--area', 'kitchen', '--by', 'lind', ...at]],
    ['new', ['new', 'wording', 'es', ...at]],
    ['visit', ['visit', 'oak', '--file', join(desk, 'visit.yaml'), ...at]],
    [
      'import',
      ['import', 'counts', join(desk, 'counts.csv'), '--map', join(desk, 'map.yaml'), '--write', ...at],
    ],
  ]
}

async function writesNothing(ledger: string, args: string[]) {
  const before = everythingIn(ledger)
  const said = await doorsweep(ledger, ...args)
  expect([said.code, said.out]).toEqual([2, ''])
  expect(said.err).not.toContain('fault of the program')
  expect(said.err).toMatch(/could not be written/)
  expect(everythingIn(ledger)).toEqual(before)
}

const names = ['log complaint', 'log repair', 'new', 'visit', 'import']
const writer = (ledger: string, name: string) => new Map(writers(ledger)).get(name) ?? []

it.each(names)('%s writes, where there is room', async (name) => {
  const ledger = temporaryFolder()
  writeFiles(ledger, ledgerWith(traps))
  const before = everythingIn(ledger)
  const said = await doorsweep(ledger, ...writer(ledger, name))
  expect([said.code, said.err]).toEqual([0, expect.not.stringContaining('could not')])
  const longest = Math.max(
    ...[...everythingIn(ledger)].filter(([path]) => !before.has(path)).map(([, text]) => text.length),
  )
  if (name !== 'import') expect(longest).toBeGreaterThan(name === 'new' ? 2_000 : 2 * page)
})

describe.skipIf(why !== undefined)('on a disk that is full', () => {
  it.each(names)('%s writes nothing at all, and says so', async (name) => {
    const { top, ledger } = smallDisk()
    fill(top, 0)
    await writesNothing(ledger, writer(ledger, name))
  })

  it.each(names.filter((name) => name !== 'new'))(
    '%s leaves no half behind where some of it had room',
    async (name) => {
      const { top, ledger } = smallDisk()
      fill(top, 2)
      await writesNothing(ledger, writer(ledger, name))
    },
  )

  it('everything that reads still does', async () => {
    const { top, ledger } = smallDisk()
    git(top, ['init', '--quiet'])
    commitAll(ledger)
    fill(top, 0)
    for (const args of [
      ['check'],
      ['check', '--rev', 'HEAD'],
      ['due'],
      ['report', 'compliance', '--from', '2026-03-01'],
    ])
      expect([args, (await doorsweep(ledger, ...args)).err]).toEqual([args, ''])
  })

  it('an unfinished visit keeps every answer that was confirmed, and no part of one', () => {
    const { top, ledger } = smallDisk()
    const plan = oakPlan()
    const journal = openJournal(ledger, plan, '2026-03-20 06:10')
    fill(top, 1)
    const confirmed: string[] = []
    const answers = () => {
      const kept = readKept(ledger, plan.site)
      return kept.is === 'kept' ? kept.answers.map(({ text }) => text) : kept
    }
    expect(() => {
      for (let at = 0; at < 100; at++) {
        const text = `${at} `.repeat(100)
        journal.add({ to: 'note', text })
        confirmed.push(text)
      }
    }).toThrow(/ENOSPC/)
    expect(confirmed.length).toBeGreaterThan(3)
    expect(answers()).toEqual(confirmed)
    rmSync(join(top, 'fill'))
    journal.add({ to: 'note', text: 'once there is room' })
    journal.close()
    expect(answers()).toEqual([...confirmed, 'once there is room'])
  })

  it('a visit that could not be begun leaves nothing to go on with', () => {
    const { top, ledger } = smallDisk()
    makeFolder(ledger)
    fill(top, 0)
    expect(() => openJournal(ledger, oakPlan(), '2026-03-20 06:10')).toThrow(/ENOSPC/)
    expect(readKept(ledger, 'oak')).toEqual({ is: 'none' })
  })

  it('a demo that does not fit is never taken for a ledger', async () => {
    const { top } = smallDisk()
    fill(top, 20)
    const demo = join(top, 'demo')
    const said = await doorsweep(top, 'demo', demo, '--sites', '1', '--years', '1')
    expect([said.code, said.out]).toEqual([2, ''])
    expect(said.err).toContain('Nothing is left of it')
    expect(existsSync(demo)).toBe(false)
    expect((await doorsweep(top, 'check', demo)).code).toBe(2)
  })
})

describe('in a checkout that may not be written', () => {
  function readOnly(): string {
    if (isRoot) {
      const { top, ledger } = smallDisk()
      git(ledger, ['init', '--quiet'])
      commitAll(ledger)
      execFileSync('mount', ['-o', 'remount,ro', top])
      return ledger
    }
    const ledger = temporaryFolder()
    writeFiles(ledger, ledgerWith(traps))
    git(ledger, ['init', '--quiet'])
    commitAll(ledger)
    execFileSync('chmod', ['-R', 'a-w', ledger])
    onTestFinished(() => {
      execFileSync('chmod', ['-R', 'u+w', ledger])
    })
    return ledger
  }

  it.skipIf(isRoot && why !== undefined).each(names)('%s writes nothing, and says so', async (name) => {
    const ledger = readOnly()
    await writesNothing(ledger, writer(ledger, name))
  })

  it.skipIf(isRoot && why !== undefined)('everything that reads still does', async () => {
    const ledger = readOnly()
    for (const args of [
      ['check'],
      ['check', '--rev', 'HEAD'],
      ['due'],
      ['report', 'compliance', '--from', '2026-03-01'],
      ['visit', 'oak', '--blank'],
    ])
      expect([args, (await doorsweep(ledger, ...args)).err]).toEqual([args, ''])
  })
})
