import { describe, expect, it } from 'vitest'
import { dayOf } from '../../src/measure/calendar.js'
import { identificationTable, wordFeatures } from '../../src/records/identification.js'
import { pestTable } from '../../src/records/tables.js'
import { identifyReport } from '../../src/reports/identify.js'
import type { Seen } from '../../src/reports/identify-compare.js'
import { answerOf, ranked } from '../../src/reports/identify-rank.js'

const day = dayOf('2026-03-12') ?? 0
const report = (seen: Seen) => identifyReport(seen, day)
const see = (words: Seen['words'], measured: Seen['measured'] = {}): Seen => ({ words, measured })

/**
 * One specimen of each form as a person would tell of it, from the published figures and looks (sources beside each
 * row of src/data/identification.yaml), not drawn from the table.
 */
const specimens: readonly (readonly [form: string, seen: Seen])[] = [
  ['german-cockroach', see({ marks: ['two-dark-stripes'], colour: ['light-brown'] }, { length: 14 })],
  ['brown-banded-cockroach', see({ marks: ['two-pale-bands'], where: ['high-up'] }, { length: 12 })],
  ['american-cockroach', see({ marks: ['yellow-edge'], colour: ['red-brown'] }, { length: 40 })],
  ['oriental-cockroach', see({ colour: ['black'], wings: ['short'], where: ['drain'] }, { length: 27 })],
  [
    'smokybrown-cockroach',
    see({ colour: ['dark-brown'], body: ['flat'], antennae: ['long'] }, { length: 32 }),
  ],
  ['house-mouse', see({ ends: ['pointed'], fur: ['fur'], where: ['classroom'] }, { droppings: 6 })],
  ['deer-mouse', see({ marks: ['white-belly'], fur: ['fur'] }, { 'length-with-tail': 170 })],
  ['norway-rat', see({ ends: ['blunt'], tail: ['shorter'], signs: ['burrow'] }, { droppings: 18 })],
  ['roof-rat', see({ tail: ['longer'], signs: ['climbs'], ends: ['pointed'] }, { droppings: 12 })],
  ['odorous-house-ant', see({ waist: ['one-node'], signs: ['smell'], wings: ['none'] }, { length: 3 })],
  [
    'pavement-ant',
    see({ waist: ['two-nodes'], marks: ['grooved-head'], colour: ['dark-brown'] }, { length: 3 }),
  ],
  ['carpenter-ant', see({ waist: ['one-node'], signs: ['sawdust'], colour: ['black'] }, { length: 10 })],
  [
    'carpenter-ant-queen',
    see({ waist: ['one-node'], marks: ['rounded-back'], colour: ['black'] }, { length: 18 }),
  ],
  ['pharaoh-ant', see({ colour: ['yellow'], waist: ['two-nodes'], antennae: ['elbowed'] }, { length: 1.8 })],
  ['argentine-ant', see({ colour: ['brown'], waist: ['one-node'], antennae: ['elbowed'] }, { length: 2.5 })],
  ['fire-ant', see({ colour: ['red-brown'], nest: ['soil-mound'], signs: ['stings'] }, { length: 4 })],
  ['ant-swarmer', see({ antennae: ['elbowed'], wings: ['front-pair-longer'], waist: ['narrow'] })],
  [
    'subterranean-termite-swarmer',
    see({ antennae: ['beaded'], wings: ['four-equal'], waist: ['broad'], colour: ['black'] }, { length: 9 }),
  ],
  [
    'western-subterranean-termite-swarmer',
    see({ antennae: ['beaded'], wings: ['four-equal'], colour: ['dark-brown'] }, { length: 9 }),
  ],
  [
    'subterranean-termite-worker',
    see({ colour: ['white'], marks: ['darker-head'], tubes: ['mud-tubes'] }, { length: 4 }),
  ],
  [
    'drywood-termite-swarmer',
    see({ wings: ['four-equal'], signs: ['pellets'], nest: ['wood'] }, { length: 12 }),
  ],
  ['fungus-gnat', see({ wings: ['two'], body: ['long-legs'], where: ['potted-plant'] }, { length: 2 })],
  ['drain-fly', see({ wings: ['hairy-roof'], where: ['drain'] }, { length: 3 })],
  ['fruit-fly', see({ marks: ['red-eyes'], where: ['fruit'] }, { length: 3 })],
  ['phorid-fly', see({ body: ['humped'], signs: ['runs'] }, { length: 3 })],
  ['house-fly', see({ marks: ['four-stripes'], colour: ['grey'], wings: ['two'] }, { length: 7 })],
  ['blow-fly', see({ colour: ['metallic-green-or-blue'], wings: ['two'] }, { length: 9 })],
  [
    'yellowjacket',
    see({ colour: ['black-and-yellow'], nest: ['ground-hole'], body: ['smooth'] }, { length: 13 }),
  ],
  ['hornet', see({ colour: ['black-and-white'], nest: ['paper-closed'] }, { length: 18 })],
  ['paper-wasp', see({ nest: ['paper-open'], body: ['long-legs'], where: ['eaves'] }, { length: 18 })],
  ['mud-dauber', see({ waist: ['thread'], nest: ['mud'] }, { length: 25 })],
  ['honey-bee', see({ body: ['hairy'], signs: ['swarm'] }, { length: 13 })],
  [
    'bumble-bee',
    see({ body: ['hairy'], colour: ['black-and-yellow'], nest: ['ground-hole'] }, { length: 18 }),
  ],
  ['carpenter-bee', see({ body: ['bare-abdomen'], signs: ['round-holes'] }, { length: 22 })],
  ['silverfish', see({ marks: ['three-tails'], colour: ['silver'] }, { length: 15 })],
  ['indianmeal-moth', see({ marks: ['copper-outer-wing'], where: ['dry-goods'] }, { length: 9 })],
  [
    'indianmeal-moth-larva',
    see({ colour: ['white'], signs: ['webbing'], where: ['dry-goods'] }, { length: 11 }),
  ],
  ['sawtoothed-grain-beetle', see({ marks: ['six-teeth'], where: ['dry-goods'] }, { length: 2.8 })],
  ['flour-beetle', see({ colour: ['red-brown'], wings: ['hard-covers'], body: ['flat'] }, { length: 3.5 })],
  ['cigarette-beetle', see({ antennae: ['saw-toothed'], marks: ['smooth-covers'] }, { length: 2.5 })],
  ['drugstore-beetle', see({ antennae: ['clubbed'], marks: ['lined-covers'] }, { length: 3 })],
  ['rice-weevil', see({ marks: ['snout'], where: ['dry-goods'] }, { length: 3 })],
  ['carpet-beetle', see({ marks: ['mottled'], body: ['round'], where: ['wool'] }, { length: 3 })],
  ['clothes-moth', see({ colour: ['yellow'], wings: ['roof-like'], where: ['wool'] }, { length: 7 })],
  [
    'bed-bug',
    see({ body: ['flat'], colour: ['red-brown'], signs: ['bites'], wings: ['none'] }, { length: 5 }),
  ],
  [
    'bed-bug-nymph',
    see({ body: ['flat'], colour: ['yellow'], wings: ['none'], where: ['bed-or-sofa'] }, { length: 2 }),
  ],
  ['house-cricket', see({ signs: ['jumps', 'chirps'], colour: ['light-brown'] }, { length: 18 })],
  ['ground-beetle', see({ colour: ['black'], wings: ['hard-covers'], signs: ['runs'] }, { length: 15 })],
  ['spider', see({ legs: ['8'] })],
  ['centipede', see({ legs: ['many'], body: ['slender'], signs: ['runs'] })],
  ['pillbug', see({ legs: ['many'], body: ['rolls-up'] }, { length: 12 })],
  ['bat', see({ wings: ['skin'] })],
  [
    'house-sparrow',
    see({ fur: ['feathers'], colour: ['brown'], nest: ['twigs-and-grass'] }, { length: 150 }),
  ],
  ['pigeon', see({ fur: ['feathers'], colour: ['grey'] }, { length: 330 })],
]

