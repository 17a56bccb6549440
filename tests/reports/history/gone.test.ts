import { describe, expect, it } from 'vitest'
import { ledgerWith } from '../../../src/rules/base-ledger.js'
import { complaint, findings, lind, quiet, scenario, visitFile, visitWith } from './git-scenario.js'

const first = 'sites/oak/complaints/2026-03-10-lind.yaml'
const noted = { as: 'noted', on: '2026-03-11', by: lind, files: complaint('2026-03-10') }

describe('a record that is gone', () => {
  it('is told, with who deleted it', async () => {
    const told = await scenario([noted, { on: '2026-03-20', files: { [first]: null } }]).history()
    expect(findings(told)).toEqual({ ...quiet, gone: [[first, 'deleted', null]] })
    expect(told.cells('gone', 'author', 'committed', 'since')).toEqual([['Ada Okafor', '2026-03-20', null]])
    expect(told.headline).toBe('In 3 commits git shows one record deleted or renamed.')
  })

  it('is told with both names when it was renamed, also out of the folder of records', async () => {
    const to = 'sites/oak/complaints/2026-03-09-lind.yaml'
    const text = complaint('2026-03-10')[first] ?? ''
    const told = await scenario([
      noted,
      { on: '2026-03-12', files: { [first]: null, [to]: text } },
      { on: '2026-03-13', files: { [to]: null, 'old/complaint.txt': text } },
    ]).history()
    expect(told.cells('gone', 'record', 'what', 'to')).toEqual([
      [first, 'renamed', to],
      [to, 'renamed', 'old/complaint.txt'],
    ])
    expect(told.rows('gone')[0]?.records).toEqual([first, to])
  })

  it('is one that bears the same name at another site, whatever changed in it; what changed is told too', async () => {
    const there = visitFile.replace('/oak/', '/elm/')
    const told = await scenario([
      { on: '2026-03-12', files: { [visitFile]: null, [there]: visitWith('06:50', '06:55') } },
    ]).history()
    expect(told.cells('gone', 'record', 'what', 'to')).toEqual([[visitFile, 'renamed', there]])
    expect(told.cells('changed', 'record', 'key', 'before', 'after')).toEqual([
      [there, 'time', '06:10 to 06:50', '06:10 to 06:55'],
    ])
  })

  it('is renamed also over two commits, in either order', async () => {
    const to = 'sites/oak/complaints/2026-03-09-lind.yaml'
    const text = complaint('2026-03-10')[first] ?? ''
    const told = await scenario([
      noted,
      { on: '2026-03-12', files: { [first]: null } },
      { on: '2026-03-13', files: { [to]: text } },
    ]).history()
    expect(told.cells('gone', 'record', 'what', 'to')).toEqual([[first, 'renamed', to]])
  })

  it('is told as there again when it came back, and as changed when it came back as another', async () => {
    const text = (complaint('2026-03-10')[first] ?? '').replace('ants', 'bees')
    const told = await scenario([
      noted,
      { on: '2026-03-12', files: { [first]: null } },
      { on: '2026-03-13', files: { [first]: text } },
    ]).history()
    expect(told.cells('gone', 'what', 'since')).toEqual([
      ['deleted', expect.stringMatching(/^there again since [0-9a-f]{12}$/)],
    ])
    expect(told.cells('changed', 'key', 'before', 'after')).toEqual([
      ['says', 'ants on the counter', 'bees on the counter'],
    ])
    expect(told.headline).toBe('In 4 commits git shows one record changed without a stated correction.')
  })

  it('is told as stated when the record says under its new name why it has it', async () => {
    const to = 'sites/oak/complaints/2026-03-09-lind.yaml'
    const text = complaint(
      '2026-03-10',
      'corrections: [{on: 2026-03-12, by: lind, why: it was the day before, keys: [date]}]',
    )[first]
    const told = await scenario([
      noted,
      { on: '2026-03-12', files: { [first]: null, [to]: text ?? '' } },
    ]).history()
    // Another content under another name is no rename that git can show: the record counts as deleted, and a new one as come.
    expect(told.cells('gone', 'record', 'what')).toEqual([[first, 'deleted']])
    const there = first.replace('/oak/', '/elm/')
    const moved = await scenario([
      noted,
      { on: '2026-03-12', files: { [first]: null, [there]: text ?? '' } },
    ]).history()
    expect(moved.cells('gone', 'to', 'since')).toEqual([
      [there, 'stated by lind on 2026-03-12: it was the day before'],
    ])
    expect(moved.headline).toMatch(/^In 3 commits git shows no late/)
  })

  it('is a link or a folder where the record was', async () => {
    const { git, history, ledger } = scenario([noted], { checkedOut: true })
    git('rm', '-q', first)
    git(
      'update-index',
      '--add',
      '--cacheinfo',
      `120000,${git('hash-object', '-w', '--stdin').trim()},${first}`,
    )
    git('commit', '-q', '-m', 'A link')
    expect(ledger).not.toBe('')
    expect((await history()).cells('gone', 'record', 'what')).toEqual([[first, 'deleted']])
  })

  it('is not told where district.yaml states that such records were discarded', async () => {
    const file = 'sites/oak/notices/2026-03-08-marsh.yaml'
    const district = `${ledgerWith('').get('district.yaml')}discarded: [{on: 2026-06-01, what: notices, before: 2026-04-01, by: marsh}]\n`
    const told = await scenario([
      { on: '2026-03-08', files: { [file]: 'by: marsh\napplication: 2026-03-12-okafor\n' } },
      { on: '2026-06-01', files: { [file]: null, 'district.yaml': district } },
    ]).history()
    expect(told.rows('gone')).toEqual([])
    expect(told.facts.get('Discarded as district.yaml states')).toBe('one record')
  })

  it('is not a file that is no record', async () => {
    const told = await scenario([
      { on: '2026-03-12', files: { 'products/bait-a/label.txt': null } },
    ]).history()
    expect(told.rows('gone')).toEqual([])
  })
})
