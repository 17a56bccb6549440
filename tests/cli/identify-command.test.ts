import { describe, expect, it } from 'vitest'
import { newFolder, run } from './run-doorsweep.js'

const nowhere = newFolder()
const identify = (...args: string[]) => run(nowhere, ['identify', ...args], { DOORSWEEP_TODAY: '2026-03-20' })

describe('identify', () => {
  it('needs no ledger, takes words one by one or with commas, and lengths in any unit', async () => {
    const byOne = await identify('--wings', 'two', '--body', 'humped', 'hairy', '--length', '3 mm')
    expect([byOne.code, byOne.err]).toEqual([0, ''])
    expect(byOne.out).toContain('seen: length 3 mm; wings: two clear wings; body: humped back; body: hairy')
    const byComma = await identify('--wings', 'two', '--body', 'humped,hairy', '--length', '0.3cm')
    expect(byComma.out).toBe(byOne.out)
  })

  it('half an inch is 12.7 mm', async () => {
    const ran = await identify('--length', '0.5 in', '--marks', 'two-dark-stripes')
    expect(ran.out).toContain('length 12.7 mm')
    expect(ran.out).toContain('fits the German cockroach best')
  })

  it('without anything seen lists the words', async () => {
    const ran = await identify()
    expect([ran.code, ran.err]).toEqual([0, ''])
    expect(ran.out).toMatch(/--waist +broad +not at all/)
  })

  it.each(['text', 'markdown', 'json', 'csv'])('is written as %s', async (format) => {
    const ran = await identify('--nest', 'mud', '--format', format)
    expect([ran.code, ran.err]).toEqual([0, ''])
    expect(ran.out).toContain('mud dauber')
  })

  it('tells the source of every statement when asked', async () => {
    const ran = await identify('--marks', 'yellow-edge', '--show-work')
    expect(ran.out).toContain('EENY-141')
  })

  it.each([
    [['--wings', 'fuor-equal'], '--wings fuor-equal: the words are none, short,'],
    [['--wings', 'fuor-equal'], 'did you mean four-equal?'],
    [['--length', '3'], '--length 3: write a length with its unit, such as "14 mm" or "0.5 in".'],
    [['--length', '0 mm'], '--length 0 mm: write a length'],
    [['--length', '-3 mm'], '--length -3 mm: write a length'],
    [['--length', '3 oz'], '--length 3 oz: write a length'],
    [['--length', '14 ft'], '--length 14 ft is longer than any pest here; is the unit right?'],
    [['--wings', '__proto__'], '--wings __proto__: the words are'],
    [['--sting', 'yes'], '--sting'],
    [['--nest', 'mud', '--format', 'pdf'], 'pdf'],
  ])('%j is called wrongly', async (args, says) => {
    const ran = await identify(...args)
    expect([ran.code, ran.out]).toEqual([2, ''])
    expect(ran.err).toContain(says)
  })
})