describe('a typical specimen', () => {
  it('is told of for every form in the table', () => {
    expect(specimens.map(([form]) => form).sort()).toEqual(Object.keys(identificationTable().forms).sort())
  })

  it.each(specimens)('of %s puts its pest first, and nothing speaks against it', (form, seen) => {
    const candidates = ranked(seen)
    const pest = identificationTable().forms[form]?.pest
    const best = candidates[0]
    expect(best?.against).toEqual([])
    // Pests that share every mark seen stand level; the eastern and the western termite always do.
    const level = candidates.filter(
      ({ against, fits }) => against.length === 0 && fits.length === best?.fits.length,
    )
    expect(level.map((candidate) => candidate.form.pest)).toContain(pest)
    const answer = answerOf(candidates)
    if (answer.kind === 'one') expect(answer.pest).toBe(pest)
    else expect(answer.kind === 'several' && answer.pests).toContain(pest)
  })
})

describe('a length', () => {
  it('alone never names a pest', () => {
    for (const length of [1.5, 3, 9, 14, 16, 40, 53, 160, 330])
      expect(['size-alone', 'none']).toContain(answerOf(ranked(see({}, { length }))).kind)
    for (const droppings of [0.5, 3, 6, 12, 19])
      expect(answerOf(ranked(see({}, { droppings }))).kind).toBe('size-alone')
  })

  it('at the end of a published range still fits: 16 mm is a German cockroach of UF/IFAS EENY-002, 16.1 is not', () => {
    const at = (length: number) =>
      ranked(see({ marks: ['two-dark-stripes'] }, { length })).find(({ id }) => id === 'german-cockroach')
    expect(at(13)?.against).toEqual([])
    expect(at(16)?.against).toEqual([])
    expect(at(16.1)?.against.map(({ says }) => says)).toEqual(['length above 13 to 16 or 12.7 to 15.9 mm'])
    expect(at(12)?.against.map(({ says }) => says)).toEqual([
      'length below 13 to 16 or 12.7 to 15.9 mm, as young ones are',
    ])
  })

  it('at a boundary leaves pests together that only differ by it', () => {
    // Droppings of 13 mm: the upper end of the roof rat and the lower of the Norway rat.
    const rats = answerOf(ranked(see({ signs: ['rub-marks'] }, { droppings: 13 })))
    expect(rats).toEqual({ kind: 'several', pests: expect.arrayContaining(['norway-rat', 'roof-rat']) })
    // Small flies of 2.5 mm: fungus gnat, fruit fly, drain fly and phorid fly all can be.
    const flies = answerOf(ranked(see({ wings: ['two'] }, { length: 2.5 })))
    expect(flies).toEqual({
      kind: 'several',
      pests: expect.arrayContaining(['fungus-gnat', 'fruit-fly', 'phorid-fly']),
    })
    // A length that alone sets two apart decides nothing: ants of 3 mm with two bumps.
    expect(answerOf(ranked(see({ waist: ['two-nodes'] }, { length: 1.9 }))).kind).toBe('several')
  })

  it('of a rodent says whether the tail is in it', () => {
    const mouse = (seen: Seen) => ranked(seen).find(({ id }) => id === 'house-mouse')
    // U. Arkansas Extension: 127 to 203 mm with the tail; 2 1/2 to 3 1/2 in (63.5 to 88.9 mm) without.
    expect(mouse(see({ fur: ['fur'] }, { 'length-with-tail': 160 }))?.against).toEqual([])
    expect(mouse(see({ fur: ['fur'] }, { 'length-without-tail': 75 }))?.against).toEqual([])
    expect(mouse(see({ fur: ['fur'] }, { 'length-without-tail': 160 }))?.against).toHaveLength(1)
    const unsaid = mouse(see({ fur: ['fur'] }, { length: 160 }))
    expect([unsaid?.against, unsaid?.unsaid]).toEqual([[], ['length']])
    expect(report(see({ fur: ['fur'] }, { length: 160 })).cautions.join(' ')).toContain('--length-with-tail')
  })
})

