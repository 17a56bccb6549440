// Measures whole commands against a stated baseline in the same run, in turn (A B A B …), and prints ratios.
// The first round of both is thrown away. Nothing here is asserted: `npm run bench`, then copy the table.
import { spawnSync } from 'node:child_process'
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { cpus, tmpdir } from 'node:os'
import { join } from 'node:path'

const root = new URL('../..', import.meta.url).pathname
const doorsweep = `${root}bin/doorsweep.js`
const ajv = `${root}node_modules/ajv-cli/dist/index.js`
const rounds = Number(process.env.ROUNDS ?? 5)
const asOf = '2026-06-30'

/** Prints its peak memory on stderr when it ends; ours and theirs alike. */
const tellMemory = `data:text/javascript,process.on('exit',()=>process.stderr.write('\\npeak-kib '+process.resourceUsage().maxRSS+'\\n'))`

function time(args, wantedStatus) {
  const start = process.hrtime.bigint()
  const { status, stderr } = spawnSync(process.execPath, ['--import', tellMemory, ...args], {
    encoding: 'utf8',
    maxBuffer: 1 << 28,
    stdio: ['ignore', 'ignore', 'pipe'],
    // Cold: what was found before is not to be had.
    env: { ...process.env, DOORSWEEP_CACHE: '' },
  })
  const seconds = Number(process.hrtime.bigint() - start) / 1e9
  if (!wantedStatus.includes(status))
    throw new Error(`${args.slice(0, 4).join(' ')} ended with ${status}\n${stderr.slice(-2000)}`)
  return { seconds, mebibytes: Number(/peak-kib (\d+)/.exec(stderr)?.[1] ?? 0) / 1024 }
}

function median(numbers) {
  const sorted = [...numbers].sort((a, b) => a - b)
  return sorted[Math.floor(sorted.length / 2)]
}

function compare(name, ours, ourStatus, theirs) {
  const pairs = []
  for (let round = 0; round <= rounds; round++) {
    const pair = { ours: time(ours, ourStatus), theirs: time(theirs, [0]) }
    if (round > 0) pairs.push(pair)
  }
  const ratios = pairs.map((pair) => pair.ours.seconds / pair.theirs.seconds)
  const row = [
    name,
    `${median(pairs.map((pair) => pair.ours.seconds)).toFixed(2)} s`,
    `${median(pairs.map((pair) => pair.theirs.seconds)).toFixed(2)} s`,
    `${median(ratios).toFixed(2)} (${Math.min(...ratios).toFixed(2)} to ${Math.max(...ratios).toFixed(2)})`,
    `${Math.max(...pairs.map((pair) => pair.ours.mebibytes)).toFixed(0)} MiB`,
  ]
  console.log(`| ${row.join(' | ')} |`)
}

/** ajv-cli reads YAML 1.1, where a bare date is no text; quoted, both sides read the same files. */
function quoteDates(file) {
  const text = readFileSync(file, 'utf8')
  const quoted = text.replace(/(: )(\d{4}-\d{2}-\d{2})(?=$|[,}])/gm, "$1'$2'")
  if (quoted !== text) writeFileSync(file, quoted)
}

function visitFiles(ledger) {
  return readdirSync(join(ledger, 'sites'), { withFileTypes: true }).flatMap((site) => {
    const folder = join(ledger, 'sites', site.name, 'visits')
    return readdirSync(folder).map((name) => join(folder, name))
  })
}

const ledger = join(mkdtempSync(join(tmpdir(), 'doorsweep-bench-')), 'ledger')
try {
  const sites = process.env.SITES ?? '100'
  const years = process.env.YEARS ?? '10'
  const made = spawnSync(
    process.execPath,
    [doorsweep, 'demo', ledger, '--sites', sites, '--years', years, '--seed', '7', '--until', asOf],
    { encoding: 'utf8' },
  )
  if (made.status !== 0) throw new Error(made.stderr)
  const files = visitFiles(ledger)
  files.forEach(quoteDates)
  const bytes = files.reduce((sum, file) => sum + readFileSync(file).length, 0)
  console.log(
    `${sites} sites, ${years} years: ${files.length} visit files of ${Math.round(bytes / files.length)} bytes on average; node ${process.version}, ${cpus().length} cores; ${rounds} rounds after one thrown away\n`,
  )
  console.log('| what, against what | ours | theirs | ratio: median (least to most) | peak memory, ours |')
  console.log('| --- | --- | --- | --- | --- |')
  const visits = join(ledger, 'sites', '*', 'visits', '*.yaml')
  const theirs = [ajv, 'validate', '-s', `${root}schemas/visit.schema.json`, '-d', visits]
  compare(
    '`check` of the whole ledger, against ajv-cli on its visit files',
    [doorsweep, 'check', '--ledger', ledger, '--as-of', asOf],
    [0, 1],
    theirs,
  )
  compare(
    '`report trend` of the last year, against the same',
    [doorsweep, 'report', 'trend', '--ledger', ledger, '--as-of', asOf],
    [0],
    theirs,
  )
  compare('`--help`, against `node -e 0`', [doorsweep, '--help'], [0], ['-e', '0'])
} finally {
  rmSync(join(ledger, '..'), { recursive: true, force: true })
}
