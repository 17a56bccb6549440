import { describe, expect, it } from 'vitest'
import { baitApplication } from '../../src/rules/example-applications.js'
import { inventedAct, noticeDuties } from '../../src/rules/notices/example-ledgers.js'
import { underOwnRulebook } from '../../src/rules/own-rulebook.js'
import type { Ran } from './run-doorsweep.js'
import { ledgerFolder, run } from './run-doorsweep.js'

/**
 * What `precheck`, `mix` and `report use` answer to what cannot be answered: an exit code that is not one of success, and
 * a sentence that says what is lacking. Never the inside of the program.
 */
function plainly({ code, out, err }: Ran, expected: number, ...says: readonly (string | RegExp)[]): void {
  for (const each of says) expect(out + err).toMatch(each)
  expect(code).toBe(expected)
  expect(out + err).not.toMatch(/\bat .*\.[jt]s:\d|undefined|NaN|Infinity|\[object/)
}

const planned = (date: string, ...lines: string[]) => baitApplication(date, 'status: planned', ...lines)
const precheck = (overlay: string, date: string, today = '2026-03-01') =>
  run(ledgerFolder(overlay), [
    'precheck',
    `sites/oak/applications/${date}-okafor.yaml`,
    ...['--as-of', today],
  ])
const mix = (overlay: string, ...args: string[]) =>
  run(ledgerFolder(overlay), ['mix', '--as-of', '2026-03-20', ...args])
const use = (overlay: string, ...args: string[]) =>
  run(ledgerFolder(overlay), ['report', 'use', '--as-of', '2026-03-20', ...args])

const barePaper = `
=== products/bare/product.yaml
name: Invented Bare
kind: pesticide
registration: 99999-8
states: {OR: [{from: 2025-01-01}]}
formulation: gel
restricted-use: no
labels: [{from: 2026-01-05, file: label.txt}]
sds: [{from: 2026-01-05, file: sds.txt}]
=== products/bare/label.txt
An invented label.
=== products/bare/sds.txt
An invented safety data sheet.
`

describe('a product of whose label nothing is entered', () => {
  it('precheck', async () => {
    const ran = await precheck(barePaper + planned('2026-03-12', 'product: bare'), '2026-03-12')
    plainly(
      ran,
      2,
      'NOT EVERYTHING COULD BE LOOKED AT',
      /the label +what it says is not entered in the register/,
    )
  })
  it('mix works it out, and holds it against nothing', async () => {
    const rate = ['--rate', '2 g', '--per', 'placement', '--area', '8 placement']
    const ran = await mix(barePaper, '--product', 'bare', ...rate)
    // 8 × 2 g.
    plainly(
      ran,
      2,
      /undiluted product +16 g/,
      'The register tells no rate of Invented Bare: nothing was held',
    )
  })
  it('mix to a strength that is not entered', async () => {
    const ran = await mix(barePaper, '--product', 'bare', '--target', '1 %', '--make', '1 gal')
    plainly(ran, 2, 'The register tells no strength of Invented Bare')
  })
  it('report use tells the amount, and why it tells no active ingredient', async () => {
    const used = baitApplication('2026-03-12', 'product: bare')
    const ran = await use(barePaper + used)
    plainly(ran, 0, /Invented Bare +1 +0 +2 g/, /not in the register .*no active ingredient in the register/)
  })
})

describe('a target of 0 %', () => {
  it('mix', async () => {
    const ran = await mix('', '--strength', '48 %', '--target', '0 %', '--make', '1 gal')
    plainly(ran, 2, '--target "0 %": it has to be above zero')
  })
})

describe('a size or an amount without a unit', () => {
  it('mix', async () => {
    const ran = await mix('', '--rate', '1 fl oz', '--per', '1000 ft2', '--area', '2500')
    plainly(ran, 2, '--area "2500": it has no unit')
  })
  it('precheck of what is said', async () => {
    const ran = await run(ledgerFolder(), [
      ...['precheck', '--site', 'oak', '--by', 'okafor', '--on', '2026-04-02', '--product', 'bait-a'],
      ...['--pest', 'german-cockroach', '--area', 'kitchen', '--method', 'crack-and-crevice'],
      ...['--amount', '2', '--as-of', '2026-03-10'],
    ])
    plainly(
      ran,
      2,
      'NOT EVERYTHING COULD BE LOOKED AT',
      '`2` does not read as: undiluted amount in all, such as `4.5 g`',
    )
  })
  it('precheck of a draft', async () => {
    const ran = await precheck(planned('2026-03-12', 'treated-extent: 3'), '2026-03-12')
    plainly(ran, 2, /Here is a number; what belongs here: size of what was treated, such as `3 ft2`/)
  })
  it('report use leaves the site out, and says so', async () => {
    const ran = await use(baitApplication('2026-03-12', 'amount: 2'))
    plainly(ran, 2, 'No site could be examined', /sites\/oak/)
  })
})

describe('an hour of a change of the clocks', () => {
  // In 2026 the clocks of the United States change on 8 March and 1 November at 02:00 (15 U.S.C. 260a, from memory).
  it('that is skipped: precheck says which', async () => {
    const ran = await precheck(planned('2026-03-08', 'time: 02:30 to 03:10'), '2026-03-08')
    plainly(
      ran,
      1,
      /exact moments +2026-03-08 has no 02:30: the clock goes from 02:00 to 03:00/,
      'clock-time-not-there',
    )
  })
  it('that comes twice: both are looked at, and an offset is asked for', async () => {
    const calendar = underOwnRulebook(noticeDuties).replace('until: 2026-06-12', 'until: 2026-12-18')
    const line = (time: string) =>
      planned('2026-11-01', `time: ${time}`, 'follow-up: {by: 2026-11-20, look: K1}', 'reopened:', 'dry:')
    const ran = await precheck(calendar + line('01:30 to 01:50'), '2026-11-01')
    plainly(
      ran,
      1,
      /the clock shows 01:30 twice on 2026-11-01, and both were looked at/,
      /write 01:30-07:00 for the first, 01:30-08:00 for the second/,
      // 72 hours before the earlier 01:30: 01:30 on 29 October. Before the later it would be 02:30.
      /notice to parents +by 2026-10-29 01:30/,
    )
    const first = await precheck(calendar + line('01:30-07:00 to 01:50-07:00'), '2026-11-01')
    plainly(first, 0, /notice to parents +by 2026-10-29 01:30/)
    const second = await precheck(calendar + line('01:30-08:00 to 01:50-08:00'), '2026-11-01')
    plainly(second, 0, /notice to parents +by 2026-10-29 02:30/)
  })
})

describe('a school calendar that ends before the day', () => {
  const duty = (lead: string) =>
    underOwnRulebook(
      `notices:\n  parents: [{${inventedAct(3)}, to: parents, reach: all, lead: ${lead}, says: [date]}]\n`,
    )
  const june = planned('2026-06-16', 'follow-up: {by: 2026-07-01, look: K1}')

  it('precheck cannot say when a lead of school days ends, and names the last day of the calendar', async () => {
    const ran = await precheck(duty('2 school days') + june, '2026-06-16')
    plainly(
      ran,
      2,
      'NOT EVERYTHING COULD BE LOOKED AT',
      /notice to parents +cannot be said: the school calendar ends on 2026-06-12/,
      /before it begins +cannot be said /,
      'the school calendar of district.yaml ends on 2026-06-12, before that day',
      'the school calendar ends on 2026-06-12, so that they cannot be said',
    )
  })
  it('business days are counted all the same', async () => {
    // Tuesday 16 June 2026: the second business day back is Friday the 12th.
    const ran = await precheck(duty('2 business days') + june, '2026-06-16')
    plainly(ran, 2, /notice to parents +by the end of 2026-06-12/, 'ends on 2026-06-12, before that day')
    expect(ran.out).not.toContain('cannot be said')
  })
  it('also where only the last of it lies beyond', async () => {
    const signs = underOwnRulebook(
      `postings:\n  signs: [{${inventedAct(4)}, before: 24 hours, after: 2 school days, says: [date]}]\n`,
    )
    const last = planned('2026-06-12', 'follow-up: {by: 2026-07-01, look: K1}')
    const ran = await precheck(signs + last, '2026-06-12')
    plainly(ran, 2, /stays until: cannot be said: the school calendar ends on 2026-06-12/)
  })
})

describe('a period without an application', () => {
  it('report use says that none is recorded, and of what', async () => {
    const ran = await use('', '--from', '2026-03-10')
    plainly(ran, 0, 'No use of a pesticide is recorded in this period', 'None recorded in this period.')
  })
  it('report use of one that the records do not reach says nothing of it', async () => {
    const ran = await use('', '--from', '2025-01-01', '--to', '2025-12-31')
    plainly(ran, 0, 'The records begin after this period, so nothing can be said of it.')
  })
  it('report use of one that the records cover in part says so', async () => {
    const ran = await use('', '--from', '2025-12-01')
    plainly(ran, 0, 'which the records cover only in part')
  })
  it('report use of one that has not begun is refused', async () => {
    plainly(await use('', '--from', '2026-03-21'), 2, 'The period starts after the as-of day: 2026-03-21')
  })
})
