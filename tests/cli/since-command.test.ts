import { execFileSync } from 'node:child_process'
import { mkdirSync, renameSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { baitApplication } from '../../src/rules/example-applications.js'
import { GitLedger, toldIn } from './git-ledger.js'
import { noLog, noSuchArea, notUsable, otherSite } from './overlays.js'
import { git, ledgerFolder, newFolder, run } from './run-doorsweep.js'

const badVisit = 'dangling-reference sites/oak/visits/2026-03-10-okafor.yaml:3:13'

/** A branch `work` that left main; main went on with a gap mended. */
function branched(onMain: string, onBranch: string, onMainSince = onMain): GitLedger {
  const repository = new GitLedger(onMain)
  repository.git('checkout', '-q', '-b', 'work')
  repository.commit(onBranch)
  repository.git('checkout', '-q', 'main')
  repository.commit(onMainSince)
  repository.git('checkout', '-q', 'work')
  return repository
}

describe('check --since', () => {
  /** Read by several tests, changed by none. */
  const oldGapAndNewError = branched(noLog, noLog + noSuchArea)

  it('fails a branch on its one bad record alone, at its line, and counts what stood before', async () => {
    const repository = oldGapAndNewError
    const ran = await repository.check('--since', 'main')
    expect([ran.code, ran.err, toldIn(ran.out)]).toEqual([1, '', [badVisit]])
    expect(ran.out).toContain('12 records of 1 site read as of 2026-03-20: 1 error.\n')
    expect(ran.out).toContain(
      `\nCompared with the merge base of main and HEAD (${repository.idOf('main~1').slice(0, 12)}): 1 older problem that the change did not bring stands too; \`doorsweep check\` shows all.\n`,
    )
  })

  it('lets a branch through that brings nothing, whatever stood before', async () => {
    const ran = await branched(noLog, noLog + baitApplication('2026-03-12')).check('--since', 'main')
    expect([ran.code, toldIn(ran.out)]).toEqual([0, []])
    expect(ran.out).toContain(': no new problems.\n')
    const clean = await branched('', baitApplication('2026-03-12')).check('--since', 'main')
    expect(clean.out).toMatch(/: no older problem stands\.\n$/)
  })

  it('compares with where the branch left, not with what the other side has become', async () => {
    // The gap is mended on main since: it is still no doing of the branch, which has it from before.
    const mended = await branched(noLog, noLog + baitApplication('2026-03-12'), '').check('--since', 'main')
    expect([mended.code, toldIn(mended.out)]).toEqual([0, []])
    // A record that main has got since is not missed on the branch, and its fault is not the fault of the branch.
    const gone = await branched('', '', noSuchArea).check('--since', 'main')
    expect([gone.code, toldIn(gone.out)]).toEqual([0, []])
  })

  it('tells of an old record that it breaks from afar', async () => {
    const bait = baitApplication('2026-03-12')
    const ran = await branched(bait, `${bait}\n=== products/bait-a/product.yaml (delete)\n`).check(
      '--since',
      'main',
    )
    expect(ran.code).toBe(1)
    expect(toldIn(ran.out)).toEqual([
      'product-not-in-register sites/oak/applications/2026-03-12-okafor.yaml:3:10',
    ])
  })

  it('takes what lies on the disk, committed or not', async () => {
    const repository = new GitLedger(noLog)
    repository.write(noLog + noSuchArea)
    const ran = await repository.check('--since', 'HEAD')
    expect([ran.code, toldIn(ran.out)]).toEqual([1, [badVisit]])
  })

  it('in JSON has the commit in full and the count', async () => {
    const repository = oldGapAndNewError
    const { compared, problems } = JSON.parse(
      (await repository.check('--since', 'main', '--format', 'json')).out,
    )
    expect(compared).toEqual({
      with: 'the merge base of main and HEAD',
      commits: [repository.idOf('main~1')],
      known: 1,
      'not-compared': [],
    })
    expect(problems.map(({ rule }: { rule: string }) => rule)).toEqual(['dangling-reference'])
    const plain = JSON.parse((await repository.check('--format', 'json')).out)
    expect([plain.problems.length, 'compared' in plain]).toEqual([2, false])
  })

  it.each([[['--since', 'main']], [['--staged']]])(
    '%j: each format for machines holds what is new and not what is old',
    async (args) => {
      const repository = branched(noLog, noLog + noSuchArea)
      repository.git('reset', '-q', '--soft', 'main~1')
      for (const format of ['sarif', 'junit', 'annotations']) {
        const ran = await repository.check('--format', format, ...args)
        expect([ran.code, ran.err]).toEqual([1, ''])
        expect(ran.out).toContain('dangling-reference')
        expect(ran.out).not.toContain('complaint-log-not-read')
        // Seen from the top of the repository.
        expect(ran.out.replaceAll('%20', ' ')).toContain(
          'pest records/sites/oak/visits/2026-03-10-okafor.yaml',
        )
      }
    },
  )

  it('goes together with a path, chosen rules and a level', async () => {
    const repository = branched(noLog, noLog + noSuchArea + otherSite('elm', 'inspected: [kitchn]'))
    const elm = await repository.check('--since', 'main', 'sites/elm')
    expect(toldIn(elm.out)).toEqual(['dangling-reference sites/elm/visits/2026-03-09-okafor.yaml:3:13'])
    expect(elm.out).toContain('1 more not shown')
    // The old gap is at oak, which was not asked for.
    expect(elm.out).toContain('no older problem stands')
    const skipped = await repository.check('--since', 'main', '--skip', 'dangling-reference')
    expect([skipped.code, toldIn(skipped.out)]).toEqual([0, []])
    expect((await repository.check('--since', 'main', '--fail-on', 'never')).code).toBe(0)
  })

  it('judges both sides as of one day', async () => {
    // A routine visit is due every month: on 2026-06-01 both sides lack visits, and neither is new.
    const repository = branched('', baitApplication('2026-03-12'))
    const late = await run(repository.ledger, ['check', '--as-of', '2026-06-01'])
    expect(late.out).toContain('[visit-overdue]')
    const ran = await run(repository.ledger, ['check', '--since', 'main', '--as-of', '2026-06-01'])
    expect(ran.out).not.toContain('[visit-overdue]')
  })
})

describe('what cannot be compared', () => {
  it('is told where it was not checked before: all its problems, and that which are new is not known', async () => {
    const ran = await branched(noLog + notUsable, noLog).check('--since', 'main')
    expect(ran.code).toBe(1)
    expect(toldIn(ran.out)).toEqual(['complaint-log-not-read sites/oak/visits/2026-03-05-okafor.yaml:1:10'])
    expect(ran.out).toMatch(
      /^not compared: sites\/oak: before the change it could not be checked: .*Which of its problems are new cannot be told, so all are shown\.$/m,
    )
  })

  it('is not told where it leaves no doubt', async () => {
    const mended = await branched(notUsable, '').check('--since', 'main')
    expect([mended.code, mended.out.includes('not compared')]).toEqual([0, false])
    const elsewhere = await branched(
      notUsable + otherSite('elm'),
      otherSite('elm', 'inspected: [kitchn]'),
    ).check('--since', 'main')
    expect([elsewhere.code, elsewhere.out.includes('not compared')]).toEqual([1, false])
  })

  it('makes the exit code 2 where it cannot be read now, also when it could not before', async () => {
    const spoilt = await branched(noLog, noLog + notUsable).check('--since', 'main')
    expect([spoilt.code, spoilt.out.includes('not checked: sites/oak')]).toEqual([2, true])
    const still = await branched(notUsable, notUsable).check('--since', 'main')
    expect([still.code, still.out.includes('not checked: sites/oak')]).toEqual([2, true])
  })

  it('is everything where the ledger is newer than the merge base, and that is said', async () => {
    const repository = new GitLedger(null)
    repository.git('add', '-A')
    repository.git('commit', '-q', '-m', 'no ledger yet')
    repository.write(noLog)
    const ran = await repository.check('--since', 'HEAD')
    expect([ran.code, toldIn(ran.out)]).toEqual([
      1,
      ['complaint-log-not-read sites/oak/visits/2026-03-05-okafor.yaml:1:10'],
    ])
    expect(ran.out).toContain('Compared with HEAD, where this ledger was not yet (')
  })
})

describe('a revision that will not do', () => {
  const repository = branched('', noSuchArea)
  const refused = async (rev: string, says: string, ledger = repository.ledger) => {
    const ran = await run(ledger, ['check', '--as-of', '2026-03-20', `--since=${rev}`])
    expect([ran.code, ran.out]).toEqual([2, ''])
    expect(ran.err).toMatch(/^doorsweep: .*\n$/)
    expect(ran.err).toContain(says)
  }

  it.each([
    ['no-such-branch', 'git knows no commit no-such-branch here. A branch of a remote has to be fetched'],
    ['-h', 'git knows no commit -h here.'],
    ['--output=x', 'git knows no commit --output=x here.'],
    ['', 'git knows no commit with an empty name here.'],
    ['main..work', 'git knows no commit main..work here.'],
    ['^main', 'git knows no commit ^main here.'],
    ['0000000000000000000000000000000000000000', 'git knows no commit 0000'],
    ['HEAD:other.txt', 'HEAD:other.txt is a file or a folder in git, not a commit'],
    ['HEAD^{tree}', 'HEAD^{tree} is a file or a folder in git, not a commit'],
  ])('%j', (rev, says) => refused(rev, says))

  it('a tag does, with or without a message', async () => {
    repository.git('tag', '-a', 'v1', '-m', 'one', 'main')
    repository.git('tag', 'v2', 'main')
    for (const tag of ['v1', 'v2']) expect((await repository.check('--since', tag)).code).toBe(1)
  })

  it('one with which there is nothing in common', async () => {
    const other = new GitLedger('')
    other.git('checkout', '-q', '--orphan', 'alone')
    other.commit(noLog)
    await refused('main', 'main and HEAD have no commit in common, so there is no merge base', other.ledger)
  })

  it('outside git, and before the first commit', async () => {
    await refused('main', 'git can read no checkout at', ledgerFolder())
    const fresh = new GitLedger(null)
    fresh.write('')
    await refused('main', 'git knows no commit main here', fresh.ledger)
  })

  it('in a copy that does not go back far enough: fetch more', async () => {
    const copy = join(newFolder(), 'copy')
    execFileSync(
      'git',
      ['clone', '-q', '--depth', '1', '--no-single-branch', `file://${repository.top}`, copy],
      {
        stdio: 'ignore',
      },
    )
    const ledger = join(copy, 'pest records')
    await refused(
      'origin/main',
      'origin/main and HEAD have no commit in common as far as this copy goes.',
      ledger,
    )
    await refused('origin/main', 'set the fetch depth to 0', ledger)
    await refused('HEAD~1', 'git knows no commit HEAD~1 here. This copy of the repository is shallow', ledger)
    git(copy, 'fetch', '-q', '--unshallow')
    const ran = await run(ledger, ['check', '--as-of', '2026-03-20', '--since', 'origin/main'])
    expect([ran.code, toldIn(ran.out)]).toEqual([1, [badVisit]])
  })

  it.each([
    [['--since', 'main', '--rev', 'HEAD'], '--rev'],
    [['--since', 'main', '--staged'], '--staged'],
    [['--staged', '--rev', 'HEAD'], '--rev'],
    [['--since'], '--since'],
  ])('%j cannot be asked', async (args, named) => {
    const ran = await repository.check(...args)
    expect([ran.code, ran.out]).toEqual([2, ''])
    expect(ran.err).toContain(named)
  })
})

describe('a checkout of another shape', () => {
  it('a ledger that is the whole of it', async () => {
    const folder = ledgerFolder(noLog)
    git(folder, 'init', '-q')
    git(folder, 'add', '-A')
    git(folder, 'commit', '-q', '-m', 'records')
    mkdirSync(join(folder, 'sites/oak/complaints'))
    writeFileSync(join(folder, 'sites/oak/complaints/2026-03-12-nobody.yaml'), 'told: mice\n')
    const ran = await run(folder, [
      'check',
      '--as-of',
      '2026-03-20',
      '--since',
      'HEAD',
      '--format',
      'annotations',
    ])
    expect(ran.out).toContain('file=sites/oak/complaints/2026-03-12-nobody.yaml')
    expect(ran.out).not.toContain('complaint-log-not-read')
  })

  it('a ledger that moved to another folder is another one, and that is said', async () => {
    const repository = new GitLedger(noLog)
    renameSync(repository.ledger, join(repository.top, 'moved'))
    const ran = await run(join(repository.top, 'moved'), [
      'check',
      '--as-of',
      '2026-03-20',
      '--since',
      'HEAD',
    ])
    expect([ran.code, toldIn(ran.out).length]).toEqual([1, 1])
    expect(ran.out).toContain('where this ledger was not yet')
  })
})
