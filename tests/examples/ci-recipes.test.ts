import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { parse } from 'yaml'
import { git, ledgerFolder, run } from '../cli/run-doorsweep.js'

const folder = new URL('../../examples/ci/', import.meta.url).pathname
const read = (name: string) => readFileSync(join(folder, name), 'utf8')

type Map = { readonly [key: string]: unknown }
const asMap = (value: unknown) => value as Map
const mapsIn = (value: unknown): Map[] =>
  typeof value !== 'object' || value === null
    ? []
    : [
        ...(Array.isArray(value) ? [] : [asMap(value)]),
        ...Object.values(value).flatMap((part) => mapsIn(part)),
      ]

const github = asMap(parse(read('github-workflow.yml')))
const gitlab = asMap(parse(read('gitlab-pipeline.yml')))
const githubSteps = mapsIn(github).flatMap(({ steps }) => (Array.isArray(steps) ? (steps as Map[]) : []))
const shellOf = (job: Map) =>
  [job.before_script, job.script, job.run].flatMap((lines) => (lines === undefined ? [] : lines)) as string[]
const shellLines = [...mapsIn(github), ...mapsIn(gitlab)].flatMap(shellOf)

/** What each service puts into these variables for a change to main, as it stands in the repository of `ledger`. */
const variables: Readonly<Record<string, string>> = {
  GITHUB_BASE_REF: 'main',
  CI_MERGE_REQUEST_DIFF_BASE_SHA: 'main',
}

/** The arguments of each command line of the program in a text, with variables filled in and what the shell takes left out. */
function commandLines(text: string): string[][] {
  return [...text.matchAll(/(?:^|[\s/])doorsweep(?:\.js)? (check\b[^\n`]*)/gm)].map(([, line = '']) =>
    line
      .replace(/ (?:>|\|\||#).*$/, '')
      .replace(/\$\{?(\w+)\}?/g, (_, name: string) => variables[name] ?? `\${${name}}`)
      .replaceAll('"', '')
      .trim()
      .split(/\s+/),
  )
}

/** A clean ledger in a git repository with a branch `main`, which is also known as that of a remote. */
function repository(): string {
  const root = ledgerFolder()
  git(root, 'init', '--quiet', '--initial-branch=main')
  git(root, 'add', '.')
  git(root, 'commit', '--quiet', '-m', 'records')
  git(root, 'update-ref', 'refs/remotes/origin/main', 'HEAD')
  return root
}

describe('the recipes for CI', () => {
  it('are the files that their page names, and no other', () => {
    const named = [...read('README.md').matchAll(/\]\(([\w.-]+)\)/g)].map(([, name]) => name)
    expect([...new Set(named)].sort()).toEqual(
      readdirSync(folder)
        .filter((name) => name !== 'README.md')
        .sort(),
    )
  })

  const all = ['README.md', 'github-workflow.yml', 'gitlab-pipeline.yml'].flatMap((name) =>
    commandLines(read(name)).map((args) => [name, args.join(' '), args] as const),
  )

  it('hold command lines of the program', () => {
    expect(all.map(([name]) => name)).toEqual([
      'README.md',
      'README.md',
      'github-workflow.yml',
      'github-workflow.yml',
      'gitlab-pipeline.yml',
      'gitlab-pipeline.yml',
      'gitlab-pipeline.yml',
      'gitlab-pipeline.yml',
    ])
    // No variable is left that this test knows no value for.
    expect(all.filter(([, line]) => line.includes('$'))).toEqual([])
  })

  it.each(all)('%s: %s is accepted, and green where nothing is wrong', async (_, __, args) => {
    const ran = await run(repository(), [...args, '--as-of', '2026-03-20'])
    expect([ran.code, ran.err]).toEqual([0, ''])
    expect(ran.out).not.toBe('')
  })

  it('would be seen to be refused', async () => {
    expect((await run(repository(), ['check', '--sinse', 'main'])).code).toBe(2)
  })

  it('pin what they take from others by a full version', () => {
    const uses = githubSteps.flatMap((step) => (typeof step.uses === 'string' ? [step.uses] : []))
    expect(uses.length).toBeGreaterThan(5)
    expect(uses.filter((used) => !/@(?:v\d+\.\d+\.\d+|[0-9a-f]{40})$/.test(used))).toEqual([])
    expect(asMap(gitlab['.doorsweep']).image).toMatch(/:\d+\.\d+\.\d+/)
    // The program: one version everywhere.
    const refs = githubSteps.flatMap((step) => asMap(step.with ?? {}).ref ?? [])
    expect(new Set(refs).size).toBe(1)
    expect(asMap(gitlab.variables).DOORSWEEP_VERSION).toBe(refs[0])
  })

  it('fetch enough history to find where a change began', () => {
    const records = githubSteps.filter((step) => asMap(step.with ?? {}).path === 'records')
    expect(records.map((step) => asMap(step.with)['fetch-depth'])).toEqual([0, 0])
    expect(asMap(gitlab.variables).GIT_DEPTH).toBe('0')
  })

  it('restore no cache and write nothing where they do not have to', () => {
    const keys = [...mapsIn(github), ...mapsIn(gitlab)].flatMap((map) => Object.keys(map))
    expect(keys.filter((key) => /cache/.test(key))).toEqual([])
    expect(JSON.stringify(githubSteps)).not.toContain('actions/cache')
    expect(github.permissions).toEqual({ contents: 'read' })
    expect(asMap(asMap(github.jobs).change).permissions).toBeUndefined()
    const checkouts = githubSteps.filter((step) => String(step.uses).startsWith('actions/checkout@'))
    expect(checkouts).toHaveLength(4)
    for (const step of checkouts) expect(asMap(step.with)['persist-credentials']).toBe(false)
  })

  it('put no name of a branch into a command line but as a variable in quotes', () => {
    expect(shellLines.length).toBeGreaterThan(6)
    for (const line of shellLines) {
      expect(line).not.toContain('${{')
      // Variables outside of quotes: what is left when the quoted parts are gone.
      expect(line.replace(/"[^"]*"/g, '')).not.toContain('$')
    }
  })

  it('install the program as its lock file says, and name no host that exists', () => {
    expect(shellLines.filter((line) => line.includes('npm ci && npm run build'))).toHaveLength(3)
    const hosts = readdirSync(folder).flatMap((name) =>
      [...read(name).matchAll(/https?:\/\/([^/\s]+)/g)].map(([, host]) => host),
    )
    expect(hosts.filter((host) => host !== 'git.example.org')).toEqual([])
  })
})
