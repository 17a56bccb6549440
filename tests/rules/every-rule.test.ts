import { describe, expect, it } from 'vitest'
import { allRules } from '../../src/rules/all.js'
import { ledgerWith } from '../../src/rules/base-ledger.js'
import { expectedProblems, foundProblems } from './marked-problems.js'

it('the ledger every example stands on has no problem', () => {
  expect(foundProblems(ledgerWith(''))).toEqual([])
})

describe.each(allRules.map((rule) => [rule.id, rule] as const))('%s', (id, rule) => {
  it('speaks exactly at the marked lines of its failing ledger', () => {
    const files = ledgerWith(rule.failing)
    const expected = expectedProblems(files)
    expect(expected.some((mark) => mark.endsWith(` ${id}`))).toBe(true)
    expect(foundProblems(files)).toEqual(expected)
  })

  it('is silent in its passing ledger, like every other rule', () => {
    expect(foundProblems(ledgerWith(rule.passing))).toEqual([])
  })

  it('says why and what to do, in sentences', () => {
    expect(rule.why).toMatch(/\.$/)
    expect(rule.remedy.length).toBeGreaterThan(20)
    expect(rule.title).not.toMatch(/\.$/)
  })
})
