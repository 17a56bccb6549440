import { describe, expect, it } from 'vitest'
import { district, everythingOf, oakPage, pageOf, spray, waiting } from './application-pages.js'

describe('one that is planned', () => {
  const page = pageOf(district, 'tamsin-hill/2026-07-08-okafor')

  it('is told as something to come', () => {
    expect(page.headline).toBe('Invented Ant Station is to be used against odorous house ant in: Staff room.')
    expect(page.stated['Done or not']).toBe('it is planned; by the record it has not been done')
    expect(page.says.product).toMatchObject({
      'How it is to be used': 'as bait inside a closed station',
      'How much is planned': 'The record does not say how much.',
      'Can children reach it?': 'Staff room: the record does not say',
    })
    expect(page.says.where).toMatchObject({
      Day: 'Wednesday 2026-07-08',
      'Planned hours': 'The record does not say at what hours.',
    })
    expect(page.says['staying-out']?.['Back not earlier than']).toBe(
      'No moment can be told from the record. The label on the container decides; it may ask for longer.',
    )
    expect(page.tables.find(({ id }) => id === 'told')?.empty).toBe('The record shows no notice sent so far.')
    const all = everythingOf(page)
    expect(all).not.toMatch(/was used|stayed out|Opened again/)
  })

  it('says once its day has passed that the record does not show that it was done', () => {
    const passed = pageOf(district, 'tamsin-hill/2026-07-08-okafor', { asOf: '2026-07-09' })
    expect(passed.stated['Done or not']).toBe(
      'it was planned; its day has passed, and the record does not show that it was done',
    )
    expect(passed.headline).toMatch(/^Planned, and not on record as done: /)
    expect(pageOf(district, 'tamsin-hill/2026-07-08-okafor', { asOf: '2026-07-08' }).headline).toContain(
      'is to be used',
    )
  })

  it('names the moment from which people may be back at the earliest, and that the label decides', () => {
    const planned = spray
      .replace('status: done', 'status: planned')
      .replace(/dry:[\s\S]*$/, 'rain-dates: [2026-03-13]')
    const found = oakPage(planned, waiting('7 h'), { asOf: '2026-03-10' })
    // 16:05 and 7 hours.
    expect(found.says['staying-out']).toEqual({
      'What the label says': 'As the register has it: stay out until it is dry or settled.',
      'Time to stay out': '7 h after the end (Invented Pest Act, section 8)',
      'Back not earlier than':
        'Thursday 2026-03-12, 23:05. The label on the container decides; it may ask for longer.',
      'Seen dry or settled': 'People also stay out until someone has looked and seen it dry or settled.',
    })
    expect(found.says.where?.['If the weather is wrong']).toBe('Friday 2026-03-13')
    const noHours = oakPage(planned.replace(/time:.*\n/, ''), waiting('7 h'), { asOf: '2026-03-10' })
    expect(noHours.says['staying-out']?.['Back not earlier than']).toBe(
      'It cannot be told: the record does not say at what hours. The label on the container decides; it may ask for longer.',
    )
  })

  it('names by when people are to be told, and whether that is on record', () => {
    const planned = spray.replace('status: done', 'status: planned').replace(/dry:[\s\S]*$/, '')
    const asking = waiting('7 h').replace(
      'reentry:',
      `notices:
  parents:
    - {from: 2026-01-01, to: parents, reach: all, lead: 24 hours, source: "Invented Pest Act, section 3", kind: law, confidence: read}
reentry:`,
    )
    const notice = `
=== sites/oak/notices/2026-03-11-marsh.yaml
by: marsh
application: 2026-03-12-okafor
sent: {to: all parents, at: 08:00, how: email, recipients: 90}
`
    const at = (others: string) => oakPage(planned, others, { asOf: '2026-03-11' })
    // 24 hours before 15:40 on the 12th.
    expect(at(asking).says.where?.['Notice beforehand']).toBe(
      'parents: by Wednesday 2026-03-11, 15:40 at the latest; none is on record so far',
    )
    expect(at(asking + notice).says.where?.['Notice beforehand']).toBe(
      'parents: by Wednesday 2026-03-11, 15:40 at the latest',
    )
    expect(at(asking + notice).lines.told).toEqual(['all parents | Wednesday 2026-03-11, 08:00 | email | 90'])
    // A notice of a day to come is not known yet.
    const before = oakPage(planned, asking + notice, { asOf: '2026-03-10' })
    expect(before.lines.told).toEqual([])
    expect(before.says.where?.['Notice beforehand']).toMatch(/; none is on record so far$/)
  })
})
