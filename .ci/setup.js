// Makes a fresh checkout runnable: installs what the lock file names, then builds. Quick when nothing changed.
import { execFileSync } from 'node:child_process'
import { existsSync, readFileSync, statSync } from 'node:fs'

const root = new URL('..', import.meta.url).pathname
const npm = process.env.npm_execpath
const run = (file, args) => execFileSync(file, args, { cwd: root, stdio: ['ignore', 2, 2] })

const installed = `${root}node_modules/.package-lock.json`
if (!existsSync(installed) || statSync(installed).mtimeMs < statSync(`${root}package-lock.json`).mtimeMs) {
  if (npm) run(process.execPath, [npm, 'ci'])
  else run('npm', ['ci'])
}
const { bin } = JSON.parse(readFileSync(`${root}node_modules/typescript/package.json`, 'utf8'))
run(process.execPath, [`${root}node_modules/typescript/${bin.tsc}`, '-p', `${root}tsconfig.json`])
