import { execFileSync } from 'node:child_process'
import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { ledgerWith } from '../../../src/rules/base-ledger.js'
import type { Ran } from '../../cli/run-doorsweep.js'
import { newFolder, run, writeFiles } from '../../cli/run-doorsweep.js'

/** One commit of a scenario. */
export interface Written {
  /** Its name in the scenario, by which later ones say what they follow. */
  readonly as?: string
  /** When it was committed: a day (noon in the zone of the example district) or a moment with its offset. */
  readonly on: string
  /** When it was written, where that was another time. */
  readonly writtenOn?: string
  readonly by?: string
  /** Files by their path in the ledger; null takes one away. */
  readonly files?: Readonly<Record<string, string | null>>
  /** The commit that it follows; the one before it if not said. */
  readonly follows?: string
  /** The others that it brings together with that one. Its files are those of `follows` and then `files`. */
  readonly merges?: readonly string[]
}

/** A repository as a list of commits has made it. */
export interface Scenario {
  readonly folder: string
  readonly ledger: string
  readonly ids: ReadonlyMap<string, string>
  /** What `doorsweep history` says, on 2026-06-30 if nothing else is said. */
  readonly history: (...args: string[]) => Promise<Told>
  readonly git: (...args: string[]) => string
}

export interface Told extends Ran {
  readonly headline: string
  readonly notExamined: readonly string[]
  readonly facts: ReadonlyMap<string, string>
  /** Rows of a table, without the columns that name its commit. */
  readonly rows: (table: string) => readonly Readonly<Record<string, unknown>>[]
  /** Some columns of every row of a table. */
  readonly cells: (table: string, ...columns: string[]) => readonly (readonly unknown[])[]
}

export const okafor = 'Ada Okafor <ada@pest.example>'
export const lind = 'Tor Lind <lind@school.example>'

const names = {
  GIT_CONFIG_GLOBAL: '/dev/null',
  GIT_CONFIG_NOSYSTEM: '1',
  GIT_AUTHOR_NAME: 'Ada Okafor',
  GIT_AUTHOR_EMAIL: 'ada@pest.example',
  GIT_COMMITTER_NAME: 'Ada Okafor',
  GIT_COMMITTER_EMAIL: 'ada@pest.example',
}

/** Runs git in a folder, whatever the user, the machine and its settings are. Dates as GIT_AUTHOR_DATE has them. */
export function gitIn(
  folder: string,
  args: readonly string[],
  input = '',
  date = '2026-03-06T12:00:00-08:00',
): string {
  return execFileSync(
    'git',
    [
      '-c',
      'commit.gpgsign=false',
      '-c',
      'protocol.file.allow=always',
      '-c',
      'init.defaultBranch=main',
      ...args,
    ],
    {
      cwd: folder,
      input,
      stdio: ['pipe', 'pipe', 'ignore'],
      env: { PATH: process.env.PATH ?? '', ...names, GIT_AUTHOR_DATE: date, GIT_COMMITTER_DATE: date },
    },
  ).toString('latin1')
}

/**
 * A repository whose first commit is the example ledger, with an overlay, on 2026-03-06; then the commits given. All at
 * once, through `git fast-import`, so that every date and every parent is as it says. `at` puts the ledger into a folder.
 */
export function scenario(
  commits: readonly Written[],
  { overlay = '', at = '', format = 'sha1', checkedOut = false } = {},
): Scenario {
  const folder = newFolder()
  gitIn(folder, ['init', '-q', '--template=', `--object-format=${format}`])
  const first: Written = {
    as: 'first',
    on: '2026-03-06',
    files: Object.fromEntries(ledgerWith(overlay)),
  }
  const marks = new Map<string, number>()
  let stream = ''
  for (const [n, commit] of [first, ...commits].entries()) {
    marks.set(commit.as ?? `commit ${n}`, n + 1)
    stream += importText(commit, n + 1, marks, at)
  }
  const list = join(newFolder(), 'marks')
  gitIn(folder, ['fast-import', '--quiet', '--date-format=raw', `--export-marks=${list}`], `${stream}done\n`)
  if (checkedOut) gitIn(folder, ['checkout', '-q', '-f', 'main'])
  // What is told is what was committed; on the disk only the mark of the ledger is needed.
  else
    writeFiles(join(folder, at), new Map([['district.yaml', ledgerWith(overlay).get('district.yaml') ?? '']]))
  const byMark = new Map(
    readFileSync(list, 'utf8')
      .trim()
      .split('\n')
      .map((line) => line.slice(1).split(' ') as [string, string]),
  )
  const ledger = join(folder, at)
  return {
    folder,
    ledger,
    ids: new Map([...marks].map(([name, mark]) => [name, byMark.get(String(mark)) ?? ''])),
    history: (...args) => history(ledger, ...args),
    git: (...args) => gitIn(folder, args),
  }
}

