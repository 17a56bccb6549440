import { describe, expect, it } from 'vitest'
import { memorySource } from '../../src/files/memory.js'
import { scopeOf } from '../../src/ledger/duty-scope.js'
import { readLedger } from '../../src/ledger/read-ledger.js'
import type { SiteView } from '../../src/ledger/site-view.js'
import { dutiesFor } from '../../src/ledger/use-classes.js'
import { dutySections } from '../../src/records/rulebook-duties.js'
import { allRules } from '../../src/rules/all.js'
import { ledgerWith } from '../../src/rules/base-ledger.js'
import { baitApplication } from '../../src/rules/example-applications.js'
import { underOwnRulebook } from '../../src/rules/own-rulebook.js'
import { day } from './small-site.js'

function viewsOf(overlay: string): SiteView[] {
  const views: SiteView[] = []
  const options = { asOf: day('2026-03-20'), asOfIsToday: false }
  readLedger(memorySource(ledgerWith(overlay)), options, (view) => views.push(view))
  return views
}

describe('whether a duty holds for a use', () => {
  it('is told to hold exactly where the rules take it to hold', () => {
    let looked = 0
    for (const { failing, passing } of allRules)
      for (const view of [failing, passing].flatMap(viewsOf))
        for (const treatment of view.treatments)
          for (const section of dutySections) {
            const holding = new Set(dutiesFor(view, section, treatment))
            for (const duty of view.district.rulebooks.duties(section, treatment.day)) {
              looked++
              const { holds } = scopeOf(view, duty, treatment)
              if (treatment.product) expect(holds === 'yes').toBe(holding.has(duty))
              else expect(holds).toBe('not known')
            }
          }
    expect(looked).toBeGreaterThan(500)
  })

  const duty = (facets: string, scope: string) =>
    underOwnRulebook(`
uses:
  some: [{from: 2026-03-01, any: [${facets}], source: "Invented Pest Act, section 1", kind: law, confidence: read}]
occupancy:
  away:
    - {from: 2026-03-01, pupils: none in the area, ${scope}, source: "Invented Pest Act, section 9", kind: law, confidence: read}
`)

  function scope(facets: string, which: string, ...lines: string[]) {
    const [view] = viewsOf(duty(facets, which) + baitApplication('2026-03-12', ...lines))
    const treatment = view?.treatments[0]
    const asked = view?.district.rulebooks.duties('occupancy', day('2026-03-12'))[0]
    if (!view || !treatment || !asked) throw new Error('no such use')
    return scopeOf(view, asked, treatment)
  }

  it.each([
    ['a fact that is recorded rules it out', '{pupils: [in the area]}', [], 'no'],
    ['the fact it hangs on is absent', '{pupils: [in the area]}', ['pupils:'], 'not known'],
    [
      'another facet rules it out whatever the absent one is',
      '{pupils: [in the area], method: [spot]}',
      ['pupils:'],
      'no',
    ],
    [
      'one of two descriptions hangs on it',
      '{method: [spot]}, {pupils: [in the area]}',
      ['pupils:'],
      'not known',
    ],
    ['it fits by another description', '{formulation: [gel]}, {pupils: [in the area]}', ['pupils:'], 'yes'],
    [
      'whether it was within reach is absent',
      '{within-reach: "yes"}',
      ['areas: {kitchen: {amount: 2 g}}'],
      'not known',
    ],
    [
      'one area is known to be out of reach',
      '{within-reach: "yes"}',
      ['areas: {kitchen: {within-reach: no}, room-1: {amount: 1 g}}'],
      'no',
    ],
    ['the product is not in the register', '{method: [spot]}', ['product: unheard-of'], 'not known'],
  ] as const)('of a class it is confined to: %s', (_, facets, lines, holds) => {
    expect(scope(facets, 'holds-for: [some]', ...lines).holds).toBe(holds)
  })

  it('names the absent field and the class that hangs on it', () => {
    expect(scope('{pupils: [in the area]}', 'holds-for: [some]', 'pupils:')).toEqual({
      holds: 'not known',
      absent: ['pupils'],
      classes: ['some'],
    })
  })

  it('an exemption that hangs on an absent fact is none: it has to be shown', () => {
    expect(scope('{pupils: [none in the building]}', 'not-for: [some]', 'pupils:').holds).toBe('yes')
    expect(scope('{pupils: [none in the building]}', 'not-for: [some]')).toEqual({
      holds: 'no',
      why: 'of the class `some`, which is exempt',
      isExempt: true,
      classes: ['some'],
    })
  })

  it('a class that the rulebook does not define cannot be checked', () => {
    expect(scope('{method: [spot]}', 'holds-for: [undefined-class]').holds).toBe('not known')
  })
})
