import { describe, expect, it } from 'vitest'
import { problemsAnnotations } from '../../src/output/problems-annotations.js'
import { problemsJson } from '../../src/output/problems-json.js'
import { problemsJunit } from '../../src/output/problems-junit.js'
import { problemsSarif } from '../../src/output/problems-sarif.js'
import { allRules } from '../../src/rules/all.js'
import { departuresFromCheckSchema } from './check-schema.js'
import { pageOf } from './problems-page.js'
import { readXml } from './read-xml.js'
import { departuresFromSarif } from './sarif-schema.js'

describe.each(allRules.map((rule) => [rule.id, rule] as const))('%s for machines', (id, rule) => {
  const page = pageOf(rule.failing, 0, true)

  it('has its description and its results in SARIF', () => {
    const sarif = JSON.parse(problemsSarif(page, { version: '0.0.0' }))
    expect(departuresFromSarif(sarif)).toEqual([])
    const [{ tool, results }] = sarif.runs
    const described = tool.driver.rules.find((entry: { id: string }) => entry.id === id)
    // No text of a rule has a line end or another control character in it, which would show as an escape.
    expect(JSON.stringify(described)).not.toContain('\\\\u00')
    expect(results.filter(({ ruleId }: { ruleId: string }) => ruleId === id).length).toBeGreaterThan(0)
    expect(results).toHaveLength(page.problems.length + page.excepted.length)
    const prints = results.map(
      (result: { partialFingerprints: Record<string, string> }) => result.partialFingerprints['doorsweep/v1'],
    )
    expect(new Set(prints).size).toBe(prints.length)
  })

  it('is as the schemas and readers of the other formats have it', () => {
    expect(departuresFromCheckSchema(JSON.parse(problemsJson(page)))).toEqual([])
    expect(readXml(problemsJunit(page)).name).toBe('testsuites')
    const lines = problemsAnnotations(page, { most: 1000 }).trimEnd().split('\n')
    expect(lines).toHaveLength(page.problems.length + page.notChecked.length + 1)
  })
})
