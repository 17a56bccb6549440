import { fileRule, ledgerFormat } from '../rule.js'

/** A YAML file where no record belongs would never be read again: a false all-clear. */
export const strayFile = fileRule<{ why: string; hint: string }>({
  id: 'stray-file',
  title: 'a file lies where no record belongs',
  level: 'error',
  judgedOn: 'whenever the ledger is read',
  why: 'A record in the wrong place is never read, and what it says is never checked.',
  remedy: 'Move or rename it; schemas/README.md lists the place of every kind of record.',
  source: ledgerFormat,
  actor: 'whoever wrote the record',
  gap: false,
  says: ({ why, hint }) =>
    `${sentences[why] ?? 'No record belongs here.'}${hint === '' ? '' : ` Its name should read ${hint}.`}`,
  judge(fault) {
    if (fault.kind !== 'stray' || fault.why === 'impossible-date') return undefined
    return { args: { why: fault.why, hint: fault.hint }, at: { file: fault.file, path: [] } }
  },
  failing: `
=== sites/oak/vists/2026-03-12-okafor.yaml
purpose: routine # expect: stray-file
by: okafor
`,
  passing: `
=== sites/oak/visits/2026-03-12-okafor.yaml
purpose: callback
by: okafor
`,
})

const sentences: Record<string, string> = {
  'unknown-place': 'No kind of record lies in this place, so nobody will read it.',
  'bad-name':
    'This name is not one a record can have: small letters, digits and hyphens, beginning with a letter.',
  'wrong-ending': 'A record ends in .yaml, in small letters.',
  folder: 'This is a folder with the name of a record.',
  link: 'This is a link; links are not followed.',
}
