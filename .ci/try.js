// `npm run try`: the main job on the example district, command by command, as a person would type it.
import { spawnSync } from 'node:child_process'

const root = new URL('..', import.meta.url).pathname
const asOf = ['--as-of', '2026-06-30']
const commands = [
  ['check', 'examples/district', ...asOf],
  ['report', 'thresholds', '--ledger', 'examples/district', ...asOf],
  ['report', 'trend', '--ledger', 'examples/district', ...asOf],
  ['report', 'gaps', '--ledger', 'examples/district', ...asOf],
]

for (const args of commands) {
  process.stdout.write(`\n$ doorsweep ${args.join(' ')}\n\n`)
  const { status } = spawnSync(process.execPath, [`${root}bin/doorsweep.js`, ...args], {
    cwd: root,
    stdio: 'inherit',
  })
  // Exit code 1 means that the example has gaps, which it is there to show.
  if (status !== 0 && status !== 1) process.exit(status ?? 2)
}
