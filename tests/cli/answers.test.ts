import { spawnSync } from 'node:child_process'
import { appendFileSync, cpSync, existsSync, readdirSync, utimesSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { setTimeout } from 'node:timers/promises'
import { describe, expect, it } from 'vitest'
import { temporaryFolder } from '../files/temporary-folder.js'

const program = new URL('../../bin/doorsweep.js', import.meta.url).pathname
const example = new URL('../../examples/district', import.meta.url).pathname

/** Longer than files take to settle. */
const settling = 2100

interface Place {
  readonly root: string
  readonly cache: string
  run(...args: string[]): { readonly code: number | null; readonly out: string; readonly err: string }
}

function place(): Place {
  const root = join(temporaryFolder(), 'ledger')
  const cache = join(temporaryFolder(), 'cache')
  cpSync(example, root, { recursive: true })
  return {
    root,
    cache,
    run(...args) {
      const { status, stdout, stderr } = spawnSync(process.execPath, [program, ...args], {
        cwd: root,
        encoding: 'utf8',
        env: { ...process.env, DOORSWEEP_CACHE: cache },
      })
      return { code: status, out: stdout, err: stderr }
    },
  }
}

const kept = ({ cache }: Place, folder: string) =>
  existsSync(join(cache, folder)) ? readdirSync(join(cache, folder)) : []

describe('the same bytes', () => {
  it('cold, warm, without a cache, in one thread and in four, on a day and the next', async () => {
    const { run, ...rest } = place()
    await setTimeout(settling)
    for (const day of ['2026-06-30', '2026-07-01', '2026-06-30']) {
      const check = ['check', '--as-of', day, '--format', 'json']
      const first = run(...check)
      expect(first.out.length).toBeGreaterThan(1000)
      for (const how of [[], ['--no-cache', '--threads', '4']]) expect(run(...check, ...how)).toEqual(first)
    }
    expect(run('check', '--threads', '1')).toEqual(run('check', '--no-cache'))
    expect(kept({ run, ...rest }, 'answers').length).toBeGreaterThan(1)
  })

  it('of what is due at one site', async () => {
    const { run, ...rest } = place()
    await setTimeout(settling)
    const due = ['due', '--site', 'ottermere', '--as-of', '2026-06-30']
    const first = run(...due)
    expect(kept({ run, ...rest }, 'answers')).toHaveLength(1)
    expect(run(...due)).toEqual(first)
    expect(first.code).toBe(0)
  })
})

describe('a kept answer is given no more', () => {
  const check = ['check', '--as-of', '2026-06-30', '--format', 'json']

  it('when a file has changed, though its time and size were put back', async () => {
    const { root, run } = place()
    await setTimeout(settling)
    const first = run(...check)
    const file = join(root, 'sites/ottermere/site.yaml')
    writeFileSync(join(root, 'sites/ottermere/visits/2026-06-29-nobody.yaml'), 'purpose: routine\n')
    expect(run(...check).out).not.toBe(first.out)
    appendFileSync(file, 'no-such-key: 1\n')
    utimesSync(file, new Date(0), new Date(0))
    expect(run(...check).out).toContain('no-such-key')
  })

  it('when a broken record was laid down that git is told to ignore', async () => {
    const { root, run } = place()
    writeFileSync(join(root, '.gitignore'), 'sites/ottermere/visits/\n')
    await setTimeout(settling)
    expect(run(...check).code).toBe(1)
    writeFileSync(join(root, 'sites/ottermere/visits/2026-06-29-okafor.yaml'), 'purpose: [')
    expect(run(...check).code).toBe(2)
  })

  it('when a ledger was begun nearer by', async () => {
    const { root, run } = place()
    await setTimeout(settling)
    const named = ['check', '--as-of', '2026-06-30', 'sites/ottermere']
    expect(run(...named).code).toBe(1)
    cpSync(join(root, 'district.yaml'), join(root, 'sites/ottermere/district.yaml'))
    expect(run(...named).out).not.toContain('sites/ottermere/')
  })

  it('for another day, when the answer was for today', async () => {
    const { root, cache } = place()
    await setTimeout(settling)
    const on = (today: string) =>
      spawnSync(process.execPath, [program, 'check', '--format', 'json'], {
        cwd: root,
        encoding: 'utf8',
        env: { ...process.env, DOORSWEEP_CACHE: cache, DOORSWEEP_TODAY: today },
      }).stdout
    expect(on('2026-06-30')).toContain('"as-of": "2026-06-30"')
    expect(on('2026-07-01')).toContain('"as-of": "2026-07-01"')
  })
})

describe('nothing is kept', () => {
  it('of files that were written a moment ago, nor where it is not wanted, nor in the ledger', async () => {
    const placed = place()
    const { root, run } = placed
    run('check', '--as-of', '2026-06-30')
    expect(kept(placed, 'answers')).toEqual([])
    await setTimeout(settling)
    run('check', '--as-of', '2026-06-30', '--no-cache')
    run('check', '--as-of', '2026-06-30', '--rev', 'HEAD')
    expect(kept(placed, 'answers')).toEqual([])
    run('check', '--as-of', '2026-06-30')
    expect(kept(placed, 'answers')).toHaveLength(1)
    expect(readdirSync(root).filter((name) => name.startsWith('.'))).toEqual([])
  })

  it('where there is no room for it: the answer is the same', () => {
    const { root, run } = place()
    const elsewhere = spawnSync(process.execPath, [program, 'check', '--as-of', '2026-06-30'], {
      cwd: root,
      encoding: 'utf8',
      env: { ...process.env, DOORSWEEP_CACHE: join(root, 'district.yaml', 'cache') },
    })
    expect(elsewhere.stderr).toBe('')
    expect(elsewhere.stdout).toBe(run('check', '--as-of', '2026-06-30').out)
  })
})
