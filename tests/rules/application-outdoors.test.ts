import { describe, expect, it } from 'vitest'
import { onTheField } from '../../src/rules/application-records/example-ledgers.js'
import { sprayApplication } from '../../src/rules/example-applications.js'
import { asking, law, siteWith, told, underRulebooks } from './application-checks.js'

const spray = sprayApplication

describe('weather-not-recorded', () => {
  const rule = 'weather-not-recorded'
  const note = ['method note 2026-03-12']

  it.each<[string, string[], string[]]>([
    ['the wind', ['weather: {wind: 0 mph}'], []],
    ['only the sky', ['weather: {sky: dry}'], ['weather note 2026-03-12']],
    ['nothing', ['weather:'], note],
    ['perimeter', ['weather:', 'method: perimeter'], note],
    ['broadcast', ['weather:', 'method: broadcast'], note],
    ['into a void', ['weather:', 'method: void'], []],
    ['bait laid out', ['weather:', 'method: bait-placement'], []],
    ['bait scattered', ['weather:', 'method: broadcast', 'formulation: granular-bait'], []],
    ['granules', ['weather:', 'method: broadcast', 'formulation: granule'], []],
    ['dust', ['weather:', 'method: broadcast', 'formulation: dust'], note],
    ['foam', ['weather:', 'formulation: foam'], []],
    ['indoors', ['weather:', 'areas: {kitchen: {where: range}}'], []],
    ['one area indoors', ['weather:', 'areas: {kitchen: {where: range}, field: {where: goal}}'], []],
  ])('%s', (_, lines, expected) => {
    expect(told(rule, onTheField(...lines))).toEqual(expected)
  })

  it('a dock can lie under a roof', () => {
    const dock = siteWith(['dock: {kind: loading-dock}'])
    expect(told(rule, dock + spray('2026-03-12', 'areas: {dock: {where: edge}}'))).toEqual([])
  })

  it('where a rulebook asks the record for the weather, it is told once', () => {
    const own = asking('elements: [weather]')
    expect(told(rule, own + onTheField('weather:'))).toEqual([])
    expect(told('application-record-incomplete', own + onTheField('weather:'))).toHaveLength(1)
    expect(told(rule, own + onTheField('weather: {sky: dry}'))).toEqual(['weather note 2026-03-12'])
    expect(told('application-record-incomplete', own + onTheField('weather: {sky: dry}'))).toEqual([])
  })

  it('what the district set itself is a warning; no one rulebook takes back what another asks', () => {
    const own = (value: string) =>
      `parameters:\n  outdoors.weather: [{from: 2024-08-01, value: "${value}", kind: standard, confidence: read, source: Invented policy}]\n`
    const of = (rulebooks: string[], value: string) =>
      told(rule, underRulebooks(rulebooks, own(value)) + onTheField('weather:'))
    expect(of(['practice', 'own'], 'yes')).toEqual(['method warning 2026-03-12'])
    expect(of(['practice', 'own'], 'no')).toHaveLength(1)
    expect(of(['own'], 'no')).toEqual([])
    expect(of([], 'no')).toEqual([])
  })
})

describe('wet-ground-not-closed', () => {
  const rule = 'wet-ground-not-closed'
  const open = ['kept-out:', 'dry:']
  const warning = ['areas.field warning 2026-03-12']
  const fieldIs = (facts: string) => onTheField(...open).replace('field: {kind: turf}', `field: {${facts}}`)

  it.each<[string, string[], string[]]>([
    ['neither', [], warning],
    ['flags', ['kept-out: {how: flags, until: dry}'], []],
    ['seen dry', ['dry: {at: 16:30, by: okafor}'], []],
    ['granules', ['formulation: granule'], warning],
    ['a gel', ['formulation: gel'], []],
    ['bait scattered', ['formulation: granular-bait', 'method: broadcast'], []],
    ['in a station', ['method: in-a-station'], []],
    ['foam', ['formulation: foam'], []],
    ['indoors', ['areas: {kitchen: {where: range}}'], []],
    ['indoors and outdoors', ['areas: {kitchen: {where: range}, field: {where: goal}}'], warning],
  ])('%s', (_, lines, expected) => {
    expect(told(rule, onTheField(...open, ...lines))).toEqual(expected)
  })

  it.each<[string, boolean]>([
    ['kind: turf', true],
    ['kind: turf, children: no', false],
    ['kind: playground', true],
    ['kind: planting', false],
    ['kind: planting, children: yes', true],
    ['kind: outdoors', false],
    ['kind: outdoors, children: yes', true],
    ['kind: loading-dock, children: yes', false],
  ])('an area of %s is told: %s', (facts, expected) => {
    expect(told(rule, fieldIs(facts))).toEqual(expected ? warning : [])
  })

  it('where the label or a rulebook has people wait until it is dry, that is told once, by re-entry', () => {
    const untilDry = onTheField(...open).replace(
      'places: [outdoors]',
      'places: [outdoors]\n      keep-out-until-dry: yes',
    )
    const own = underRulebooks(
      ['practice', 'own'],
      `reentry:\n  wait: [{from: 2024-08-01, label: if longer, dry: yes, ${law(8)}}]\n`,
    )
    for (const ledger of [untilDry, own + onTheField(...open)]) {
      expect(told(rule, ledger)).toEqual([])
      expect(told('dry-not-seen', ledger)).toHaveLength(1)
    }
  })
})
