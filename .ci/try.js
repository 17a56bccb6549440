// `npm run try`: the main job on the example district, command by command, as a person would type it.
import { spawnSync } from 'node:child_process'

const root = new URL('..', import.meta.url).pathname
const ledger = ['--ledger', 'examples/district']
const steps = [
  [
    'What is missing, contradictory or overdue today?',
    ['check', 'examples/district', '--as-of', '2026-06-30'],
  ],
  [
    'The same, for whoever has to act: what should be there and is not?',
    ['report', 'gaps', ...ledger, '--as-of', '2026-06-30'],
  ],
  [
    'Look back to January: which thresholds were crossed, and what did the plan say next?',
    ['report', 'thresholds', ...ledger, '--as-of', '2026-01-31'],
  ],
  ['And what was rising?', ['report', 'trend', ...ledger, '--as-of', '2026-01-31', '--from', '2024-08-01']],
]

for (const [question, args] of steps) {
  process.stdout.write(`\n# ${question}\n$ doorsweep ${args.join(' ')}\n\n`)
  const { status } = spawnSync(process.execPath, [`${root}bin/doorsweep.js`, ...args], {
    cwd: root,
    stdio: 'inherit',
  })
  // Exit code 1 means that the example has gaps, which it is there to show.
  if (status !== 0 && status !== 1) process.exit(status ?? 2)
}
