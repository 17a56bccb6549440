import { fileRule, ledgerFormat } from '../rule.js'

export const impossibleDate = fileRule<{ text: string }>({
  id: 'impossible-date',
  title: 'a date is in no calendar',
  level: 'error',
  judgedOn: 'whenever the ledger is read',
  why: 'Everything that is due or overdue is reckoned from dates.',
  remedy: 'Write the day as year-month-day, such as 2026-03-12.',
  source: ledgerFormat,
  actor: 'whoever wrote the record',
  gap: false,
  says: ({ text }) => `There is no such day: ${text}.`,
  judge(fault) {
    if (fault.kind === 'impossible-date')
      return { args: { text: fault.text }, at: { file: fault.file, path: fault.path } }
    if (fault.kind === 'stray' && fault.why === 'impossible-date')
      return { args: { text: fault.hint }, at: { file: fault.file, path: [] } }
    return undefined
  },
  failing: `
=== people/okafor.yaml
name: Ada Okafor
roles: [technician]
training: {ipm: {on: 2026-02-30, topic: inspecting kitchens}} # expect: impossible-date
`,
  passing: `
=== people/okafor.yaml
name: Ada Okafor
roles: [technician]
training: {ipm: {on: 2026-02-28, topic: inspecting kitchens}}
`,
})
