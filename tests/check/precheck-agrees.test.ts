import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { precheck } from '../../src/check/precheck.js'
import { runCheck } from '../../src/check/run-check.js'
import { memorySource } from '../../src/files/memory.js'
import { dayOf, isoOf } from '../../src/measure/calendar.js'
import { formulations, methods, pupilPlaces } from '../../src/records/use-words.js'
import type { Problem } from '../../src/types.js'
import { idOf } from '../mutation/added.js'
import { addedSpray } from '../mutation/added-applications.js'
import { cleanLedger } from '../mutation/base-ledgers.js'
import type { Data, Draft } from '../mutation/draft.js'
import { copyOf, dataOf, mapAt, put, write } from '../mutation/draft.js'
import { areasOf, coordinatorOf, sitesOf, technicianOf } from '../mutation/site-records.js'
import { draftAt } from './prechecking.js'

/** Generated ledgers of a few months: one across each change of the clocks, and one into the summer recess. */
const ledgers = [
  cleanLedger({ sites: 1, years: 0.15, seed: 31, until: '2026-03-20' }),
  cleanLedger({ sites: 1, years: 0.15, seed: 32, until: '2025-11-20' }),
  cleanLedger({ sites: 1, years: 0.15, seed: 33, until: '2026-07-10' }),
]

/** The generated district under its own rulebook alone, or in a state whose rulebook is known. */
const jurisdictions = [
  { state: 'OR', rulebook: undefined },
  { state: 'CA', rulebook: 'california' },
  { state: 'IL', rulebook: 'illinois' },
  { state: 'NJ', rulebook: 'new-jersey' },
  { state: 'PA', rulebook: 'pennsylvania' },
] as const

const cases = new Map(
  ledgers.flatMap((ledger, n) =>
    jurisdictions.map(({ state, rulebook }) => [`${n} ${state}`, movedTo(ledger, state, rulebook)] as const),
  ),
)

function movedTo(ledger: Draft, state: string, rulebook: string | undefined): Draft {
  const moved = copyOf(ledger)
  write(moved, 'products/added-spray/product.yaml', addedSpray)
  moved.files.set('products/added-spray/label.txt', 'An invented label.\n')
  moved.files.set('products/added-spray/sds.txt', 'An invented safety data sheet.\n')
  if (rulebook === undefined) return moved
  const district = mapAt(dataOf(moved, 'district.yaml'))
  const from = district['records-begin'] ?? ''
  put(moved, 'district.yaml', ['state'], state)
  put(moved, 'district.yaml', ['rulebooks'], [...(district.rulebooks as Data[]), { from, rulebook }])
  return moved
}

const noticeWords = ['trade-name', 'active-ingredients', 'location', 'date', 'reason', 'rain-dates']

const drafted = fc.record({
  ledger: fc.nat({ max: ledgers.length - 1 }),
  jurisdiction: fc.constantFrom(...jurisdictions),
  // Days back from the last of the ledger, or ahead of it: weekdays, weekends, recesses; and those on which clocks change.
  day: fc.oneof(
    { weight: 4, arbitrary: fc.integer({ min: -5, max: 50 }) },
    { weight: 1, arbitrary: fc.constant('the clocks change' as const) },
  ),
  product: fc.constantFrom(
    ...['gel-a', 'gel-b', 'ant-bait-c', 'block-x', 'dust-d', 'aerosol-e', 'soap-f', 'lure-m'],
    ...['added-spray', 'added-spray', 'added-spray', 'not-in-the-register'],
  ),
  pest: fc.constantFrom(
    'german-cockroach',
    'house-mouse',
    'norway-rat',
    'odorous-house-ant',
    'yellowjacket',
    'dandelion',
  ),
  areas: fc.array(fc.nat({ max: 40 }), { minLength: 1, maxLength: 2 }),
  inArea: fc.record({
    amount: fc.option(fc.constantFrom('0.04 fl oz', '2 g', '3 block', '9 oz'), { nil: undefined }),
    extent: fc.option(fc.constantFrom('3 ft2', '900 ft2', '20000 ft2'), { nil: undefined }),
    placements: fc.option(fc.integer({ min: 1, max: 9 }), { nil: undefined }),
    'within-reach': fc.option(fc.constantFrom('yes', 'no'), { nil: undefined }),
  }),
  method: fc.constantFrom(...methods),
  formulation: fc.option(fc.constantFrom(...formulations), { nil: undefined, freq: 2 }),
  amount: fc.option(fc.constantFrom('0.04 fl oz', '40 fl oz', '2 g', '0.5 lb', '3 block', '1 L'), {
    nil: undefined,
  }),
  time: fc.option(
    fc.constantFrom(
      ...['20:00 to 20:20', '09:30 to 10:15', '16:50 to 17:20', '23:30 to 23:59', '00:00 to 00:10'],
      ...['01:30 to 01:50', '02:30 to 02:50', '01:30-08:00 to 01:50-08:00'],
    ),
    { nil: undefined },
  ),
  pupils: fc.option(fc.constantFrom(...pupilPlaces), { nil: undefined }),
  facts: fc.subarray([
    'approved',
    'equipment',
    'lot',
    'identified',
    'threshold',
    'reason',
    'tried-first',
    'chosen-because',
    'dry',
    'reopened',
    'follow-up',
    'emergency',
    'dilution',
    'weather',
    'kept-out',
    'rain-dates',
    'supervised-by',
  ] as const),
  notice: fc.constantFrom('none', 'none', 'of everything', 'of a few words', 'late', 'signs alone'),
  by: fc.constantFrom('technician', 'coordinator', 'nobody known'),
})

