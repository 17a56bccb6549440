import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { dayOf, isoOf } from '../../../src/measure/calendar.js'
import { ledgerWith } from '../../../src/rules/base-ledger.js'
import { demoRun } from '../../../src/writing/demo/ledger.js'
import { writeDemo } from '../../../src/writing/demo/write-demo.js'
import { newFolder } from '../../cli/run-doorsweep.js'
import { findings, history, quiet, scenario, visitFile, visitWith } from './git-scenario.js'

const later = visitWith('06:10 to 06:50', '06:10 to 06:55')
const correction = (...keys: string[]) =>
  `corrections:\n  - {on: 2026-03-09, by: okafor, why: left later, keys: [${keys.join(', ')}]}\n`
const silent = { on: '2026-03-08', as: 'silent', files: { [visitFile]: later } }
const row = [visitFile, 'time', '06:10 to 06:50', '06:10 to 06:55']

describe('a committed event that was changed', () => {
  it('is told by its keys, with the value before and after, and who committed it', async () => {
    const told = await scenario([silent]).history()
    expect(findings(told)).toEqual({ ...quiet, changed: [row] })
    expect(told.cells('changed', 'what', 'author', 'committed', 'since')).toEqual([
      ['event', 'Ada Okafor', '2026-03-08', null],
    ])
    expect(told.headline).toBe('In 2 commits git shows one record changed without a stated correction.')
  })

  it('is told by the topmost key that came or went, and by each key that changed below', async () => {
    const text = visitWith('inspected: [kitchen, room-1]', 'inspected: [kitchen]')
      .replace('within-reach: no', 'within-reach: yes')
      .replace('complaint-log: read\n', '')
    const told = await scenario([
      { on: '2026-03-08', files: { [visitFile]: `${text}recommended: empty the bins\n` } },
    ]).history()
    expect(told.cells('changed', 'key', 'before', 'after')).toEqual([
      ['complaint-log', 'read', null],
      ['inspected', '[kitchen, room-1]', '[kitchen]'],
      ['set.K1.within-reach', 'no', 'yes'],
      ['recommended', null, 'empty the bins'],
    ])
  })

  it('is not one that is laid out otherwise, with keys and names in another order, or a comment', async () => {
    const text = `# looked through
time: "06:10 to 06:50"
by: okafor
purpose: routine
set: {K1: {within-reach: no, area: kitchen, kind: sticky-trap}}
inspected:
  - room-1
  - kitchen
complaint-log: read   # in the office
site-manager: lind
`
    const told = await scenario([{ on: '2026-03-08', files: { [visitFile]: text } }]).history()
    expect(findings(told)).toEqual(quiet)
  })

  it('is not one that states what was corrected; the statement has a table of its own', async () => {
    const told = await scenario([
      { on: '2026-03-09', files: { [visitFile]: later + correction('time') } },
    ]).history()
    expect(findings(told)).toEqual(quiet)
    expect(told.cells('corrections', 'record', 'on', 'by', 'why', 'keys', 'shows', 'committed')).toEqual([
      [visitFile, '2026-03-09', 'okafor', 'left later', 'time', 'the change', '2026-03-09'],
    ])
  })

  it('is, for the keys that the statement leaves out; and a key that did not change is told beside it', async () => {
    const text =
      later.replace('complaint-log: read', 'complaint-log: not found') + correction('time', 'inspected')
    const told = await scenario([{ on: '2026-03-09', files: { [visitFile]: text } }]).history()
    expect(told.cells('changed', 'key')).toEqual([['complaint-log']])
    expect(told.cells('corrections', 'shows')).toEqual([['no change of inspected']])
  })

  it('is told as stated later, when a later commit does', async () => {
    const told = await scenario([
      silent,
      { as: 'word', on: '2026-03-09', files: { [visitFile]: later + correction('time') } },
    ]).history()
    expect(told.cells('changed', 'key', 'since')).toEqual([
      ['time', expect.stringMatching(/^stated later in [0-9a-f]{12}, 2026-03-09$/)],
    ])
    expect(told.cells('corrections', 'shows')).toEqual([['the change']])
    expect(told.headline).toMatch(/^In 3 commits git shows no late/)
  })

  it('is told as put back, when a later commit does', async () => {
    const told = await scenario([silent, { on: '2026-03-10', files: { [visitFile]: visitWith() } }]).history()
    expect(told.cells('changed', 'key', 'since')).toEqual([
      ['time', expect.stringMatching(/^put back in [0-9a-f]{12}, 2026-03-10$/)],
      ['time', 'puts back what was there'],
    ])
    expect(told.headline).toMatch(/^In 3 commits git shows no late/)
  })

  it('is not settled by another line of history that never had the change', async () => {
    const other = visitWith('room-1]', 'room-1]\nrecommended: empty the bins') + correction('recommended')
    const both = other.replace('06:50', '06:55')
    const told = await scenario([
      silent,
      { as: 'aside', on: '2026-03-09', follows: 'first', files: { [visitFile]: other } },
      { on: '2026-03-10', follows: 'silent', merges: ['aside'], files: { [visitFile]: both } },
    ]).history()
    expect(findings(told)).toEqual({ ...quiet, changed: [row] })
    expect(told.cells('changed', 'since')).toEqual([[null]])
  })

  it('is one whose earlier correction was taken out or reworded', async () => {
    const told = await scenario([
      { on: '2026-03-09', files: { [visitFile]: later + correction('time') } },
      { on: '2026-03-10', files: { [visitFile]: later } },
    ]).history()
    expect(told.cells('changed', 'key', 'before', 'after')).toEqual([
      ['corrections', '{on: 2026-03-09, by: okafor, why: left later, keys: [time]}', null],
    ])
  })

  it('is compared over a version that cannot be read, which is told too', async () => {
    const told = await scenario([
      { on: '2026-03-07', files: { [visitFile]: 'purpose: [' } },
      { on: '2026-03-08', files: { [visitFile]: later } },
    ]).history()
    expect(findings(told)).toEqual({ ...quiet, changed: [row] })
    expect(told.notExamined).toEqual([
      expect.stringMatching(
        `^${visitFile}: what commit [0-9a-f]{12} made of it cannot be read as a record.$`,
      ),
    ])
    expect(told.code).toBe(2)
  })
})

