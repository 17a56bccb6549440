import { describe, expect, it } from 'vitest'
import { sprayApplication } from '../../src/rules/example-applications.js'
import { checkOf } from '../check/checking.js'
import { found, product, sentences, siteWith, told, visit } from './application-checks.js'

describe('weeds, applied against by the grounds crew of the district', () => {
  const field = siteWith(['field: {kind: turf}'])
  const crew = `
=== people/hale.yaml
name: Rowan Hale
roles: [grounds]
=== products/weed-a/label.txt
An invented label.
=== products/weed-a/sds.txt
An invented safety data sheet.
${product(
  'weed-a',
  'kind: pesticide',
  'registration: 99999-7',
  'states: {OR: [{from: 2025-01-01}]}',
  'active-ingredients: {glyphosate: {strength: 41 %}}',
  'formulation: soluble-concentrate',
  'signal-word: caution',
  'restricted-use: no',
  'labels: [{from: 2026-01-05, file: label.txt, says: {places: [outdoors], pest-groups: [weed], methods: [spot], rates: {area: {at-most: 16 fl oz, per: 1000 ft2}}}}]',
  'sds: [{from: 2026-01-05, file: sds.txt}]',
)}`
  const spots = (...lines: string[]) =>
    sprayApplication(
      '2026-03-12',
      'by: hale',
      'product: weed-a',
      'pest: dandelion',
      'areas: {field: {amount: 0.04 fl oz, extent: 3 ft2, placements: 1, where: along the fence}}',
      'dilution: {water: 32 fl oz}',
      'weather: {wind: 3 mph, sky: dry}',
      'kept-out: {how: flags, until: dry}',
      'dry: {at: 17:30, by: hale}',
      'reopened: {at: 17:40, by: hale}',
      ...lines,
    ).replace('2026-03-12-okafor.yaml', '2026-03-12-hale.yaml')
  const inspected = (day: string) => visit(day, 'inspected: [field, kitchen, room-1]')
  const routine = `
=== sites/oak/visits/2026-03-05-okafor.yaml
purpose: routine
by: okafor
time: 06:10 to 06:50
site-manager: lind
complaint-log: read
inspected: [kitchen, room-1]
set:
  K1: {kind: sticky-trap, area: kitchen, within-reach: no}
`

  it('a complete record has no problem', () => {
    expect(checkOf(field + crew + inspected('2026-03-10') + spots()).rules).toEqual([])
  })

  it('an inspection of the place shows who saw the weed, and so does a sighting; one elsewhere does not', () => {
    const rule = 'pest-not-identified'
    const ledger = field + crew + routine + spots('identified:')
    expect(told(rule, ledger)).toEqual(['pest warning 2026-03-12'])
    expect(sentences(rule, ledger)[0]).toContain('an inspection of the treated areas, ')
    expect(told(rule, ledger + inspected('2026-03-10'))).toEqual([])
    expect(told(rule, ledger + visit('2026-03-10', 'inspected: [kitchen]'))).toHaveLength(1)
    expect(told(rule, ledger + found('2026-03-10', 'pest: dandelion, area: field, evidence: live'))).toEqual(
      [],
    )
  })

  it('an inspection by itself shows no need; a sighting does', () => {
    const rule = 'need-not-shown'
    const ledger = field + crew + inspected('2026-03-09') + spots('reason:', 'threshold:')
    expect(told(rule, ledger)).toEqual(['product warning 2026-03-12'])
    expect(told(rule, ledger + found('2026-03-10', 'pest: dandelion, area: field, evidence: live'))).toEqual(
      [],
    )
  })

  it('pulling weeds, or raising the mower, is tried first', () => {
    const rule = 'nothing-tried-first'
    const ledger = field + crew + spots('tried-first:')
    const did = (facts: string) => visit('2026-03-10', `actions: {did-it: {${facts}}}`)
    expect(told(rule, ledger)).toEqual(['product warning 2026-03-12'])
    expect(told(rule, ledger + did('did: pulled, tactic: hand-removal, pest: dandelion'))).toEqual([])
    expect(told(rule, ledger + did('did: mower raised, tactic: habitat-change, area: field'))).toEqual([])
  })
})
