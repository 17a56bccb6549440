import { execFileSync } from 'node:child_process'
import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { demoLedger } from '../../../src/writing/demo/ledger.js'
import type { DemoCommit } from '../../../src/writing/demo/world.js'
import { writeDemo } from '../../../src/writing/demo/write-demo.js'
import { dayOfText } from './drawn-ledger.js'

const options = { sites: 2, years: 1, seed: 8, until: dayOfText('2026-06-30'), clean: true }
let place = ''

beforeEach(() => {
  place = mkdtempSync(join(tmpdir(), 'demo-'))
})
afterEach(() => rmSync(place, { recursive: true, force: true }))

const git = (folder: string, ...args: string[]) =>
  execFileSync('git', args, { cwd: folder, encoding: 'utf8' }).trim()

const filesIn = (folder: string) =>
  readdirSync(folder, { recursive: true, withFileTypes: true, encoding: 'utf8' })
    .filter((entry) => entry.isFile() && !join(entry.parentPath, entry.name).includes('/.git/'))
    .map((entry) => join(entry.parentPath, entry.name).slice(folder.length + 1))
    .sort()

describe('writeDemo', () => {
  it('writes a history with several authors and dated commits, and a clean work tree', async () => {
    const folder = join(place, 'ledger')
    const written = await writeDemo(folder, demoLedger(options), process.env)
    expect(written).toMatchObject({ history: 'written' })
    const log = git(folder, 'log', '--reverse', '--format=%an|%ae|%aI|%cI').split('\n')
    const authors = new Set(log.map((line) => line.split('|')[1]))
    expect(authors.size).toBeGreaterThan(6)
    expect(written).toMatchObject({ commits: log.length, files: filesIn(folder).length })
    const dates = log.map((line) => line.split('|')[2] ?? '')
    expect(dates[0]).toMatch(/^2025-07-01T07:00:00-07:00/)
    expect(dates.some((date) => date.endsWith('-08:00'))).toBe(true)
    expect(
      dates.every((date) => date.slice(0, 10) >= '2025-07-01' && date.slice(0, 10) <= '2026-06-30'),
    ).toBe(true)
    for (const line of log) expect(line.split('|')[2]).toBe(line.split('|')[3])
    expect(git(folder, 'status', '--porcelain')).toBe('')
    expect(git(folder, 'fsck', '--strict')).toBe('')
  })

  it('leaves the files of the last commit in the work tree', async () => {
    const folder = join(place, 'ledger')
    await writeDemo(folder, demoLedger(options), process.env)
    const last = new Map<string, string>()
    for (const commit of demoLedger(options)) for (const file of commit.files) last.set(file.path, file.text)
    expect(filesIn(folder)).toEqual([...last.keys()].sort())
    for (const [path, text] of last) expect(readFileSync(join(folder, path), 'utf8')).toBe(text)
  })

  it('takes a folder that is there and empty, and refuses one that is not', async () => {
    expect(await writeDemo(place, few(), process.env)).toMatchObject({ commits: 1 })
    writeFileSync(join(place, 'mine.txt'), 'mine')
    expect(await writeDemo(place, few(), process.env)).toEqual({ refused: 'not empty' })
    const file = join(place, 'mine.txt')
    expect(await writeDemo(file, few(), process.env)).toEqual({ refused: 'not a folder' })
    expect(readFileSync(file, 'utf8')).toBe('mine')
  })

  it('writes the files alone where there is no git, and says so', async () => {
    const folder = join(place, 'ledger')
    mkdirSync(join(place, 'empty-path'))
    const written = await writeDemo(folder, few(), { PATH: join(place, 'empty-path') })
    expect(written).toEqual({ commits: 1, files: 1, history: 'not written' })
    expect(existsSync(join(folder, '.git'))).toBe(false)
    expect(readFileSync(join(folder, 'a/b.txt'), 'utf8')).toBe('x\n')
  })

  it('runs no hook of a template and obeys no setting of the user', async () => {
    const template = join(place, 'template/hooks')
    mkdirSync(template, { recursive: true })
    writeFileSync(join(template, 'post-checkout'), `#!/bin/sh\ntouch ${join(place, 'ran')}\n`, {
      mode: 0o755,
    })
    const config = join(place, 'gitconfig')
    writeFileSync(config, `[init]\n\ttemplateDir = ${join(place, 'template')}\n[core]\n\tautocrlf = true\n`)
    const folder = join(place, 'ledger')
    await writeDemo(folder, few(), {
      ...process.env,
      GIT_CONFIG_GLOBAL: config,
      GIT_DIR: join(place, 'other'),
    })
    expect(existsSync(join(place, 'ran'))).toBe(false)
    expect(existsSync(join(place, 'other'))).toBe(false)
    expect(readFileSync(join(folder, 'a/b.txt'), 'utf8')).toBe('x\n')
  })

  it('tells why git failed, and leaves nothing', async () => {
    const bad: DemoCommit = {
      day: 20_000,
      minute: 1,
      author: { name: 'A <b', email: 'a@b.example' },
      message: 'x',
      files: [],
    }
    const ledger = join(place, 'ledger')
    expect(await writeDemo(ledger, [bad], process.env)).toEqual({
      failed: expect.stringContaining('fast-import'),
    })
    expect(existsSync(ledger)).toBe(false)
    mkdirSync(ledger)
    await writeDemo(ledger, [bad], process.env)
    expect(readdirSync(ledger)).toEqual([])
  })
})

function few(): DemoCommit[] {
  return [
    {
      day: 20_500,
      minute: 600,
      author: { name: 'Ada Invented', email: 'ada@invented.example' },
      message: 'one file',
      files: [{ path: 'a/b.txt', text: 'x\n' }],
    },
  ]
}
