import { describe, expect, it } from 'vitest'
import { filesOf } from '../../../src/rules/base-ledger.js'
import { baitApplication } from '../../../src/rules/example-applications.js'
import { complaint, findings, lind, quiet, scenario, visitFile, visitWith } from './git-scenario.js'

const recommended = { [visitFile]: `${visitWith()}# looked through\n` }

describe('dates that disagree', () => {
  it('a record dated after its commit is told', async () => {
    const told = await scenario([{ on: '2026-03-11', by: lind, files: complaint('2026-03-12') }]).history()
    expect(findings(told)).toEqual({
      ...quiet,
      dates: [['the record is dated after its commit', 'sites/oak/complaints/2026-03-12-lind.yaml']],
    })
    expect(told.cells('dates', 'dated', 'against')).toEqual([['2026-03-12', '2026-03-11']])
  })

  it('days are those of the district: 07:30 UTC on the 12th is 23:30 on the 11th there, 08:30 is the 12th', async () => {
    // Oregon was 8 hours behind UTC until 2026-03-08 and is 7 behind since: 06:30 UTC on the 12th is 23:30 on the 11th.
    const told = await scenario([
      { on: '2026-03-12T06:30:00Z', by: lind, files: complaint('2026-03-12') },
      { on: '2026-03-13T07:30:00Z', by: lind, files: complaint('2026-03-13') },
    ]).history()
    expect(told.cells('dates', 'record')).toEqual([['sites/oak/complaints/2026-03-12-lind.yaml']])
  })

  it('an application that is still planned is not told, nor a record whose author date alone is early', async () => {
    const planned = Object.fromEntries(filesOf(baitApplication('2026-03-20', 'status: planned'))) as Record<
      string,
      string
    >
    const told = await scenario([
      { on: '2026-03-10', files: planned },
      { on: '2026-03-12', writtenOn: '2026-03-10', by: lind, files: complaint('2026-03-12') },
    ]).history()
    expect(told.rows('dates')).toEqual([])
  })

  it('a commit dated before the one it follows is told', async () => {
    const { history, ids } = scenario([
      { as: 'noted', on: '2026-03-12', by: lind, files: complaint('2026-03-10') },
      { on: '2026-03-11T20:00:00Z', files: recommended },
    ])
    const told = await history()
    const before = ids.get('noted')?.slice(0, 12)
    expect(findings(told)).toEqual({
      ...quiet,
      dates: [[`the commit is dated before ${before}, which it follows`, null]],
    })
    expect(told.cells('dates', 'dated', 'against')).toEqual([
      ['2026-03-11 20:00 UTC', '2026-03-12 20:00 UTC'],
    ])
  })

  it('clocks that differ by less than an hour are not told, nor an author date that goes back', async () => {
    const told = await scenario([
      { on: '2026-03-12T20:00:00Z', by: lind, files: complaint('2026-03-10') },
      { on: '2026-03-12T19:10:00Z', files: recommended },
      { on: '2026-03-13', writtenOn: '2026-03-07', by: lind, files: complaint('2026-03-07') },
    ]).history()
    expect(findings(told)).toEqual(quiet)
  })

  it('a commit of 1970 and one of 2100 are told, and no record of them counts as late or in time', async () => {
    const told = await scenario([
      { on: '1970-01-01T00:00:00Z', by: lind, files: complaint('2026-03-10') },
      { on: '2100-01-01', by: lind, files: complaint('2026-03-11') },
      { on: '2026-03-13', by: lind, files: complaint('2026-03-12') },
    ]).history()
    expect(told.rows('late')).toEqual([])
    expect(told.cells('dates', 'what', 'dated')).toEqual([
      ['the record is dated after its commit', '2026-03-10'],
      [expect.stringMatching(/^the commit is dated before/), '1970-01-01 00:00 UTC'],
      ['the commit is dated after today', '2100-01-01 20:00 UTC'],
      [expect.stringMatching(/^the commit is dated before/), '2026-03-13 20:00 UTC'],
    ])
    expect(told.code).toBe(0)
  })

  it('they are told for a period that one of them is of', async () => {
    const { history } = scenario([
      { on: '2026-04-12', by: lind, files: complaint('2026-04-10') },
      { on: '1999-01-01', files: recommended },
    ])
    expect((await history('--from', '2026-04-01', '--to', '2026-04-30')).rows('dates')).toHaveLength(1)
    expect((await history('--from', '2026-05-01')).rows('dates')).toHaveLength(0)
  })

  it('a date that cannot be read is told', async () => {
    const { git, history, ledger } = scenario([], { checkedOut: true })
    const tree = git('rev-parse', 'HEAD^{tree}').trim()
    const head = git('rev-parse', 'HEAD').trim()
    const { gitIn } = await import('./git-scenario.js')
    const commit = gitIn(
      ledger,
      ['hash-object', '-t', 'commit', '-w', '--stdin', '--literally'],
      `tree ${tree}\nparent ${head}\nauthor Ada Okafor <ada@pest.example>\ncommitter Ada Okafor <ada@pest.example> soon\n\nNo date\n`,
    ).trim()
    git('rm', '-q', '--cached', visitFile)
    const without = git('write-tree').trim()
    const next = gitIn(
      ledger,
      ['hash-object', '-t', 'commit', '-w', '--stdin', '--literally'],
      `tree ${without}\nparent ${commit}\nauthor Ada Okafor <ada@pest.example>\ncommitter Ada Okafor <ada@pest.example> soon\n\nNo date\n`,
    ).trim()
    git('update-ref', 'HEAD', next)
    const told = await history()
    expect(told.cells('dates', 'what')).toEqual([['the date of the commit cannot be read']])
    expect(told.cells('gone', 'record', 'committed')).toEqual([[visitFile, null]])
  })
})
