import { execFileSync } from 'node:child_process'
import { existsSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { underOwnRulebook } from '../../src/rules/reentry/example-ledgers.js'
import { git, ledgerFolder, newFolder, run } from './run-doorsweep.js'
import { Spoken } from './visit-spoken.js'
import { cleanLedger, today } from './visit-talk.js'

const record = `sites/fernhollow/visits/${today}-sorrel.yaml`
/** A trap check in which every board is clear. */
const trapCheck = ['06:00', 'trap-check', '', '', '', '', '06:40']

function committed(): string {
  const folder = cleanLedger()
  git(folder, 'init', '-q')
  git(folder, 'add', '.')
  git(folder, 'commit', '-q', '-m', 'Before')
  return folder
}

describe('a visit that was written', () => {
  it('says what comes next, in lines that can be typed as they stand', async () => {
    const folder = committed()
    const spoken = new Spoken(folder, { by: 'sorrel' })
    for (const line of [...trapCheck, "photo IMG 0012.jpg the cook's drain"]) await spoken.answer(line)
    writeFileSync(join(folder, 'sites/fernhollow/visits/IMG 0012.jpg'), 'a picture')
    expect(await spoken.answer('')).toContain('Anything else?')
    const { code, said } = await spoken.last('')
    expect([code, spoken.out]).toEqual([0, `${record}\n`])
    const lines = said.slice(said.indexOf('Written. Next:')).split('\n')
    expect(lines).toEqual([
      'Written. Next:',
      `  git add ${record} 'sites/fernhollow/visits/IMG 0012.jpg'`,
      `  git commit -m 'Visit to fernhollow on ${today} by sorrel'`,
      `  doorsweep report service fernhollow/${today}-sorrel    the page for the site manager`,
      '',
    ])
    const shell = `set -e\n${lines.slice(1, 3).join('\n')}\ngit show --name-only --format=%s`
    const shown = execFileSync('sh', ['-c', shell], { cwd: folder, encoding: 'utf8', env: asNobody })
    expect(shown).toContain(`Visit to fernhollow on ${today} by sorrel`)
    expect(shown).toContain('IMG 0012.jpg')
    const page = await run(folder, ['report', 'service', `fernhollow/${today}-sorrel`], {
      DOORSWEEP_TODAY: today,
    })
    expect([page.code, page.out]).toEqual([0, expect.stringContaining('Fernhollow')])
  })

  it('says so for the folder one is in, and says nothing of git where there is none', async () => {
    const folder = committed()
    const below = new Spoken(folder, { by: 'sorrel' }, { cwd: join(folder, 'sites/fernhollow') })
    for (const line of trapCheck) await below.answer(line)
    expect((await below.last('')).said).toContain(`  git add visits/${today}-sorrel.yaml\n`)
    const other = committed()
    const outside = new Spoken(other, { by: 'sorrel', ledger: other }, { cwd: join(folder, 'sites') })
    for (const line of trapCheck) await outside.answer(line)
    const { said } = await outside.last('')
    expect(said).toMatch(/ {2}git -C (\S+) add sites\/fernhollow\/visits\//)
    expect(said).toMatch(/report service \S+ --ledger \S+/)
    const plain = cleanLedger()
    const without = new Spoken(plain, { by: 'sorrel' })
    for (const line of trapCheck) await without.answer(line)
    const told = (await without.last('')).said
    expect(told).toContain('report service fernhollow/')
    expect(told).not.toContain('git add')
  })
})

const asNobody = {
  ...process.env,
  GIT_AUTHOR_NAME: 'Example',
  GIT_AUTHOR_EMAIL: 'example@invalid.example',
  GIT_COMMITTER_NAME: 'Example',
  GIT_COMMITTER_EMAIL: 'example@invalid.example',
  GIT_CONFIG_GLOBAL: '/dev/null',
  GIT_CONFIG_NOSYSTEM: '1',
}

describe('what is wrong with a piece of work', () => {
  it('is said when it is told: a photo that is not there yet, which then can be put there', async () => {
    const folder = cleanLedger()
    const spoken = new Spoken(folder, { by: 'sorrel' })
    for (const line of ['06:00', 'trap-check']) await spoken.answer(line)
    const missing = 'sites/fernhollow/visits/a.jpg is not there yet'
    expect(await spoken.answer('photo a.jpg the drain')).toContain(missing)
    for (const line of ['', '', '', '']) await spoken.answer(line)
    expect(await spoken.answer('06:40')).toContain(
      'It cannot be written so: u, go AREA, q; Enter looks again',
    )
    expect(await spoken.answer('')).toContain('It cannot be written so')
    expect(existsSync(join(folder, record))).toBe(false)
    writeFileSync(join(folder, 'sites/fernhollow/visits/a.jpg'), 'a picture')
    expect(await spoken.answer('')).toContain('Anything else?')
    expect((await spoken.last('')).code).toBe(0)
    expect(readFileSync(join(folder, record), 'utf8')).toContain('photo-1: {file: a.jpg, shows: the drain}')
  })

  it('is said when it is told: a treated plant put back that nobody saw dry', async () => {
    const folder = cleanLedger()
    const spoken = new Spoken(folder, { by: 'sorrel' })
    for (const line of ['06:00', 'trap-check']) await spoken.answer(line)
    const asked = await spoken.answer('plant fern-1 removed gnats, sprayed contractor yard, returned sill')
    expect(asked).toContain('Who saw it dry?')
    expect(asked).not.toContain('[plant-returned-wet]')
    expect(await spoken.answer('')).toContain('[plant-returned-wet]')
    await spoken.answer('u')
    expect(await spoken.answer('moss')).not.toContain('[plant-returned-wet]')
  })

  it('hinders no one from recording what was done', async () => {
    const folder = cleanLedger()
    const spoken = new Spoken(folder, { by: 'sorrel' })
    const wet = 'plant fern-1 removed gnats, sprayed contractor yard, returned sill'
    for (const line of ['06:00', 'trap-check', wet, '', '', '', '', '']) await spoken.answer(line)
    const shown = await spoken.answer('06:40')
    expect(shown).toContain('plant-returned-wet')
    expect(shown).toContain('what stands above stays open')
    expect((await spoken.last('')).code).toBe(0)
    const check = await run(folder, ['check', '--as-of', today])
    expect([check.code, check.out]).toEqual([1, expect.stringContaining('plant-returned-wet')])
  })
})

describe('a page typed by a clerk weeks later', () => {
  const own = underOwnRulebook(`
records:
  within:
    - {from: 2026-03-01, within: 5 days, source: "Invented Pest Act, section 6", kind: law, confidence: read}
`)
  const station = `
=== sites/oak/visits/2026-03-06-okafor.yaml
purpose: set-up
by: okafor
set: {B1: {kind: bait-station, area: kitchen, secured: yes, marked: yes, within-reach: no}}
`
  const file = 'sites/oak/visits/2026-03-12-okafor.yaml'
  const checked = (folder: string) => run(folder, ['check', '--as-of', '2026-04-20', file])

  async function typed(onPaper: string): Promise<string> {
    const folder = ledgerFolder(own + station)
    const spoken = new Spoken(folder, { by: 'okafor', on: '2026-03-12' }, { site: 'oak', on: '2026-04-20' })
    expect(await spoken.prompt()).toContain('Who types this? [okafor]')
    for (const line of ['lind', onPaper, '6:10 6:50', 'trap-check', 'B1 some added 1 g bait-a'])
      await spoken.answer(line)
    expect((await spoken.last('')).code).toBe(0)
    return folder
  }

  it('says who made the visit, who typed it and when the page was filled in, and is not late', async () => {
    const folder = await typed('')
    expect(readFileSync(join(folder, file), 'utf8')).toContain(
      'by: okafor\nentered-by: lind\non-paper: 2026-03-12\ntime: 06:10 to 06:50\n',
    )
    expect((await checked(folder)).out).not.toContain('application-record-late')
  })

  it('is late where the page itself was', async () => {
    const folder = await typed('2026-03-18')
    expect((await checked(folder)).out).toContain('application-record-late')
  })

  it('bears no day before the visit, and a file bears what the command says', async () => {
    const folder = ledgerFolder(own + station)
    const today = { DOORSWEEP_TODAY: '2026-04-20' }
    const visit = (...args: string[]) =>
      run(folder, ['visit', 'oak', '--by', 'okafor', '--on', '2026-03-12', ...args], today)
    const early = await visit('--on-paper', '2026-03-11')
    expect([early.code, early.err]).toEqual([2, expect.stringContaining('not filled in before it')])
    const blank = await visit('--blank')
    expect(blank.out).toContain('# entered-by: reyes # who types this')
    expect((await visit('--blank', '--entered-by', 'lind')).out).toContain('\nentered-by: lind\n')
    const page = join(newFolder(), 'page.yaml')
    writeFileSync(page, 'purpose: trap-check\nby: okafor\nreadings: {none: [K1]}\n')
    const silent = await visit('--file', page, '--entered-by', 'lind')
    expect([silent.code, silent.err]).toEqual([2, expect.stringContaining('entered-by: lind')])
    expect(existsSync(join(folder, file))).toBe(false)
    writeFileSync(page, 'purpose: trap-check\nby: okafor\nentered-by: lind\nreadings: {none: [K1]}\n')
    const written = await visit('--file', page, '--entered-by', 'lind')
    expect([written.code, written.out]).toEqual([0, `${file}\n`])
    expect(written.err).toContain('doorsweep report service oak/2026-03-12-okafor')
  })

  it('without a terminal is told how to do it from a file, with what was said already', async () => {
    const folder = ledgerFolder()
    const ran = await run(
      folder,
      ['visit', 'oak', '--by', 'okafor', '--on', '2026-03-12', '--entered-by', 'lind'],
      {
        DOORSWEEP_TODAY: '2026-04-20',
      },
    )
    expect([ran.code, ran.out]).toEqual([2, ''])
    expect(ran.err).toContain(
      'doorsweep visit oak --by okafor --on 2026-03-12 --entered-by lind --blank > visit.yaml',
    )
    expect(existsSync(join(folder, '.doorsweep'))).toBe(false)
  })
})
