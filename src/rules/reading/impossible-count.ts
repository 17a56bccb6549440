import { fileRule, ledgerFormat } from '../rule.js'

export const impossibleCount = fileRule<{ value: number }>({
  id: 'impossible-count',
  title: 'a count is negative or not whole',
  level: 'error',
  judgedOn: 'whenever the ledger is read',
  why: 'A count is what is on the device now, animal by animal; rates and thresholds are computed from it.',
  remedy: 'Write how many are on the device now as a whole number, 0 or more.',
  source: ledgerFormat,
  actor: 'whoever wrote the record',
  gap: false,
  says: ({ value }) => `${value} is not a count.`,
  judge(fault) {
    if (fault.kind !== 'shape' || fault.fault.fault !== 'impossible-count') return undefined
    return {
      args: { value: Number(fault.fault.args.value) },
      at: { file: fault.file, path: fault.fault.path },
    }
  },
  failing: `
=== sites/oak/visits/2026-03-10-okafor.yaml
purpose: follow-up
by: okafor
readings:
  K1: {german-cockroach: -2} # expect: impossible-count
`,
  passing: `
=== sites/oak/visits/2026-03-10-okafor.yaml
purpose: follow-up
by: okafor
readings:
  K1: {german-cockroach: 0}
`,
})
