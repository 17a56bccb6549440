import { readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { afterAll, describe, expect, it } from 'vitest'
import { allRules } from '../../src/rules/all.js'
import { baseLedgers, cleanLedger, ledgersPerKind, ledgersPerKindInShort } from './base-ledgers.js'
import { faultKinds } from './faults.js'
import type { Trial } from './measure-faults.js'
import { faultTrials, verdictOn } from './measure-faults.js'
import { withTable } from './table.js'

const folder = new URL('.', import.meta.url)
// `FULL=1` tries each kind in up to four ledgers. The table is measured on all of them.
const isFull = Boolean(process.env.FULL || process.env.MUTATION_TABLE)
const trialsOf = faultTrials(baseLedgers, isFull ? ledgersPerKind : ledgersPerKindInShort)
const measured = new Map<string, readonly Trial[]>()

describe.each(faultKinds.map((kind) => [kind.name, kind] as const))('%s', (name, kind) => {
  it(`is reported as ${kind.expect}, at its place, and as nothing else`, () => {
    const trials = trialsOf(kind)
    measured.set(name, trials)
    // No ledger has a place for it: then nothing is tested, and the kind needs another way in.
    expect(trials.length).toBeGreaterThan(0)
    for (const { ledger, missed, falseAlarms, wronglyChecked, elsewhere } of trials)
      expect({ ledger, missed, falseAlarms, wronglyChecked, elsewhere }).toEqual({
        ledger,
        missed: [],
        falseAlarms: [],
        wronglyChecked: [],
        elsewhere: [],
      })
    // What a kind allows or tolerates has to happen, or it hides what it is not meant to hide.
    const spoke = new Set(trials.flatMap(({ also }) => also))
    expect(spoke, 'rules under `also` that never spoke are to be taken away').toEqual(
      new Set(Object.keys(kind.also ?? {})),
    )
    const happened = trials.some(({ tolerated }) => tolerated.length > 0)
    expect(happened, 'a false alarm that is mended is no longer to be `tolerated`').toBe(
      kind.tolerated !== undefined,
    )
  })
})

describe('the ledgers before any fault', () => {
  it.each(baseLedgers)('seed $seed to $until is clean', (options) => {
    expect(verdictOn(cleanLedger(options))).toEqual({
      standing: [],
      ended: [],
      toldTwice: [],
      notChecked: [],
    })
  })
})

describe('a ledger that lost what all the rest hangs on', () => {
  const draft = () => cleanLedger({ sites: 2, years: 1, seed: 21, until: '2026-03-12' })

  it('is not checked without district.yaml', () => {
    const lost = draft()
    lost.files.delete('district.yaml')
    expect(verdictOn(lost).notChecked).toHaveLength(1)
  })

  it('has a site that is not checked without its site.yaml', () => {
    const lost = draft()
    const file = [...lost.files.keys()].find((path) => path.endsWith('/site.yaml')) ?? ''
    lost.files.delete(file)
    expect(verdictOn(lost).notChecked).toEqual([expect.stringContaining(file.replace('/site.yaml', ''))])
  })
})

describe('the kinds of fault', () => {
  it('leave no rule out', () => {
    const expected = new Set(faultKinds.map((kind) => kind.expect))
    expect(allRules.map(({ id }) => id).filter((id) => !expected.has(id))).toEqual([])
  })

  it('name rules that there are', () => {
    const ids = new Set(allRules.map(({ id }) => id))
    const named = faultKinds.flatMap(({ expect: rule, also, tolerated }) => [
      rule,
      ...Object.keys({ ...also, ...tolerated }),
    ])
    expect(named.filter((id) => !ids.has(id))).toEqual([])
  })

  it('have names of their own', () => {
    expect(new Set(faultKinds.map(({ name }) => name)).size).toBe(faultKinds.length)
  })

  it('are made without the rules, or anything else of the program but its calendar', () => {
    const added = readdirSync(folder).filter((file) => file.startsWith('added'))
    const others = ['draft', 'fault', 'faults', 'school-days', 'site-records', 'used-products']
    const makers = [...added, ...others.map((name) => `${name}.ts`)]
    const kinds = readdirSync(new URL('faults/', folder)).map((file) => `faults/${file}`)
    const imports = [...makers, ...kinds].flatMap((file) => {
      const text = readFileSync(new URL(file, folder), 'utf8')
      return [...text.matchAll(/ from '([^']+)'/g)].map((found) => found[1] ?? '')
    })
    const foreign = imports.filter((path) => path !== 'yaml' && !/^\.\.?\/(?!.*src\/)/.test(path))
    expect(new Set(foreign)).toEqual(
      new Set(['../../src/measure/calendar.js', '../../../src/measure/calendar.js']),
    )
  })
})

/** `MUTATION_TABLE=2026-05-01` writes what was measured into README.md, under that date. */
afterAll(() => {
  const date = process.env.MUTATION_TABLE
  if (date === undefined) return
  const page = new URL('README.md', folder)
  writeFileSync(page, withTable(readFileSync(page, 'utf8'), date, faultKinds, measured))
})
