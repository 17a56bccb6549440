import { describe, expect, it } from 'vitest'
import { isoOf } from '../../src/measure/calendar.js'
import { spray, underOwnRulebook } from '../../src/rules/reentry/example-ledgers.js'
import { reentryRules } from '../../src/rules/reentry/index.js'
import { checkOf } from '../check/checking.js'

const ids = new Set(reentryRules.map(({ id }) => id))

/** What this family says, standing on a day or not; the other families are judged by their own tests. */
function problemsOf(overlay: string, asOf = '2026-03-20') {
  const { problems, faults } = checkOf(overlay, asOf)
  // A slip in the records of a test is not to pass for silence.
  if (faults.length > 0) throw new Error(`the ledger of this test cannot be read: ${JSON.stringify(faults)}`)
  return problems.filter(({ rule }) => ids.has(rule))
}

const rulesOf = (overlay: string, asOf?: string) => problemsOf(overlay, asOf).map(({ rule }) => rule)

/** The one problem of an overlay, in its own words, or nothing. */
function saying(overlay: string, asOf?: string): string {
  const found = problemsOf(overlay, asOf)
  expect(found.length).toBeLessThan(2)
  return found.map(({ rule, args }) => reentryRules.find(({ id }) => id === rule)?.says(args)).join()
}

const law = (section: number) =>
  `source: "Invented Pest Act, section ${section}", kind: law, confidence: read`

const reentry = (facts: string, kind = law(8)) => `
reentry:
  wait: [{from: 2026-03-01, ${facts}, ${kind}}]
`
const occupancy = (facts: string, kind = law(9)) => `
occupancy:
  pupils-away: [{from: 2026-03-01, ${facts}, ${kind}}]
`

/** The spray of the base with other words on its label. */
const label = (says: string) => `
=== products/spray-a/product.yaml
name: Invented Spray A
kind: pesticide
registration: 99999-2
states: {OR: [{from: 2025-01-01}]}
active-ingredients: {deltamethrin: {strength: 0.06 %}}
formulation: ready-to-use-liquid
signal-word: caution
restricted-use: no
labels:
  - from: 2026-01-05
    file: label.txt
    says: {places: [indoors, outdoors], pest-groups: [cockroach, ant], methods: [crack-and-crevice, spot], ${says}}
sds: [{from: 2026-01-05, file: sds.txt}]
`
const silentLabel = label('rates: {area: {at-most: 16 fl oz, per: 1000 ft2}}')
const away = 'pupils: none in the building'
const dry = 'dry: {at: 17:50, by: okafor}'
const opened = (at: string, on = '') => `reopened: {${on === '' ? '' : `on: ${on}, `}at: ${at}, by: lind}`
const withoutHours = (application: string) => application.replace(/^time: .*\n/m, '')

