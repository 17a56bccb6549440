import { execFileSync } from 'node:child_process'
import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { completed, exampleDistrict } from './completed.js'

const root = new URL('../../', import.meta.url).pathname

/** What a file imports when it is loaded: types vanish, and what is loaded on demand is not loaded yet. */
function loadedBy(file: string): readonly string[] {
  const text = readFileSync(join(root, 'src', file), 'utf8').replace(
    /^(?:import|export) type [^;]*?from '[^']+'/gm,
    '',
  )
  return [...text.matchAll(/^(?:import|export|\}) [^'\n]*?from '([^']+)'/gm)].map(([, from = '']) => from)
}

/** All packages that are loaded with a file, those of node too. */
function packagesBehind(files: readonly string[]): readonly string[] {
  const seen = new Set<string>()
  const packages = new Set<string>()
  const walk = (file: string) => {
    if (seen.has(file)) return
    seen.add(file)
    for (const from of loadedBy(file))
      if (from.startsWith('.')) walk(join(file, '..', from).replace(/\.js$/, '.ts'))
      else packages.add(from)
  }
  files.forEach(walk)
  return [...packages].sort()
}

describe('completion is asked at every press of a key', () => {
  it('so it loads no package but commander, and nothing that could run another program', () => {
    const own = readdirSync(join(root, 'src/cli/complete'))
    expect(own.length).toBeGreaterThan(5)
    const files = ['cli/main.ts', 'cli/ledger-root.ts', ...own.map((file) => `cli/complete/${file}`)]
    expect(packagesBehind(files)).toEqual(['commander', 'node:fs', 'node:path', 'node:url'])
  })

  // As installed, one command is loaded alone; here, as written, all of them are.
  it.each([
    [['report', 'trend', '--site', '']],
    [['report', '']],
    [['check', '-']],
    [['log', 'repair', 'x', '--site', 'ottermere', '--']],
    [['explain', 'c']],
    [['log-write', '']],
    [['no-such-command', '']],
    [['help', 'lo']],
    [['']],
  ])('%j: the same, whether one command is loaded or all are', async (words) => {
    const out = execFileSync('node', [join(root, 'bin/doorsweep.js'), 'complete', '--', ...words], {
      cwd: exampleDistrict,
      encoding: 'utf8',
    })
    expect(out.split('\n').slice(0, -1)).toEqual(await completed(words))
  })
})
