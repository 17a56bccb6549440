import { describe, expect, it } from 'vitest'
import { questionOf } from '../../../src/writing/visit/questions.js'
import { answering, asks, complaintAbout, more, oakPlan, said, setUp } from './oak-plan.js'

const kinds = `
set:
  K1: {kind: sticky-trap, area: kitchen, for: [german-cockroach]}
  K2: {kind: sticky-trap, area: kitchen}
  K3: {kind: snap-trap, area: kitchen, marked-as: "#17"}
  B1: {kind: bait-station, area: kitchen}
  T1: {kind: tracking-patch, area: kitchen}
  E1: {kind: blocked-entrance, area: kitchen}
  L1: {kind: light-trap, area: kitchen}
  S1: {kind: termite-station, area: kitchen}
  R1: {kind: sticky-trap, area: room-1, for: [german-cockroach]}
`
const products = {
  'products/block-x/product.yaml':
    'name: Block X\nkind: pesticide\nregistration: 99999-3\nactive-ingredients: {bromethalin: {strength: 0.01 %}}\nformulation: bait-block\nsignal-word: caution\nrestricted-use: no\nlabels: []\nsds: []\n',
}

const atDevices = () => answering(oakPlan({ '2026-03-02': kinds }, products), '06:10', 'trap-check')
const read = (text: string) => said(more(atDevices(), text)).readings

describe('what is typed of a device', () => {
  it('is a count of the one pest it is for, as a number or by stage', () => {
    expect(read('K1 2')).toEqual({ K1: { 'german-cockroach': 2 } })
    expect(read('k1 4n 1a renewed')).toEqual({
      K1: { 'german-cockroach': { nymphs: 4, adults: 1 }, renewed: 'yes' },
    })
    expect(read('K1 4 nymphs, 1 adults')).toEqual({ K1: { 'german-cockroach': { nymphs: 4, adults: 1 } } })
    expect(read('K1 2e 1egg-c')).toEqual({ K1: { 'german-cockroach': { eggs: 2, 'egg-cases': 1 } } })
  })

  it('names the pest where it is for several, or another was caught', () => {
    expect(complaintAbout(atDevices(), 'K2 2')).toContain('name the pest first')
    expect(read('K2 german 2 odor 1')).toEqual({ K2: { 'german-cockroach': 2, 'odorous-house-ant': 1 } })
    expect(read('K2 other ground beetle 3')).toEqual({ K2: { other: 'ground beetle', 'other-count': 3 } })
  })

  it('is a fact of its kind', () => {
    expect(read('K1 missing renewed')).toEqual({ K1: { unusable: 'missing', renewed: 'yes' } })
    expect(read('K1 no-access cabinet, in front')).toEqual({ K1: { 'no-access': 'cabinet, in front' } })
    expect(read('#17 sprung r')).toEqual({ K3: { sprung: 'empty', reset: 'yes' } })
    expect(read('B1 some added 1 block block-x lot L-7')).toEqual({
      B1: { 'bait-taken': 'some', 'bait-added': '1 block', product: 'block-x', lot: 'L-7' },
    })
    expect(read('T1 many')).toEqual({ T1: { tracks: 'many' } })
    expect(read('E1 moved')).toEqual({ E1: { block: 'moved' } })
    expect(read('L1 house-fly 7 r lamp 2026-04-07')).toEqual({
      L1: { 'house-fly': 7, renewed: 'yes', lamp: '2026-04-07' },
    })
    expect(read('S1 active')).toEqual({ S1: { active: 'yes' } })
    expect(read('K1 2 note greasy: behind the fryer')).toEqual({
      K1: { 'german-cockroach': 2, note: 'greasy: behind the fryer' },
    })
  })

  it('may be of several devices on one line', () => {
    expect(read('K1 2; K3 missing')).toEqual({ K1: { 'german-cockroach': 2 }, K3: { unusable: 'missing' } })
  })

  it('may be of a device of another area, which is then not asked for there', () => {
    const session = more(atDevices(), 'R1 2', '')
    expect(said(session)).toMatchObject({ readings: { R1: { 'german-cockroach': 2 } } })
    expect(asks(session)).toBe('end')
    expect(more(atDevices(), 'R1 2').state.understood).toEqual(['R1 (stands in room-1): 2 German cockroach'])
  })

  it('may be remembered at a later question', () => {
    const late = more(atDevices(), '', '', 'K1 2')
    expect(asks(late)).toBe('end')
    expect(said(late)).toMatchObject({
      readings: { K1: { 'german-cockroach': 2 }, none: ['K2', 'K3', 'L1', 'R1'] },
    })
    const last = more(late, '06:50', 'k2 missing')
    expect([asks(last), said(last).readings]).toMatchObject(['confirm', { K2: { unusable: 'missing' } }])
    expect(complaintAbout(last, 'K7 2')).toContain('Enter writes')
  })

  it('is refused with the nearest name, or what it may be', () => {
    const say = (text: string) => complaintAbout(atDevices(), text)
    expect(say('K9 2')).toMatch(/There is no device K9; did you mean/)
    expect(say('K 2')).toContain('K could be K1, K2 or K3')
    expect(say('K1')).toContain('What was seen')
    expect(say('K1 german-cockroch 2')).toContain('did you mean german-cockroach')
    expect(say('K1 two')).toContain('no pest two')
    expect(say('K1 2x')).toContain('no life stage')
    expect(say('K1 2.5')).toContain('not a number of animals')
    expect(say('K1 -2')).toContain('-2')
    expect(say('K2 german')).toContain('how many german-cockroach')
    expect(say('B1 some added block')).toContain('how much')
    expect(say('B1 some added 1 block blok-x')).toContain('did you mean block-x')
    expect(say('L1 lamp yesterday')).toContain('date on the lamp')
    expect(say('K1 no-access')).toContain('after it')
  })

  it('leaves the question for the others, and tells nothing where one of several is wrong', () => {
    const session = more(atDevices(), 'K1 2')
    expect(asks(session)).toBe('devices kitchen')
    expect(complaintAbout(session, 'K3 missing; K9 2')).toContain('K9')
    expect(session.state.draft.readings).not.toHaveProperty('K3')
  })
})