describe('pupils-present', () => {
  const whole = 'pupils: none in the building'
  const part = 'pupils: none in the area'
  const separable = `${whole}, unless-separated: yes`
  const sprayed = (facts: string, time?: string) => spray(`${facts}\n${dry}\n${opened('18:10')}`, time)

  it.each<[string, string, string, boolean]>([
    [separable, 'pupils: none in the building', '', false],
    [separable, 'pupils: in the area', '', true],
    [separable, 'pupils: elsewhere in the building', '', true],
    [separable, 'pupils: elsewhere in the building', 'separated: yes', false],
    // Fire doors do not help those who are in the treated part itself.
    [separable, 'pupils: in the area', 'separated: yes', true],
    [whole, 'pupils: elsewhere in the building', 'separated: yes', true],
    [part, 'pupils: elsewhere in the building', '', false],
    [part, 'pupils: in the area', '', true],
  ])('%s; the record says %s %s', (duty, pupils, separated, isTold) => {
    const overlay = underOwnRulebook(occupancy(duty)) + sprayed(`${pupils}\n${separated}`)
    expect(rulesOf(overlay)).toEqual(isTold ? ['pupils-present'] : [])
  })

  it.each([
    ['pupils: in the area', 'The record shows pupils in the area during this application.'],
    [
      'pupils: elsewhere in the building',
      'The record shows pupils elsewhere in the building during this application, and does not show that the treated part was separated.',
    ],
  ])('says what the record shows: %s', (pupils, sentence) => {
    expect(saying(underOwnRulebook(occupancy(separable)) + sprayed(pupils))).toBe(sentence)
  })

  it('asks nothing without a duty, and no pupils are in the area where the label says so', () => {
    expect(rulesOf(sprayed('pupils: in the area'))).toEqual([])
    const alone = label('with-people-present: no')
    const [found] = problemsOf(alone + sprayed('pupils: in the area'))
    expect([found?.level, found?.sources[0]?.text]).toEqual([
      'error',
      'FIFRA, 7 U.S.C. 136j(a)(2)(G), from memory: use only as the labeling says',
    ])
    expect(rulesOf(alone + sprayed('pupils: elsewhere in the building'))).toEqual([])
    expect(rulesOf(label('with-people-present: yes') + sprayed('pupils: in the area'))).toEqual([])
  })

  it('is told once, with everything that asks', () => {
    const two = `
occupancy:
  pupils-away: [{from: 2026-03-01, ${whole}, ${law(9)}}]
  area: [{from: 2026-03-01, ${part}, source: board policy 7, kind: standard, confidence: read}]
`
    const found = problemsOf(
      underOwnRulebook(two) + label('with-people-present: no') + sprayed('pupils: in the area'),
    )
    expect(found.map(({ level, sources }) => [level, sources.length])).toEqual([['error', 3]])
    const elsewhere = problemsOf(underOwnRulebook(two) + sprayed('pupils: elsewhere in the building'))
    expect(elsewhere.map(({ sources }) => sources.map(({ text }) => text))).toEqual([
      ['Invented Pest Act, section 9'],
    ])
  })

  it.each([
    ['law', 'error', 'warning'],
    ['standard', 'warning', 'warning'],
    ['practice', 'note', 'note'],
  ])('a duty of %s: broken %s, not shown %s', (kind, broken, notShown) => {
    const own = underOwnRulebook(occupancy(whole, `source: invented, kind: ${kind}, confidence: no source`))
    const level = (application: string) => problemsOf(own + application).map((problem) => problem.level)
    expect(level(sprayed('pupils: in the area'))).toEqual([broken])
    expect(level(sprayed('', '16:00 to 16:20'))).toEqual([notShown])
  })

  describe('where pupils were is not recorded', () => {
    const own = underOwnRulebook(occupancy(whole)) + silentLabel
    // Occupied from 07:15 to 17:00, Monday to Friday; 12 March 2026 is a Thursday.
    it.each([
      ['06:00 to 07:15', false],
      ['06:00 to 07:16', true],
      ['09:00 to 09:30', true],
      ['16:59 to 17:30', true],
      ['17:00 to 17:30', false],
      ['06:00 to 18:00', true],
    ])('%s: %s', (time, isTold) => {
      expect(rulesOf(own + sprayed('', time))).toEqual(isTold ? ['pupils-present'] : [])
    })

    const on = (day: string, district = own) =>
      rulesOf(district + spray(`${dry}\n${opened('18:10')}`, '09:00 to 09:30', day).replace('17:50', '10:00'))
    it('nobody is expected on a Saturday, in a closure or in the recess', () => {
      expect(on('2026-03-14')).toEqual([])
      const closed = own.replace('until: 2026-06-12}', 'until: 2026-06-12, closed: {spring: 2026-03-12}}')
      expect([on('2026-03-12', closed), on('2026-03-13', closed)]).toEqual([[], ['pupils-present']])
      const over = own.replace('until: 2026-06-12', 'until: 2026-03-11')
      expect(on('2026-03-12', over)).toEqual([])
    })

    it('without stated hours every hour of a school day counts', () => {
      const noHours = own.replace(/^occupied:.*\n/m, '')
      expect(rulesOf(noHours + sprayed('', '20:00 to 20:30'))).toEqual(['pupils-present'])
      expect(on('2026-03-14', noHours)).toEqual([])
    })

    it('a Saturday on which the district says people are there counts', () => {
      const saturdays = own.replace('thu, fri]', 'thu, fri, sat]')
      expect(on('2026-03-14', saturdays)).toEqual(['pupils-present'])
    })

    it('reads the hours in force, those of the weekday, and those of the site', () => {
      const spans = (text: string) => own.replace(/^occupied:.*$/m, `occupied: ${text}`)
      const fridays = spans(
        '[{from: 2026-03-01, days: [mon, tue, wed, thu], hours: 07:15 to 17:00}, {from: 2026-03-01, days: [fri], hours: 07:15 to 08:30}]',
      )
      expect([on('2026-03-12', fridays), on('2026-03-13', fridays)]).toEqual([['pupils-present'], []])
      const changed = spans(
        '[{from: 2026-03-01, days: [thu], hours: 07:15 to 17:00}, {from: 2026-03-12, days: [thu], hours: 10:00 to 17:00}]',
      )
      expect(on('2026-03-12', changed)).toEqual([])
      const site = `
=== sites/oak/site.yaml
name: Oak School
address: 2 Example Lane
site-manager: [{from: 2026-03-01, who: lind}]
complaint-log: front office
hours: 10:00 to 15:00
contract: [{from: 2026-03-01, contractor: Invented Pest Services, firm: invented-pest-services, routine-visits: monthly, grace: 5 days, checks: {sticky-trap: monthly}}]
areas: {kitchen: {kind: kitchen}, room-1: {kind: classroom, children: yes}}
`
      expect(on('2026-03-12', own + site)).toEqual([])
    })

    it('an application without hours may have been made then', () => {
      expect(rulesOf(own + withoutHours(sprayed('')))).toEqual(['pupils-present'])
    })

    it('is left to the record that is not complete, where a record duty asks for it', () => {
      const asks = (facts: string) =>
        underOwnRulebook(
          `${occupancy(whole)}records:\n  application: [{from: 2026-03-01, elements: [pupils], ${facts}${law(3)}}]\n`,
        )
      const application = sprayed('', '16:00 to 16:20')
      expect(rulesOf(asks('') + application)).toEqual([])
      // A short form does without it, so that nothing else would tell.
      expect(rulesOf(asks('short-form-under: 4356 ft2, short-form: [registration], ') + application)).toEqual(
        ['pupils-present'],
      )
    })
  })

  it('asks by the rules of the day, of what was done, within the records', () => {
    const from = (day: string) =>
      underOwnRulebook(occupancy(whole).replace('from: 2026-03-01', `from: ${day}`))
    const there = sprayed('pupils: in the area')
    expect([rulesOf(from('2026-03-12') + there), rulesOf(from('2026-03-13') + there)]).toEqual([
      ['pupils-present'],
      [],
    ])
    expect(rulesOf(from('2026-03-01') + there.replace('status: done', 'status: planned'))).toEqual([])
    const early = spray(`pupils: in the area\n${dry}\n${opened('18:10')}`, '17:10 to 17:30', '2026-02-26')
    expect(rulesOf(from('2026-02-01') + early)).toEqual([])
  })

  it('asks of pesticides, and not of classes that are exempt', () => {
    const own = underOwnRulebook(
      `${occupancy(`${whole}, not-for: [spot-spray]`)}uses:\n  spot-spray: [{from: 2026-03-01, any: [{method: [spot]}], ${law(2)}}]\n`,
    )
    expect(rulesOf(own + sprayed('pupils: in the area'))).toEqual([])
    const living = silentLabel.replace('kind: pesticide', 'kind: living-agent')
    expect(rulesOf(underOwnRulebook(occupancy(whole)) + living + sprayed('pupils: in the area'))).toEqual([])
  })
})

