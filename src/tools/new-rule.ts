import { fileURLToPath } from 'node:url'
import { scaffoldRule } from './scaffold-rule.js'

/** `npm run new:rule -- <family> <rule-id>` starts a rule: its file, with blanks, and its line in the family. */
const [family, id] = process.argv.slice(2)

if (family === undefined || id === undefined) {
  process.stderr.write('Usage: npm run new:rule -- <family> <rule-id>\n')
  process.exitCode = 2
} else {
  const made = scaffoldRule(fileURLToPath(new URL('../../', import.meta.url)), family, id)
  if ('refused' in made) {
    process.stderr.write(`${made.refused}\n`)
    process.exitCode = 2
  } else {
    process.stdout.write(`${made.written.join('\n')}\n`)
    process.stderr.write(
      `Fill in the blanks, then: npx vitest run --config tests/vitest.config.ts tests/rules -t '${id}'\n` +
        'When it passes, `npm run generate` writes its page.\n',
    )
  }
}
