import { describe, expect, it } from 'vitest'
import { baitApplication, sprayApplication } from '../../src/rules/example-applications.js'
import { sprayLabel } from '../../src/rules/label-use/example-ledgers.js'
import { adopted, areas, baitLabel, inShort, product, sentence, visit } from './label-examples.js'

const without = (...keys: string[]) => keys.map((key) => `${key}:`)

describe('milder-product-on-register', () => {
  const rule = 'milder-product-on-register'
  const warned = sprayLabel('').replace('signal-word: caution', 'signal-word: warning')
  const spray = (...lines: string[]) => sprayApplication('2026-03-12', ...without('chosen-because'), ...lines)
  const says = '{places: [indoors], pest-groups: [cockroach]}'

  it.each<[string, string, string[]]>([
    ['the same word, and laid where this was sprayed', spray(), ['2026-03-12-okafor product note']],
    ['a reason is recorded', spray('chosen-because: bait was not taken'), []],
    ['a milder word', warned + spray(), ['2026-03-12-okafor product note']],
    ['the laid one was used', baitApplication('2026-03-12', ...without('chosen-because')), []],
    [
      'bait in a device',
      visit('2026-03-12', 'set: {B1: {kind: bait-station, area: kitchen, product: bait-a, bait-added: 1 g}}'),
      [],
    ],
    [
      'the same word, and neither was laid',
      product('spray-b', 'signal-word: caution', says) + baitLabel('kind: device', says) + spray(),
      [],
    ],
    [
      'a word that is not recorded',
      warned + product('spray-b', '', says) + baitLabel('kind: device', says) + spray(),
      [],
    ],
    [
      'the word of what was used is not recorded',
      sprayLabel('').replace('signal-word: caution\n', '') + spray(),
      [],
    ],
    ['against a pest its label does not name', spray('pest: yellowjacket'), []],
    ['against two, of which its label names one', spray('also-against: [yellowjacket]'), []],
    [
      'in a place its label does not name',
      areas('yard: {kind: playground}') + spray('areas: {yard: {extent: 3 ft2}}'),
      [],
    ],
    [
      'in a place that may be one or the other',
      areas('dock: {kind: loading-dock}') + spray('areas: {dock: {extent: 3 ft2}}'),
      [],
    ],
    [
      'its label came into force later',
      baitLabel('kind: pesticide\nformulation: gel', says).replace('2026-01-05\n', '2026-03-13\n') + spray(),
      [],
    ],
    [
      'its registration was cancelled',
      baitLabel('kind: pesticide\nformulation: gel\ncancelled: {on: 2026-03-12}', says) + spray(),
      [],
    ],
    [
      'not registered in the state',
      baitLabel('kind: pesticide\nformulation: gel', says).replace('{OR:', '{WA:') + spray(),
      [],
    ],
    [
      'for restricted use',
      baitLabel('kind: pesticide\nformulation: gel', says).replace(
        'restricted-use: no',
        'restricted-use: yes',
      ) + spray(),
      [],
    ],
    ['to teach', spray('purpose: instruction'), []],
    [
      'a living agent with no signal word',
      product('nematodes', 'signal-word: none', says).replace('kind: pesticide', 'kind: living-agent') +
        baitLabel('kind: device', says) +
        spray(),
      ['2026-03-12-okafor product note'],
    ],
    [
      'a disinfectant is no choice against insects',
      product('cleaner', 'signal-word: none', says).replace('kind: pesticide', 'kind: antimicrobial') +
        baitLabel('kind: device', says) +
        spray(),
      [],
    ],
  ])('%s', (_, overlay, expected) => {
    expect(inShort(rule, overlay)).toEqual(expected)
  })

  it('names the mildest, and says how many more', () => {
    const mild = product('soap', 'signal-word: none', says)
    expect(sentence(rule, mild + warned + spray())).toBe(
      'Invented soap (no signal word) is also on the register for this pest and place, and so is one other; the record shows Invented Spray A (warning) and no reason for the choice.',
    )
    expect(sentence(rule, spray())).toBe(
      'Invented Bait A (caution, in a station or placement) is also on the register for this pest and place; the record shows Invented Spray A (caution) and no reason for the choice.',
    )
  })
})