describe('reopened-too-early', () => {
  const sprayed = (reopened: string, time?: string, day?: string) =>
    spray(`${away}\n${dry}\n${reopened}`, time, day)
  const sevenHours = underOwnRulebook(reentry('wait: 7 h, label: if longer'))

  // It ends at 17:30; 7 h later it is 00:30 on the 13th.
  it.each([
    ['00:30', false],
    ['00:29', true],
  ])('opened at %s of the next day', (at, isTold) => {
    expect(rulesOf(sevenHours + sprayed(opened(at, '2026-03-13')))).toEqual(
      isTold ? ['reopened-too-early'] : [],
    )
  })

  it('says how long it was, and points at the hour', () => {
    const overlay = sevenHours + sprayed(opened('18:10'))
    expect(saying(overlay)).toBe(
      'The area was opened again 40 min after the end; after this application pupils stay out for 7 h.',
    )
    expect(problemsOf(overlay).map(({ at, from }) => [at.path.join('.'), isoOf(from)])).toEqual([
      ['reopened.at', '2026-03-12'],
    ])
    expect(saying(sevenHours + silentLabel + sprayed(opened('17:00')))).toBe(
      'The area was opened again before the application ended; after this application pupils stay out for 7 h.',
    )
  })

  it.each<[string, string, string, string, string]>([
    // N.J.S.A. 13:1F-29a: the number of the label also where it is shorter. 17:30 and 4 h is 21:30.
    ['instead, the label shorter', 'label: instead', 'keep-out: 4 h', '21:30', '21:29'],
    // 17:30 and 6 h is 23:30.
    [
      'instead, the label longer than the rule',
      'wait: 5 h, label: instead',
      'keep-out: 6 h',
      '23:30',
      '23:29',
    ],
    // 7 Pa. Code 128.106: the greater of both. 17:30 and 6 h is 23:30.
    ['if longer, the label shorter', 'wait: 6 h, label: if longer', 'keep-out: 4 h', '23:30', '23:29'],
    ['if longer, the label longer', 'wait: 4 h, label: if longer', 'keep-out: 6 h', '23:30', '23:29'],
    // A time to ventilate adds to the label: the longer of both. 17:30 and 2 h is 19:30.
    ['ventilate longer', 'label: instead', 'keep-out: 30 min, ventilate: 2 h', '19:30', '19:29'],
    // Ventilating is no re-entry time, so the rule's own stays.
    ['ventilate only', 'wait: 6 h, label: instead', 'ventilate: 2 h', '23:30', '23:29'],
    ['minutes and hours', 'wait: 90 min, label: if longer', 'keep-out: 1 h', '19:00', '18:59'],
  ])('%s', (_, duty, says, inTime, early) => {
    const at = (time: string) =>
      rulesOf(underOwnRulebook(reentry(duty)) + label(says) + sprayed(opened(time)))
    expect([at(inTime), at(early)]).toEqual([[], ['reopened-too-early']])
  })

  it('holds by the label alone, without any rulebook', () => {
    const four = label('keep-out: 4 h')
    expect([rulesOf(four + sprayed(opened('21:30'))), rulesOf(four + sprayed(opened('21:29')))]).toEqual([
      [],
      ['reopened-too-early'],
    ])
    expect(saying(four + sprayed(opened('21:29')))).toContain('people stay out for 4 h')
  })

  it('reads the label of the day', () => {
    const later = label('keep-out: 4 h').replace('from: 2026-01-05\n    file', 'from: 2026-03-13\n    file')
    expect(later).toContain('from: 2026-03-13')
    expect(rulesOf(later + sprayed(opened('18:10')))).toEqual([])
  })

  it('names the duties that were broken, and only those', () => {
    const two = underOwnRulebook(`
reentry:
  short: [{from: 2026-03-01, wait: 30 min, label: if longer, source: board policy 7, kind: standard, confidence: read}]
  long: [{from: 2026-03-01, wait: 7 h, label: if longer, ${law(8)}}]
`)
    const sources = (at: string, on?: string) =>
      problemsOf(two + sprayed(opened(at, on))).map((problem) => [
        problem.level,
        problem.args.wait,
        problem.sources.map(({ text }) => text).join('; '),
      ])
    // 17:30 and 30 min is 18:00.
    expect(sources('17:59')).toEqual([['error', '7 h', 'board policy 7; Invented Pest Act, section 8']])
    expect(sources('18:00')).toEqual([['error', '7 h', 'Invented Pest Act, section 8']])
    expect(sources('00:30', '2026-03-13')).toEqual([])
  })

  it('names the duty that lets the label have its longer time, also that to ventilate', () => {
    const own = underOwnRulebook(reentry('dry: yes, label: if longer'))
    // 17:30 and 2 h is 19:30.
    const found = problemsOf(own + label('ventilate: 2 h') + sprayed(opened('19:29')))
    expect(found.map(({ sources }) => sources.map(({ text }) => text).sort())).toEqual([
      [
        'FIFRA, 7 U.S.C. 136j(a)(2)(G), from memory: use only as the labeling says',
        'Invented Pest Act, section 8',
      ],
    ])
  })

  it('until dry is no number of hours', () => {
    const own = underOwnRulebook(reentry('dry: yes, label: if longer'))
    expect(rulesOf(own + label('keep-out-until-dry: yes') + sprayed(opened('17:51')))).toEqual([])
  })

  // In Los Angeles clocks go from 02:00 to 03:00 on 8 March 2026 and from 02:00 back to 01:00 on 1 November 2026.
  describe('when the clock is set', () => {
    const night = (reopened: string, day: string, wait = '7 h') => {
      const application = spray(`${away}\n${reopened}`, '22:00 to 23:00', day)
      return problemsOf(
        underOwnRulebook(reentry(`wait: ${wait}, label: if longer`)) + silentLabel + application,
        '2026-11-20',
      ).map(({ args }) => args.shown)
    }
    it.each<[string, string, string[]]>([
      // 23:00 PST is 07:00 UTC; 7 h later is 14:00 UTC, 07:00 PDT, although the clock shows 8 h.
      ['in spring', opened('07:00', '2026-03-08'), []],
      ['in spring, a minute early', opened('06:59', '2026-03-08'), ['too early']],
    ])('%s', (_, reopened, expected) => {
      expect(night(reopened, '2026-03-07')).toEqual(expected)
    })
    it.each<[string, string, string[]]>([
      // 23:00 PDT is 06:00 UTC; 7 h later is 13:00 UTC, 05:00 PST, although the clock shows 6 h.
      ['in autumn', opened('05:00', '2026-11-01'), []],
      ['in autumn, a minute early', opened('04:59', '2026-11-01'), ['too early']],
    ])('%s', (_, reopened, expected) => {
      expect(night(reopened, '2026-10-31')).toEqual(expected)
    })

    // 23:00 PDT and 3 h is 09:00 UTC, 01:00 PST: the first 01:30 is before it, the second after it.
    it('an hour that was there twice is told as not shown, and is clear with its offset', () => {
      expect(night(opened('01:30', '2026-11-01'), '2026-10-31', '3 h')).toEqual(['not shown'])
      expect(night(opened('01:30-08:00', '2026-11-01'), '2026-10-31', '3 h')).toEqual([])
      expect(night(opened('01:30-07:00', '2026-11-01'), '2026-10-31', '3 h')).toEqual(['too early'])
      // Either way 2 h had passed; neither way 4 h.
      expect(night(opened('01:30', '2026-11-01'), '2026-10-31', '2 h')).toEqual([])
      expect(night(opened('01:30', '2026-11-01'), '2026-10-31', '4 h')).toEqual(['too early'])
    })

    // There was no 02:30: it lies between 09:30 and 10:30 UTC. 23:00 PST and 3 h is 10:00 UTC.
    it('an hour that was not there is neither late nor early by eight hours', () => {
      expect(night(opened('02:30', '2026-03-08'), '2026-03-07', '3 h')).toEqual(['not shown'])
      expect(night(opened('02:30', '2026-03-08'), '2026-03-07', '2 h')).toEqual([])
      expect(night(opened('02:30', '2026-03-08'), '2026-03-07', '4 h')).toEqual(['too early'])
    })
  })

  describe('an application without hours', () => {
    const unknown = (reopened: string) => withoutHours(sprayed(reopened))
    const shown = (overlay: string) => problemsOf(overlay).map(({ level, args }) => [level, args.shown])
    it('is told as not shown where it could be either', () => {
      expect(shown(sevenHours + unknown(opened('18:10')))).toEqual([['warning', 'not shown']])
      // It ended at 23:59 at the latest, the last minute that bears its date; 7 h later it is 06:59.
      expect(shown(sevenHours + unknown(opened('06:58', '2026-03-13')))).toEqual([['warning', 'not shown']])
      expect(shown(sevenHours + unknown(opened('06:59', '2026-03-13')))).toEqual([])
    })
    it('is too early where it cannot be otherwise', () => {
      // It cannot have begun before the day did: at 06:59 no 7 h had passed.
      const overlay = sevenHours + silentLabel + unknown(opened('06:59')).replace(`${dry}\n`, '')
      expect(saying(overlay)).toBe(
        'The area was opened again at most 6 h 59 min after the end; after this application pupils stay out for 7 h.',
      )
    })
    it('is left to the record that is not complete, where a record duty asks for the hours', () => {
      const asks = underOwnRulebook(
        `${reentry('wait: 7 h, label: if longer')}records:\n  application: [{from: 2026-03-01, elements: [start-and-end], ${law(3)}}]\n`,
      )
      expect(shown(asks + unknown(opened('18:10')))).toEqual([])
    })
  })
})