describe('a past dated span of a reference file', () => {
  const file = 'people/okafor.yaml'
  const person = (spans: string) =>
    (ledgerWith('').get(file) ?? '').replace(
      'spans: [{from: 2025-01-01, until: 2026-12-31}]',
      `spans: [${spans}]`,
    )
  const changed = (...spans: string[]) =>
    scenario(spans.map((span, n) => ({ on: `2026-03-${10 + n}`, files: { [file]: person(span) } }))).history()

  it('that says something else since is told', async () => {
    const told = await changed('{from: 2025-06-01, until: 2026-12-31}')
    expect(findings(told)).toEqual({
      ...quiet,
      changed: [[file, 'licences.or-applicator.spans.from 2025-01-01.from', '2025-01-01', '2025-06-01']],
    })
    expect(told.cells('changed', 'what')).toEqual([['dated span']])
  })

  it('that is gone is told, and put back when it is there again', async () => {
    const told = await changed(
      '{from: 2027-01-01, until: 2028-12-31}',
      '{from: 2025-01-01, until: 2026-12-31}',
    )
    expect(told.cells('changed', 'key', 'before', 'after', 'since')).toEqual([
      [
        'licences.or-applicator.spans.from 2025-01-01',
        '{from: 2025-01-01, until: 2026-12-31}',
        null,
        expect.stringMatching(/^put back in/),
      ],
    ])
  })

  it.each([
    ['a new span', '{from: 2025-01-01, until: 2026-12-31}, {from: 2027-01-01, until: 2028-12-31}'],
    ['a last day that is still to come, put forward', '{from: 2025-01-01, until: 2026-06-30}'],
    ['a copy put beside', '{from: 2025-01-01, until: 2026-12-31, file: licence.pdf}'],
  ])('%s is not told', async (_, spans) => {
    const told = await changed(spans)
    expect(told.rows('changed')).toEqual([])
  })

  it('the end of an open one is not told, though it lies in the past; another end afterwards is', async () => {
    const told = await changed(
      '{from: 2025-01-01}',
      '{from: 2025-01-01, until: 2026-03-01}',
      '{from: 2025-01-01, until: 2026-03-08}',
    )
    expect(told.cells('changed', 'before', 'after')).toEqual([['2026-03-01', '2026-03-08']])
  })

  it('several of one day are told apart', async () => {
    const text = (ledgerWith('').get('district.yaml') ?? '').replace(
      '  - {from: 2026-03-01, rulebook: us-federal}\n',
      '  - {from: 2026-03-01, rulebook: oregon}\n',
    )
    const told = await scenario([{ on: '2026-03-10', files: { 'district.yaml': text } }]).history()
    expect(told.cells('changed', 'key', 'before', 'after')).toEqual([
      ['rulebooks.from 2026-03-01.rulebook', 'us-federal', 'oregon'],
    ])
  })

  it('a day without school is noted within a week of it; one that is put in or moved much later is told', async () => {
    const district = (closed: string) =>
      (ledgerWith('').get('district.yaml') ?? '').replace(
        'until: 2026-06-12}',
        `until: 2026-06-12, closed: {${closed}}}`,
      )
    const of = (on: string, closed: string) => ({ on, files: { 'district.yaml': district(closed) } })
    const break_ = (days: string) => `spring-break: ${days}`
    const ordinary = await scenario([
      of('2026-03-08', break_('2026-03-23 to 2026-03-27')),
      of('2026-03-09', break_('2026-03-30 to 2026-04-03')),
      of('2026-03-10', `${break_('2026-03-30 to 2026-04-03')}, snow: 2026-03-06`),
    ]).history()
    expect(ordinary.rows('changed')).toEqual([])
    const late = await scenario([
      of('2026-03-08', break_('2026-03-23 to 2026-03-27')),
      of('2026-04-10', `${break_('2026-03-23 to 2026-04-03')}, snow: 2026-03-06`),
    ]).history()
    expect(late.cells('changed', 'key', 'before', 'after')).toEqual([
      [
        'calendar.from 2025-09-02.closed.spring-break',
        '2026-03-23 to 2026-03-27',
        '2026-03-23 to 2026-04-03',
      ],
      ['calendar.from 2025-09-02.closed.snow', null, '2026-03-06'],
    ])
  })

  it('what is in no dated span is edited in place, and not told', async () => {
    const told = await scenario([
      {
        on: '2026-03-10',
        files: { [file]: `${person('{from: 2025-01-01, until: 2026-12-31}')}phone: 555-0101\n` },
      },
    ]).history()
    expect(findings(told)).toEqual(quiet)
  })

  it('an exception that is stretched after it ended is told', async () => {
    const exception = (until: string) =>
      `rule: area-never-inspected\nsite: oak\nby: marsh\nwhy: closed off\nfrom: 2026-03-01\nuntil: ${until}\n`
    const of = (until: string) => ({ 'exceptions/attic.yaml': exception(until) })
    const told = await scenario([
      { on: '2026-03-02', files: of('2026-03-20') },
      { on: '2026-03-10', files: of('2026-03-31') },
      { on: '2026-04-10', files: of('2026-05-31') },
    ]).history()
    expect(told.cells('changed', 'key', 'before', 'after')).toEqual([['until', '2026-03-31', '2026-05-31']])
  })
})

