import { describe, expect, it } from 'vitest'
import type { Source } from '../../src/files/source.js'
import { applicationReport } from '../../src/reports/application.js'
import { day } from '../ledger/small-site.js'
import { bare, district, everythingOf, oak, oakPage, pageOf, spray } from './application-pages.js'

describe('a record that says as little as it can', () => {
  const page = oakPage(bare)

  it('leaves nothing out in silence', () => {
    expect(page.says.why).toEqual({
      Pest: 'German cockroach',
      // 92 days back would be 10 December, before the ledger begins; the trap set on 5 March was never read.
      'Found in': 'No visit and no trap on record shows it from 2026-03-01 to 2026-03-12.',
      'How it was recognized': 'The record does not show who said which pest it is, or how they knew.',
      Reason: 'The record does not say why.',
      'Limit for acting':
        'The record of this use names no count or sign that reached the limit at which the plan says to act.',
      'Tried first': 'The record does not say what was tried first.',
      'Why this product': 'The record does not say why this product and no milder one.',
    })
    expect(page.says.product).toMatchObject({
      'How much': 'The record does not say how much.',
      'Can children reach it?': 'kitchen: the record does not say',
    })
    expect(page.says.where).toMatchObject({
      Hours: 'The record does not say at what hours.',
      'Where pupils were': 'The record does not say where pupils were.',
    })
    expect(page.says['staying-out']).toMatchObject({
      'Seen dry or settled': 'The record does not say. Bait stays where it is put: nothing has to dry.',
      'Opened again': 'The record does not show when people were let in again.',
    })
    expect(page.tables.filter(({ id }) => ['told', 'signs'].includes(id)).map(({ empty }) => empty)).toEqual([
      'The record shows no notice sent.',
      'The record shows no sign put up.',
    ])
    expect(page.says.afterwards).toEqual({
      Planned: 'The record does not say when someone looks whether it helped.',
      Done: 'The record shows no visit to the place since.',
    })
    expect(page.says.ask).toEqual({
      Office: 'coordinator for pest control, Example District',
      Phone: 'The record does not show a phone number.',
      Address: '1 Example Square',
    })
  })

  it('says so of a spray that nobody saw dry', () => {
    const found = oakPage(bare.replace('bait-a', 'spray-a').replace('crack-and-crevice', 'spot'))
    expect(found.says['staying-out']?.['Seen dry or settled']).toBe(
      'The record does not show that anyone looked whether it was dry or settled.',
    )
  })

  it('says that someone looked and found nothing to put right', () => {
    expect(oakPage(`${bare}\nnothing-to-correct: yes`).says.why?.['Tried first']).toBe(
      'Someone looked for something to put right first, and found nothing.',
    )
  })

  it('says so of notices and signs without hour, way and number', () => {
    const found = oakPage(
      bare,
      `=== sites/oak/notices/2026-03-10-marsh.yaml
by: marsh
application: 2026-03-12-okafor
sent: {to: those who asked}
posted: {places: [main entrance]}
`,
    )
    expect(found.lines.told).toEqual([
      'those who had asked to be told | Tuesday 2026-03-10, hour not recorded | not recorded | not recorded',
    ])
    expect(found.lines.signs).toEqual([
      'main entrance | Tuesday 2026-03-10, hour not recorded | not recorded',
    ])
  })
})

