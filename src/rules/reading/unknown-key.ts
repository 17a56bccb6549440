import type { Args } from '../../types.js'
import { fileRule, ledgerFormat } from '../rule.js'

export const unknownKey = fileRule<Args>({
  id: 'unknown-key',
  title: 'a key is not known',
  level: 'error',
  judgedOn: 'whenever the ledger is read',
  why: 'A misspelt key is a fact that nobody will find again.',
  remedy: 'Write the known key, or put free words under `notes`.',
  source: ledgerFormat,
  actor: 'whoever wrote the record',
  gap: false,
  says: ({ key, meant }) =>
    meant === undefined
      ? `\`${key}\` is not a key here.`
      : `\`${key}\` is not a key here; did you mean \`${meant}\`?`,
  judge(fault) {
    if (fault.kind !== 'shape' || fault.fault.fault !== 'unknown-key') return undefined
    return { args: fault.fault.args, at: { file: fault.file, path: fault.fault.path, onKey: true } }
  },
  failing: `
=== people/reyes.yaml
name: Sol Reyes
roles: [clerk]
fone: 555-0100 # expect: unknown-key
`,
  passing: `
=== people/reyes.yaml
name: Sol Reyes
roles: [clerk]
phone: 555-0100
`,
})
