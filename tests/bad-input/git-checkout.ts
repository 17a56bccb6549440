import { execFileSync } from 'node:child_process'
import { ledgerWith } from '../../src/rules/base-ledger.js'
import { temporaryFolder, writeFiles } from '../files/temporary-folder.js'

const nobody = {
  GIT_CONFIG_GLOBAL: '/dev/null',
  GIT_CONFIG_NOSYSTEM: '1',
  GIT_AUTHOR_NAME: 'Example',
  GIT_AUTHOR_EMAIL: 'example@invalid.example',
  GIT_COMMITTER_NAME: 'Example',
  GIT_COMMITTER_EMAIL: 'example@invalid.example',
}

/** Runs git in a folder as nobody in particular, whatever repository, settings or user are around the tests. */
export function git(
  folder: string,
  args: readonly string[],
  env: Readonly<Record<string, string>> = {},
): string {
  const around = Object.fromEntries(Object.entries(process.env).filter(([name]) => !name.startsWith('GIT_')))
  return execFileSync('git', ['-c', 'init.defaultBranch=main', ...args], {
    cwd: folder,
    encoding: 'utf8',
    stdio: ['ignore', 'pipe', 'ignore'],
    env: { ...around, ...nobody, ...env },
  }).trim()
}

export function commitAll(folder: string, env: Readonly<Record<string, string>> = {}): string {
  git(folder, ['add', '--all'])
  git(folder, ['commit', '--quiet', '--allow-empty', '--message', 'records'], env)
  return git(folder, ['rev-parse', 'HEAD'])
}

/** A second school in which nothing is wrong on 2026-03-20 either. */
export const elm = `
=== sites/elm/site.yaml
name: Elm School
address: 3 Example Lane
site-manager: [{from: 2026-03-01, who: lind}]
complaint-log: front office
contract: [{from: 2026-03-01, contractor: Invented Pest Services, firm: invented-pest-services, routine-visits: monthly, grace: 5 days, checks: {sticky-trap: monthly}}]
areas:
  hall: {kind: public}
=== sites/elm/visits/2026-03-05-okafor.yaml
purpose: routine
by: okafor
time: 08:10 to 08:50
site-manager: lind
complaint-log: read
inspected: [hall]
`

/** A checkout whose top is a ledger of two schools without a problem on 2026-03-20, all of it committed. */
export function checkout(overlay = elm): string {
  const root = temporaryFolder()
  writeFiles(root, ledgerWith(overlay))
  git(root, ['init', '--quiet'])
  commitAll(root)
  return root
}

/** A record in which every check finds something wrong. */
export const brokenVisit = 'purpose: [routine\n'