function importText(commit: Written, mark: number, marks: ReadonlyMap<string, number>, at: string): string {
  const by = commit.by ?? okafor
  const markOf = (name: string) => `:${marks.get(name) ?? 0}`
  const parent =
    commit.follows === undefined ? (mark === 1 ? undefined : `:${mark - 1}`) : markOf(commit.follows)
  const files = Object.entries(commit.files ?? {}).map(([path, text]) => {
    const name = at === '' ? path : `${at}/${path}`
    return text === null ? `D ${name}\n` : `M 100644 inline ${name}\n${dataText(text)}`
  })
  return [
    `commit refs/heads/main\nmark :${mark}\n`,
    `author ${by} ${rawDate(commit.writtenOn ?? commit.on)}\ncommitter ${by} ${rawDate(commit.on)}\n`,
    dataText('A commit'),
    parent === undefined ? '' : `from ${parent}\n`,
    ...(commit.merges ?? []).map((name) => `merge ${markOf(name)}\n`),
    ...files,
    '\n',
  ].join('')
}

function dataText(text: string): string {
  return `data ${Buffer.byteLength(text)}\n${text}\n`
}

/** Noon in Oregon, where the example district lies, is 20:00 or 19:00 UTC. */
function rawDate(on: string): string {
  const moment = /T/.test(on) ? Date.parse(on) : Date.parse(`${on}T20:00:00Z`)
  return `${moment / 1000} -0800`
}

/** What `doorsweep history` says of the ledger in a folder. */
export async function history(ledger: string, ...args: string[]): Promise<Told> {
  const ran = await run(ledger, ['history', '--format', 'json', ...args], { DOORSWEEP_TODAY: '2026-06-30' })
  const report = ran.out === '' ? undefined : JSON.parse(ran.out)
  const tables = new Map<string, Record<string, unknown>[]>(
    (report?.tables ?? []).map((table: { id: string; rows: Record<string, unknown>[] }) => [
      table.id,
      table.rows,
    ]),
  )
  const rows = (table: string) => {
    const found = tables.get(table)
    if (!found) throw new Error(`no table ${table}: ${ran.err}`)
    return found
  }
  return {
    ...ran,
    headline: report?.headline ?? '',
    notExamined: report?.['not-examined'] ?? [],
    facts: new Map(
      (report?.facts ?? []).map((fact: { label: string; value: string }) => [fact.label, fact.value]),
    ),
    rows,
    cells: (table, ...columns) => rows(table).map((row) => columns.map((column) => row[column])),
  }
}

/** That git shows nothing to look at: every table of findings is empty, and everything was looked at. */
export const quiet = {
  late: [],
  changed: [],
  gone: [],
  merges: [],
  dates: [],
  authors: [],
  unsigned: [],
}

/** Every table of findings, with the columns that tell its rows apart. */
export function findings(told: Told): Record<string, readonly (readonly unknown[])[]> {
  return {
    late: told.cells('late', 'record'),
    changed: told.cells('changed', 'record', 'key', 'before', 'after'),
    gone: told.cells('gone', 'record', 'what', 'to'),
    merges: told.cells('merges', 'record', 'key', 'value'),
    dates: told.cells('dates', 'what', 'record'),
    authors: told.cells('authors', 'author', 'email', 'commits'),
    unsigned: told.cells('unsigned', 'commit'),
  }
}

export const visitFile = 'sites/oak/visits/2026-03-05-okafor.yaml'

/** The visit of the example ledger, with one line put in place of another. */
export function visitWith(line = '', by = ''): string {
  const text = ledgerWith('').get(visitFile) ?? ''
  return line === '' ? text : text.replace(line, by)
}

export function complaint(date: string, ...lines: string[]): Record<string, string> {
  const text = ['by: lind', 'from: staff', 'area: kitchen', 'says: ants on the counter', ...lines]
  return { [`sites/oak/complaints/${date}-lind.yaml`]: `${text.join('\n')}\n` }
}
