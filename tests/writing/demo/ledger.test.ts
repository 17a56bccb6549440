import { createHash } from 'node:crypto'
import { describe, expect, it } from 'vitest'
import { parse } from 'yaml'
import { recordKinds } from '../../../src/records/kinds.js'
import { recordPathOf } from '../../../src/records/paths.js'
import { firstDayOf } from '../../../src/writing/demo/ledger.js'
import { dayOfText, drawLedger } from './drawn-ledger.js'

const clean = drawLedger({})
const troubled = drawLedger({ clean: false, sites: 6, seed: 2 })

describe('the same options', () => {
  it('give the same commits, byte for byte', () => {
    const digest = (seed: number, isClean: boolean) =>
      createHash('sha256')
        .update(JSON.stringify(drawLedger({ seed, clean: isClean, sites: 2, years: 1 }).commits))
        .digest('hex')
    expect(digest(9, true)).toBe(digest(9, true))
    expect(digest(9, false)).toBe(digest(9, false))
    expect(digest(9, true)).not.toBe(digest(10, true))
  })
})

describe.each([
  ['a clean ledger', clean],
  ['a ledger with troubles', troubled],
])('%s', (_, ledger) => {
  it('has every record where its kind lies, and in the shape of its kind', () => {
    const faults: unknown[] = []
    let records = 0
    // Every state a file ever had, not only the last.
    for (const { path, text } of ledger.commits.flatMap((commit) => commit.files)) {
      const found = recordPathOf(path)
      if (found === null) continue
      if ('stray' in found) {
        faults.push({ path, stray: found.stray })
        continue
      }
      records++
      const result = recordKinds[found.kind].schema.safeParse(parse(text))
      if (!result.success) faults.push({ path, issues: result.error.issues })
    }
    expect(faults).toEqual([])
    expect(records).toBeGreaterThan(300)
  })

  it('has commits in order of time, all within its span', () => {
    const { from, until } = ledger.truth
    expect(from).toBe(firstDayOf(ledger.options))
    let last = Number.NEGATIVE_INFINITY
    for (const commit of ledger.commits) {
      const time = commit.day * 1440 + commit.minute
      expect(time).toBeGreaterThanOrEqual(last)
      expect(commit.minute >= 0 && commit.minute < 1440).toBe(true)
      last = time
    }
    expect(ledger.commits[0]?.day).toBe(from)
    expect(last).toBeLessThan((until + 1) * 1440)
  })

  it('has no event before the ledger begins, and only planned applications after it ends', () => {
    const { from, until } = ledger.truth
    for (const [path, text] of ledger.files) {
      const found = recordPathOf(path)
      if (!found || 'stray' in found || found.day === undefined) continue
      expect(found.day).toBeGreaterThanOrEqual(from)
      if (found.day > until) expect(parse(text)).toMatchObject({ status: 'planned' })
    }
  })

  it('commits an event on its day or, typed from paper or answered later, after it', () => {
    for (const commit of ledger.commits) {
      for (const { path, text } of commit.files) {
        const found = recordPathOf(path)
        if (!found || 'stray' in found || found.day === undefined) continue
        if (found.kind === 'application' && parse(text).status === 'planned') continue
        expect(commit.day).toBeGreaterThanOrEqual(found.day)
      }
    }
  })

  it('names in every event the person of its file name, who has a record', () => {
    for (const [path, text] of ledger.files) {
      const found = recordPathOf(path)
      if (!found || 'stray' in found || found.day === undefined) continue
      expect(parse(text).by).toBe(found.who)
      expect(ledger.files.has(`people/${found.who}.yaml`)).toBe(true)
    }
  })

  it('is read whole by the program', () => {
    expect(ledger.read.faults).toEqual([])
    expect(ledger.read.notChecked).toEqual([])
    expect(ledger.views.length).toBe(ledger.options.sites)
  })

  it('is marked as invented', () => {
    for (const [path, text] of ledger.files) {
      if (path === 'district.yaml' || /^products\/|\/site\.yaml$|^policies\//.test(path)) {
        expect(text).toMatch(/[Ii]nvented/)
      }
      for (const [, company] of text.matchAll(/registration: (\d+)-/g)) expect(company).toBe('99999')
    }
    for (const { author } of ledger.commits) expect(author.email).toMatch(/\.example$/)
  })
})

describe('a ledger with troubles', () => {
  it('keeps what it spoilt in the truth, and a clean one spoils nothing', () => {
    expect(clean.truth.spoilt).toEqual([])
    const kinds = new Set(troubled.truth.spoilt.map((spoilt) => spoilt.what))
    expect(kinds.size).toBeGreaterThan(12)
  })

  it('lacks the label files it says were lost', () => {
    const labels = (ledger: typeof clean) =>
      [...ledger.files.keys()].filter((path) => /^products\/.*\/label/.test(path)).length
    const ledger = drawLedger({ clean: false, sites: 1, years: 1, seed: 4 })
    const lost = ledger.truth.spoilt.filter((spoilt) => spoilt.what === 'label file missing').length
    const whole = drawLedger({ sites: 1, years: 1, seed: 4 })
    const perProduct = labels(whole) / 7
    expect(labels(ledger)).toBe((7 - lost) * perProduct)
    expect(lost).toBeGreaterThan(0)
  })
})

describe('firstDayOf', () => {
  const first = (until: string, years: number) =>
    firstDayOf({ sites: 1, years, seed: 1, until: dayOfText(until), clean: true })

  it('is the first of a month, so many years back at most', () => {
    expect(first('2026-06-30', 2)).toBe(dayOfText('2024-07-01'))
    expect(first('2026-06-15', 2)).toBe(dayOfText('2024-07-01'))
    expect(first('2026-01-01', 1)).toBe(dayOfText('2025-02-01'))
    expect(first('2024-02-29', 1)).toBe(dayOfText('2023-04-01'))
  })
})
