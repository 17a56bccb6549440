import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { asCarriedOut } from '../../src/check/draft.js'
import { notYet } from '../../src/check/not-yet.js'
import type { DraftedApplication } from '../../src/check/precheck.js'
import { precheck } from '../../src/check/precheck.js'
import { runCheck, standsOn } from '../../src/check/run-check.js'
import { memorySource } from '../../src/files/memory.js'
import { overlaid } from '../../src/files/overlaid.js'
import { isoOf } from '../../src/measure/calendar.js'
import { recordPathOf } from '../../src/records/paths.js'
import { allRules, ruleById } from '../../src/rules/all.js'
import { ledgerWith } from '../../src/rules/base-ledger.js'
import { baitApplication, sprayApplication } from '../../src/rules/example-applications.js'
import { noticeDuties, noticeOf, postingDuties } from '../../src/rules/notices/example-ledgers.js'
import { underOwnRulebook } from '../../src/rules/own-rulebook.js'
import type { Problem } from '../../src/types.js'
import { addGel, addSpray } from '../mutation/added-applications.js'
import { cleanLedger } from '../mutation/base-ledgers.js'
import { copyOf, dataOf, mapAt, write } from '../mutation/draft.js'
import { sitesOf } from '../mutation/site-records.js'
import { draftAt, draftedIn, precheckOf, reportOf } from './prechecking.js'

const told = (problems: readonly Problem[]) =>
  problems.map(({ rule, at, level, from }) => `${rule} ${level} ${at.path.join('.')} ${isoOf(from)}`).sort()

/** Everything a precheck of a planned application names, at its own file. */
function named(source: ReturnType<typeof memorySource>, draft: DraftedApplication, today: number) {
  const { broken, stillToDo, toldOtherwise } = precheck(source, draft, today)
  return [...broken, ...stillToDo.map(({ problem }) => problem), ...toldOtherwise].filter(
    ({ at }) => at.file === draft.path.file,
  )
}