describe('dry-not-seen', () => {
  const sprayed = (facts: string, time?: string) => spray(`${away}\n${facts}`, time)
  const reasons = (overlay: string) =>
    problemsOf(overlay)
      .filter(({ rule }) => rule === 'dry-not-seen')
      .map(({ level, args }) => [level, args.why])
  // The label of the base says: keep out until dry. The application ends at 17:30.
  it.each<[string, string, string[][]]>([
    ['seen and opened after', `${dry}\n${opened('18:10')}`, []],
    ['seen at the minute it ended', `dry: {at: 17:30, by: okafor}\n${opened('18:10')}`, []],
    [
      'seen a minute before it ended',
      `dry: {at: 17:29, by: okafor}\n${opened('18:10')}`,
      [['warning', 'before the end']],
    ],
    ['opened at the minute it was seen', `${dry}\n${opened('17:50')}`, []],
    ['opened a minute before', `${dry}\n${opened('17:49')}`, [['error', 'after it was opened']]],
    ['nobody looked', opened('18:10'), [['warning', 'not recorded']]],
    ['nobody looked, and nothing tells who opened it', '', [['warning', 'not recorded']]],
  ])('%s', (_, facts, expected) => expect(reasons(sprayed(facts))).toEqual(expected))

  it('says what the record shows', () => {
    expect(saying(sprayed(`${dry}\n${opened('17:49')}`))).toBe(
      'The area was opened again at 17:49, before it was seen dry or settled at 17:50.',
    )
    expect(saying(sprayed(`dry: {at: 17:20, by: okafor}\n${opened('18:10')}`))).toBe(
      'It is recorded as seen dry at 17:20, before the application ended at 17:30; people stay out until it is dry or settled.',
    )
  })

  it('not recorded, is true from the next day', () => {
    expect(checkOf(sprayed(opened('18:10')), '2026-03-12').rules).not.toContain('dry-not-seen')
    expect(checkOf(sprayed(opened('18:10')), '2026-03-13').rules).toContain('dry-not-seen')
  })

  it('after midnight it was seen on the day it was opened', () => {
    const late = (facts: string) => reasons(sprayed(facts, '22:50 to 23:40'))
    const atNight = 'dry: {at: 00:20, by: okafor}'
    expect(late(`${atNight}\n${opened('00:30', '2026-03-13')}`)).toEqual([])
    expect(late(`${atNight}\n${opened('00:19', '2026-03-13')}`)).toEqual([['error', 'after it was opened']])
    expect(late(`${atNight}\n${opened('23:50')}`)).toEqual([['warning', 'before the end']])
  })

  it('a duty asks for it as well as a label, and is told with it', () => {
    const own = underOwnRulebook(reentry('dry: yes, label: if longer'))
    const told = (overlay: string) =>
      problemsOf(overlay + sprayed(opened('18:10'))).map((one) => one.sources.length)
    expect([told(silentLabel), told(own + silentLabel), told(own)]).toEqual([[], [1], [2]])
  })

  it.each<[string, string]>([
    ['a gel', 'product: bait-a\nformulation: gel\nmethod: crack-and-crevice'],
    ['bait in a station', 'product: spray-a\nmethod: in-a-station'],
    ['bait that is placed', 'product: spray-a\nmethod: bait-placement'],
  ])('%s stays where it was put', (_, use) => {
    const application = sprayed(opened('18:10'))
      .replace('product: spray-a', use)
      .replace('method: spot\n', '')
    expect(reasons(underOwnRulebook(reentry('dry: yes, label: if longer')) + application)).toEqual([])
  })

  it('a dust settles', () => {
    const application = sprayed(opened('18:10')).replace('method: spot', 'formulation: dust\nmethod: void')
    expect(reasons(underOwnRulebook(reentry('dry: yes, label: if longer')) + application)).toEqual([
      ['warning', 'not recorded'],
    ])
  })

  it('opened too early is told once, not again for being wet', () => {
    const overlay = label('keep-out: 4 h, keep-out-until-dry: yes') + sprayed(`${dry}\n${opened('17:40')}`)
    expect(rulesOf(overlay)).toEqual(['reopened-too-early'])
  })
})

