// Measures what a check costs when little or nothing has changed, in turn with its baseline in one run, and prints ratios.
// Nothing is asserted. SMALL and LARGE are numbers of sites (10 years each, about 280 and 235 visit files a site); two
// ledgers with their git history are made under the system's folder for temporary files, which takes some minutes.
import { spawnSync } from 'node:child_process'
import {
  appendFileSync,
  cpSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs'
import { cpus, tmpdir } from 'node:os'
import { join } from 'node:path'

const root = new URL('../..', import.meta.url).pathname
const doorsweep = `${root}bin/doorsweep.js`
const rounds = Number(process.env.ROUNDS ?? 5)
const asOf = '2026-06-30'
const work = mkdtempSync(join(tmpdir(), 'doorsweep-bench-'))
const cache = join(work, 'cache')

const committer = ['-c', 'user.name=bench', '-c', 'user.email=bench@example.org']

/** Prints its peak memory on stderr when it ends. */
const tellMemory = `data:text/javascript,process.on('exit',()=>process.stderr.write('\\npeak-kib '+process.resourceUsage().maxRSS+'\\n'))`

function time(command, args, cwd) {
  const start = process.hrtime.bigint()
  const { status, stderr } = spawnSync(command, args, {
    cwd,
    encoding: 'utf8',
    maxBuffer: 1 << 28,
    stdio: ['ignore', 'ignore', 'pipe'],
    env: { ...process.env, DOORSWEEP_CACHE: cache },
  })
  if (status === null || status > 1) throw new Error(`${command} ${args.join(' ')}\n${stderr.slice(-2000)}`)
  const seconds = Number(process.hrtime.bigint() - start) / 1e9
  return { seconds, mebibytes: Number(/peak-kib (\d+)/.exec(stderr)?.[1] ?? 0) / 1024 }
}

const check = (ledger, ...more) =>
  time(
    process.execPath,
    ['--import', tellMemory, doorsweep, 'check', '--as-of', asOf, '--fail-on', 'never', ...more],
    ledger,
  )
const node = (cwd) => time(process.execPath, ['--import', tellMemory, '-e', '0'], cwd)
const status = (ledger) => ({
  seconds: time('git', ['status', '--porcelain'], ledger).seconds + node(ledger).seconds,
})

function median(numbers) {
  const sorted = [...numbers].sort((a, b) => a - b)
  return sorted[Math.floor(sorted.length / 2)]
}

function row(name, pairs, bar) {
  const ratios = pairs.map(([ours, theirs]) => ours.seconds / theirs.seconds)
  const cells = [
    name,
    `${median(pairs.map(([ours]) => ours.seconds)).toFixed(2)} s`,
    `${median(pairs.map(([, theirs]) => theirs.seconds)).toFixed(2)} s`,
    `${median(ratios).toFixed(2)} (${Math.min(...ratios).toFixed(2)} to ${Math.max(...ratios).toFixed(2)})`,
    bar,
    `${Math.max(...pairs.map(([ours]) => ours.mebibytes)).toFixed(0)} MiB`,
  ]
  console.log(`| ${cells.join(' | ')} |`)
}

/** Pairs in turn, the first thrown away. `before` prepares each of ours and is not timed. */
function pairs(ours, theirs, count = rounds, before = () => {}) {
  const found = []
  for (let n = 0; n <= count; n++) {
    before(n)
    found.push([ours(), theirs()])
  }
  return found.slice(1)
}

function makeLedger(name, sites) {
  const folder = join(work, name)
  const made = spawnSync(
    process.execPath,
    [doorsweep, 'demo', folder, '--sites', String(sites), '--years', '10', '--seed', '7', '--until', asOf],
    { encoding: 'utf8' },
  )
  if (made.status !== 0) throw new Error(made.stderr)
  // The history of ten years is not what is measured; one commit has the same files.
  rmSync(join(folder, '.git'), { recursive: true })
  for (const args of [
    ['init', '-q'],
    ['add', '-A'],
    [...committer, 'commit', '-qm', 'all'],
  ])
    if (spawnSync('git', args, { cwd: folder }).status !== 0) throw new Error(`git ${args[0]}`)
  return folder
}

function visitsOf(ledger) {
  return readdirSync(join(ledger, 'sites')).flatMap((site) =>
    readdirSync(join(ledger, 'sites', site, 'visits')).map((name) =>
      join(ledger, 'sites', site, 'visits', name),
    ),
  )
}

/** A file counts as settled two seconds after it was changed. */
const settle = () => spawnSync(process.execPath, ['-e', 'setTimeout(() => {}, 2500)'])
const forget = () => rmSync(cache, { recursive: true, force: true })

async function judgedAfterChange(ledger) {
  const { checkLedger } = await import(`${root}dist/check/check-ledger.js`)
  const { cacheFolder } = await import(`${root}dist/files/cache-folder.js`)
  const { workTree } = await import(`${root}dist/files/work-tree.js`)
  const { dayOf } = await import(`${root}dist/measure/calendar.js`)
  const run = () =>
    checkLedger(
      workTree(ledger),
      { asOf: dayOf(asOf), asOfIsToday: false },
      {
        threads: 0,
        filesPerThread: 1,
        memory: { folderFor: () => cacheFolder(join(cache, 'counted')), program: 'bench', now: Date.now() },
      },
    )
  settle()
  const { sites } = await run()
  const counts = []
  for (const id of readdirSync(join(ledger, 'products'))) {
    const file = join(ledger, 'products', id, 'product.yaml')
    const text = readFileSync(file, 'utf8')
    appendFileSync(file, '# a remark\n')
    settle()
    counts.push({ id, judged: (await run()).judged, naming: sitesNaming(ledger, id) })
    writeFileSync(file, text)
    settle()
    await run()
    if (counts.length === 4) break
  }
  for (const { id, judged, naming } of counts)
    console.log(`- ${id} changed: ${judged} of ${sites} sites judged again; ${naming} name it in a record`)
}

function sitesNaming(ledger, id) {
  const { stdout } = spawnSync('git', ['grep', '-lw', id, '--', 'sites'], {
    cwd: ledger,
    encoding: 'utf8',
    maxBuffer: 1 << 28,
  })
  return new Set(
    stdout
      .split('\n')
      .filter(Boolean)
      .map((path) => path.split('/')[1]),
  ).size
}

try {
  const small = makeLedger('small', process.env.SMALL ?? 44)
  const large = makeLedger('large', process.env.LARGE ?? 490)
  const [few, many] = [visitsOf(small), visitsOf(large)]
  console.log(
    `${few.length} and ${many.length} visit files; node ${process.version}, ${cpus().length} cores; ${rounds} rounds after one thrown away\n`,
  )
  console.log('| what, against what | ours | theirs | ratio | bar | peak memory, ours |')
  console.log('| --- | --- | --- | --- | --- | --- |')
  for (const [ledger, files] of [
    [small, few],
    [large, many],
  ]) {
    forget()
    settle()
    check(ledger)
    const against = '`git status` and `node -e 0`'
    row(
      `nothing changed, ${files.length} visit files, against ${against}`,
      pairs(
        () => check(ledger),
        () => status(ledger),
      ),
      '2.5',
    )
    if (ledger === small) continue
    const touched = files.at(-1)
    row(
      `one record changed, ${files.length} visit files, against ${against}`,
      pairs(
        () => check(ledger),
        () => status(ledger),
        rounds,
        (n) => {
          appendFileSync(touched, `# ${n}\n`)
          settle()
        },
      ),
      '2.5',
    )
    spawnSync('git', ['checkout', '-q', '.'], { cwd: ledger })
  }
  const spoilt = join(work, 'spoilt')
  cpSync(small, spoilt, { recursive: true })
  for (const file of visitsOf(spoilt)) appendFileSync(file, 'no-such-key: 1\n')
  row(
    'cold, each visit with one problem, against the same without',
    pairs(
      () => check(spoilt),
      () => check(small),
      3,
      forget,
    ),
    '3',
  )
  spawnSync('git', [...committer, 'commit', '-qam', 'spoilt'], { cwd: spoilt })
  forget()
  settle()
  check(spoilt)
  row(
    'nothing changed, each visit with one problem, against `git status` and `node -e 0`',
    pairs(
      () => check(spoilt),
      () => status(spoilt),
    ),
    '2.5',
  )
  row(
    `cold, ${many.length} visit files, against ${few.length}`,
    pairs(
      () => check(large),
      () => check(small),
      1,
      forget,
    ),
    '10.5',
  )
  const fewer = check(small, '--no-cache').mebibytes
  const more = check(large, '--no-cache').mebibytes
  console.log(
    `\nPeak memory, cold, without a cache: ${fewer.toFixed(0)} MiB and ${more.toFixed(0)} MiB (${(more / fewer).toFixed(2)} times; bars 400 MiB and 1.5)\n`,
  )
  for (const [name, args] of [
    ['--help', ['--help']],
    ['completion of a site', ['complete', '--', 'visit', '']],
  ])
    row(
      `${name}, against \`node -e 0\``,
      pairs(
        () => time(process.execPath, ['--import', tellMemory, doorsweep, ...args], large),
        () => node(large),
      ),
      '2',
    )
  row(
    '`due` of one site, nothing changed, against `node -e 0`',
    pairs(
      () =>
        time(
          process.execPath,
          [
            '--import',
            tellMemory,
            doorsweep,
            'due',
            '--site',
            readdirSync(join(large, 'sites'))[0],
            '--as-of',
            asOf,
          ],
          large,
        ),
      () => node(large),
    ),
    '4',
  )
  console.log('')
  await judgedAfterChange(small)
} finally {
  rmSync(work, { recursive: true, force: true })
}
