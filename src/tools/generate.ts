import { mkdirSync, rmSync, writeFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { generatedFiles, staleFiles } from './generated-files.js'

/** `npm run generate` writes the schemas and pages; with `--check` it only says which are stale, and fails if any is. */
const root = fileURLToPath(new URL('../../', import.meta.url))
const { stale, leftOver } = staleFiles(root)

if (process.argv.includes('--check')) {
  for (const path of [...stale, ...leftOver]) process.stderr.write(`stale: ${path}\n`)
  if (stale.length + leftOver.length > 0) {
    process.stderr.write('Run `npm run generate` and commit what it writes.\n')
    process.exitCode = 1
  }
} else {
  const files = generatedFiles(root)
  for (const path of stale) {
    mkdirSync(dirname(join(root, path)), { recursive: true })
    writeFileSync(join(root, path), files.get(path) ?? '')
    process.stdout.write(`wrote ${path}\n`)
  }
  for (const path of leftOver) {
    rmSync(join(root, path))
    process.stdout.write(`removed ${path}\n`)
  }
}