describe('Enter at the devices of an area', () => {
  it('says of each what its kind shows when there is nothing, as the prompt says', () => {
    // In the order of their kinds, and kinds in the order of their first device: B1, E1, K1 K2, K3, L1, S1, T1.
    expect(questionOf(atDevices(), true).prompt).toBe(
      'Devices [no bait gone from B1; block in place at E1; nothing on K1, K2, K3, L1; not active: S1; no tracks in T1]',
    )
    expect(read('')).toEqual({
      none: ['K1', 'K2', 'K3', 'L1'],
      B1: { 'bait-taken': 'none' },
      E1: { block: 'in-place' },
      S1: { active: 'no' },
      T1: { tracks: 'none' },
    })
  })

  it('leaves out what was not looked at', () => {
    expect(said(more(atDevices(), 'K1 -; B1 -', '')).readings).not.toHaveProperty('B1')
    expect(said(more(atDevices(), 'K1 -', '')).readings).toMatchObject({ none: ['K2', 'K3', 'L1'] })
    expect(said(more(atDevices(), '-'))).not.toHaveProperty('readings')
  })

  it('keeps what was left on a board that nobody renewed', () => {
    const plan = oakPlan({
      '2026-03-02': setUp,
      '2026-03-12':
        'readings: {K1: {german-cockroach: {nymphs: 2}}, K2: {german-cockroach: 1, renewed: yes}}\n',
    })
    const session = answering(plan, '06:10', 'trap-check')
    expect(questionOf(session, true).prompt).toContain('still German cockroach (nymphs 2) on K1')
    expect(said(more(session, '')).readings).toEqual({
      none: ['K2', 'K3'],
      K1: { 'german-cockroach': { nymphs: 2 } },
    })
    expect(said(more(session, 'K1 clear', '')).readings).toEqual({ none: ['K1', 'K2', 'K3'] })
  })

  it('says nothing of a device that was lost and not renewed', () => {
    const plan = oakPlan({ '2026-03-02': setUp, '2026-03-12': 'readings: {K1: {unusable: missing}}\n' })
    const session = answering(plan, '06:10', 'trap-check')
    expect(questionOf(session, true).prompt).toContain('not told: K1')
    expect(said(more(session, '')).readings).toEqual({ none: ['K2', 'K3'] })
    expect(said(more(session, 'K1 clear', '')).readings).toEqual({ none: ['K1', 'K2', 'K3'] })
  })
})
