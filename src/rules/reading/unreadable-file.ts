import { fileRule, ledgerFormat } from '../rule.js'

/** A file that cannot be read at all. Nothing that depends on it can be judged, so the exit code is 2. */
export const unreadableFile = fileRule<{ detail: string }>({
  id: 'unreadable-file',
  title: 'a record cannot be read',
  level: 'error',
  judgedOn: 'whenever the ledger is read',
  why: 'What cannot be read cannot be checked, and must not pass for clean.',
  remedy: 'Repair or remove the file. A record is a page of plain UTF-8 text under 1 MiB.',
  source: ledgerFormat,
  actor: 'whoever wrote the record',
  gap: false,
  says: ({ detail }) => `This file ${detail}.`,
  judge(fault) {
    if (fault.kind === 'refused')
      return { args: { detail: fault.detail }, at: { file: fault.file, path: [] } }
    if (fault.kind !== 'text') return undefined
    const detail = details[fault.fault.fault]
    return detail === undefined
      ? undefined
      : { args: { detail }, at: { file: fault.file, path: [], span: fault.fault.span } }
  },
  failing: `
=== people/reyes.yaml
# expect: unreadable-file
`,
  passing: `
=== people/reyes.yaml
name: Sol Reyes
roles: [clerk]
`,
})

const details: Partial<Record<string, string>> = {
  empty: 'is empty',
  binary: 'holds binary data, not text',
  'not-utf-8': 'is not UTF-8 text',
}
