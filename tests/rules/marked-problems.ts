import { locateProblems } from '../../src/check/locate-problems.js'
import { runCheck, standsOn } from '../../src/check/run-check.js'
import { memorySource } from '../../src/files/memory.js'
import { dayOf } from '../../src/measure/calendar.js'
import { baseAsOf } from '../../src/rules/base-ledger.js'

/** What a small ledger's `# expect: rule-id` marks ask for, as `file:line rule`. */
export function expectedProblems(files: ReadonlyMap<string, string>): string[] {
  const expected: string[] = []
  for (const [file, text] of files) {
    text.split('\n').forEach((line, at) => {
      const ids = /# expect: ([a-z0-9-]+(?:, [a-z0-9-]+)*)/.exec(line)?.[1]
      for (const id of ids?.split(', ') ?? []) expected.push(`${file}:${at + 1} ${id}`)
    })
  }
  return expected.sort()
}

/** What the check finds standing in a small ledger on a day, as `file:line rule`. */
export function foundProblems(files: ReadonlyMap<string, string>, asOfText = baseAsOf): string[] {
  const asOf = dayOf(asOfText) ?? 0
  const source = memorySource(files)
  const result = runCheck(source, { asOf, asOfIsToday: true })
  const standing = result.problems.filter((problem) => standsOn(problem, asOf))
  return locateProblems(standing, source)
    .map(({ problem, location }) => `${problem.at.file}:${location?.line ?? 1} ${problem.rule}`)
    .sort()
}
