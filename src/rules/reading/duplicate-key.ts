import { fileRule, ledgerFormat } from '../rule.js'

export const duplicateKey = fileRule<{ key: string }>({
  id: 'duplicate-key',
  title: 'a key stands twice',
  level: 'error',
  judgedOn: 'whenever the ledger is read',
  why: 'One of the two would be lost without a word.',
  remedy: 'Join the two, or give the second thing a name of its own.',
  source: ledgerFormat,
  actor: 'whoever wrote the record',
  gap: false,
  says: ({ key }) => `\`${key}\` stands in the same map a second time.`,
  judge(fault) {
    if (fault.kind !== 'text' || fault.fault.fault !== 'duplicate-key') return undefined
    const { detail: key, span } = fault.fault
    return { args: { key }, at: { file: fault.file, path: [], span }, identity: [key] }
  },
  failing: `
=== people/reyes.yaml
name: Sol Reyes
roles: [clerk]
name: Sol R. Reyes # expect: duplicate-key
`,
  passing: `
=== people/reyes.yaml
name: Sol R. Reyes
roles: [clerk]
`,
})