describe('what the register does not hold', () => {
  it('a product that is not in it is said, and nothing of it is made up', () => {
    const page = oakPage(bare.replace('bait-a', 'mystery-gel'))
    expect(page.headline).toBe('mystery gel was used against German cockroach in: kitchen.')
    expect(page.says.product).toMatchObject({
      Product: 'mystery gel',
      'What it is':
        'It is not in the product register, so what it is, what is in it and its number are not shown.',
    })
    expect(page.says['staying-out']).toMatchObject({
      'What the label says':
        'The product is not in the register, so this is not shown; read the label itself.',
      'Time to stay out': 'It cannot be told without the product in the register.',
    })
    const papers = page.tables.find(({ id }) => id === 'papers')
    expect([papers?.rows, papers?.empty]).toEqual([
      [],
      'The record does not show a label or a safety data sheet: the product is not in the register.',
    ])
    expect(page.incomplete).toBe(false)
  })

  it('a product of which only the name is known, without label facts', () => {
    const page = oakPage(bare, '=== products/bait-a/product.yaml\nname: Invented Bait A\nkind: pesticide\n')
    expect(page.says.product).toMatchObject({
      Product: 'Invented Bait A',
      'What it is': 'a pesticide (something made to kill pests or keep them away)',
      'Active ingredient':
        'The record does not show its active ingredient (the part of it that works on the pest).',
      'EPA number': 'The record does not show its registration number.',
      'Warning word on the label': 'The record does not show its warning word.',
    })
    expect(page.says['staying-out']?.['What the label says']).toBe(
      'The register does not tell what its label says; read the label itself.',
    )
    expect(page.lines.papers).toEqual([
      'label | none on record | no: the register names none for this day',
      'safety data sheet | none on record | no: the register names none for this day',
    ])
  })

  it('a product whose record cannot be used makes the page incomplete', () => {
    const page = oakPage(bare, '=== products/bait-a/product.yaml\nname: [\n')
    expect(page.incomplete).toBe(true)
    expect(page.says.product?.['What it is']).toMatch(/^Its record in the product register cannot be used/)
    expect(page.notExamined).toContain('product bait-a: the record cannot be used.')
  })

  it('a person whose record cannot be used makes it incomplete too, and is not named', () => {
    const page = oakPage(bare, '=== people/okafor.yaml\nname: [\n')
    expect(page.incomplete).toBe(true)
    expect(page.says.where?.['By whom']).toBe('a member of staff; the record does not say of which firm')
    expect(everythingOf(page)).not.toMatch(/okafor/i)
  })

  it('papers that are missing, or out of force on the day, are told', () => {
    const page = oakPage(
      bare,
      `=== products/bait-a/product.yaml
name: Invented Bait A
kind: pesticide
labels: [{from: 2026-01-05, until: 2026-03-11, file: label.txt}]
sds: [{from: 2026-01-05, file: gone.txt}]
`,
    )
    expect(page.lines.papers).toEqual([
      'label | products/bait-a/label.txt | yes, but it was no longer in force on this day',
      'safety data sheet | products/bait-a/gone.txt | no: the file is missing',
    ])
  })

  it('the end of a registration is told once it is known', () => {
    const cancelled =
      '=== products/bait-a/product.yaml\nname: Invented Bait A\nkind: pesticide\ncancelled: {on: 2026-03-15}\n'
    const at = (asOf: string) => oakPage(bare, cancelled, { asOf }).says.product?.['Registration ended']
    expect([at('2026-03-14'), at('2026-03-15')]).toEqual([undefined, 'cancelled or suspended on 2026-03-15'])
  })
})

describe('amounts', () => {
  it('of several areas are told for each, and one that is missing is told as missing', () => {
    const page = oakPage(
      bare.replace(
        '{kitchen: {}}',
        '{kitchen: {amount: 3 station, within-reach: no}, room-1: {within-reach: yes, tamper-resistant: yes}}',
      ),
    )
    expect(page.says.product).toMatchObject({
      'How much': 'The record does not give the amount in all.',
      'How much in each place': 'kitchen 3 stations; room 1 not recorded',
      'Can children reach it?':
        'kitchen: no, by the record; room 1: yes, by the record, in a box made so that children cannot open it',
    })
  })

  it('of what is mixed with water are undiluted, which is said', () => {
    const page = oakPage(`${spray}\ndilution: {water: 1 gal}`)
    expect(page.says.product).toMatchObject({
      'How much': '2 fluid ounces, not counting the water it is mixed with',
      'Mixed with': '1 gallon of water or the like',
    })
    expect(page.says.product).not.toHaveProperty('Can children reach it?')
  })
})

describe('where there is no page', () => {
  const refused = (source: Source, file: string, asOf = '2026-06-30') =>
    applicationReport(source, { asOf: day(asOf), withNames: false, withRecords: false }, file)
  const file = 'sites/ottermere/applications/2026-01-10-okafor.yaml'

  it('it is said why: not there, later than the as-of day, or not readable', () => {
    expect(refused(district, file.replace('01-10', '01-11'))).toEqual({ refused: 'not there' })
    expect(refused(district, 'sites/ottermere/applications/okafor.yaml')).toEqual({ refused: 'not there' })
    expect(refused(district, file, '2026-01-09')).toEqual({
      refused: 'later than as-of',
      day: '2026-01-10',
    })
    expect(refused(district, file, '2026-01-10')).toHaveProperty('report')
  })

  it('another record of the site that cannot be used leaves the page out, since something may be missing', () => {
    const source = oak(bare, '=== sites/oak/visits/2026-03-13-okafor.yaml\npurpose: [\n')
    expect(refused(source, 'sites/oak/applications/2026-03-12-okafor.yaml')).toMatchObject({
      refused: 'not readable',
      why: expect.stringContaining('sites/oak/visits/2026-03-13-okafor.yaml cannot be used'),
    })
  })

  it('a record of another site that cannot be used does not touch it', () => {
    const source = oak(bare, '=== sites/elm/site.yaml\nname: [\n')
    expect(pageOf(source, 'oak/2026-03-12-okafor').incomplete).toBe(false)
  })
})

it('a record that was added to says when, as far as that is known', () => {
  const corrected = `${bare}
corrections:
  - {on: 2026-03-13, by: okafor, why: carried out as planned, keys: [status]}
  - {on: 2026-03-19, by: okafor, why: Okafor forgot the amount, keys: [amount]}`
  expect(oakPage(corrected, '', { asOf: '2026-03-18' }).stated['Record added to or corrected']).toBe(
    '2026-03-13',
  )
  expect(oakPage(corrected).stated['Record added to or corrected']).toBe('2026-03-13, 2026-03-19')
})
