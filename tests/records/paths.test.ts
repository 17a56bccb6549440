import { describe, expect, it } from 'vitest'
import { dayOf } from '../../src/measure/calendar.js'
import { allRecordKinds, recordKinds } from '../../src/records/kinds.js'
import { recordPathOf, siteOfPath } from '../../src/records/paths.js'

const event = (kind: string, who = 'okafor') => ({
  kind,
  id: `2026-03-12-${who}`,
  day: dayOf('2026-03-12'),
  who,
})

describe('what a path holds', () => {
  it.each([
    ['district.yaml', { kind: 'district', id: 'district' }],
    ['people/okafor.yaml', { kind: 'person', id: 'okafor' }],
    ['products/bait-a/product.yaml', { kind: 'product', id: 'bait-a' }],
    ['plans/house-mouse.yaml', { kind: 'plan', id: 'house-mouse' }],
    ['rulebooks/own.yaml', { kind: 'rulebook', id: 'own' }],
    ['exceptions/boiler-room.yaml', { kind: 'exception', id: 'boiler-room' }],
    ['reviews/2026.yaml', { kind: 'review', id: '2026' }],
    ['education/2026-03-12-okafor.yaml', event('education')],
    ['sites/oak/site.yaml', { kind: 'site', id: 'oak', site: 'oak' }],
    ['sites/oak/visits/2026-03-12-okafor.yaml', { ...event('visit'), site: 'oak' }],
    ['sites/oak/visits/2026-03-12-okafor-evening.yaml', { ...event('visit', 'okafor-evening'), site: 'oak' }],
    ['sites/oak/applications/2026-03-12-okafor.yaml', { ...event('application'), site: 'oak' }],
    ['sites/oak/complaints/2026-03-12-okafor.yaml', { ...event('complaint'), site: 'oak' }],
    ['sites/oak/repairs/2026-03-12-okafor.yaml', { ...event('repair'), site: 'oak' }],
    ['sites/oak/notices/2026-03-12-okafor.yaml', { ...event('notice'), site: 'oak' }],
    ['sites/oak/incidents/2026-03-12-okafor.yaml', { ...event('incident'), site: 'oak' }],
    ['sites/oak/storage/2026-03-12-okafor.yaml', { ...event('storage'), site: 'oak' }],
    ['sites/oak/specimens/2026-03-12-okafor.yaml', { ...event('specimen'), site: 'oak' }],
    [
      'sites/oak/visits/2024-02-29-okafor.yaml',
      { ...event('visit'), id: '2024-02-29-okafor', day: dayOf('2024-02-29'), site: 'oak' },
    ],
  ])('%s', (file, expected) => {
    expect(recordPathOf(file)).toEqual({ file, ...expected })
  })

  it('every kind has a place of its own', () => {
    const places = allRecordKinds.map((kind) =>
      recordKinds[kind].lies
        .replace('<site>', 'oak')
        .replace('<date>-<who>', '2026-03-12-okafor')
        .replace('<year>', '2026')
        .replace('<id>', 'x1'),
    )
    expect(places.map((file) => Object(recordPathOf(file)).kind)).toEqual(allRecordKinds)
  })
})

describe('YAML where no record belongs', () => {
  it.each([
    ['people/Okafor.yaml', 'bad-name', undefined],
    ['people/yes.yaml', 'bad-name', undefined],
    ['people/null.yaml', 'bad-name', undefined],
    ['people/constructor.yaml', 'bad-name', undefined],
    ['people/2nd.yaml', 'bad-name', undefined],
    ['people/a b.yaml', 'bad-name', undefined],
    ['reviews/26.yaml', 'bad-name', 'reviews/<year>.yaml'],
    ['reviews/summer.yaml', 'bad-name', 'reviews/<year>.yaml'],
    ['sites/oak/visits/okafor.yaml', 'bad-name', '<date>-<who>.yaml'],
    ['sites/oak/visits/2026-03-12.yaml', 'bad-name', '<date>-<who>.yaml'],
    ['sites/oak/visits/2026-3-12-okafor.yaml', 'bad-name', '<date>-<who>.yaml'],
    ['sites/oak/visits/2026-02-30-okafor.yaml', 'impossible-date', '2026-02-30'],
    ['sites/oak/visits/2025-02-29-okafor.yaml', 'impossible-date', '2025-02-29'],
    ['sites/oak/vists/2026-03-12-okafor.yaml', 'unknown-place', undefined],
    ['sites/oak/visits/2026/2026-03-12-okafor.yaml', 'unknown-place', undefined],
    ['sites/Oak/site.yaml', 'unknown-place', undefined],
    ['sites/site.yaml', 'unknown-place', undefined],
    ['products/bait-a.yaml', 'unknown-place', undefined],
    ['products/bait-a/label.yaml', 'unknown-place', undefined],
    ['archive/district.yaml', 'unknown-place', undefined],
    ['notes.yaml', 'unknown-place', undefined],
    ['constructor/x.yaml', 'unknown-place', undefined],
    ['__proto__/x.yaml', 'unknown-place', undefined],
    ['sites/oak/constructor/2026-03-12-okafor.yaml', 'unknown-place', undefined],
    ['people/okafor.yml', 'wrong-ending', undefined],
    ['people/okafor.YAML', 'wrong-ending', undefined],
    ['district.Yml', 'wrong-ending', undefined],
  ])('%s: %s', (file, stray, hint) => {
    expect(recordPathOf(file)).toEqual({ file, stray, ...(hint === undefined ? {} : { hint }) })
  })
})

describe('what is no YAML', () => {
  it.each([
    'README.md',
    'policies/ipm.pdf',
    'products/bait-a/label.pdf',
    'sites/oak/diagram.svg',
    'sites/oak/visits/2026-03-12-okafor-page.jpg',
    'sites/README.md',
    'yaml',
    'a.yaml.bak',
  ])('%s is left alone', (file) => {
    expect(recordPathOf(file)).toBeNull()
  })

  it.each([
    'people',
    'sites',
    'sites/oak',
    'sites/oak/visits',
    'products',
    'products/bait-a',
    'reviews',
    'education',
  ])('%s as a file or link would hide a folder of records', (file) => {
    expect(recordPathOf(file)).toEqual({ file, stray: 'unknown-place' })
  })
})

it('siteOfPath names the site of any path below it', () => {
  expect(siteOfPath('sites/oak/diagram.svg')).toBe('oak')
  expect(siteOfPath('sites/oak')).toBeUndefined()
  expect(siteOfPath('people/okafor.yaml')).toBeUndefined()
})
