import { describe, expect, it } from 'vitest'
import { overlaid } from '../../src/files/overlaid.js'
import { reportText } from '../../src/output/report-text.js'
import { quantityWords } from '../../src/reports/application-words.js'
import { bare, district, example, oakPage, pageOf, plain, reportOf } from './application-pages.js'

describe('an application of the example district, by what its record files say', () => {
  const page = pageOf(district, 'ottermere/2026-01-10-okafor')

  it('says what it is about in one sentence, and that it was done', () => {
    expect(page.title).toBe('What parents may want to know, Ottermere Elementary, 2026-01-10')
    expect(page.headline).toBe('Invented Roach Gel was used against German cockroach in: Main kitchen.')
    // 10 January 2026: 1 January 2026 is a Thursday, nine days later is a Saturday.
    expect(page.stated).toEqual({ Day: 'Saturday 2026-01-10', 'Done or not': 'yes, by the record' })
    expect([page.asOf, page.incomplete]).toEqual(['2026-06-30', false])
  })

  it('says what was found and why, and what the record leaves out', () => {
    // 92 days back from 10 January: 10 in January, 31 in December, 30 in November, 21 in October leave 10 October.
    expect(page.says.why).toEqual({
      Pest: 'German cockroach',
      // K1 to K3 stand in the kitchen, K4 on the serving line; each held some on 6 January.
      'Found in': 'Main kitchen, Serving line (by visits and traps from 2025-10-10 to 2026-01-10)',
      'How it was recognized':
        'Visits, traps or a sample at this school showed it, by that name, from 2025-10-10 to 2026-01-10.',
      Reason: 'sixteen new ones on the boards of the kitchen since 9 December',
      'Limit for acting':
        'The record of this use names no count or sign that reached the limit at which the plan says to act.',
      'Tried first': 'floor scrubbed, voids vacuumed, drip mended',
      'Why this product': 'The record does not say why this product and no milder one.',
    })
  })

  it('says which product, and how much', () => {
    expect(page.says.product).toEqual({
      Product: 'Invented Roach Gel, made by Invented Products',
      'What it is': 'a gel: a pesticide (something made to kill pests or keep them away)',
      'Active ingredient': 'inventamide 0.6 % (the part of it that works on the pest)',
      'EPA number': '99999-11 (the number under which the government registered it)',
      'Warning word on the label': 'CAUTION (the lowest of three warnings)',
      'How it was used': 'in small amounts into cracks and gaps',
      'How much': '4.5 grams',
      'Can children reach it?': 'Main kitchen: no, by the record',
    })
  })

  it('says where, when and by which firm, and how long people stayed out', () => {
    expect(page.says.where).toEqual({
      Where: 'Main kitchen',
      Day: 'Saturday 2026-01-10',
      Hours: '08:00 to 08:50',
      'Where pupils were': 'No pupils were in the building.',
      'By whom': 'a technician of Invented Pest Services',
      'Licence of the firm': 'XX-07001 (CA, pest control business (invented))',
      'Licence of the person': 'XX-00231 (CA, commercial applicator (invented))',
    })
    expect(page.says['staying-out']).toMatchObject({
      'What the label says': 'The register has nothing from it about staying out; read the label itself.',
      'Seen dry or settled': 'at 08:50',
      'Opened again': 'Saturday 2026-01-10, 09:00',
    })
  })

  it('says who was told, where signs hung, and what was looked at afterwards', () => {
    expect(page.lines.told).toEqual([
      'all parents and staff | Tuesday 2026-01-06, 15:10 | email and a printed copy at the office | 412',
    ])
    expect(page.lines.signs).toEqual(
      ['main entrance', 'kitchen door', 'dock'].map(
        (place) => `${place} | Wednesday 2026-01-07, 07:30 | Wednesday 2026-01-14, hour not recorded`,
      ),
    )
    // The visit of 24 January reads K1 and K2 in the kitchen and finds five dead ones.
    expect(page.says.afterwards).toMatchObject({
      Planned: 'by Saturday 2026-01-24',
      'First visit after it':
        'Saturday 2026-01-24: German cockroach was seen, or was on a trap (it may have been caught before)',
    })
  })

  it('says which papers there are, whom to ask, and what trade words mean', () => {
    // The label of 10/23 was in use until 2025-12-14.
    expect(page.lines.papers).toEqual([
      'label | products/roach-gel/label-2025-11.txt | yes',
      'safety data sheet | products/roach-gel/sds-2023-10.txt | yes',
    ])
    expect(page.says.ask).toEqual({
      Office: 'coordinator for pest control, Alder Fork School District',
      Phone: '555-0120',
      Address: '1 Invented Square, Alder Fork',
    })
    expect(page.lines.words).toEqual([
      'board | a flat trap with glue on it; it shows which pests are about',
      'void | a hollow space, such as inside a wall or a machine',
    ])
  })

  it('keeps to what was known on the as-of day', () => {
    const then = pageOf(district, 'ottermere/2026-01-10-okafor', { asOf: '2026-01-13' })
    expect(then.says.afterwards?.Done).toBe('The record shows no visit to the place since.')
    // Taken down on the 14th.
    expect(then.lines.signs?.[0]).toBe('main entrance | Wednesday 2026-01-07, 07:30 | not recorded')
    expect(then.notExamined.at(-1)).toMatch(/^\d+ records dated after the as-of day were not looked at\.$/)
    expect(then.incomplete).toBe(false)
  })
})