type Drafted = typeof drafted extends fc.Arbitrary<infer T> ? T : never

function dayIn({ day }: Drafted, { lastDay }: Draft): number {
  if (typeof day === 'number') return lastDay - day
  // In 2025 and 2026 clocks change on 2 November and 8 March (15 U.S.C. 260a, from memory).
  return dayOf(lastDay < (dayOf('2026-01-01') ?? 0) ? '2025-11-02' : '2026-03-08') ?? 0
}

/** The files of the ledger with a notice about the draft, and the draft itself. */
function laidOut(one: Drafted) {
  const ledger = copyOf(cases.get(`${one.ledger} ${one.jurisdiction.state}`) ?? (ledgers[0] as Draft))
  const [site = ''] = sitesOf(ledger)
  const coordinator = coordinatorOf(ledger)
  const technician = technicianOf(ledger, site)
  const by = one.by === 'technician' ? technician : one.by === 'coordinator' ? coordinator : 'nobody'
  const day = dayIn(one, ledger)
  const file = `sites/${site}/applications/${isoOf(day)}-${by}-drafted.yaml`
  const areas = [...areasOf(ledger, site).keys()]
  const said: Readonly<Record<(typeof one.facts)[number], Data>> = {
    approved: { by: [coordinator], on: isoOf(day - 4) },
    equipment: 'hand sprayer',
    lot: 'L-77',
    identified: { by: technician, how: 'under a hand lens' },
    threshold: '4 nymphs at the pipe',
    reason: 'catch went on after cleaning',
    'tried-first': 'cleaned, vacuumed',
    'chosen-because': 'bait was not taken',
    dry: { at: '20:50', by: technician },
    reopened: { on: isoOf(day + 1), at: '06:30', by: technician },
    'follow-up': { by: isoOf(day + 8), look: 'the pipe' },
    emergency: { problem: 'a nest at the ramp', why: 'a pupil was stung', 'decided-by': coordinator },
    dilution: { water: '1 gal' },
    weather: { wind: '4 mph', temperature: '64 F' },
    'kept-out': { how: 'tape', until: 'dry' },
    'rain-dates': [isoOf(day + 1)],
    'supervised-by': coordinator,
  }
  const facts = without({
    by,
    product: one.product,
    pest: one.pest,
    areas: Object.fromEntries(one.areas.map((n) => [areas[n % areas.length] ?? '', without(one.inArea)])),
    method: one.method,
    formulation: one.formulation,
    amount: one.amount,
    time: one.time,
    pupils: one.pupils,
    ...Object.fromEntries(one.facts.map((key) => [key, said[key]])),
  })
  if (one.notice !== 'none') addNotice(ledger, site, coordinator, idOf(file), day, one.notice)
  return { ledger, file, day, facts }
}

function addNotice(
  ledger: Draft,
  site: string,
  by: string,
  application: string,
  day: number,
  what: Exclude<Drafted['notice'], 'none'>,
): void {
  const sent = what === 'late' ? day : day - 4
  const says = what === 'of everything' ? noticeWords : ['trade-name']
  write(ledger, `sites/${site}/notices/${isoOf(sent)}-${by}-drafted.yaml`, {
    by,
    application,
    ...(what === 'signs alone' ? {} : { sent: { to: 'everyone', how: 'email', says } }),
    posted: { places: ['main entrance'], 'at-the': ['each-entrance'], size: '8.5 x 11 in', says },
  })
}

function without(facts: Readonly<Record<string, unknown>>): Record<string, Data> {
  return Object.fromEntries(Object.entries(facts).filter(([, value]) => value !== undefined)) as Record<
    string,
    Data
  >
}

const told = (problems: readonly Problem[]) =>
  problems
    .map(
      ({ rule, at, level, from, args }) =>
        `${rule} ${level} ${at.path.join('.')} ${isoOf(from)} ${JSON.stringify(args)}`,
    )
    .sort()

describe('a precheck of a planned application and a check of the same one recorded', () => {
  it('agree rule for rule, whatever the draft and whatever the state', () => {
    const rules = new Set<string>()
    const byState = new Map<string, number>()
    let runs = 0
    fc.assert(
      fc.property(drafted, (one) => {
        const { ledger, file, day, facts } = laidOut(one)
        write(ledger, file, { ...facts, status: 'done' })
        const options = { asOf: day, asOfIsToday: false }
        const recorded = runCheck(memorySource(ledger.files), options)
        const ofIt = recorded.problems.filter(
          ({ at, until }) => at.file === file && (until === undefined || until > day),
        )
        write(ledger, file, { ...facts, status: 'planned' })
        const draft = draftAt(file, ledger.files.get(file) ?? '')
        const found = precheck(memorySource(ledger.files), draft, day)
        const named = [
          ...found.broken,
          ...found.stillToDo.map(({ problem }) => problem),
          ...found.toldOtherwise,
        ].filter(({ at }) => at.file === file)
        expect(told(named)).toEqual(told(ofIt))
        expect(found.checked.notChecked).toEqual(recorded.notChecked)
        for (const { rule } of ofIt) rules.add(rule)
        byState.set(one.jurisdiction.state, (byState.get(one.jurisdiction.state) ?? 0) + ofIt.length)
        runs++
      }),
      { numRuns: 210, seed: 20_260_308 },
    )
    // What was drafted is so varied that many rules spoke, in each of the states.
    expect(runs).toBeGreaterThanOrEqual(210)
    expect(rules.size).toBeGreaterThan(30)
    expect([...byState.keys()].sort()).toEqual(['CA', 'IL', 'NJ', 'OR', 'PA'])
    for (const count of byState.values()) expect(count).toBeGreaterThan(100)
  }, 120_000)
})
