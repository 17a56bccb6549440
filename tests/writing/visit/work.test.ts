import { describe, expect, it } from 'vitest'
import { questionOf } from '../../../src/writing/visit/questions.js'
import type { Session } from '../../../src/writing/visit/session.js'
import { resumed, undone } from '../../../src/writing/visit/session.js'
import { answering, asks, complaintAbout, more, oakPlan, said, setUp } from './oak-plan.js'

/** Answers up to the devices of the kitchen: K1, K2, K3 (marked #17). */
const inKitchen = () => answering(oakPlan(), '06:10', '', '', '', '')

/** Each of these answers, taken back in turn, leaves what was told before it; and all of them come again from the disk. */
function staysTrue(start: Session, ...texts: readonly string[]): Session {
  let session = start
  for (const text of texts) {
    const next = more(session, text)
    expect(undone(next)).toEqual(session)
    expect(resumed(next.plan, next.answers)).toEqual({ session: next, unfit: [] })
    session = next
  }
  return session
}

describe('a device moved', () => {
  it('is asked to which area and how it stands there, and is still asked for where it stood', () => {
    const session = staysTrue(
      inKitchen(),
      'K1 2 moved',
      'store',
      'secured not within-reach height 2.5 ft at 12.5 40',
    )
    expect(said(session)).toMatchObject({
      readings: { K1: { 'german-cockroach': 2 } },
      moved: {
        K1: { area: 'store', secured: 'yes', 'within-reach': 'no', height: '2.5 ft', at: [12.5, 40] },
      },
    })
    expect(asks(session)).toBe('devices kitchen')
    expect(questionOf(session, true).prompt).toBe('Devices [nothing on K2, K3]')
    // Moved without a look: the bracket still names it.
    expect(questionOf(more(inKitchen(), 'K1 moved store', ''), true).prompt).toContain('nothing on K1, K2')
  })

  it('may be said on one line, at any question, and by what is printed on it', () => {
    expect(said(more(inKitchen(), 'K1 moved to room-1 marked')).moved).toEqual({
      K1: { area: 'room-1', marked: 'yes' },
    })
    expect(said(more(inKitchen(), 'moved #17 store unsecured')).moved).toEqual({
      K3: { area: 'store', secured: 'no' },
    })
    const last = answering(oakPlan(), '06:10', 'trap-check', '', '', '06:50')
    expect(asks(last)).toBe('confirm')
    const told = staysTrue(last, 'k2 moved store', '')
    expect([asks(told), said(told).moved]).toEqual(['confirm', { K2: { area: 'store' } }])
    // Enter: shifted within the area it stood in.
    expect(said(more(inKitchen(), 'K1 moved', '', '')).moved).toEqual({ K1: { area: 'kitchen' } })
  })

  it('goes nowhere that is no area, and can be taken out of the record', () => {
    expect(complaintAbout(inKitchen(), 'K1 moved stor secured')).toContain('taken: ')
    expect(complaintAbout(inKitchen(), 'K1 moved kitchin')).toContain('did you mean kitchen')
    expect(complaintAbout(inKitchen(), 'K1 moved store by the door')).toContain('by is not understood')
    expect(complaintAbout(inKitchen(), 'K1 moved store height tall')).toContain('height 4 ft')
    expect(complaintAbout(inKitchen(), 'K1 moved store at 12')).toContain('at 12.5 40')
    expect(complaintAbout(inKitchen(), 'K1 moved store not height')).toContain('not what')
    expect(complaintAbout(inKitchen(), 'K1 moved store traps 2')).toContain('not understood')
    expect(complaintAbout(inKitchen(), 'K9 moved store')).toContain('There is no device K9')
    expect(complaintAbout(inKitchen(), 'moved')).toContain('moved K3 store')
    expect(said(more(inKitchen(), 'K1 moved', '-'))).not.toHaveProperty('moved')
    expect(said(more(inKitchen(), 'K1 moved store marked', 'moved K1 -'))).not.toHaveProperty('moved')
  })

  it('is a block gone from an entrance where that is what is looked at', () => {
    const plan = oakPlan({ '2026-03-02': 'set: {E1: {kind: blocked-entrance, area: kitchen}}\n' })
    const session = answering(plan, '06:10', 'trap-check')
    expect(said(more(session, 'E1 moved')).readings).toEqual({ E1: { block: 'moved' } })
    expect(said(more(session, 'moved E1 store marked')).moved).toEqual({
      E1: { area: 'store', marked: 'yes' },
    })
  })
})

