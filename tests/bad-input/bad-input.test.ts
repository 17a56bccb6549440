import { execFileSync } from 'node:child_process'
import { chmodSync, mkdirSync, rmSync, symlinkSync, truncateSync, writeFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { ledgerWith } from '../../src/rules/base-ledger.js'
import { temporaryFolder, writeFiles } from '../files/temporary-folder.js'
import { doorsweep, steeringIn } from './run-main.js'

/** A second school with one known problem: whatever is wrong elsewhere, it must still be found. */
const elm = `
=== sites/elm/site.yaml
name: Elm School
site-manager: [{from: 2026-03-01, who: lind}]
complaint-log: front office
contract: [{from: 2026-03-01, contractor: Invented Pest Services, routine-visits: monthly, grace: 5 days}]
areas: {hall: {kind: public}}
=== sites/elm/visits/2026-03-05-okafor.yaml
purpose: routine
by: okafor
time: 08:10 to 08:50
site-manager: lind
complaint-log: not found
inspected: [hall]
`
const elmProblem = /sites\/elm\/visits\/2026-03-05-okafor\.yaml:5:\d+: warning: .*\[complaint-log-not-read\]/

function ledgerOnDisk(overlay = elm): string {
  const root = temporaryFolder()
  writeFiles(root, ledgerWith(overlay))
  return root
}

const visit = 'sites/oak/visits/2026-03-10-okafor.yaml'
const good = 'purpose: callback\nby: okafor\n'

/** Checks a ledger, holding to what is promised whatever lies in it, and gives what was said. */
async function checked(root: string) {
  const start = performance.now()
  const said = await doorsweep(root, 'check')
  expect(performance.now() - start).toBeLessThan(15_000)
  expect(said.err).toBe('')
  expect(steeringIn(said.out)).toBeUndefined()
  const json = await doorsweep(root, 'check', '--format', 'json')
  expect(json.err).toBe('')
  expect(json.code).toBe(said.code)
  const { problems } = JSON.parse(json.out) as { problems: { rule: string; location: { file: string } }[] }
  return { ...said, problems: problems.map(({ rule, location }) => `${location.file}: ${rule}`) }
}

it('the ledger they all lie in has one problem', async () => {
  const { code, out, problems } = await checked(ledgerOnDisk())
  expect(problems).toEqual(['sites/elm/visits/2026-03-05-okafor.yaml: complaint-log-not-read'])
  expect(out).toMatch(elmProblem)
  expect(code).toBe(1)
})

const bomb = `a: &a [x, x, x, x, x, x, x, x, x]
${Array.from({ length: 9 }, (_, at) => String.fromCharCode(98 + at))
  .map(
    (name, at) =>
      `${name}: &${name} [${Array(9)
        .fill(`*${String.fromCharCode(97 + at)}`)
        .join(', ')}]`,
  )
  .join('\n')}
`

/** What the file of a visit can hold that cannot be used: the rule that says so, and words of its sentence. */
const unusable: [string, string | Uint8Array, string, RegExp][] = [
  ['nothing', '', 'unreadable-file', /is empty/],
  ['nothing but a comment', '# later\n', 'unreadable-file', /is empty/],
  [
    'a picture',
    Uint8Array.of(0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0, 0, 0, 13),
    'unreadable-file',
    /binary data/,
  ],
  ['NUL in text', 'purpose: routine\0\nby: okafor\n', 'unreadable-file', /binary data/],
  [
    'Latin-1',
    Buffer.from('purpose: routine\nby: okafor\nnotes: caf\xe9\n', 'latin1'),
    'unreadable-file',
    /not UTF-8/,
  ],
  ['UTF-16', Buffer.from(`\ufeff${good}`, 'utf16le'), 'unreadable-file', /binary data/],
  ['a list', '- purpose: routine\n', 'not-plain-yaml', /holds a list/],
  ['a sentence', 'visited, all fine\n', 'not-plain-yaml', /holds a single value/],
  ['a tab', 'purpose: routine\nset:\n\tK1: {kind: snap-trap}\n', 'not-plain-yaml', /tab/],
  ['an anchor', 'purpose: &p routine\nby: okafor\n', 'not-plain-yaml', /`&p` is a YAML anchor/],
  ['an alias', 'purpose: &p routine\nby: *p\n', 'not-plain-yaml', /`\*p` is a YAML anchor/],
  ['a billion laughs', bomb, 'not-plain-yaml', /is a YAML anchor or alias/],
  ['a merge key', 'purpose: routine\n<<: {by: okafor}\n', 'not-plain-yaml', /`<<` cannot be a key/],
  ['a tag', 'purpose: !!js/function routine\nby: okafor\n', 'not-plain-yaml', /tag/],
  ['two documents', `${good}---\n${good}`, 'not-plain-yaml', /second YAML document/],
  ['a bracket never closed', 'purpose: [routine\nby: okafor\n', 'not-plain-yaml', /YAML cannot read this/],
  ['deep lists', `notes: ${'['.repeat(100_000)}${']'.repeat(100_000)}\n`, 'not-plain-yaml', /nests deeper/],
  [
    'deep maps',
    `${Array.from({ length: 400 }, (_, depth) => `${' '.repeat(depth)}a:`).join('\n')}\n`,
    'not-plain-yaml',
    /nests deeper/,
  ],
  [
    'lists of some depth',
    `purpose: routine\nby: okafor\nnotes: ${'['.repeat(20)}${']'.repeat(20)}\n`,
    'shape',
    /Here is a list/,
  ],
  ['a key twice', 'purpose: routine\nby: okafor\npurpose: callback\n', 'duplicate-key', /a second time/],
  [
    'sixty thousand keys, each twice',
    Array.from({ length: 120_000 }, (_, at) => `k${at % 60_000}: 1\n`)
      .join('')
      .slice(0, 1_000_000),
    'duplicate-key',
    /a second time/,
  ],
  [
    'a right-to-left override',
    'purpose: routine\nby: okafor\nnotes: "\u202etxet"\n',
    'not-plain-yaml',
    /U\+202E/,
  ],
  [
    'an escape sequence',
    'purpose: routine\nby: okafor\nnotes: \u001b[2J\u001b[31mred\n',
    'not-plain-yaml',
    /U\+001B/,
  ],
  [
    'a one-byte escape sequence',
    'purpose: routine\nby: okafor\nnotes: \u009b31mred\n',
    'not-plain-yaml',
    /U\+009B/,
  ],
  ['a zero-width space in a name', 'purpose: routine\nby: oka\u200bfor\n', 'not-plain-yaml', /U\+200B/],
  [
    'an escape sequence behind a backslash',
    'purpose: "\\e[31mroutine"\nby: okafor\n',
    'shape',
    /is not one of/,
  ],
  [
    '__proto__ as a key',
    'purpose: routine\nby: okafor\n__proto__: {purpose: routine}\n',
    'not-plain-yaml',
    /`__proto__` cannot be a key/,
  ],
  [
    '__proto__ in quotes',
    'purpose: routine\nby: okafor\nset: {"__proto__": {kind: snap-trap, area: kitchen}}\n',
    'not-plain-yaml',
    /`__proto__` cannot be a key/,
  ],
  [
    'constructor as the name of a thing',
    'purpose: routine\nby: okafor\nset: {constructor: {kind: snap-trap, area: kitchen}}\n',
    'shape',
    /cannot be a name here/,
  ],
  ['a list as a key', 'purpose: routine\n? [by]\n: okafor\n', 'not-plain-yaml', /cannot be a key/],
  ['null as a key', 'purpose: routine\nby: okafor\nnull: x\n', 'not-plain-yaml', /cannot be a key/],
  [
    'a number with zeros before it',
    'purpose: routine\nby: okafor\nnotes: 007\n',
    'text-yaml-changes',
    /007 → 7/,
  ],
  [
    'a day that is none',
    'purpose: routine\nby: okafor\non-paper: 2026-02-31\n',
    'impossible-date',
    /no such day: 2026-02-31/,
  ],
]

describe('a visit that holds', () => {
  it.each(unusable)('%s', async (_, content, rule, sentence) => {
    const root = ledgerOnDisk()
    writeFiles(root, [[visit, content]])
    const { code, out, problems } = await checked(root)
    expect(problems).toContain(`${visit}: ${rule}`)
    expect(
      problems.filter((problem) => problem.startsWith('sites/oak/') && !problem.startsWith(visit)),
    ).toEqual([])
    expect(out).toMatch(sentence)
    expect(out).toMatch(elmProblem)
    // Its site cannot be judged, and that is said.
    expect(out).toMatch(/not checked: sites\/oak/)
    expect(code).toBe(2)
  })

  it.each<[string, string]>([
    ['Windows line ends', good.replaceAll('\n', '\r\n')],
    ['a byte order mark', `\ufeff${good}`],
    ['both', `\ufeff${good.replaceAll('\n', '\r\n')}`],
    ['no line end at its end', good.trimEnd()],
    ['a document start', `---\n${good}`],
    ['tabs between words', 'purpose:\tcallback\nby: okafor # noted\tlater\n'],
    ['a text in several lines', `${good}notes: |\n  first line\n  second line\n`],
  ])('%s is as good as any', async (_, content) => {
    const root = ledgerOnDisk()
    writeFiles(root, [[visit, content]])
    const { code, problems } = await checked(root)
    expect(problems.filter((problem) => problem.startsWith('sites/oak/'))).toEqual([])
    expect(code).toBe(1)
  })

  it('constructor and toString as keys: they are keys like any other that is not known', async () => {
    const root = ledgerOnDisk()
    writeFiles(root, [[visit, `${good}constructor: x\ntoString: y\n`]])
    const { code, problems } = await checked(root)
    expect(problems.filter((problem) => problem.startsWith('sites/oak/'))).toEqual([
      `${visit}: unknown-key`,
      `${visit}: unknown-key`,
    ])
    expect(code).toBe(1)
  })

  it('constructor as a device or a pest: they lead nowhere', async () => {
    const root = ledgerOnDisk()
    writeFiles(root, [[visit, `${good}readings: {K1: {constructor: 1}, valueOf: {german-cockroach: 1}}\n`]])
    const { problems } = await checked(root)
    expect(problems).toContain(`${visit}: unknown-pest`)
    expect(problems).toContain(`${visit}: dangling-reference`)
  })
})

describe('in the place of a record', () => {
  const at = (root: string, file = visit) => {
    mkdirSync(dirname(join(root, file)), { recursive: true })
    return join(root, file)
  }

  it('a file of 50 MB is refused without being read', async () => {
    const root = ledgerOnDisk()
    writeFileSync(at(root), '')
    truncateSync(at(root), 50 * 1024 * 1024)
    const { code, out, problems } = await checked(root)
    expect(problems).toContain(`${visit}: unreadable-file`)
    expect(out).toMatch(/is 52428800 bytes; a record is at most 1048576/)
    expect(out).toMatch(elmProblem)
    expect(code).toBe(2)
  })

  it('a folder', async () => {
    const root = ledgerOnDisk()
    mkdirSync(at(root))
    const { code, out, problems } = await checked(root)
    expect(problems).toContain(`${visit}: stray-file`)
    expect(out).toMatch(/folder with the name of a record/)
    expect(out).toMatch(elmProblem)
    expect(code).toBe(2)
  })

  it.each([
    ['a link to nowhere', 'nowhere.yaml'],
    ['a link out of the ledger', '/etc/passwd'],
    ['a link to another record', '2026-03-05-okafor.yaml'],
    ['a link to itself', '2026-03-10-okafor.yaml'],
  ])('%s', async (_, target) => {
    const root = ledgerOnDisk()
    symlinkSync(target, at(root))
    const { code, out, problems } = await checked(root)
    expect(problems).toContain(`${visit}: stray-file`)
    expect(out).toMatch(/This is a link; links are not followed/)
    expect(out).not.toMatch(/root:/)
    expect(out).toMatch(elmProblem)
    expect(code).toBe(2)
  })

  it.each(['people', 'sites/ash', 'sites/oak/repairs', 'products/bait-z'])(
    'a link out of the ledger for the folder %s is not passed over',
    async (folder) => {
      const outside = temporaryFolder()
      writeFiles(outside, [
        ['secret.yaml', 'name: secret\n'],
        ['site.yaml', 'name: secret\n'],
        ['product.yaml', 'name: secret\n'],
      ])
      const root = ledgerOnDisk()
      rmSync(join(root, folder), { recursive: true, force: true })
      symlinkSync(outside, at(root, folder))
      const { code, out, problems } = await checked(root)
      expect(problems).toContain(`${folder}: stray-file`)
      expect(out).not.toMatch(/secret/)
      expect(code).toBe(2)
    },
  )

  it('a named pipe does not hold the program up', async () => {
    const root = ledgerOnDisk()
    execFileSync('mkfifo', [at(root)])
    const { code, out, problems } = await checked(root)
    expect(problems).toContain(`${visit}: unreadable-file`)
    expect(out).toMatch(/is not a plain file/)
    expect(out).toMatch(elmProblem)
    expect(code).toBe(2)
  })

  it('a file with another ending', async () => {
    const root = ledgerOnDisk()
    for (const ending of ['yml', 'YAML']) writeFileSync(at(root, visit.replace(/yaml$/, ending)), good)
    const { code, out, problems } = await checked(root)
    expect(problems.filter((problem) => problem.endsWith(': stray-file'))).toHaveLength(2)
    expect(out).toMatch(/A record ends in \.yaml/)
    expect(code).toBe(2)
  })

  it.each([
    ['an escape sequence', 'sites/oak/visits/2026-03-10-ok\u001b[31mafor.yaml'],
    ['a line end', 'sites/oak/visits/2026-03-10-okafor\nerror: all is lost.yaml'],
    ['a right-to-left override', 'people/\u202elmay.yaml'],
    ['letters from elsewhere', 'people/okaför.yaml'],
  ])('a name with %s', async (_, file) => {
    const root = ledgerOnDisk()
    writeFileSync(at(root, file), good)
    const { code, out, problems } = await checked(root)
    expect(problems).toContain(`${file}: stray-file`)
    expect(out).not.toMatch(/^error: all is lost/m)
    expect(out).toMatch(elmProblem)
    expect(code).toBe(2)
  })

  it('a name that is no UTF-8', async () => {
    const root = ledgerOnDisk()
    const name = Buffer.concat([Buffer.from(join(root, 'people/oka')), Buffer.of(0xff), Buffer.from('.yaml')])
    writeFileSync(name, 'name: x\n')
    const { code, out } = await checked(root)
    expect(out).toMatch(/\[stray-file\]/)
    expect(out).toMatch(elmProblem)
    expect(code).toBe(2)
  })

  // The superuser may read everything.
  it.skipIf(process.getuid?.() === 0)('a file and a folder that may not be read', async () => {
    const root = ledgerOnDisk()
    writeFileSync(at(root), good)
    chmodSync(at(root), 0)
    const { code, out, problems } = await checked(root)
    expect(problems).toContain(`${visit}: unreadable-file`)
    expect(out).toMatch(elmProblem)
    expect(code).toBe(2)
    chmodSync(at(root), 0o600)
    chmodSync(dirname(at(root)), 0)
    const folder = await checked(root)
    chmodSync(dirname(at(root)), 0o700)
    expect(folder.problems).toContain('sites/oak/visits: unreadable-file')
    expect(folder.code).toBe(2)
  })
})

describe('a record of the district', () => {
  it.each(unusable.slice(0, 8))('that holds %s is told, and the schools are checked', async (_, content) => {
    const root = ledgerOnDisk()
    writeFiles(root, [['people/okafor.yaml', content]])
    const { code, out, problems } = await checked(root)
    expect(problems[0]).toMatch(/^people\/okafor\.yaml: /)
    // Whoever refers to a broken record is not blamed for it.
    expect(problems.filter((problem) => problem.endsWith('dangling-reference'))).toEqual([])
    expect(out).toMatch(elmProblem)
    expect(code).toBe(2)
  })
})

describe('district.yaml', () => {
  it('is missing', async () => {
    const folder = temporaryFolder()
    writeFiles(folder, [['people/okafor.yaml', 'name: Ada Okafor\nroles: [technician]\n']])
    const { code, out, err } = await doorsweep(folder, 'check')
    expect(code).toBe(2)
    expect(out).toBe('')
    expect(err).toMatch(/There is no ledger at .*doorsweep new district/)
  })

  it.each<[string, (path: string) => void]>([
    ['is empty', (path) => writeFileSync(path, '')],
    ['is a folder', (path) => mkdirSync(path)],
    ['is a link out of the ledger', (path) => symlinkSync('/etc/hostname', path)],
    ['is a list', (path) => writeFileSync(path, '- a\n')],
    ['is a named pipe', (path) => execFileSync('mkfifo', [path])],
    ['lacks its format', (path) => writeFileSync(path, 'name: x\n')],
    [
      'is of a format to come',
      (path) =>
        writeFileSync(path, ledgerWith('').get('district.yaml')?.replace('format: 1', 'format: 2') ?? ''),
    ],
    [
      'has a time zone that hides something',
      (path) => writeFileSync(path, 'format: 1\ntime-zone: "\u001b[31m"\n'),
    ],
    [
      'is very large',
      (path) => {
        writeFileSync(path, '')
        truncateSync(path, 50 * 1024 * 1024)
      },
    ],
  ])('%s: nothing can be judged, and that is said', async (_, put) => {
    const root = ledgerOnDisk()
    rmSync(join(root, 'district.yaml'))
    put(join(root, 'district.yaml'))
    const { code, out, problems } = await checked(root)
    expect(problems.filter((problem) => problem.startsWith('district.yaml: '))).not.toEqual([])
    expect(out).toMatch(/not checked: the whole ledger/)
    expect(code).toBe(2)
  })
})

it('everything at once: each is told, none hides another', async () => {
  const root = ledgerOnDisk()
  const files = unusable.map(([, content], at): [string, string | Uint8Array] => [
    `sites/oak/visits/2026-03-${String(6 + (at % 14)).padStart(2, '0')}-okafor-${'abc'[Math.floor(at / 14)]}.yaml`,
    content,
  ])
  writeFiles(root, files)
  const { code, out, problems } = await checked(root)
  for (const [at, [file]] of files.entries()) expect(problems).toContain(`${file}: ${unusable[at]?.[2]}`)
  expect(out).toMatch(elmProblem)
  expect(code).toBe(2)
})