describe('an emergency', () => {
  const page = pageOf(district, 'ottermere/2025-09-16-okafor')

  it('says what it was, why it could not wait, who decided by office, and how the next is prevented', () => {
    expect(page.says.why).toMatchObject({
      Emergency: 'yellowjacket nest under the eave, its opening two steps from the east door',
      'Why it could not wait':
        'one person was stung in the morning; latecomers and evening classes use that door',
      'So that it does not happen again': 'eaves along the doors are looked at every April',
      'Who decided': 'the coordinator; signed on Tuesday 2025-09-16',
    })
  })

  it('says when people heard of it, and what the label asks', () => {
    expect(page.lines.told).toEqual(['all parents and staff | Wednesday 2025-09-17, 07:40 | email | 408'])
    expect(page.lines.signs?.[2]).toBe('main entrance | Tuesday 2025-09-16, 16:45 | Friday 2025-09-19, 18:00')
    expect(page.says['staying-out']).toMatchObject({
      'What the label says': 'As the register has it: stay out until it is dry or settled.',
      'Seen dry or settled': 'at 17:50',
      'Opened again': 'Tuesday 2025-09-16, 18:10',
      'Kept out by': 'tape, until it was opened again',
    })
    expect(page.says.product).toMatchObject({
      'EPA number': 'none; see above',
      'How much': '12 fluid ounces',
    })
  })

  it('tells that the label file is not the one that was recorded', () => {
    expect(page.lines.papers?.[0]).toBe(
      'label | products/wasp-foam/label.txt | yes, but it is not the file that was recorded',
    )
  })

  it('names whoever decided only when asked', () => {
    const named = pageOf(district, 'ottermere/2025-09-16-okafor', { withNames: true })
    expect(named.says.why?.['Who decided']).toBe('the coordinator, Ines Marsh; signed on Tuesday 2025-09-16')
  })

  it('that was not signed, or has no plan for the next time, says so', () => {
    const found = oakPage(`${bare}
emergency: {problem: nest at the ramp, why: the ramp is the only way out, decided-by: nobody-known}`)
    expect(found.says.why).toMatchObject({
      'So that it does not happen again': 'The record does not say how the next one is prevented.',
      'Who decided': 'someone whose role is not on record; the record does not show that this was signed',
    })
  })
})

it('one that was cancelled says so, and why', () => {
  const page = pageOf(district, 'tamsin-hill/2025-05-10-okafor')
  expect(page.headline).toBe('Cancelled: Invented Ant Station against odorous house ant in: Room 101.')
  expect(page.stated['Done or not']).toBe(
    'no, it was cancelled: burst juice box found and cleaned up on 8 May',
  )
  expect(page.tables.map(({ id }) => id)).not.toContain('staying-out')
  expect(page.tables.map(({ id }) => id)).not.toContain('afterwards')
  expect(oakPage(bare.replace('done', 'cancelled')).stated['Done or not']).toBe(
    'no, it was cancelled; the record does not say why',
  )
})

it('what is no pesticide is not called one', () => {
  const page = pageOf(district, 'quarry-road/2026-01-17-vale')
  expect(page.says.product).toMatchObject({
    'What it is': 'a living thing that is used against pests',
    'Active ingredient': 'none on record',
    'EPA number': 'none on record',
    'How it was used': 'poured onto the soil',
    'Size of what was treated': '60 square feet',
  })
  expect(page.says.why?.Reason).toBe(
    'A sticky card in a plant pot rising since September, the plants cannot leave the greenhouse',
  )
  expect(page.lines.papers?.[1]).toBe(
    'safety data sheet | none on record | no: the register names none for this day',
  )
})