describe('the page', () => {
  it('says what fits, what speaks against, by which source, and what to look at next', () => {
    const page = report(see({ wings: ['four-equal'], waist: ['broad'] }))
    expect(page.headline).toMatch(/^It cannot be told yet: what was seen fits the .*termite/)
    const looks = page.tables.find(({ id }) => id === 'next')?.rows ?? []
    expect(looks.some(({ cells }) => String(cells['when-it-is']).includes('six-sided pellets'))).toBe(true)
    const worker = page.tables[0]?.rows.find(({ cells }) => cells.form === 'worker')
    expect(worker?.cells).toMatchObject({ against: 'wings: no wings', fits: 'waist: not at all' })
    expect(String(worker?.cells.sources)).toContain('extension')
  })

  it('shows the cautions of whatever it can be', () => {
    const cautions = (seen: Seen) => report(seen).cautions.join(' ')
    expect(cautions(see({ nest: ['paper-closed'] }))).toContain('tell the nurse')
    expect(cautions(see({ ends: ['pointed'] }, { droppings: 6 }))).toContain('Never sweep or vacuum them dry')
    expect(cautions(see({ ends: ['pointed'] }, { droppings: 6 }))).toContain('nut allergies')
    expect(cautions(see({ wings: ['skin'] }))).toContain('health department')
    expect(cautions(see({ signs: ['swarm'], body: ['hairy'] }))).toContain('beekeeper')
    expect(cautions(see({ fur: ['feathers'], nest: ['twigs-and-grass'] }))).toContain('Nesting birds')
    expect(
      cautions(
        see({ colour: ['yellow'], waist: ['two-nodes'], marks: ['three-part-club'] }, { length: 1.8 }),
      ),
    ).toContain('Sprays split a colony')
    expect(cautions(see({ marks: ['three-tails'] }))).not.toContain('nurse')
  })

  it('says so where nothing fits', () => {
    expect(report(see({}, { length: 900 })).headline).toBe('Nothing in the table fits what was seen.')
    expect(report(see({ wings: ['two'], legs: ['8'] })).headline).toBe(
      'No pest in the table fits everything that was seen.',
    )
  })

  it('asks for a specimen where it cannot be told, and where a wrong answer would cost', () => {
    const specimen = (seen: Seen) => report(seen).facts.find(({ label }) => label === 'specimen')?.value
    expect(specimen(see({ wings: ['two'] }))).toContain('extension office')
    expect(specimen(see({ marks: ['four-stripes'], colour: ['grey'], wings: ['two'] }))).toBe(
      'only if something does not fit on a closer look',
    )
    expect(
      specimen(
        see({ colour: ['yellow'], waist: ['two-nodes'], marks: ['three-part-club'] }, { length: 1.8 }),
      ),
    ).toContain('makes this ant spread')
  })
})

describe('the table', () => {
  it('names pests that are in the table of pests, by words it explains, each statement with its source', () => {
    const { words, forms } = identificationTable()
    for (const form of Object.values(forms)) {
      expect([...pestTable().keys()]).toContain(form.pest)
      for (const statement of form.says) {
        expect(statement.source).not.toBe('')
        for (const feature of wordFeatures)
          for (const word of statement[feature] ?? []) expect(Object.keys(words[feature].are)).toContain(word)
      }
    }
  })

  it('has every word in use: one that no form bears would fit nothing', () => {
    const { words, forms } = identificationTable()
    const statements = Object.values(forms).flatMap(({ says }) => says)
    for (const feature of wordFeatures)
      for (const word of Object.keys(words[feature].are))
        expect([word, statements.some((statement) => statement[feature]?.includes(word))]).toEqual([
          word,
          true,
        ])
  })
})
