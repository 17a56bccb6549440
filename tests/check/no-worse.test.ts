import { describe, expect, it } from 'vitest'
import { newAmong } from '../../src/check/new-since.js'
import { growingArgs, isNoWorse } from '../../src/check/no-worse.js'
import { allRules } from '../../src/rules/all.js'
import type { Args, Level, Problem } from '../../src/types.js'
import { checkOf } from './checking.js'

const problem = (
  args: Args = {},
  level: Level = 'warning',
  path: Problem['at']['path'] = ['by'],
): Problem => ({
  rule: 'invented-rule',
  level,
  args,
  identity: [],
  at: { file: 'sites/oak/site.yaml', path },
  related: [],
  sources: [],
  from: 20000,
  actor: 'coordinator',
  gap: false,
})

describe('a problem is no worse than another', () => {
  it.each<[string, Problem, Problem, boolean]>([
    ['of the same level', problem(), problem(), true],
    ['that is graver', problem(), problem({}, 'error'), true],
    ['that is less grave', problem({}, 'error'), problem(), false],
    ['of as many', problem({ more: 2 }), problem({ more: 2 }), true],
    ['of more', problem({ more: 1 }), problem({ more: 2 }), true],
    ['of fewer', problem({ more: 3 }), problem({ more: 2 }), false],
    ['that counts none', problem({ more: 1 }), problem(), false],
    ['that names the same', problem({ areas: ['a', 'b'] }), problem({ areas: ['b', 'a'] }), true],
    ['that names one less', problem({ areas: ['a', 'b'] }), problem({ areas: ['a'] }), false],
    ['that names another', problem({ areas: ['b'] }), problem({ areas: ['a'] }), false],
    ['that names none', problem({ areas: ['b'] }), problem(), false],
    ['with other facts, which do not count repeats', problem({ days: 9 }), problem({ days: 2 }), true],
    ['with another name beside it', problem({ held: ['a'] }), problem({ held: [] }), true],
  ])('%s: %#', (_, one, than, expected) => {
    expect(isNoWorse(one, than)).toBe(expected)
  })
})

describe('compared as multisets', () => {
  const numbered = (at: number, args: Args = {}, level: Level = 'warning') =>
    problem(args, level, ['spans', at])

  it('the same problem a second time is new, the last of them', () => {
    const [first, second] = [problem(), problem()]
    expect(newAmong([first, second], [problem()])).toEqual([second])
    expect(newAmong([first, second], [problem(), problem()])).toEqual([])
    expect(newAmong([first], [problem(), problem()])).toEqual([])
  })

  it('one partner is taken once, though it could do for two', () => {
    const [note, error] = [problem({}, 'note'), problem({}, 'error')]
    expect(newAmong([note, error], [problem({}, 'error'), problem({}, 'note')])).toEqual([])
    expect(newAmong([note, error], [problem({}, 'error')])).toEqual([error])
    expect(newAmong([error, note], [problem({}, 'note'), problem({}, 'note')])).toEqual([error])
  })

  it('what moved in its list is the same, if nothing else of it is another', () => {
    expect(newAmong([numbered(1, { day: 'a' })], [numbered(0, { day: 'a' })])).toEqual([])
    expect(newAmong([numbered(1, { day: 'b' })], [numbered(0, { day: 'a' })])).toHaveLength(1)
    expect(newAmong([{ ...numbered(1), from: 20001 }], [numbered(0)])).toHaveLength(1)
    expect(newAmong([numbered(0), numbered(1)], [numbered(0)])).toEqual([numbered(1)])
    expect(newAmong([numbered(1, {}, 'error')], [numbered(0)])).toHaveLength(1)
  })

  it('nothing, and against nothing', () => {
    expect(newAmong([], [problem()])).toEqual([])
    expect(newAmong([problem()], [])).toHaveLength(1)
  })
})

it('of every number and list that a rule tells it is decided whether it grows with each repeat', () => {
  // What these tell is one thing of one record: a length of time, a limit, what would have been right.
  const others = [
    ...['before', 'caught', 'days', 'months', 'now', 'spots', 'sprung', 'standing', 'traps', 'value'],
    ...[
      'asked',
      'candidates',
      'categories',
      'facts',
      'groups',
      'held',
      'kinds',
      'known',
      'licences',
      'parts',
      'states',
    ],
  ]
  const told = new Set(
    allRules.flatMap(({ failing }) =>
      checkOf(failing).problems.flatMap(({ args }) =>
        Object.entries(args).flatMap(([name, value]) =>
          typeof value === 'number' || Array.isArray(value) ? [name] : [],
        ),
      ),
    ),
  )
  expect(told.size).toBeGreaterThan(15)
  expect([...told].filter((name) => !growingArgs.has(name) && !others.includes(name))).toEqual([])
  expect([...growingArgs].filter((name) => !told.has(name))).toEqual([])
})
