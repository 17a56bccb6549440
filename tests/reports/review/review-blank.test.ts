import { describe, expect, it } from 'vitest'
import { memorySource } from '../../../src/files/memory.js'
import { reviewHtml } from '../../../src/output/review-html.js'
import { review as schema } from '../../../src/records/review.js'
import { ledgerWith } from '../../../src/rules/base-ledger.js'
import { ledgerFolder, run } from '../../cli/run-doorsweep.js'
import { example, exampleWith, reviewIn } from './reviews.js'

const asked = { year: '2026', asOf: '2026-03-20' }

describe('the lines for this year', () => {
  const review = reviewIn(memorySource(ledgerWith('')), asked)

  it('bear the command that makes a record of them', async () => {
    expect(review.blank.file).toBe('reviews/2026.yaml')
    const command = review.blank.command ?? ''
    expect(command).toBe('doorsweep new review 2026')
    const folder = ledgerFolder()
    const { code, out } = await run(folder, command.split(' ').slice(1), { DOORSWEEP_TODAY: '2026-03-20' })
    expect({ code, out }).toEqual({ code: 0, out: `${review.blank.file}\n` })
  })

  it('ask what the record asks, in its order', async () => {
    const { out } = await run(ledgerFolder(), ['new', 'review', '2026', '--print'], {
      DOORSWEEP_TODAY: '2026-03-20',
    })
    const { asks, ofDecision } = review.blank
    for (const { key } of asks) expect(Object.keys(schema.shape)).toContain(key)
    const places = (keys: readonly string[], indent: string) =>
      keys.map((key) => out.search(new RegExp(`^${indent}(?:# )?${key}:`, 'm')))
    const required = asks.map(({ key }) => key).filter((key) => key !== 'findings')
    const top = places(required, '')
    expect(top.every((at) => at >= 0)).toBe(true)
    expect(top).toEqual([...top].sort((a, b) => a - b))
    expect(out).toMatch(/^# findings:/m)
    const inside = places(
      ofDecision.map(({ key }) => key).filter((key) => key !== ''),
      ' {4}',
    )
    expect(inside.every((at) => at >= 0)).toBe(true)
    expect(inside).toEqual([...inside].sort((a, b) => a - b))
  })

  it('name who leads it only where names are asked for', () => {
    const named = reviewIn(memorySource(ledgerWith('')), { ...asked, with: ['names'] })
    expect(named.blank.command).toBe('doorsweep new review 2026 --by marsh')
  })

  it('stand in the page, with the command', () => {
    const html = reviewHtml(review)
    expect(html).toContain('<code>doorsweep new review 2026</code>')
    for (const { says } of [...review.blank.asks, ...review.blank.ofDecision]) expect(html).toContain(says)
  })

  it.each([
    ['held', () => reviewIn(example())],
    ['to be held', () => reviewIn(example(), { asOf: '2026-06-15' })],
    ['that cannot be used', () => reviewIn(exampleWith({ 'reviews/2026.yaml': 'held: [' }))],
  ])('point to a record %s, and bear no command that would be refused', (_, make) => {
    const { blank } = make()
    expect(blank.command).toBeUndefined()
    expect(blank.says).toContain('reviews/2026.yaml is in the ledger')
  })

  it('are of the year in which the school year ends', () => {
    const { blank } = reviewIn(example(), { year: '2024-2025', asOf: '2025-05-30' })
    expect(blank.file).toBe('reviews/2025.yaml')
  })
})
