import { existsSync, rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { baitApplication } from '../../src/rules/example-applications.js'
import { GitLedger, toldIn } from './git-ledger.js'
import { noLog, noSuchArea, otherSite } from './overlays.js'
import { ledgerFolder, run } from './run-doorsweep.js'

const badVisit = 'dangling-reference sites/oak/visits/2026-03-10-okafor.yaml:3:13'
const visit = 'sites/oak/visits/2026-03-05-okafor.yaml'

describe('check --staged', () => {
  it('tells what committing would bring, and counts what is committed already', async () => {
    const repository = new GitLedger(noLog)
    repository.write(noLog + noSuchArea)
    repository.git('add', '-A')
    const ran = await repository.check('--staged')
    expect([ran.code, ran.err, toldIn(ran.out)]).toEqual([1, '', [badVisit]])
    expect(ran.out).toContain(
      `Compared with HEAD (${repository.idOf('HEAD').slice(0, 12)}): 1 older problem that the change did not bring stands too`,
    )
  })

  it('sees what is staged and not what lies on the disk', async () => {
    const repository = new GitLedger('')
    repository.write(noSuchArea)
    // Not staged: nothing that committing would bring.
    expect((await repository.check('--staged')).code).toBe(0)
    repository.git('add', '-A')
    repository.write(noSuchArea.replace('kitchn', 'kitchen'))
    // Mended on the disk only: what would be committed is still wrong.
    const ran = await repository.check('--staged')
    expect([ran.code, toldIn(ran.out)]).toEqual([1, [badVisit]])
    expect(ran.out).toContain('3 | inspected: [kitchn]')
    repository.git('add', '-A')
    expect((await repository.check('--staged')).code).toBe(0)
  })

  it('tells of an old record that a staged change breaks', async () => {
    const bait = baitApplication('2026-03-12')
    const repository = new GitLedger(bait)
    repository.git('rm', '-q', '--cached', 'pest records/products/bait-a/product.yaml')
    const ran = await repository.check('--staged')
    expect(toldIn(ran.out)).toEqual([
      'product-not-in-register sites/oak/applications/2026-03-12-okafor.yaml:3:10',
    ])
  })

  it('before the first commit compares with nothing', async () => {
    const repository = new GitLedger(null)
    repository.write(noLog)
    repository.git('add', '-A')
    const ran = await repository.check('--staged')
    expect([ran.code, toldIn(ran.out)]).toEqual([1, [`complaint-log-not-read ${visit}:1:10`]])
    expect(ran.out).toContain('Compared with nothing, since there is no commit yet: no older problem stands.')
    const { compared } = JSON.parse((await repository.check('--staged', '--format', 'json')).out)
    expect(compared.commits).toEqual([])
  })

  it('with nothing staged of the ledger says that it could not be checked', async () => {
    const repository = new GitLedger(null)
    repository.write('')
    const ran = await repository.check('--staged')
    expect([ran.code, ran.out.includes('not checked: the whole ledger')]).toEqual([2, true])
  })

  it('takes the day from what is staged', async () => {
    const repository = new GitLedger('')
    const ran = await run(repository.ledger, ['check', '--staged'], { DOORSWEEP_TODAY: '2026-03-20' })
    expect([ran.code, ran.out.includes('read as of 2026-03-20')]).toEqual([0, true])
  })

  it('outside git is a mistake', async () => {
    const ran = await run(ledgerFolder(), ['check', '--staged'])
    expect([ran.code, ran.out]).toEqual([2, ''])
    expect(ran.err).toMatch(/^doorsweep: git can read no checkout at .*Without git: `doorsweep check`\.\n$/)
  })
})

describe('a merge', () => {
  /** Two branches, each with a change of its own; main is checked out. */
  function twoSides(base: string, onMain: string, onOther: string): GitLedger {
    const repository = new GitLedger(base)
    repository.git('checkout', '-q', '-b', 'other')
    repository.commit(onOther)
    repository.git('checkout', '-q', 'main')
    repository.commit(onMain)
    return repository
  }

  it('in conflict is told at the file, and is not taken for checked', async () => {
    const repository = twoSides('', noLog, noLog.replace('lind', 'marsh'))
    expect(() => repository.git('merge', '-q', 'other')).toThrow()
    const ran = await repository.check('--staged')
    expect(ran.code).toBe(2)
    expect(ran.out).toContain(visit)
    expect(ran.out).toContain('is in conflict')
    expect(ran.out).toContain('not checked: sites/oak')
  })

  it('about to be committed brings what stood on neither side, and not what the other side has', async () => {
    const elm = otherSite('elm', 'inspected: [kitchn]')
    const repository = twoSides('', noLog, elm)
    repository.git('merge', '-q', '--no-commit', '--no-ff', 'other')
    const ran = await repository.check('--staged')
    expect([ran.code, toldIn(ran.out)]).toEqual([0, []])
    expect(ran.out).toContain(
      `Compared with HEAD and what is being merged (${['HEAD', 'other'].map((name) => repository.idOf(name).slice(0, 12)).join(', ')}): 2 older problems that the change did not bring stand too`,
    )
    repository.write(noLog + elm + noSuchArea)
    repository.git('add', '-A')
    expect(toldIn((await repository.check('--staged')).out)).toEqual([badVisit])
  })
})

it('a ledger that is staged and not on the disk is looked for where it was', async () => {
  const repository = new GitLedger('')
  rmSync(join(repository.ledger, 'district.yaml'))
  const gone = await repository.check('--staged')
  expect([gone.code, gone.err.startsWith('doorsweep: There is no ledger at')]).toEqual([2, true])
  writeFileSync(join(repository.ledger, 'district.yaml'), 'format: [')
  expect(existsSync(join(repository.ledger, 'district.yaml'))).toBe(true)
  // Spoilt on the disk only: what is staged is whole.
  expect((await repository.check('--staged')).code).toBe(0)
})
