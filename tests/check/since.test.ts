import { describe, expect, it } from 'vitest'
import { broughtSince } from '../../src/check/new-since.js'
import { runCheck } from '../../src/check/run-check.js'
import { memorySource } from '../../src/files/memory.js'
import type { Source } from '../../src/files/source.js'
import { ledgerWith } from '../../src/rules/base-ledger.js'
import { baitApplication, sprayApplication } from '../../src/rules/example-applications.js'
import { underOwnRulebook } from '../../src/rules/own-rulebook.js'
import { noLog, noSuchArea, notUsable, otherSite } from '../cli/overlays.js'
import { day } from '../ledger/small-site.js'

const options = { asOf: day('2026-03-20'), asOfIsToday: false }
const ledger = (overlay: string) => memorySource(ledgerWith(overlay))

const since = (after: Source, befores: readonly Source[]) =>
  broughtSince(
    runCheck(after, options),
    befores.map((before) => runCheck(before, options)),
    options,
  )

/** What a change from some overlays (several, before a merge) to another brings. */
function change(before: string | readonly string[], after: string) {
  const befores = typeof before === 'string' ? [before] : before
  const checked = since(ledger(after), befores.map(ledger))
  const inShort = (problems: typeof checked.brought) =>
    problems.map(({ rule, at }) => `${rule} ${at.file} ${at.path.join('.')}`).sort()
  return { ...checked, told: inShort(checked.brought), older: inShort(checked.known) }
}

const visit = 'sites/oak/visits/2026-03-10-okafor.yaml'
const callback = (body: string) => `\n=== ${visit}\npurpose: callback\nby: okafor\n${body}\n`
/** A rulebook that rules out a method. */
const ruledOut = (method: string) =>
  underOwnRulebook(`
uses:
  ruled-out:
    - {from: 2020-01-01, any: [{method: [${method}]}], kind: law, confidence: read, source: "Invented Pest Act, section 1"}
prohibitions:
  method:
    - {from: 2020-01-01, what: this way, holds-for: [ruled-out], kind: law, confidence: read, source: "Invented Pest Act, section 3"}
`)

const logNotRead = 'complaint-log-not-read sites/oak/visits/2026-03-05-okafor.yaml purpose'

describe('what a change brings', () => {
  it('is nothing when nothing has changed; what stood before is known', () => {
    const { told, older } = change(noLog + noSuchArea, noLog + noSuchArea)
    expect(told).toEqual([])
    expect(older).toEqual([logNotRead, `dangling-reference ${visit} inspected.0`])
  })

  it('is the one bad record, and none of the old ones', () => {
    const { told, older } = change(noLog, noLog + noSuchArea)
    expect([told, older]).toEqual([[`dangling-reference ${visit} inspected.0`], [logNotRead]])
  })

  it('is everything where there was nothing before', () => {
    expect(change([], noLog).told).toEqual([logNotRead])
  })

  it('is told where it shows, though that record was not touched: a product is taken away', () => {
    const bait = baitApplication('2026-03-12')
    const gone = '\n=== products/bait-a/product.yaml (delete)\n'
    expect(change(bait, bait).told).toEqual([])
    expect(change(bait, bait + gone).told).toEqual([
      'product-not-in-register sites/oak/applications/2026-03-12-okafor.yaml product',
    ])
  })

  it('is what a rulebook rules out from now on', () => {
    const spray = sprayApplication('2026-03-12')
    const tightened = change(ruledOut('broadcast') + spray, ruledOut('spot') + spray)
    expect(tightened.told).toEqual(['use-prohibited sites/oak/applications/2026-03-12-okafor.yaml product'])
  })

  it('is a problem that was known, where it has become graver', () => {
    const until = (sections: string) =>
      underOwnRulebook(sections).replace(
        '2026-03-01, who: marsh}]',
        '2026-03-01, until: 2026-03-14, who: marsh}]',
      )
    const law = until(
      'parameters: {coordinator.named: [{from: 2026-03-10, value: "yes", kind: law, confidence: read, source: Invented Pest Act}]}',
    )
    const nobody = 'no-coordinator district.yaml coordinator.0'
    expect(change(until('parameters: {}'), law).told).toContain(nobody)
    expect(change(law, law).told).toEqual([])
    // The other way round it is an error that has become a warning.
    const eased = change(law, until('parameters: {}'))
    expect(eased.told).not.toContain(nobody)
    expect(eased.older).toContain(nobody)
  })

  it('is what an exception no longer covers; and what one covers newly is told as excepted', () => {
    const exception = `
=== exceptions/one.yaml
by: marsh
why: the log is being bound anew
from: 2026-03-01
until: 2026-04-10
rule: complaint-log-not-read
`
    const dropped = change(noLog + exception, noLog)
    expect([dropped.told, dropped.excepted]).toEqual([[logNotRead], []])
    const added = change(noLog, noLog + exception)
    expect([added.told, added.older]).toEqual([[], []])
    expect(added.excepted.map(({ problem }) => problem.rule)).toEqual(['complaint-log-not-read'])
    expect(change(noLog + exception, noLog + exception).excepted).toEqual([])
  })

  it('is not what stood before and ends on the same day', () => {
    expect(change(noLog, '').told).toEqual([])
  })
})

