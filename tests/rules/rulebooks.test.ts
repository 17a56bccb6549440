import { describe, expect, it } from 'vitest'
import { checkRulebook } from '../../src/check/check-rulebook.js'
import { builtInRulebook, builtInRulebooks } from '../../src/records/tables.js'
import { allRules } from '../../src/rules/all.js'
import { parametersRead } from '../../src/rules/rulebooks/rulebook-parameter-unread.js'
import { day } from '../ledger/small-site.js'

const head = `title: Invented policy
jurisdiction: Example District
read-on: 2026-03-01
covers: how often traps are read
does-not-cover: [state law]
`
const basis = 'source: Invented policy, kind: standard, confidence: read'
const problemsOf = (body: string) =>
  checkRulebook('own', head + body, day('2026-03-20')).problems.map(
    ({ rule, at }) => `${rule} ${at.path.join('.')}`,
  )
const versions = (...spans: string[]) =>
  `parameters:\n  check.sticky-trap:\n${spans.map((span) => `    - {${span}, value: 14 days, ${basis}}\n`).join('')}`

describe('versions of one duty', () => {
  it.each([
    [
      'one that ends the day before the next begins',
      ['from: 2024-08-01, until: 2025-12-31', 'from: 2026-01-01'],
    ],
    ['one without an end, which the next replaces', ['from: 2024-08-01', 'from: 2026-01-01']],
    ['a gap between them', ['from: 2024-08-01, until: 2025-06-30', 'from: 2026-01-01']],
  ])('may be: %s', (_what, spans) => {
    expect(problemsOf(versions(...spans))).toEqual([])
  })

  it.each([
    ['one day both hold', ['from: 2024-08-01, until: 2026-01-01', 'from: 2026-01-01'], 1],
    ['both begin on one day', ['from: 2024-08-01', 'from: 2024-08-01'], 1],
    ['the later one is written first', ['from: 2026-01-01', 'from: 2024-08-01, until: 2026-03-01'], 0],
  ])('overlap: %s', (_what, spans, at) => {
    expect(problemsOf(versions(...spans))).toEqual([
      `rulebook-dates-overlap parameters.check.sticky-trap.${at}.from`,
    ])
  })
})

describe('classes of uses', () => {
  const notices = (extra: string) =>
    `notices:\n  staff:\n    - {from: 2026-03-01, to: staff, reach: all, lead: 24 hours, ${extra}, ${basis}}\n`
  const uses = (from: string) =>
    `uses:\n  gel:\n    - {from: ${from}, any: [{formulation: [gel]}], ${basis}}\n`

  it('are asked of both lists, and of the version in force when the duty begins', () => {
    expect(problemsOf(uses('2026-03-01') + notices('not-for: [gel], holds-for: [gel]'))).toEqual([])
    expect(problemsOf(uses('2026-03-02') + notices('not-for: [gel]'))).toEqual([
      'rulebook-class-undefined notices.staff.0.not-for.0',
    ])
    expect(problemsOf(notices('holds-for: [gel]'))).toEqual([
      'rulebook-class-undefined notices.staff.0.holds-for.0',
    ])
  })
})

describe('values', () => {
  it('that no rule reads are told, each at its name', () => {
    const value = `[{from: 2026-03-01, value: 1, ${basis}}]`
    expect(problemsOf(`parameters:\n  nothing.reads: ${value}\n  condition.reopened: ${value}\n`)).toEqual([
      'rulebook-parameter-unread parameters.nothing.reads',
    ])
  })

  it.each(builtInRulebooks)('of %s are all read by a rule', (id) => {
    const read = parametersRead(allRules)
    expect(Object.keys(builtInRulebook(id).parameters ?? {}).filter((name) => !read.has(name))).toEqual([])
  })
})

it.each(builtInRulebooks)('%s is a sound rulebook by the rules for a district’s own', async (id) => {
  const { readFileSync } = await import('node:fs')
  const text = readFileSync(new URL(`../../src/data/rulebooks/${id}.yaml`, import.meta.url))
  expect(checkRulebook('own', text, day('2026-11-24')).problems).toEqual([])
})