describe('repellent-near-bait', () => {
  const rule = 'repellent-near-bait'
  const bait = (day: string, ...lines: string[]) => baitApplication(day, ...lines)
  const spray = (day: string, ...lines: string[]) => sprayApplication(day, ...lines)
  const station = (day: string, more = '') =>
    visit(
      day,
      'set: {B1: {kind: bait-station, area: kitchen, for: [german-cockroach], product: bait-a, bait-added: 1 g}}',
      more,
    )

  it.each<[string, string, string[]]>([
    // 30 days before 19 March is 17 February
    ['thirty days after bait', bait('2026-02-17') + spray('2026-03-19'), ['2026-03-19-okafor product note']],
    ['thirty-one days after', bait('2026-02-16') + spray('2026-03-19'), []],
    [
      'bait after it, told at the bait',
      spray('2026-03-02') + bait('2026-03-19'),
      ['2026-03-19-okafor product note'],
    ],
    [
      'bait before and after, told once',
      bait('2026-03-02') + spray('2026-03-12') + bait('2026-03-19'),
      ['2026-03-12-okafor product note'],
    ],
    ['in another area', bait('2026-03-02') + spray('2026-03-12', 'areas: {room-1: {}}'), []],
    ['bait for mice', bait('2026-03-02', 'pest: house-mouse') + spray('2026-03-12'), []],
    ['no bait but a dust', bait('2026-03-02', 'formulation: dust') + spray('2026-03-12'), []],
    ['into a void', bait('2026-03-02') + spray('2026-03-12', 'method: void'), []],
    [
      'a spray into cracks',
      bait('2026-03-02') + spray('2026-03-12', 'method: crack-and-crevice'),
      ['2026-03-12-okafor product note'],
    ],
    [
      'a dust into cracks',
      bait('2026-03-02') + spray('2026-03-12', 'method: crack-and-crevice', 'formulation: dust'),
      [],
    ],
    ['a nest of wasps', bait('2026-03-02') + spray('2026-03-12', 'pest: yellowjacket'), []],
    [
      'a product that says it repels nothing',
      sprayLabel('').replace('signal-word', 'repellent: no\nsignal-word') +
        bait('2026-03-02') +
        spray('2026-03-12'),
      [],
    ],
    [
      'a product that repels, whatever it is made of',
      product('oil', 'repellent: yes\nformulation: aerosol', '{places: [indoors]}') +
        bait('2026-03-02') +
        spray('2026-03-12', 'product: oil'),
      ['2026-03-12-okafor product note'],
    ],
    [
      'a station with bait, however old, while it stands',
      station('2026-01-15') + spray('2026-03-19'),
      ['2026-03-19-okafor product note'],
    ],
    [
      'a station that was taken up',
      station('2026-01-15') + visit('2026-03-12', 'taken-up: {B1: no longer needed}') + spray('2026-03-19'),
      [],
    ],
    [
      'a station that was moved to another area',
      station('2026-03-12') + visit('2026-03-16', 'moved: {B1: {area: room-1}}') + spray('2026-03-19'),
      [],
    ],
    [
      'a station that was moved into the area',
      station('2026-03-12').replace('area: kitchen', 'area: room-1') +
        visit('2026-03-16', 'moved: {B1: {area: kitchen}}') +
        spray('2026-03-19'),
      ['2026-03-19-okafor product note'],
    ],
    [
      'a station set after it',
      spray('2026-03-12') + station('2026-03-16'),
      ['2026-03-16-okafor set.B1.product note'],
    ],
  ])('%s', (_, overlay, expected) => {
    expect(inShort(rule, overlay)).toEqual(expected)
  })

  it('is a warning where the district adopted a number of days, and the longer one holds', () => {
    const overlay = bait('2026-01-19') + spray('2026-03-19')
    // 19 January to 19 March 2026: 12 + 28 + 19 = 59 days
    expect(inShort(rule, adopted('repellent.bait-days', '59 days') + overlay)).toEqual([
      '2026-03-19-okafor product warning',
    ])
    expect(inShort(rule, adopted('repellent.bait-days', '58 days') + overlay)).toEqual([])
    expect(
      inShort(rule, adopted('repellent.bait-days', '7 days') + bait('2026-02-17') + spray('2026-03-19')),
    ).toHaveLength(1)
  })
})

describe('repellent-on-pharaoh-ants', () => {
  const rule = 'repellent-on-pharaoh-ants'
  it.each<[string, string, string[]]>([
    [
      'a pyrethroid',
      sprayApplication('2026-03-12', 'pest: pharaoh-ant'),
      ['2026-03-12-okafor product warning'],
    ],
    [
      'among others',
      sprayApplication('2026-03-12', 'also-against: [pharaoh-ant]'),
      ['2026-03-12-okafor product warning'],
    ],
    ['bait', baitApplication('2026-03-12', 'pest: pharaoh-ant'), []],
    ['other ants', sprayApplication('2026-03-12', 'pest: ant'), []],
  ])('%s', (_, overlay, expected) => {
    expect(inShort(rule, overlay)).toEqual(expected)
  })
})

describe('sprayed-widely-indoors', () => {
  const rule = 'sprayed-widely-indoors'
  const yard = areas('yard: {kind: turf}', 'attic: {kind: void}', 'dock: {kind: loading-dock}')
  const wide = (...lines: string[]) => sprayApplication('2026-03-12', 'method: broadcast', ...lines)
  it.each<[string, string, string[]]>([
    ['broadcast', wide(), ['2026-03-12-okafor method warning']],
    ['baseboard', wide('method: baseboard'), ['2026-03-12-okafor method warning']],
    ['space', wide('method: space'), ['2026-03-12-okafor method warning']],
    ['a spot', wide('method: spot'), []],
    ['outdoors', wide('areas: {yard: {}}'), []],
    ['outdoors and in', wide('areas: {yard: {}, room-1: {}}'), ['2026-03-12-okafor method warning']],
    ['in a void', wide('areas: {attic: {}}'), []],
    ['on a dock, which may lie in the open', wide('areas: {dock: {}}'), []],
    ['granular bait on the ground', wide('formulation: granular-bait'), []],
    ['planned', wide('status: planned'), []],
    ['a disinfectant', sprayLabel('').replace('kind: pesticide', 'kind: antimicrobial') + wide(), []],
    ['before the records begin', sprayApplication('2026-02-28', 'method: broadcast'), []],
  ])('%s', (_, overlay, expected) => {
    expect(inShort(rule, yard + overlay)).toEqual(expected)
  })
})
