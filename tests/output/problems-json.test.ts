import { describe, expect, it } from 'vitest'
import { problemsJson } from '../../src/output/problems-json.js'
import { logExcepted, pageOf } from './problems-page.js'

const file = 'sites/oak/visits/2026-03-10-okafor.yaml'
const documentOf = (overlay: string, hidden = 0) => JSON.parse(problemsJson(pageOf(overlay, hidden)))

describe('a check as JSON', () => {
  it('is versioned, and counts what was read and found', () => {
    expect(documentOf('', 2)).toEqual({
      'format-version': 1,
      'as-of': '2026-03-20',
      source: 'memory',
      counts: {
        records: 11,
        sites: 1,
        'later-records': 0,
        error: 0,
        warning: 0,
        note: 0,
        excepted: 0,
        hidden: 2,
      },
      problems: [],
      excepted: [],
      'not-checked': [],
    })
  })

  it('has of a problem the facts, the sentence and the place', () => {
    const { problems, counts } = documentOf(
      `=== ${file}\npurpose: callback\nby: okafor\ninspected: [kitchn]\n`,
    )
    expect(counts).toMatchObject({ records: 12, error: 1 })
    expect(problems).toHaveLength(1)
    expect(problems[0]).toMatchObject({
      rule: 'dangling-reference',
      level: 'error',
      says: 'There is no area `kitchn`; did you mean `kitchen`?',
      args: { to: 'area', name: 'kitchn', meant: 'kitchen' },
      key: 'inspected.0',
      site: 'oak',
      gap: false,
      location: { file, line: 3, column: 13, 'end-line': 3, 'end-column': 19 },
      related: [],
    })
    expect(problems[0].fingerprint).toMatch(/^[0-9a-f]{20}$/)
    expect(problems[0].remedy.length).toBeGreaterThan(20)
    expect(problems[0].sources).toHaveLength(1)
  })

  it('has no day for what is wrong with a file itself, and names what was not checked', () => {
    const document = documentOf(`=== ${file}\npurpose: callback\nby: okafor\ninspected: kitchen\n`)
    expect(document.problems.map((problem: { from: string | null }) => problem.from)).toEqual([null])
    expect(document['not-checked']).toHaveLength(1)
    expect(document['not-checked'][0].what).toBe('sites/oak')
  })

  it('has what is excepted beside the problems, with its reason and its end', () => {
    const document = documentOf(logExcepted)
    expect(document.problems).toEqual([])
    expect(document.counts.excepted).toBe(1)
    expect(document.excepted).toHaveLength(1)
    expect(document.excepted[0]).toMatchObject({
      rule: 'complaint-log-not-read',
      from: '2026-03-05',
      exception: 'exceptions/log-away.yaml',
      why: 'the log is being bound anew',
      until: '2026-04-10',
    })
  })
})
