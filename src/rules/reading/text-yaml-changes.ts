import { fileRule } from '../rule.js'

export const textYamlChanges = fileRule<{ detail: string }>({
  id: 'text-yaml-changes',
  title: 'YAML would read other text than what is written',
  level: 'error',
  judgedOn: 'whenever the ledger is read',
  why: 'A lot or licence number that loses its zeros names another lot or licence.',
  remedy: 'Put it in quotes if it is text, as in "007"; write the plain number if it is one, as in 7.',
  source: { kind: 'standard', text: 'YAML 1.2.2, 10.3.2 tag resolution of the core schema' },
  actor: 'whoever wrote the record',
  gap: false,
  says: ({ detail }) => `YAML reads this as a number and changes it: ${detail}.`,
  judge(fault) {
    if (fault.kind !== 'text' || fault.fault.fault !== 'changed-scalar') return undefined
    return {
      args: { detail: fault.fault.detail },
      at: { file: fault.file, path: [], span: fault.fault.span },
      identity: [fault.fault.detail],
    }
  },
  failing: `
=== people/reyes.yaml
name: Sol Reyes
roles: [clerk]
phone: 007 # expect: text-yaml-changes
`,
  passing: `
=== people/reyes.yaml
name: Sol Reyes
roles: [clerk]
phone: "007"
`,
})
