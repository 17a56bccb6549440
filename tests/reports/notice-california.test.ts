import { describe, expect, it } from 'vitest'
import { workTree } from '../../src/files/work-tree.js'
import { blanksOf, draftOn, lineIn, moments, noticesIn, saidIn, sameMatters } from './notice-ledgers.js'

describe('California and the policy of the district, examples/district', () => {
  const source = workTree(new URL('../../examples/district', import.meta.url).pathname)
  const gelOnBoards = `by: okafor
status: planned
product: roach-gel
pest: german-cockroach
areas: {kitchen: {amount: 2 g}}
method: bait-placement
time: 08:00 to 08:50
reason: six new ones on the boards
`
  const made = noticesIn(source, draftOn('2026-03-10', gelOnBoards, 'ottermere'))

  it.each(['parents', 'staff'] as const)('the notice to %s', (to) => {
    sameMatters(saidIn(made, to), [
      // Education Code 17612(a)(1): product, active ingredients, intended date.
      'trade-name',
      'active-ingredients',
      'date',
      // IPM policy as amended on 2025-12-16, section 6, beyond those.
      'registration',
      'location',
      'time',
      'reason',
      'coordinator-contact',
    ])
  })

  it('the sign', () => {
    // Education Code 17612(d)
    sameMatters(saidIn(made, 'sign'), [
      'warning-words',
      'trade-name',
      'manufacturer',
      'registration',
      'date',
      'location',
      'reason',
    ])
    expect(saidIn(made, 'sign')[0]).toBe('warning-words')
    // The words themselves are set by Education Code 17612(d), from memory.
    expect(lineIn(made, 'sign', 'warning-words')).toBe('Warning/Pesticide Treated Area')
    expect(made.report.cautions).toContain(
      'The words for warning-words are quoted from Education Code 17612(d), from memory: hold them against the text.',
    )
    expect(made.texts.find(({ id }) => id === 'sign')?.instructions).toEqual([
      'Print it large.',
      'One hangs at each of: the treated area.',
    ])
  })

  it('moments across the day on which the clocks are set forward', () => {
    // 2026-03-10 08:00 is 15:00 UTC, as clocks there are 7 hours behind since Sunday 2026-03-08. 72 hours before is
    // 2026-03-07 15:00 UTC, when they were 8 hours behind: 07:00.
    expect(moments(made, 'latest')).toEqual([
      ['notice to parents who asked', '2026-03-07 07:00'],
      ['notice to parents', '2026-03-07 07:00'],
      ['notice to staff who asked', '2026-03-07 07:00'],
      ['notice to staff', '2026-03-07 07:00'],
      // 24 hours before.
      ['sign', '2026-03-09 08:00'],
      // At each treated area, no time said: when it begins.
      ['sign, at: treated-area', '2026-03-10 08:00'],
    ])
    // 72 hours after 08:50 on the 10th.
    expect(moments(made, 'stays').slice(4)).toEqual([
      ['sign', '2026-03-13 08:50'],
      ['sign, at: treated-area', null],
    ])
  })

  it('what each line rests on', () => {
    const [parents] = made.texts
    const sources = (about: string) =>
      parents?.lines.find((line) => line.about === about)?.askedBy.map(({ text }) => text.slice(0, 30))
    expect(sources('active-ingredients')).toEqual(['Education Code 17612(a)(1): wh'])
    expect(sources('time')).toEqual(['IPM policy as amended on 2025-'])
    expect(sources('date')).toEqual(['Education Code 17612(a)(1): wh', 'IPM policy as amended on 2025-'])
  })

  it('the letter, from what the ledger has', () => {
    expect(made.texts[0]?.heading).toBe('Notice of a pesticide application')
    expect(made.texts[0]?.lines.map(({ text }) => text)).toEqual([
      'Ottermere Elementary, Alder Fork School District',
      'It is planned to use a pesticide here.',
      'Product: Invented Roach Gel',
      'Active ingredients: inventamide 0.6 %',
      'EPA registration number: 99999-11',
      'Where: Ottermere Elementary, Main kitchen',
      // 2026-03-01 was a Sunday, so the 10th is a Tuesday.
      'Date: Tuesday, March 10, 2026',
      'Time: 08:00 to 08:50',
      'Why: six new ones on the boards',
      'Questions to the pest management coordinator: Ines Marsh, 555-0120',
      'The label of the product is the law, local code governs, and a licensed applicator decides. This paper does not authorise an application.',
    ])
  })

  it('an emergency: notice afterwards, statement, and a sign at the start', () => {
    const stung = noticesIn(
      source,
      {
        ...draftOn('2025-09-16', '', 'ottermere'),
        text: bytes('sites/ottermere/applications/2025-09-16-okafor.yaml'),
      },
      { asOf: '2025-10-01' },
    )
    expect(stung.texts.map(({ title }) => title)).toEqual([
      'Notice to parents',
      'Notice to staff',
      'Sign',
      'Statement of the emergency',
    ])
    // Within 24 hours of 17:20; the sign when it began, until 72 hours after 17:35 on the 16th.
    expect(moments(stung, 'latest')).toEqual([
      ['notice to parents', '2025-09-17 17:20'],
      ['notice to staff', '2025-09-17 17:20'],
      ['sign', '2025-09-16 17:20'],
      ['statement of the emergency', null],
    ])
    expect(moments(stung, 'stays')[2]).toEqual(['sign', '2025-09-19 17:35'])
    expect(saidIn(stung, 'statement')).toEqual([
      'emergency-problem',
      'emergency-reason',
      'emergency-prevention',
      'decided-by',
      'signed',
    ])
    // The policy, section 6, says nothing of what notice and sign hold.
    expect(saidIn(stung, 'parents')).toEqual(['contents'])
    expect(lineIn(stung, 'parents', 'contents')).toBe('[...]')
    expect(blanksOf(stung).map(([about, texts]) => [about, texts])).toEqual([
      ['contents', 'parents'],
      ['contents', 'staff'],
      ['contents', 'sign'],
    ])
  })

  function bytes(file: string): Uint8Array {
    const read = source.read(file)
    if ('refused' in read) throw new Error(read.detail)
    return read.bytes
  }
})
