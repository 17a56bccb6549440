import { execFileSync } from 'node:child_process'
import { writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { commitsToFollow, mergeBaseOf } from '../../src/files/git-merge-base.js'
import { temporaryFolder } from './temporary-folder.js'

const identity = [
  '-c',
  'user.name=Test',
  '-c',
  'user.email=test@example.invalid',
  '-c',
  'init.defaultBranch=main',
]

/** A repository, in which `commit` makes a commit with a file of its name and returns its id. */
function repository() {
  const top = temporaryFolder()
  const git = (...args: string[]) =>
    execFileSync('git', [...identity, ...args], {
      cwd: top,
      encoding: 'utf8',
      stdio: ['ignore', 'pipe', 'ignore'],
    }).trim()
  const commit = (name: string) => {
    writeFileSync(join(top, name), name)
    git('add', '-A')
    git('commit', '-q', '--no-verify', '--no-gpg-sign', '-m', name)
    return git('rev-parse', 'HEAD')
  }
  git('init', '-q')
  return { top, git, commit }
}

describe('the merge base', () => {
  it('is where the two lines part, or the older where one leads to the other', () => {
    const { top, git, commit } = repository()
    const first = commit('first')
    const parting = commit('parting')
    git('checkout', '-q', '-b', 'work')
    const ours = commit('ours')
    git('checkout', '-q', 'main')
    commit('theirs')
    git('checkout', '-q', 'work')
    expect(mergeBaseOf(top, 'main')).toEqual({ is: 'found', commit: parting })
    expect(mergeBaseOf(top, first)).toEqual({ is: 'found', commit: first })
    expect(mergeBaseOf(top, 'work')).toEqual({ is: 'found', commit: ours })
    // After main was merged into the branch, what main brought is no longer since.
    git('merge', '-q', '--no-verify', '--no-gpg-sign', '-m', 'merged', 'main')
    expect(mergeBaseOf(top, 'main')).toEqual({ is: 'found', commit: git('rev-parse', 'main') })
  })

  it('is not where there is no commit, no such name, or nothing in common', () => {
    expect(mergeBaseOf(temporaryFolder(), 'main')).toEqual({ is: 'no-checkout' })
    const { top, git, commit } = repository()
    expect(mergeBaseOf(top, 'main')).toEqual({ is: 'unknown-revision', isShallow: false })
    const first = commit('first')
    expect(mergeBaseOf(top, `${first}:first`)).toEqual({ is: 'not-a-commit' })
    git('checkout', '-q', '--orphan', 'alone')
    expect(mergeBaseOf(top, 'main')).toEqual({ is: 'no-commit-yet' })
    commit('alone')
    expect(mergeBaseOf(top, 'main')).toEqual({ is: 'no-common-commit', isShallow: false })
  })
})

describe('the commits that the next one follows', () => {
  it('are none at first, then HEAD, and in a merge also all that is merged', () => {
    const { top, git, commit } = repository()
    expect(commitsToFollow(top)).toEqual([])
    const first = commit('first')
    expect(commitsToFollow(top)).toEqual([first])
    const sides = ['a', 'b'].map((side) => {
      git('checkout', '-q', '-b', side, first)
      return commit(side)
    })
    git('checkout', '-q', 'main')
    git('merge', '-q', '--no-commit', '--no-ff', 'a', 'b')
    expect(commitsToFollow(top)).toEqual([first, ...sides])
  })

  it('are not known outside a checkout', () => {
    expect(commitsToFollow(temporaryFolder())).toBeNull()
  })
})
