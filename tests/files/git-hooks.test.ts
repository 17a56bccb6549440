import { execFileSync } from 'node:child_process'
import { mkdirSync, realpathSync, symlinkSync } from 'node:fs'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import { hooksFolder, ledgerInCheckout } from '../../src/files/git-hooks.js'
import { temporaryFolder } from './temporary-folder.js'

beforeEach(() => {
  vi.stubEnv('GIT_CONFIG_GLOBAL', '/dev/null')
  vi.stubEnv('GIT_CONFIG_NOSYSTEM', '1')
})
afterEach(() => {
  vi.unstubAllEnvs()
})

const git = (folder: string, ...args: string[]) => execFileSync('git', args, { cwd: folder, stdio: 'ignore' })

function checkout(): string {
  const top = realpathSync(temporaryFolder())
  git(top, 'init', '-q')
  return top
}

describe('where a ledger lies in a checkout', () => {
  it('is its folder from the top, in a folder, in one of a blank, or the top itself; also through a link', () => {
    const top = checkout()
    mkdirSync(join(top, 'a b/records'), { recursive: true })
    expect(ledgerInCheckout(join(top, 'a b/records'))).toEqual({ top, prefix: 'a b/records' })
    expect(ledgerInCheckout(top)).toEqual({ top, prefix: '' })
    const link = join(realpathSync(temporaryFolder()), 'link')
    symlinkSync(join(top, 'a b'), link)
    expect(ledgerInCheckout(join(link, 'records'))).toEqual({ top, prefix: 'a b/records' })
  })

  it('is nowhere outside one', () => {
    expect(ledgerInCheckout(temporaryFolder())).toBeUndefined()
  })
})

describe('the folder of hooks', () => {
  it('is that of the repository', () => {
    const top = checkout()
    expect(hooksFolder(top)).toEqual({ folder: join(top, '.git/hooks'), isOfSettings: false })
  })

  it.each([
    ['from the top', 'my hooks', (top: string) => join(top, 'my hooks')],
    ['from the root', '/invented/hooks', () => '/invented/hooks'],
    ['from home', '~/hooks', () => '/invented/home/hooks'],
  ])('is that of the settings, %s', (_, set, expected) => {
    vi.stubEnv('HOME', '/invented/home')
    const top = checkout()
    git(top, 'config', 'core.hooksPath', set)
    expect(hooksFolder(top)).toEqual({ folder: expected(top), isOfSettings: true })
  })

  it('is that of the checkout where it and the user say different ones', () => {
    const top = checkout()
    const own = join(top, 'settings')
    execFileSync('git', ['config', '-f', own, 'core.hooksPath', '/invented/everywhere'])
    vi.stubEnv('GIT_CONFIG_GLOBAL', own)
    expect(hooksFolder(top)?.folder).toBe('/invented/everywhere')
    git(top, 'config', 'core.hooksPath', '/invented/here')
    expect(hooksFolder(top)?.folder).toBe('/invented/here')
  })

  it('is unknown outside a checkout, and where the settings cannot be read', () => {
    expect(hooksFolder(temporaryFolder())).toBeUndefined()
    const top = checkout()
    git(top, 'config', 'core.hooksPath', '~no-such-person-at-all/hooks')
    expect(hooksFolder(top)).toBeUndefined()
  })
})