describe('reopening-not-recorded', () => {
  const sprayed = (day?: string, time?: string) => spray(`${away}\n${dry}`, time, day)
  const sevenHours = underOwnRulebook(reentry('wait: 7 h, label: if longer'))

  it.each<[string, string, string[]]>([
    ['a duty to wait', sevenHours, ['7 h']],
    ['a number on the label', label('keep-out: 4 h'), ['4 h']],
    ['a time to ventilate on the label', label('ventilate: 30 min'), ['30 min']],
    ['both: the longer one', sevenHours + label('keep-out: 12 h'), ['12 h']],
    ['until dry is no number', label('keep-out-until-dry: yes'), []],
    ['nothing is asked', silentLabel, []],
    ['a wait of nothing', label('keep-out: 0 h'), []],
    [
      'a class that is exempt',
      underOwnRulebook(
        `${reentry('wait: 7 h, label: if longer, not-for: [spot-spray]')}uses:\n  spot-spray: [{from: 2026-03-01, any: [{method: [spot]}], ${law(2)}}]\n`,
      ),
      [],
    ],
  ])('%s', (_, overlay, waits) => {
    const found = problemsOf(overlay + sprayed())
    expect(found.map(({ rule, args }) => [rule, args.wait])).toEqual(
      waits.map((wait) => ['reopening-not-recorded', wait]),
    )
  })

  it('is a warning, whatever asks: nothing is known to be broken', () => {
    expect(problemsOf(sevenHours + sprayed()).map(({ level, gap }) => [level, gap])).toEqual([
      ['warning', true],
    ])
  })

  it.each([
    // The wait of a Thursday evening ends on Friday, a working day: due then, told on Saturday.
    ['2026-03-12', '2026-03-14'],
    // That of a Friday evening ends on Saturday; Monday is the next working day.
    ['2026-03-13', '2026-03-17'],
  ])('applied on %s, it is told from %s on', (day, from) => {
    expect(problemsOf(sevenHours + sprayed(day)).map((problem) => isoOf(problem.from))).toEqual([from])
  })

  it.each<[string, string, string, string]>([
    // 17:30 and 7 h is 00:30; pupils come at 07:15.
    ['not before', '17:10 to 17:30', '2026-03-12', ''],
    // 00:15 and 7 h is 07:15, when they come.
    ['at the very minute', '00:05 to 00:15', '2026-03-12', ''],
    ['a minute before', '00:05 to 00:16', '2026-03-12', 'on 2026-03-12 from 07:15'],
    ['they are there already', '09:00 to 09:30', '2026-03-12', 'on 2026-03-12 from 07:15'],
    ['nobody comes on a Saturday', '00:05 to 00:16', '2026-03-14', ''],
  ])('says when pupils are expected before the time is over: %s', (_, time, day, expected) => {
    expect(
      problemsOf(sevenHours + sprayed(day, time)).find(({ rule }) => rule === 'reopening-not-recorded')?.args
        .expected,
    ).toBe(expected)
  })

  it('says so in words', () => {
    expect(saying(sevenHours + silentLabel + spray(away, '00:05 to 00:16'))).toBe(
      'After this application pupils stay out for 7 h, and the record does not show when the area was opened again; pupils are expected on 2026-03-12 from 07:15, before that time is over.',
    )
  })
})

it('bait in a device has no record of who was there, and is not asked', () => {
  const overlay = `${underOwnRulebook(`${reentry('wait: 7 h, dry: yes, label: if longer')}${occupancy('pupils: none in the building')}`)}
=== sites/oak/visits/2026-03-12-okafor.yaml
purpose: follow-up
by: okafor
time: 09:00 to 09:20
set:
  B1: {kind: bait-station, area: kitchen, for: [german-cockroach], within-reach: no, product: bait-a, bait-added: 1 station}
`
  expect(rulesOf(overlay)).toEqual([])
})