describe('a generated ledger', () => {
  const until = dayOf('2026-06-30') ?? 0
  const of = async (sites: number, seed: number, clean: boolean) => {
    const folder = join(newFolder(), 'ledger')
    const { commits, truth } = demoRun({ sites, years: 2, until, seed, clean })
    await writeDemo(folder, commits, { PATH: process.env.PATH })
    return { truth, told: await history(folder) }
  }

  it('without trouble is quiet, with all its stated corrections', async () => {
    const { told } = await of(2, 57, true)
    expect(findings(told)).toEqual(quiet)
    const ofVisits = told.rows('corrections').filter(({ record }) => String(record).includes('/visits/'))
    expect(ofVisits.length).toBeGreaterThan(1)
    expect(ofVisits.every(({ shows }) => shows === 'the change')).toBe(true)
  })

  it('shows each silent change that was put into it, and no other', async () => {
    const { truth, told } = await of(3, 4, false)
    const silentOnes = truth.spoilt.filter(({ what }) => what === 'silent edit of a committed visit')
    expect(silentOnes.length).toBeGreaterThan(0)
    const found = told.rows('changed').map(({ record, key }) => {
      const [, site, , name] = String(record).split('/')
      return `${site} ${name?.slice(0, 10)} ${key}`
    })
    expect(found.sort()).toEqual(silentOnes.map(({ site, day }) => `${site} ${isoOf(day)} time`).sort())
  })
})
