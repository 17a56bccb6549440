import { describe, expect, it } from 'vitest'
import { fingerprintOf } from '../../src/check/fingerprint.js'
import type { Problem } from '../../src/types.js'
import { callback, checkOf, noLog } from './checking.js'

const printsOf = (overlay: string, asOf?: string) => checkOf(overlay, asOf).standing.map(fingerprintOf)

const problem: Problem = {
  rule: 'dangling-reference',
  level: 'error',
  args: { to: 'area', name: 'kitchn' },
  identity: [],
  at: { file: 'sites/oak/visits/2026-03-10-okafor.yaml', path: ['inspected', 0] },
  related: [],
  sources: [],
  from: 1,
  actor: 'technician',
  gap: false,
}

describe('a fingerprint', () => {
  it('stays when lines move, comments come and the sentence changes', () => {
    const [before] = printsOf(callback('inspected: [kitchn]'))
    expect(before).toMatch(/^[0-9a-f]{20}$/)
    expect(printsOf(callback('# a comment\n\n\ninspected:\n  - kitchn # another'))).toEqual([before])
    expect(printsOf(callback('notes: a note\ninspected: [kitchn]'))).toEqual([before])
    // Another suggestion, another level, another day, other sources: the same problem.
    expect(
      fingerprintOf({
        ...problem,
        args: { to: 'area', name: 'kitchn', meant: 'kitchen' },
        level: 'note',
        from: 99,
        until: 100,
        sources: [{ kind: 'law', text: 'x' }],
        at: { ...problem.at, onKey: true },
      }),
    ).toBe(fingerprintOf(problem))
  })

  it('stays from one day to the next', () => {
    expect(printsOf(noLog, '2026-03-19')).toEqual(printsOf(noLog, '2026-03-20'))
  })

  it.each([
    ['rule', { rule: 'unknown-pest' }],
    ['record', { at: { ...problem.at, file: 'sites/elm/visits/2026-03-10-okafor.yaml' } }],
    ['key path', { at: { ...problem.at, path: ['inspected', 1] } }],
    ['identity', { identity: ['K1'] }],
  ])('differs with the %s', (_, other) => {
    expect(fingerprintOf({ ...problem, ...other })).not.toBe(fingerprintOf(problem))
  })

  it('does not run one part into the next', () => {
    const of = (path: string[], identity: string[]) =>
      fingerprintOf({ ...problem, at: { ...problem.at, path }, identity })
    const prints = [of(['a', 'b'], []), of(['ab'], []), of(['a'], ['b']), of([], ['a', 'b']), of([], ['ab'])]
    expect(new Set(prints).size).toBe(prints.length)
  })

  it('tells two things of one rule in one record apart', () => {
    const prints = printsOf(
      callback(
        'conditions:\n  drip: {new: drip, area: kitchen, kind: moisture, gives: water, by: 2026-04-10}\n  gap: {new: gap, area: kitchen, kind: structural, gives: entry, by: 2026-04-10}',
      ),
    )
    expect(prints).toHaveLength(2)
    expect(new Set(prints).size).toBe(2)
  })
})