describe('a precheck of a planned application and a check of it recorded as done agree', () => {
  const examples = allRules.flatMap(({ id, failing, passing }) =>
    [failing, passing].flatMap((overlay, n) =>
      [...ledgerWith(overlay)]
        .filter(([file, text]) => /^sites\/[^/]+\/applications\//.test(file) && /^status: done/m.test(text))
        .filter(([file]) => recordPathOf(file) !== null && !('stray' in (recordPathOf(file) ?? {})))
        .map(([file]) => ({ name: `${id} ${n === 0 ? 'failing' : 'passing'} ${file}`, overlay, file })),
    ),
  )

  it('there are examples of many rules', () => {
    expect(examples.length).toBeGreaterThan(80)
  })

  it.each(examples)('$name', ({ overlay, file }) => {
    const { source, draft } = draftedIn(overlay, file)
    const asOf = draft.path.day
    const check = runCheck(memorySource(ledgerWith(overlay)), { asOf, asOfIsToday: false })
    const ofIt = check.problems.filter(
      ({ at, until }) => at.file === file && (until === undefined || until > asOf),
    )
    for (const today of [asOf - 30, asOf, asOf + 60]) {
      const found = named(source, draft, today)
      expect(told(found)).toEqual(told(ofIt))
      expect(told(found.filter((problem) => standsOn(problem, asOf)))).toEqual(
        told(ofIt.filter((problem) => standsOn(problem, asOf))),
      )
    }
    // What another record is blamed for on account of it is told too.
    const all = precheck(source, draft, asOf)
    const rules = new Set(
      [...all.broken, ...all.stillToDo.map(({ problem }) => problem)].map(({ rule }) => rule),
    )
    for (const { rule, related, at } of check.problems)
      if (at.file !== file && related.some(({ place }) => place.file === file))
        expect([...rules, ...all.toldOtherwise.map((problem) => problem.rule)]).toContain(rule)
  })

  const base = cleanLedger({ sites: 1, years: 1, seed: 15, until: '2026-07-10' })
  const mayLack = [
    'amount',
    'treated-extent',
    'time',
    'approved',
    'equipment',
    'lot',
    'pupils',
    'identified',
    'threshold',
    'reason',
    'tried-first',
    'chosen-because',
    'dry',
    'reopened',
    'follow-up',
  ] as const

  it('also for generated applications, whatever they leave out and with or without their notice', () => {
    let spoken = 0
    fc.assert(
      fc.property(
        fc.constantFrom(addSpray, addGel),
        fc.subarray([...mayLack]),
        fc.boolean(),
        fc.constantFrom('20:00 to 20:20', '09:30 to 10:15', '16:50 to 17:20'),
        (add, lacks, withNotice, time) => {
          const ledger = copyOf(base)
          const added = add(ledger, sitesOf(ledger)[0] ?? '')
          const whole = { ...mapAt(dataOf(ledger, added.application)), time }
          const facts = Object.fromEntries(
            Object.entries(whole).filter(([key]) => !lacks.some((lack) => lack === key)),
          )
          write(ledger, added.application, facts)
          if (!withNotice) ledger.files.delete(added.notice)
          const asOf = added.day
          const done = runCheck(memorySource(ledger.files), { asOf, asOfIsToday: false }).problems
          const ofIt = done.filter(({ at }) => at.file === added.application)
          const planned = copyOf(ledger)
          write(planned, added.application, { ...facts, status: 'planned' })
          const draft = draftAt(added.application, planned.files.get(added.application) ?? '')
          expect(told(named(memorySource(planned.files), draft, asOf))).toEqual(told(ofIt))
          spoken += ofIt.length
        },
      ),
      { numRuns: 12, seed: 20_260_312 },
    )
    expect(spoken).toBeGreaterThan(12)
  }, 120_000)
})

describe('what is not on record yet', () => {
  const duties = underOwnRulebook(noticeDuties + postingDuties)

  it('is still to do until its moment, and broken after it', () => {
    const overlay = duties + baitApplication('2026-03-12')
    // 72 hours before 15:40 on 12 March: 15:40 on 9 March.
    const before = precheckOf(overlay, '2026-03-12', '2026-03-09')
    expect(before.brokenRules).toEqual([])
    // The look at its effect is planned for 2 April.
    expect(before.openRules).toEqual(['effect-not-looked-at', 'notice-missing', 'posting-missing'])
    expect(
      reportOf(overlay, '2026-03-12', '2026-03-09')
        .rows('still-to-do')
        .map((cells) => [cells.when, cells['last-day']]),
    ).toEqual([
      ['before it begins', '2026-03-09'],
      ['before it begins', '2026-03-09'],
      ['afterwards', '2026-04-02'],
    ])
    const after = precheckOf(overlay, '2026-03-12', '2026-03-10')
    expect(after.brokenRules).toEqual(['notice-missing', 'posting-missing'])
    expect(after.openRules).toEqual(['effect-not-looked-at'])
  })

  it('a notice that was sent in time is looked at', () => {
    const sent = noticeOf(
      '2026-03-09',
      'sent: {to: everyone, at: 15:40, how: email, says: [trade-name, date]}',
    )
    const found = precheckOf(duties + baitApplication('2026-03-12') + sent, '2026-03-12', '2026-03-10')
    expect(found.brokenRules).toEqual(['posting-missing'])
    const late = noticeOf(
      '2026-03-09',
      'sent: {to: everyone, at: 15:41, how: email, says: [trade-name, date]}',
    )
    const tooLate = precheckOf(duties + baitApplication('2026-03-12') + late, '2026-03-12', '2026-03-01')
    // One minute late stays late, whatever is done now.
    expect(tooLate.brokenRules).toEqual(['notice-late'])
    expect(tooLate.openRules).toEqual(['effect-not-looked-at', 'posting-missing'])
  })

  it('facts of the day itself are still to do on that day, and a draft that states them wrongly is broken', () => {
    const open = precheckOf(sprayApplication('2026-03-12', 'dry:', 'reopened:'), '2026-03-12')
    expect([open.brokenRules, open.openRules]).toEqual([[], ['dry-not-seen', 'effect-not-looked-at']])
    expect(open.stillToDo.map(({ when }) => when)).toEqual(['afterwards', 'afterwards'])
    // Seen dry before it ended at 16:05.
    const wrong = precheckOf(sprayApplication('2026-03-12', 'dry: {at: 16:00, by: okafor}'), '2026-03-12')
    expect(wrong.brokenRules).toEqual(['dry-not-seen'])
  })

  it('every rule of the table is a rule, and each tells why', () => {
    for (const [rule, { because }] of Object.entries(notYet)) {
      expect(ruleById(rule)?.id).toBe(rule)
      expect(because.length).toBeGreaterThan(10)
    }
  })
})

describe('moments', () => {
  const act = underOwnRulebook(`${noticeDuties}${postingDuties}
reentry:
  wait: [{from: 2026-03-01, wait: 7 h, label: if longer, source: "Invented Pest Act, section 8", kind: law, confidence: read}]
records:
  application: [{from: 2026-03-01, elements: [lot, start-and-end], within: 5 days, source: "Invented Pest Act, section 5", kind: law, confidence: read}]
`)

  it('of notices, signs, re-entry and record, by hand', () => {
    const { report, rows } = reportOf(
      act + sprayApplication('2026-03-12', 'lot:', 'dry:', 'reopened:'),
      '2026-03-12',
    )
    expect(rows('moments').map(({ what, latest, stays }) => [what, latest, stays])).toEqual([
      ['notice to parents', '2026-03-09 15:40', null],
      ['notice to staff', '2026-03-09 15:40', null],
      // 72 hours after 16:05 on 12 March.
      ['sign, 8.5 x 11 in, at: treated-area, each-entrance', '2026-03-09 15:40', '2026-03-15 16:05'],
    ])
    // 7 hours after 16:05; the label says until dry.
    expect(rows('reentry').map(({ earliest, wait }) => [earliest, wait])).toEqual([
      ['2026-03-12 23:05', '7 h'],
      ['seen dry or settled', null],
    ])
    expect(rows('record').map(({ what, draft }) => [what, draft])).toEqual([
      ['the lot number', 'not shown'],
      ['when it began and ended', 'nothing found missing'],
      ['when it was seen dry or settled, and by whom', 'not shown'],
      ['when the area was opened again, and by whom', 'not shown'],
      ['all of it, within 5 days', null],
    ])
    expect(report.headline).toContain('This is no permission.')
  })

  it('count hours that pass, also across a change of the clocks', () => {
    // The clocks go forward at 02:00 on 8 March 2026: 72 hours before 15:40 on the 10th it is 14:40 on the 7th.
    const { rows } = reportOf(act + baitApplication('2026-03-10'), '2026-03-10', '2026-03-01')
    expect(rows('moments')[0]?.latest).toBe('2026-03-07 14:40')
  })

  it('without hours, the moment that is in time whatever the hour', () => {
    const { rows } = reportOf(
      act + sprayApplication('2026-03-12', 'time:', 'reopened:'),
      '2026-03-12',
      '2026-03-01',
    )
    expect(rows('moments').map(({ latest }) => latest)).toEqual(Array(3).fill('2026-03-09 00:00'))
    // 7 hours after 23:59, the last minute of 12 March.
    expect(rows('reentry')[0]?.earliest).toBe('2026-03-13 06:59')
    expect(rows('not-checked').map(({ what }) => what)).toContain('hours')
  })

  it('says of each whether it has passed', () => {
    const soFar = (today: string) =>
      reportOf(act + baitApplication('2026-03-12'), '2026-03-12', today).rows('moments')[0]?.['so-far']
    expect(soFar('2026-03-09')).toBe('none recorded')
    expect(soFar('2026-03-10')).toBe('none recorded, and the moment has passed')
  })
})

describe('what could not be looked at', () => {
  const unseen = (overlay: string, date = '2026-03-12') => {
    const { report, rows } = reportOf(overlay, date)
    return {
      incomplete: report.incomplete,
      what: rows('not-checked').map(({ what, why }) => `${what}: ${why}`),
    }
  }

  it('a product that is not in the register', () => {
    const { incomplete, what } = unseen(baitApplication('2026-03-12', 'product: bait-z'))
    expect(incomplete).toBe(true)
    expect(what).toContain(
      'everything that hangs on the product: bait-z is not in the register, under products/',
    )
  })

  it('an area that the site does not have', () => {
    const overlay = baitApplication('2026-03-12', 'areas: {kitchn: {amount: 2 g, placements: 8}}')
    const { incomplete, what } = unseen(overlay)
    expect(incomplete).toBe(true)
    expect(what).toContain('what hangs on the place kitchn: the site has no area kitchn')
    expect(precheckOf(overlay, '2026-03-12').brokenRules).toContain('dangling-reference')
  })

  it('a day after the end of the school calendar, and on its last day not yet', () => {
    // The calendar of the example ends on 2026-06-12.
    const days = (date: string) => unseen(baitApplication(date), date)
    expect(days('2026-06-12').incomplete).toBe(false)
    expect(days('2026-06-13').incomplete).toBe(true)
    expect(days('2026-06-13').what.join()).toContain('ends on 2026-06-12')
  })

  it('the next school day, where the calendar ends before it', () => {
    const emergency = 'emergency: {problem: nymphs in the serving line, why: it is lunch, decided-by: marsh}'
    // 12 June 2026 is a Friday and the last day of the calendar; the 11th is the day before.
    const on = (date: string) => unseen(baitApplication(date, emergency), date).what.join()
    expect(on('2026-06-11')).not.toContain('next school day')
    expect(on('2026-06-12')).toContain('the next school day lies after it')
  })

  it('an hour that the clock skips or shows twice', () => {
    // In 2026 the clocks of the United States change on 8 March and 1 November at 02:00 (15 U.S.C. 260a, from memory).
    const skipped = reportOf(baitApplication('2026-03-08', 'time: 02:30 to 02:50'), '2026-03-08')
    expect(skipped.rows('not-checked').map(({ what }) => what)).toContain('exact moments')
    expect(skipped.rows('broken').map(({ rule }) => rule)).toContain('clock-time-not-there')
    const twice = reportOf(baitApplication('2026-11-01', 'time: 01:30 to 01:50'), '2026-11-01')
    expect(twice.rows('not-checked').map(({ what }) => what)).toContain('exact moments')
    expect(twice.rows('broken').map(({ rule }) => rule)).toContain('clock-time-ambiguous')
    const said = reportOf(baitApplication('2026-11-01', 'time: 01:30-08:00 to 01:50-08:00'), '2026-11-01')
    expect(said.rows('not-checked').map(({ what }) => what)).not.toContain('exact moments')
  })

  it('a day before the records of the site', () => {
    const { incomplete, what } = unseen(baitApplication('2026-02-20'), '2026-02-20')
    expect([incomplete, what[0]]).toEqual([
      true,
      'most duties: records of this site begin on 2026-03-01, after that day',
    ])
  })

  it('a draft that is no record, and a site with one that is none', () => {
    const broken = reportOf(baitApplication('2026-03-12', 'method: by magic'), '2026-03-12')
    expect([broken.report.incomplete, broken.isBroken]).toEqual([true, true])
    expect(broken.rows('broken').length).toBeGreaterThan(0)
    expect(broken.report.tables.find(({ id }) => id === 'moments')?.empty).toBe('Not looked at.')
    const beside =
      '\n=== sites/oak/visits/2026-03-11-okafor.yaml\npurpose: callback\nby: okafor\ninspected: kitchen\n'
    const other = reportOf(baitApplication('2026-03-12') + beside, '2026-03-12')
    expect([other.report.incomplete, other.rows('broken')]).toEqual([true, []])
    expect(other.report.headline).toContain('NOT EVERYTHING COULD BE LOOKED AT')
  })

  it('a label whose words are not entered', () => {
    const noSays = (ledgerWith('').get('products/bait-a/product.yaml') ?? '').replace(
      / {4}says:\n(?: {6}.*\n)+/,
      '',
    )
    const overlay = `\n=== products/bait-a/product.yaml\n${noSays}`
    const first = reportOf(overlay + baitApplication('2026-03-12'), '2026-03-12')
    expect(first.report.incomplete).toBe(true)
    expect(first.rows('not-checked').map(({ what }) => what)).toContain('the label')
    expect(first.rows('broken').map(({ rule }) => rule)).toContain('label-not-in-data')
    // After another use, `check` tells of both together.
    const second = precheckOf(
      overlay + baitApplication('2026-03-10') + baitApplication('2026-03-12'),
      '2026-03-12',
    )
    expect(second.toldOtherwise.map(({ rule }) => rule)).toContain('label-not-in-data')
  })
})

describe('the ledger under it', () => {
  it('what is wrong with it otherwise is not told, and later records are not looked at', () => {
    const wrong =
      '\n=== sites/oak/visits/2026-03-10-okafor.yaml\npurpose: callback\nby: okafor\ninspected: [kitchn]\n'
    const later =
      '\n=== sites/oak/visits/2026-03-18-okafor.yaml\npurpose: follow-up\nby: okafor\nreadings: {none: [K1]}\n'
    const found = precheckOf(wrong + later + baitApplication('2026-03-12'), '2026-03-12')
    expect(found.brokenRules).toEqual([])
    expect(found.openRules).toEqual(['effect-not-looked-at'])
    const { report } = reportOf(later + baitApplication('2026-03-12'), '2026-03-12')
    expect(report.notExamined).toEqual(['One record dated after that day was not looked at.'])
  })

  it('an exception of the district is shown as such', () => {
    const overlay = baitApplication('2026-03-12', 'tried-first:')
    expect(precheckOf(overlay, '2026-03-12').brokenRules).toEqual(['nothing-tried-first'])
    const exception =
      '\n=== exceptions/tried.yaml\nrule: nothing-tried-first\nwhy: invented\nby: marsh\nfrom: 2026-03-01\nuntil: 2026-04-01\n'
    const found = precheckOf(overlay + exception, '2026-03-12')
    expect(found.brokenRules).toEqual([])
    expect(found.excepted.map(({ problem }) => problem.rule)).toEqual(['nothing-tried-first'])
  })

  it('is not touched by what is laid over it', () => {
    const below = memorySource(
      new Map([
        ['a.txt', 'a'],
        ['b.txt', 'b'],
      ]),
    )
    const source = overlaid(
      below,
      new Map([
        ['b.txt', null],
        ['c.txt', Buffer.from('c')],
        ['a.txt', Buffer.from('new')],
      ]),
    )
    expect(source.list().map(({ path, size }) => [path, size])).toEqual([
      ['a.txt', 3],
      ['c.txt', 1],
    ])
    expect(source.read('b.txt')).toEqual({ refused: 'missing', detail: 'does not exist' })
    expect(source.read('c.txt')).toEqual({ bytes: Buffer.from('c') })
    // SHA-256 of `c`, by sha256sum.
    expect(source.sha256('c.txt')).toEqual({
      sha256: '2e7d2c03a9507ae265ecf5b5356885a53393a2029d241394997265a1a25aefc6',
    })
    expect(source.sha256('b.txt')).toHaveProperty('refused')
    expect(below.list()).toHaveLength(2)
  })
})

describe('a draft as carried out', () => {
  it('changes nothing but the status', () => {
    const text = 'by: okafor\nareas: {kitchen: {amount: 2 g, within-reach: no}}\n'
    const done = Buffer.from(asCarriedOut(Buffer.from(`status: planned\n${text}`))).toString()
    expect(done).toBe(
      '"by": "okafor"\n"areas": {"kitchen":{"amount":"2 g","within-reach":"no"}}\n"status": "done"\n',
    )
    expect(Buffer.from(asCarriedOut(Buffer.from(text))).toString()).toBe(done)
    const other = Buffer.from(`status: perhaps\n${text}`)
    expect(asCarriedOut(other)).toBe(other)
    const noYaml = Buffer.from('status: planned\nstatus: planned\n')
    expect(asCarriedOut(noYaml)).toBe(noYaml)
  })
})
