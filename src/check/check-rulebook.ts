import { memorySource } from '../files/memory.js'
import type { Day } from '../types.js'
import type { CheckResult } from './run-check.js'
import { runCheck } from './run-check.js'

/**
 * Checks one rulebook by itself, with the rules that check it in a ledger: it is laid into the smallest ledger there
 * is, and only what is wrong in its own file is kept.
 */
export function checkRulebook(id: string, text: string | Uint8Array, asOf: Day): CheckResult {
  const file = `rulebooks/${id}.yaml`
  const files = new Map<string, string | Uint8Array>([
    ['district.yaml', smallestDistrict],
    ['people/coordinator.yaml', 'name: Coordinator\nroles: [coordinator]\n'],
    [file, text],
  ])
  const result = runCheck(memorySource(files), { asOf, asOfIsToday: false })
  return { ...result, problems: result.problems.filter(({ at }) => at.file === file) }
}

const smallestDistrict = `
format: 1
name: District
time-zone: UTC
records-begin: 1990-01-01
coordinator: [{from: 1990-01-01, who: coordinator}]
rulebooks: []
calendar: []
`