it('several pests are told one by one, and one that nobody knew is told as such', () => {
  const page = oakPage(
    `${bare}\nalso-against: [unidentified]`,
    `=== sites/oak/visits/2026-03-10-okafor.yaml
purpose: callback
by: okafor
found: {shelf: {pest: german-cockroach, area: room-1, evidence: live, count: 1}}
=== sites/oak/visits/2026-03-13-okafor.yaml
purpose: follow-up
by: okafor
inspected: [kitchen]
=== sites/oak/visits/2026-03-14-okafor.yaml
purpose: follow-up
by: okafor
inspected: [room-1]
=== sites/oak/visits/2026-03-16-okafor.yaml
purpose: follow-up
by: okafor
readings: {K1: {german-cockroach: 1}}
`,
  )
  expect(page.says.why).toMatchObject({
    Pest: 'German cockroach, a pest that was not identified',
    'Found in: German cockroach': 'room 1 (by visits and traps from 2026-03-01 to 2026-03-12)',
    'How it was recognized': 'The record shows that nobody knew for sure which pest it was.',
  })
  // The visit of the 14th was elsewhere; that of the 16th is the latest to the kitchen.
  expect(page.says.afterwards?.['First visit after it']).toMatch(
    /^Friday 2026-03-13: German cockroach is not on record there; that does not prove that it is gone; /,
  )
  expect(page.says.afterwards?.['Latest visit']).toMatch(
    /^Monday 2026-03-16: German cockroach was seen, or was on a trap/,
  )
})

it('fits a terminal of eighty columns, but for the one sentence above', () => {
  for (const id of [
    'ottermere/2026-01-10-okafor',
    'ottermere/2025-09-16-okafor',
    'tamsin-hill/2026-07-08-okafor',
  ]) {
    const page = reportOf(district, id)
    const text = reportText(page, { paint: plain, showWork: false, width: 80 })
    const wide = text.split('\n').filter((line) => line.length > 80 && line !== page.headline)
    expect(wide).toEqual([])
  }
})

it.each([
  ['1 ft2', '1 square foot'],
  ['2.5 gal', '2.5 gallons'],
  ['0.5 g', '0.5 grams'],
  ['1 each', '1 piece'],
  ['2 1000 ft3', '2 thousand cubic feet'],
  ['some', 'some'],
])('the quantity %s is %s', (written, said) => {
  expect(quantityWords(written)).toBe(said)
})

it('a product for restricted use, and whoever watched over it, are told', () => {
  const page = oakPage(
    `${bare}\nsupervised-by: vale`,
    `=== people/vale.yaml
name: Petra Vale
roles: [applicator]
licences: {or: {number: XX-88, state: OR, kind: applicator, categories: [structural], spans: [{from: 2025-01-01}]}}
=== people/okafor.yaml
name: Ada Okafor
roles: [technician]
employer: Example District, facilities
licences: {or: {number: XX-1, state: OR, kind: trainee, categories: [], spans: [{from: 2025-01-01, until: 2026-03-11}]}}
=== products/bait-a/product.yaml
name: Invented Bait A
kind: pesticide
signal-word: danger-poison
restricted-use: yes
`,
  )
  expect(page.says.product).toMatchObject({
    'Warning word on the label': 'DANGER - POISON (the strongest warning)',
    'Restricted use': 'The label says that only certified people, or those they watch over, use it.',
  })
  expect(page.says.where).toMatchObject({
    'By whom': 'a technician of Example District, facilities',
    // It ended on the day before.
    'Licence of the person': 'The record shows no licence of the person for this day.',
    'Watched over by': 'XX-88 (OR, applicator)',
  })
})

it('an application laid over the clean example reads its register and people', () => {
  const text = `
by: sorrel
status: done
product: gel-bait
pest: odorous-house-ant
areas: {office: {amount: 1 g, placements: 4}}
method: bait-placement
amount: 1 g
time: 16:00 to 16:20
`
  const source = overlaid(
    example('clean'),
    new Map([['sites/fernhollow/applications/2026-01-15-sorrel.yaml', Buffer.from(text)]]),
  )
  const page = pageOf(source, 'fernhollow/2026-01-15-sorrel', { asOf: '2026-01-31' })
  expect(page.headline).toBe('Invented Roach Gel was used against odorous house ant in: Office.')
  expect(page.says.where).toMatchObject({
    'By whom': 'a technician of Invented Pest Services',
    'Licence of the firm': 'The record shows no licence of the firm for this day.',
    'Licence of the person': 'XX-00417 (IL, structural pest control technician (invented))',
  })
  expect(page.says['staying-out']?.['What the label says']).toBe(
    'The register does not tell what its label says; read the label itself.',
  )
  expect(page.says.ask).toEqual({
    Office: 'coordinator for pest control, Fernhollow School District',
    Phone: '555-0110',
  })
})
