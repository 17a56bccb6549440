import { writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { ledgerWith } from '../../src/rules/base-ledger.js'
import { baitApplication } from '../../src/rules/example-applications.js'
import { noLog } from './overlays.js'
import { git, newFolder, run, writeFiles } from './run-doorsweep.js'

const visit = 'sites/oak/visits/2026-03-05-okafor.yaml'

/** A repository with a ledger in a folder of its own: first with a gap, then without; then spoilt and not committed. */
function repository(): { readonly ledger: string } {
  const folder = newFolder()
  const ledger = join(folder, 'records')
  const commit = (overlay: string, message: string) => {
    writeFiles(ledger, ledgerWith(overlay))
    git(folder, 'add', '-A')
    git(folder, 'commit', '-q', '-m', message)
  }
  git(folder, 'init', '-q')
  commit(noLog, 'First')
  commit('', 'Log read')
  writeFileSync(join(ledger, visit), 'purpose: [')
  return { ledger }
}

describe('--rev', () => {
  const { ledger } = repository()
  const check = (...args: string[]) => run(ledger, ['check', '--as-of', '2026-03-20', ...args])

  it('reads the ledger as it stood in a revision, and not what lies on the disk', async () => {
    const now = await check()
    expect(now.code).toBe(2)
    const head = await check('--rev', 'HEAD')
    expect([head.code, head.out, head.err]).toEqual([
      0,
      '11 records of 1 site read as of 2026-03-20: no problems.\n',
      '',
    ])
    const before = await check('--rev', 'HEAD~1')
    expect(before.code).toBe(1)
    expect(before.out).toMatch(new RegExp(`^${visit}:1:10: warning: .* \\[complaint-log-not-read\\]`))
  })

  it('names the revision in JSON', async () => {
    expect(JSON.parse((await check('--rev', 'HEAD~1', '--format', 'json')).out).source).toBe('HEAD~1')
    expect(JSON.parse((await check('--format', 'json')).out).source).toBe('work tree')
  })

  it('limits what is shown to a path of the revision', async () => {
    expect((await check('--rev', 'HEAD~1', 'people')).out).toContain('no problems; 1 more not shown')
    expect((await check('--rev', 'HEAD~1', visit)).code).toBe(1)
  })

  it('goes for reports too', async () => {
    const gaps = await run(ledger, ['report', 'gaps', '--as-of', '2026-03-20', '--rev', 'HEAD~1'])
    expect([gaps.code, gaps.out.includes('One gap stands')]).toEqual([0, true])
    const page = await run(ledger, [
      'report',
      'service',
      'oak/2026-03-05-okafor',
      '--as-of',
      '2026-03-20',
      '--rev',
      'HEAD',
    ])
    expect([page.code, page.out.includes('Complaint log: read')]).toEqual([0, true])
  })

  it('goes for what is asked before an application, and for a draft that lies in the ledger', async () => {
    const folder = newFolder()
    const draft = 'sites/oak/applications/2026-03-12-okafor.yaml'
    const commit = (overlay: string, message: string) => {
      writeFiles(folder, ledgerWith(overlay))
      git(folder, 'add', '-A')
      git(folder, 'commit', '-q', '-m', message)
    }
    git(folder, 'init', '-q')
    commit('', 'Without the draft')
    commit(
      baitApplication('2026-03-12', 'status: planned', 'tried-first:'),
      'A draft that lacks what was tried',
    )
    writeFileSync(join(folder, draft), 'purpose: [')
    const precheck = (...args: string[]) => run(folder, ['precheck', ...args, '--as-of', '2026-03-10'])
    const committed = await precheck(draft, '--rev', 'HEAD')
    expect([committed.code, committed.err]).toEqual([1, ''])
    expect(committed.out).toContain('nothing-tried-first')
    expect((await precheck(draft)).code).toBe(2)
    expect(await precheck(draft, '--rev', 'HEAD~1')).toEqual({
      code: 2,
      out: '',
      err: `doorsweep: ${draft} is not in the revision HEAD~1; for a draft that lies elsewhere add --site.\n`,
    })
    // A draft on the disk is judged in the ledger of the revision: what lies spoilt in the work tree is not read.
    const elsewhere = join(newFolder(), '2026-03-13-okafor.yaml')
    const text = ledgerWith(baitApplication('2026-03-13', 'status: planned')).get(
      'sites/oak/applications/2026-03-13-okafor.yaml',
    )
    writeFileSync(elsewhere, text ?? '')
    expect((await precheck(elsewhere, '--site', 'oak', '--rev', 'HEAD~1')).code).toBe(0)
    expect((await precheck(elsewhere, '--site', 'oak')).code).toBe(2)
    const unknown = await precheck(draft, '--rev', 'no-such-branch')
    expect([unknown.code, unknown.err]).toEqual([
      2,
      'doorsweep: git knows no revision no-such-branch here.\n',
    ])
  })

  it.each(['no-such-branch', 'HEAD~9', '--output=x'])(
    '%s, which git does not know, is a mistake',
    async (rev) => {
      const ran = await check(`--rev=${rev}`)
      expect([ran.code, ran.out, ran.err]).toEqual([2, '', `doorsweep: git knows no revision ${rev} here.\n`])
    },
  )

  it('outside a repository is a mistake', async () => {
    const folder = newFolder()
    writeFiles(folder, ledgerWith(''))
    const ran = await run(folder, ['check', '--rev', 'HEAD'], {})
    expect([ran.code, ran.out]).toEqual([2, ''])
  })
})