describe('an old problem in a record that is changed', () => {
  it('is not told when lines are put in above it', () => {
    const more = noSuchArea.replace(
      'inspected',
      '# looked at twice\nrecommended: Sweep the store.\ninspected',
    )
    expect(change(noSuchArea, more)).toMatchObject({
      told: [],
      older: [`dangling-reference ${visit} inspected.0`],
    })
  })

  it('is not told when an item is put in before it in its list', () => {
    const moved = change(callback('inspected: [kitchn]'), callback('inspected: [room-1, kitchn]'))
    expect(moved).toMatchObject({ told: [], older: [`dangling-reference ${visit} inspected.1`] })
  })

  it('made a second time is told once, at the second', () => {
    const twice = change(callback('inspected: [kitchn]'), callback('inspected: [kitchn, room-1, kitchn]'))
    expect(twice).toMatchObject({
      told: [`dangling-reference ${visit} inspected.2`],
      older: [`dangling-reference ${visit} inspected.0`],
    })
  })

  it('does not hide another that is made in its list while it is mended', () => {
    const other = change(callback('inspected: [kitchn, room-1]'), callback('inspected: [kitchen, rom-1]'))
    expect(other.told).toEqual([`dangling-reference ${visit} inspected.1`])
  })

  it('is told anew when the record gets another name: its day and who made it are another', () => {
    const renamed = noSuchArea.replace('2026-03-10', '2026-03-11')
    expect(change(noSuchArea, renamed)).toMatchObject({
      told: [`dangling-reference ${visit.replace('10', '11')} inspected.0`],
      older: [],
    })
  })
})

describe('repeats that a rule tells as one', () => {
  const first = sprayApplication('2026-03-12')
  const second = sprayApplication('2026-03-16')

  it('are told again when there is one more', () => {
    const once = 'use-prohibited sites/oak/applications/2026-03-12-okafor.yaml product'
    const more = change(ruledOut('spot') + first, ruledOut('spot') + first + second)
    expect(more.told).toContain(once)
    expect(more.brought.find(({ rule }) => rule === 'use-prohibited')?.args.more).toBe(1)
    const fewer = change(ruledOut('spot') + first + second, ruledOut('spot') + first)
    expect(fewer.told).toEqual([])
    expect(fewer.older).toContain(once)
  })

  it('are told again when they count one more', () => {
    const device = (id: string) => `  ${id}: {kind: snap-trap, area: kitchen, secured: yes}\n`
    const set = (devices: string) =>
      `\n=== sites/oak/visits/2026-03-20-okafor.yaml\npurpose: set-up\nby: okafor\nset:\n${devices}`
    const two = change(set(device('S1')), set(device('S1') + device('S2')))
    expect(two.brought.map(({ rule, args }) => [rule, args.lacking])).toEqual([['placement-not-recorded', 2]])
  })
})

describe('a merge, which follows two commits', () => {
  it('brings what stood on neither side', () => {
    const elm = otherSite('elm', 'inspected: [kitchn]')
    const onElm = 'dangling-reference sites/elm/visits/2026-03-09-okafor.yaml inspected.0'
    expect(change([noLog, elm], noLog + elm)).toMatchObject({ told: [], older: [logNotRead, onElm].sort() })
    expect(change([noLog, otherSite('elm')], noLog + elm).told).toEqual([onElm])
  })
})

describe('what could not be checked', () => {
  it('before the change has all its problems told, and is named', () => {
    const mended = change(noLog + notUsable, noLog)
    expect(mended.told).toEqual([logNotRead])
    expect(mended.notCompared.map(({ what }) => what)).toEqual(['sites/oak'])
    expect(mended.notCompared[0]?.why).toContain('2026-03-11-okafor.yaml')
  })

  it('before and now is told as not checked now', () => {
    const still = change(notUsable, notUsable)
    expect(still.now.notChecked.map(({ what }) => what)).toEqual(['sites/oak'])
    expect(still.notCompared).toEqual([])
  })

  it('now has no problems but those of its files', () => {
    const spoilt = change(noLog, noLog + notUsable)
    expect(spoilt.now.notChecked).toHaveLength(1)
    expect(spoilt.told).toEqual(['shape sites/oak/visits/2026-03-11-okafor.yaml inspected'])
  })

  it('before, since the whole ledger could not be read, leaves everything told', () => {
    const before = memorySource(new Map([['district.yaml', 'format: [']]))
    const checked = since(ledger(noLog), [before])
    expect(checked.brought.map(({ rule }) => rule)).toEqual(['complaint-log-not-read'])
    expect(checked.notCompared.map(({ what }) => what)).toEqual(['the whole ledger'])
  })
})