describe('a device picked up, put out again or taken up', () => {
  const away = () =>
    oakPlan({ '2026-03-02': setUp, '2026-03-12': 'readings: {none: [K1]}\npicked-up: [K1, R1]\n' })

  it('is told at its prompt or by what was done, as it is spoken', () => {
    const session = staysTrue(
      inKitchen(),
      'K1 2 picked up',
      'picked-up K2 #17',
      'K3 sprung taken up bent, room closed',
    )
    expect(said(session)).toMatchObject({
      'picked-up': ['K1', 'K2', 'K3'],
      'taken-up': { K3: 'bent, room closed' },
      readings: { K1: { 'german-cockroach': 2 }, K3: { sprung: 'empty' } },
    })
    const asked = staysTrue(inKitchen(), 'K2 taken-up', 'full of dust')
    expect([asks(asked), said(asked)['taken-up']]).toEqual(['devices kitchen', { K2: 'full of dust' }])
    // A note is free text, whatever it says.
    expect(said(more(inKitchen(), 'K1 2 note picked up by a cook'))).toMatchObject({
      readings: { K1: { note: 'picked up by a cook' } },
    })
    expect(said(more(inKitchen(), 'K1 2 note picked up by a cook'))).not.toHaveProperty('picked-up')
  })

  it('is named while it is away, and asked for no more until it is out', () => {
    const start = answering(away(), '06:10', '', '', '')
    expect(questionOf(answering(away()), true).above.join('\n')).toContain(
      'Picked up, to be put out again: K1, R1',
    )
    expect(questionOf(start, true).above.join('\n')).toContain('picked up since 2026-03-12: K1 (K1 put-out)')
    const session = staysTrue(more(start, ''), 'K1 put out', 'put-out r1')
    expect(said(session)['put-out']).toEqual(['K1', 'R1'])
    expect(said(more(start, 'put-out all', 'put-out R1 -'))['put-out']).toEqual(['K1'])
    expect(said(more(start, 'put-out K1', 'K1 moved store', ''))).toMatchObject({
      'put-out': ['K1'],
      moved: { K1: { area: 'store' } },
    })
  })

  it('is refused where it cannot be', () => {
    const at = more(answering(away(), '06:10', '', '', ''), '')
    expect(complaintAbout(at, 'K1 picked-up')).toContain('picked up since 2026-03-12')
    expect(complaintAbout(at, 'K2 put-out')).toContain('K2 is out already')
    expect(complaintAbout(at, 'K1 2')).toContain('K1 is picked up')
    expect(complaintAbout(at, 'put-out')).toContain('Picked up: K1 or R1')
    expect(complaintAbout(at, 'picked-up K2 quickly')).toContain('There is no device quickly')
    expect(complaintAbout(at, 'K2 picked-up quickly')).toContain('nothing is written after it')
    expect(complaintAbout(more(at, 'K1 put-out'), 'K1 taken-up bent')).toContain('put-out - first')
    expect(complaintAbout(more(at, 'K1 taken-up bent'), 'K1 put-out')).toContain('taken-up - first')
    expect(said(more(at, 'K1 taken-up bent', 'taken-up K1 -', 'K1 put-out'))).toMatchObject({
      'put-out': ['K1'],
    })
    expect(complaintAbout(answering(away(), '06:10'), 'put-out K1')).toContain('purpose')
  })
})

describe('a device set', () => {
  it('is asked for its kind, its name, what is printed on it and how it stands', () => {
    const session = staysTrue(
      answering(oakPlan(), '06:10', '', '', ''),
      'set',
      'snap',
      '',
      '#18',
      'for house-mouse secured marked out-of-reach',
    )
    // K3 is the last of the kitchen, and no K4 ever was.
    expect(said(session).set).toEqual({
      K4: {
        kind: 'snap-trap',
        area: 'kitchen',
        'marked-as': '#18',
        for: ['house-mouse'],
        secured: 'yes',
        marked: 'yes',
        'within-reach': 'no',
      },
    })
    expect(asks(session)).toBe('area kitchen')
  })

  it('may be said in part', () => {
    const start = answering(oakPlan(), '06:10', '', '', '')
    expect(said(more(start, 'set bait-station', 'B1', '', '')).set).toEqual({
      B1: { kind: 'bait-station', area: 'kitchen' },
    })
    expect(said(more(start, 'set K9', 'glue board', '', '')).set).toEqual({
      K9: { kind: 'glue-board', area: 'kitchen' },
    })
    const line = 'set L1 light-trap marked-as x-7 traps 2 lamp 2026-03-12 electric-grid not in-doorway @store'
    expect(said(more(start, line)).set).toEqual({
      L1: {
        kind: 'light-trap',
        area: 'store',
        'marked-as': 'x-7',
        traps: 2,
        lamp: '2026-03-12',
        'electric-grid': 'yes',
        'in-doorway': 'no',
      },
    })
  })

  it('bears no name of another, but that of one taken up on the same visit', () => {
    const start = answering(oakPlan(), '06:10', '', '', '')
    expect(complaintAbout(start, 'set K1 snap-trap')).toContain('K1 taken-up WHY')
    expect(complaintAbout(more(start, 'set snap-trap'), 'K1')).toContain('stands in the records')
    expect(complaintAbout(more(start, 'set snap-trap'), '9')).toContain('cannot be the name')
    const again = more(start, 'taken-up K1 bent', 'set K1 snap-trap')
    expect(said(again).set).toEqual({ K1: { kind: 'snap-trap', area: 'kitchen' } })
    expect(again.state.understood).toEqual(['K1 set in kitchen: snap-trap'])
    expect(more(again, 'set K1 glue-board').state.understood[0]).toContain('in place of what was told')
    expect(said(more(again, 'set K1 -'))).not.toHaveProperty('set')
    expect(complaintAbout(start, 'set K7 -')).toContain('not set on this visit')
    expect(said(more(start, 'set', ''))).not.toHaveProperty('set')
    expect(said(more(start, 'set', 'snap-trap', '-'))).not.toHaveProperty('set')
    expect(complaintAbout(start, 'set K9 light-trap traps many')).toContain('traps 2')
    expect(complaintAbout(start, 'set K9 light-trap lamp today')).toContain('date on the lamp')
    expect(complaintAbout(start, 'set K9 bait-station added some')).toContain('how much')
    expect(complaintAbout(start, 'set K9 snap-trap marked-as')).toContain('marked-as what')
  })
})
