import { describe, expect, it } from 'vitest'
import { ledgerWith } from '../../../src/rules/base-ledger.js'
import { complaint, findings, gitIn, lind, quiet, scenario, visitFile, visitWith } from './git-scenario.js'

describe('an author', () => {
  it('whom the ledger does not know is told once, with how many commits', async () => {
    const by = 'Max Nobody <max@nowhere.example>'
    const told = await scenario([
      { on: '2026-03-11', by, files: complaint('2026-03-10') },
      { on: '2026-03-12', by, files: complaint('2026-03-11') },
    ]).history()
    expect(findings(told)).toEqual({ ...quiet, authors: [['Max Nobody', 'max@nowhere.example', 2]] })
    expect(told.cells('authors', 'changed', 'first', 'last')).toEqual([[2, '2026-03-11', '2026-03-12']])
  })

  it('is known by name, whatever the capitals and blanks, or by an e-mail that a person commits as', async () => {
    const person = `${ledgerWith('').get('people/lind.yaml')}commits-as: [office@school.example]\n`
    const told = await scenario([
      { on: '2026-03-10', by: 'tor  LIND <other@school.example>', files: complaint('2026-03-09') },
      {
        on: '2026-03-11',
        by: 'Front desk <Office@school.example>',
        files: { ...complaint('2026-03-10'), 'people/lind.yaml': person },
      },
    ]).history()
    expect(findings(told)).toEqual(quiet)
  })

  it('may be another than who did it or typed it', async () => {
    const told = await scenario([
      {
        on: '2026-03-11',
        by: 'Ines Marsh <ines@school.example>',
        files: complaint('2026-03-10', 'entered-by: okafor'),
      },
    ]).history()
    expect(findings(told)).toEqual(quiet)
  })

  it('with no name and a name in an old encoding are told as git has them', async () => {
    const { git, history, ledger } = scenario([], { checkedOut: true })
    const head = git('rev-parse', 'HEAD').trim()
    git('rm', '-q', '--cached', visitFile)
    const tree = git('write-tree').trim()
    const lines = [
      `tree ${tree}\nparent ${head}\n`,
      'author Jos\xe9 N\xe1dor <> 1773259200 +0000\ncommitter x <x> 1773259200 +0000\nencoding ISO-8859-1\n\nGone\n',
    ]
    const { execFileSync } = await import('node:child_process')
    const id = execFileSync('git', ['hash-object', '-t', 'commit', '-w', '--stdin', '--literally'], {
      cwd: ledger,
      input: Buffer.from(lines.join(''), 'latin1'),
    })
      .toString()
      .trim()
    git('update-ref', 'HEAD', id)
    expect((await history()).cells('authors', 'author', 'email')).toEqual([['José Nádor', null]])
  })
})

describe('a commit without a signature', () => {
  const asks = (from: string) => ({
    'district.yaml': `${ledgerWith('').get('district.yaml')}signed-commits: [{from: ${from}}]\n`,
  })
  const signed = (kind: string) =>
    `gpgsig -----BEGIN ${kind}-----\n \n aW52ZW50ZWQ=\n -----END ${kind}-----\n`

  it('is told from the day on which the district asks for one', async () => {
    const told = await scenario([
      { on: '2026-03-10', by: lind, files: complaint('2026-03-10') },
      { on: '2026-03-20', files: asks('2026-03-20') },
      { as: 'bare', on: '2026-03-21', by: lind, files: complaint('2026-03-21') },
    ]).history()
    expect(told.cells('unsigned', 'committed', 'author')).toEqual([
      ['2026-03-20', 'Ada Okafor'],
      ['2026-03-21', 'Tor Lind'],
    ])
    expect(told.facts.get('Signatures')).toBe(
      '0 of 4 commits bear one; whether any is good was not looked at',
    )
  })

  it('is not told where none is asked for', async () => {
    const told = await scenario([]).history()
    expect(told.rows('unsigned')).toEqual([])
    expect(told.facts.get('Signatures')).toMatch(/The district asks for none/)
  })

  it.each(['PGP SIGNATURE', 'SSH SIGNATURE', 'SIGNED MESSAGE'])(
    'is not told where there is one, good or not: %s',
    async (kind) => {
      const { git, history, ledger } = scenario([{ on: '2026-03-10', files: asks('2026-03-11') }], {
        checkedOut: true,
      })
      const head = git('rev-parse', 'HEAD').trim()
      git(
        'update-index',
        '--add',
        '--cacheinfo',
        `100644,${git('hash-object', '-w', visitFile).trim()},${visitFile.replace('05', '06')}`,
      )
      const who = 'Ada Okafor <ada@pest.example> 1773345600 +0000'
      const text = `tree ${git('write-tree').trim()}\nparent ${head}\nauthor ${who}\ncommitter ${who}\n${signed(kind)}\nSigned\n`
      git('update-ref', 'HEAD', gitIn(ledger, ['hash-object', '-t', 'commit', '-w', '--stdin'], text).trim())
      const told = await history()
      expect(told.rows('unsigned')).toEqual([])
      expect(told.facts.get('Signatures')).toMatch(/^1 of 3 commits bear one/)
      expect(visitWith()).not.toBe('')
    },
  )
})
