import { describe, expect, it } from 'vitest'
import { ledgerWith } from '../../../src/rules/base-ledger.js'
import { complaint, findings, lind, quiet, scenario, visitFile, visitWith } from './git-scenario.js'

const mine = 'sites/oak/complaints/2026-03-10-lind.yaml'
const theirs = complaint('2026-03-11')
const aside = { as: 'aside', on: '2026-03-12', by: lind, follows: 'first', files: theirs }
const main = { as: 'main', on: '2026-03-11', by: lind, follows: 'first', files: complaint('2026-03-10') }

describe('a merge', () => {
  it('that dropped a record of a parent is told', async () => {
    const { history, ids } = scenario([main, aside, { on: '2026-03-13', follows: 'main', merges: ['aside'] }])
    const told = await history()
    const [path = ''] = Object.keys(theirs)
    expect(findings(told)).toEqual({ ...quiet, merges: [[path, null, 'the whole record']] })
    expect(told.cells('merges', 'parent')).toEqual([[ids.get('aside')?.slice(0, 12)]])
    expect(told.headline).toBe('In 4 commits git shows one thing lost in a merge.')
  })

  it('that took over what both sides wrote is quiet', async () => {
    const told = await scenario([
      main,
      aside,
      { on: '2026-03-13', follows: 'main', merges: ['aside'], files: theirs },
    ]).history()
    expect(findings(told)).toEqual(quiet)
  })

  it('that lacks what the other side deleted is quiet; the deletion itself is told', async () => {
    const told = await scenario([
      main,
      { as: 'deleted', on: '2026-03-12', files: { [mine]: null } },
      { as: 'side', on: '2026-03-12', by: lind, follows: 'main', files: theirs },
      { on: '2026-03-13', follows: 'side', merges: ['deleted'], files: { [mine]: null } },
    ]).history()
    expect(findings(told)).toEqual({ ...quiet, gone: [[mine, 'deleted', null]] })
  })

  it('that lacks what both sides had is told as a merge, not as a deletion', async () => {
    const told = await scenario([
      main,
      { as: 'one', on: '2026-03-12', by: lind, follows: 'main', files: theirs },
      { as: 'two', on: '2026-03-12', by: lind, follows: 'main', files: complaint('2026-03-12') },
      {
        on: '2026-03-13',
        follows: 'one',
        merges: ['two'],
        files: { ...complaint('2026-03-12'), [mine]: null },
      },
    ]).history()
    expect(findings(told)).toEqual({ ...quiet, merges: [[mine, null, 'the whole record']] })
  })

  const withFound = (name: string) =>
    `${visitWith()}found:\n  ${name}: {pest: house-mouse, area: kitchen, evidence: droppings}\ncorrections:\n  - {on: 2026-03-11, by: okafor, why: left out, keys: [found.${name}]}\n`
  const one = { as: 'one', on: '2026-03-11', follows: 'first', files: { [visitFile]: withFound('by-sink') } }
  const two = { as: 'two', on: '2026-03-12', follows: 'first', files: { [visitFile]: withFound('by-oven') } }
  const together = `${visitWith()}found:
  by-sink: {pest: house-mouse, area: kitchen, evidence: droppings}
  by-oven: {pest: house-mouse, area: kitchen, evidence: droppings}
corrections:
  - {on: 2026-03-11, by: okafor, why: left out, keys: [found.by-sink]}
  - {on: 2026-03-11, by: okafor, why: left out, keys: [found.by-oven]}
`

  it('that dropped an entry of a record, and with it a stated correction, is told', async () => {
    const told = await scenario([one, two, { on: '2026-03-13', follows: 'one', merges: ['two'] }]).history()
    expect(findings(told)).toEqual({
      ...quiet,
      merges: [
        [visitFile, 'found.by-oven', '{pest: house-mouse, area: kitchen, evidence: droppings}'],
        [visitFile, 'corrections', '{on: 2026-03-11, by: okafor, why: left out, keys: [found.by-oven]}'],
      ],
    })
  })

  it('that put both entries together is quiet', async () => {
    const told = await scenario([
      one,
      two,
      { on: '2026-03-13', follows: 'one', merges: ['two'], files: { [visitFile]: together } },
    ]).history()
    expect(findings(told)).toEqual(quiet)
    expect(told.cells('corrections', 'keys', 'shows')).toEqual([
      ['found.by-sink', 'the change'],
      ['found.by-oven', 'the change'],
    ])
  })

  it('that says what no parent said is told as a change', async () => {
    const told = await scenario([
      one,
      two,
      {
        on: '2026-03-13',
        follows: 'one',
        merges: ['two'],
        files: { [visitFile]: together.replace('06:50', '07:50') },
      },
    ]).history()
    expect(findings(told)).toEqual({
      ...quiet,
      changed: [[visitFile, 'time', '06:10 to 06:50', '06:10 to 07:50']],
    })
  })

  it('that rewrote a past dated span as no parent had it is told', async () => {
    const file = 'people/okafor.yaml'
    const person = (line: string, until = '2026-12-31') =>
      `${(ledgerWith('').get(file) ?? '').replace('until: 2026-12-31', `until: ${until}`)}${line}\n`
    const told = await scenario([
      { as: 'phone', on: '2026-03-11', follows: 'first', files: { [file]: person('phone: 555-0101') } },
      { as: 'notes', on: '2026-03-12', follows: 'first', files: { [file]: person('notes: works alone') } },
      {
        on: '2026-03-13',
        follows: 'phone',
        merges: ['notes'],
        files: { [file]: person('phone: 555-0101\nnotes: works alone', '2026-03-01') },
      },
    ]).history()
    expect(findings(told)).toEqual({
      ...quiet,
      changed: [[file, 'licences.or-applicator.spans.from 2025-01-01.until', '2026-12-31', '2026-03-01']],
    })
  })

  it('of three lines of history is looked at like one of two', async () => {
    const third = complaint('2026-03-12')
    const more = { as: 'third', on: '2026-03-12', by: lind, follows: 'first', files: third }
    const all = { on: '2026-03-13', follows: 'main', merges: ['aside', 'third'] }
    const told = await scenario([main, aside, more, { ...all, files: { ...theirs, ...third } }]).history()
    expect(findings(told)).toEqual(quiet)
    const lost = await scenario([main, aside, more, { ...all, files: theirs }]).history()
    expect(lost.cells('merges', 'record')).toEqual([Object.keys(third)])
  })

  it('of lines that crossed before, and of a line that brings in nothing, is quiet', async () => {
    const told = await scenario([
      main,
      aside,
      { as: 'x', on: '2026-03-13', follows: 'main', merges: ['aside'], files: theirs },
      { as: 'y', on: '2026-03-13', follows: 'aside', merges: ['main'], files: complaint('2026-03-10') },
      { as: 'x2', on: '2026-03-14', by: lind, follows: 'x', files: complaint('2026-03-13') },
      { on: '2026-03-15', follows: 'x2', merges: ['y'] },
    ]).history()
    expect(findings(told)).toEqual(quiet)
  })

  it('of two histories with nothing in common is told where it leaves out the one', async () => {
    const { git, history, ledger } = scenario([main], { checkedOut: true })
    const { gitIn } = await import('./git-scenario.js')
    git('checkout', '-q', '--orphan', 'other')
    git('commit', '-q', '-m', 'Another beginning')
    git('rm', '-q', mine)
    gitIn(ledger, ['commit', '-q', '-m', 'Without'], '', '2026-03-14T12:00:00-08:00')
    git('checkout', '-q', 'main')
    gitIn(
      ledger,
      ['merge', '-q', '--allow-unrelated-histories', '-s', 'ours', '-m', 'Both', 'other'],
      '',
      '2026-03-15T12:00:00-08:00',
    )
    const told = await history()
    expect(told.rows('merges')).toEqual([])
    expect(told.cells('gone', 'record')).toEqual([[mine]])
  })
})
