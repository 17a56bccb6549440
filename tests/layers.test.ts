import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { expect, it } from 'vitest'

/** The floors of the house, from the ground up. A file may import from its own floor and from those below. */
const floors = [
  'types.ts',
  'measure',
  'files',
  'records',
  'ledger',
  'rules',
  'check',
  'reports',
  'output',
  'writing',
  'cli',
]

const root = new URL('../src/', import.meta.url).pathname

function importsOf(file: string, withTypes = true): string[] {
  const whole = readFileSync(join(root, file), 'utf8')
  const text = withTypes ? whole : whole.replace(/^(?:import|export) type [^;]*?from '[^']+'/gm, '')
  return [...text.matchAll(/(?:from|import\()\s*'(\.[^']+)'/g)].map((match) =>
    join(file, '..', match[1] ?? ''),
  )
}

const sources = readdirSync(root, { recursive: true, encoding: 'utf8' }).filter((file) =>
  file.endsWith('.ts'),
)

const floorOf = (file: string) => floors.indexOf(file.replace(/\.js$/, '.ts').split('/')[0] ?? '')

it('finds the sources', () => {
  expect(sources.length).toBeGreaterThan(50)
})

it('imports run one way, each from the same floor or from one below', () => {
  const upward = sources
    .filter((file) => !file.startsWith('tools/'))
    .flatMap((file) => importsOf(file).map((target) => ({ file, target })))
    .filter(({ file, target }) => floorOf(target) > floorOf(file) || floorOf(target) === -1)
  expect(upward).toEqual([])
})

it('numbers and shared types import nothing of the house', () => {
  const inward = sources
    .filter((file) => file === 'types.ts' || file.startsWith('measure/'))
    .flatMap((file) => importsOf(file).map((target) => ({ file, target })))
    .filter(({ target }) => floorOf(target) !== floors.indexOf('measure'))
  expect(inward).toEqual([])
})

it('only the command line knows the clock, the environment and the arguments', () => {
  const knowing = sources
    .filter((file) => !file.startsWith('cli/') && !file.startsWith('tools/'))
    .filter((file) =>
      /\bDate\.now\b|new Date\(\)|process\.(?:argv|env|cwd)|Math\.random|toLocale|localeCompare/.test(
        readFileSync(join(root, file), 'utf8'),
      ),
    )
  // git needs the environment to be found at all; it is passed on, never read.
  expect(knowing).toEqual(['files/git.ts'])
})

it('no two files import each other in a circle', () => {
  const graph = new Map(
    sources.map((file) => [file, importsOf(file, false).map((target) => target.replace(/\.js$/, '.ts'))]),
  )
  const done = new Set<string>()
  const circle = (file: string, trail: readonly string[]): readonly string[] | undefined => {
    if (trail.includes(file)) return [...trail, file]
    if (done.has(file)) return undefined
    for (const target of graph.get(file) ?? []) {
      const found = circle(target, [...trail, file])
      if (found) return found
    }
    done.add(file)
    return undefined
  }
  expect(sources.map((file) => circle(file, [])).find((found) => found !== undefined)).toBeUndefined()
})
