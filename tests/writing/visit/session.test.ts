import { describe, expect, it } from 'vitest'
import { begun, resumed, undone } from '../../../src/writing/visit/session.js'
import { answering, asks, complaintAbout, more, oakPlan, said } from './oak-plan.js'

/** Answers up to the question of the first area. */
const head = ['06:10', '', '', ''] as const

describe('a guided visit', () => {
  it('asks what is due in walking order and writes what was answered', () => {
    const steps: string[] = []
    let session = begun(oakPlan())
    for (const text of ['06:10', '', '', '', '', '', 'still dripping', '', '', '', 'traps set', '06:50']) {
      steps.push(asks(session))
      session = more(session, text)
    }
    expect(steps).toEqual([
      'start',
      'purpose',
      'site-manager',
      'complaint-log',
      'area kitchen',
      'devices kitchen',
      'condition kitchen sink-drip',
      'area room-1',
      'devices room-1',
      'area store',
      'complaint 2026-04-05-lind',
      'end',
    ])
    expect(asks(session)).toBe('confirm')
    expect(said(session)).toEqual({
      purpose: 'routine',
      by: 'okafor',
      time: '06:10 to 06:50',
      'site-manager': 'lind',
      'complaint-log': 'read',
      answers: { '2026-04-05-lind': 'traps set' },
      inspected: ['kitchen', 'room-1', 'store'],
      readings: { none: ['K1', 'K2', 'K3', 'R1'] },
      conditions: { 'sink-drip': { still: 'dripping' } },
    })
  })

  it('writes nothing that was not answered', () => {
    // The kitchen not come to, room 1 locked, the store inspected; the complaint left waiting.
    const session = answering(oakPlan(), '06:10', '', '-', '-', '-', 'no key lent out', '', '', '-')
    expect(asks(session)).toBe('confirm')
    expect(said(session)).toEqual({
      purpose: 'routine',
      by: 'okafor',
      inspected: ['store'],
      'no-entry': { 'room-1': 'key lent out' },
    })
  })

  it('asks of a trap check only the devices, and of a callback only the places of complaints', () => {
    expect(asks(answering(oakPlan(), '06:10', 'trap-check'))).toBe('devices kitchen')
    expect(asks(answering(oakPlan(), '06:10', 'trap-check', '', ''))).toBe('end')
    expect(asks(answering(oakPlan(), '06:10', 'call', '', ''))).toBe('area room-1')
  })

  it('does not ask for a device whose next look is due only after a month', () => {
    // K1 was read on 1 April; checks are monthly, so the next is in time until 31 May, 54 days after 7 April.
    const contract = `
name: Oak School
site-manager: [{from: 2026-01-01, who: lind}]
complaint-log: front office
contract: [{from: 2026-01-01, contractor: Invented Pest Services, routine-visits: monthly, checks: {sticky-trap: monthly, snap-trap: monthly}}]
areas:
  kitchen: {kind: kitchen}
  room-1: {kind: classroom}
`
    const two = 'set: {K1: {kind: sticky-trap, area: kitchen}, R1: {kind: sticky-trap, area: room-1}}'
    const plan = oakPlan(
      { '2026-03-02': two, '2026-04-01': 'purpose: trap-check\nby: okafor\nreadings: {none: [K1]}' },
      { 'sites/oak/site.yaml': contract },
    )
    expect(asks(answering(plan, '06:10', 'trap-check'))).toBe('devices room-1')
    // A routine visit looks at every device of the areas it inspects.
    expect(asks(answering(plan, ...head, ''))).toBe('devices kitchen')
    const back = more(answering(plan, '06:10', 'trap-check'), 'go kitchen', '')
    expect(asks(back)).toBe('devices kitchen all again')
    expect(said(more(back, ''))).toMatchObject({ readings: { none: ['K1'] }, inspected: ['kitchen'] })
  })

  it('takes the last answer back, as often as wanted', () => {
    const session = answering(oakPlan(), ...head, '', 'K1 2')
    expect(said(session)).toMatchObject({ readings: { K1: { 'german-cockroach': 2 } } })
    expect(said(undone(session))).not.toHaveProperty('readings')
    expect(asks(undone(undone(session)))).toBe('area kitchen')
    expect(undone(begun(oakPlan())).answers).toEqual([])
  })

  it('is the same after its answers were kept and read again, and hands back what no longer fits', () => {
    const session = answering(oakPlan(), ...head, '', 'K1 2', '', 'st', 's house-mouse droppings fresh', '')
    expect(resumed(session.plan, session.answers).session).toEqual(session)
    const other = { ...session.plan, areas: session.plan.areas.filter(({ id }) => id !== 'kitchen') }
    const again = resumed(other, session.answers)
    expect(again.unfit[0]).toEqual({ to: 'area kitchen', text: '' })
    expect(again.session.answers).toHaveLength(4)
  })

  it('goes back to an area to mend what was told', () => {
    const told = answering(oakPlan(), ...head, '', 'K1 2', '', 'still dripping')
    const back = more(told, 'go kitchen')
    expect(asks(back)).toBe('area kitchen again')
    const mended = more(back, '', 'K1 3', '', 'fixed nut tightened')
    expect(said(mended)).toMatchObject({
      inspected: ['kitchen'],
      readings: { K1: { 'german-cockroach': 3 }, none: ['K2', 'K3'] },
      conditions: { 'sink-drip': { fixed: 'nut tightened' } },
    })
    expect(asks(mended)).toBe('area room-1')
    expect(said(more(told, 'go kitchen', '-'))).not.toHaveProperty('inspected')
  })

  it('asks for the person, and for a word where the day has a visit of that person', () => {
    const plan = oakPlan(
      { '2026-03-02': setUpOnly, '2026-04-07': 'time: 06:00 to 06:20\n' },
      {},
      { isToday: true },
    )
    const session = begun(plan)
    expect(asks(session)).toBe('by')
    expect(complaintAbout(session, 'okafur')).toContain('did you mean okafor')
    expect(asks(more(session, ''))).toBe('word')
    expect(asks(more(session, '', 'evening'))).toBe('start')
    expect(asks(more(session, 'lind'))).toBe('start')
  })

  it('takes start and end of a paper page in one line, or neither', () => {
    const plan = oakPlan(
      undefined,
      {},
      { isToday: false, by: 'okafor', enteredBy: 'lind', onPaper: '2026-04-07' },
    )
    const session = begun(plan)
    expect(asks(session)).toBe('times')
    expect(complaintAbout(session, '6:50 to 6:10')).toContain('not after it began')
    expect(complaintAbout(session, '06:10')).toContain('06:10 to 06:50')
    const told = more(session, '6:10 to 0650', 'follow-up', 'desig')
    expect(said(told)).toMatchObject({
      time: '06:10 to 06:50',
      'entered-by': 'lind',
      'on-paper': '2026-04-07',
      'site-manager': 'designee',
    })
    expect(said(more(session, '', 'set-up'))).not.toHaveProperty('time')
  })
})

const setUpOnly = 'set: {K1: {kind: sticky-trap, area: kitchen}}\n'

describe('a sighting and a new condition, at any question', () => {
  it('stand in the area that is asked about', () => {
    const session = answering(oakPlan(), ...head, '', 's behind-dish: house-m droppings old looks thin, 3 mm')
    expect(said(session)).toMatchObject({
      found: {
        'behind-dish': {
          pest: 'house-mouse',
          area: 'kitchen',
          evidence: 'droppings',
          age: 'old',
          looks: 'thin, 3 mm',
        },
      },
    })
    expect(asks(session)).toBe('devices kitchen')
    const twice = more(session, 's other earwig live 2', 's other earwig dead')
    expect(Object.keys(said(twice).found as object)).toEqual([
      'behind-dish',
      'kitchen-earwig',
      'kitchen-earwig-2',
    ])
  })

  it('say what is missing', () => {
    const inKitchen = answering(oakPlan(), ...head, '')
    expect(complaintAbout(inKitchen, 's')).toContain('s house-mouse droppings')
    expect(complaintAbout(inKitchen, 's house-mouse')).toContain('what was seen')
    expect(complaintAbout(inKitchen, 'c')).toContain('c drip')
    expect(complaintAbout(inKitchen, 's house-mouse droppings @kitchin')).toContain('did you mean kitchen')
  })

  it('are asked for their place where none was come to, and may name one', () => {
    const session = answering(oakPlan(), '06:10', '', 's house-mouse droppings fresh 3 cleaned')
    expect(asks(session)).toBe('where s house-mouse droppings fresh 3 cleaned')
    expect(said(more(session, 'store'))).toMatchObject({
      found: {
        'store-house-mouse': {
          pest: 'house-mouse',
          area: 'store',
          evidence: 'droppings',
          age: 'fresh',
          count: 3,
          cleaned: 'yes',
        },
      },
    })
    const placed = answering(oakPlan(), ...head, 'c boxes on the floor @store', 'harb kitchen 2026-05-01')
    expect(said(placed)).toMatchObject({
      conditions: {
        'store-boxes-floor': {
          new: 'boxes on the floor',
          area: 'store',
          gives: 'harborage',
          owner: 'kitchen',
          by: '2026-05-01',
        },
      },
    })
    expect(asks(placed)).toBe('area kitchen')
  })

  it('take no name that is in use, and no day that is none', () => {
    const session = answering(oakPlan(), ...head)
    expect(complaintAbout(session, 'c sink-drip: drip again')).toContain('in use')
    const named = more(session, 'c none-here: a gap')
    expect(said(named)).toMatchObject({ conditions: { 'none-here': { new: 'a gap' } } })
    expect(complaintAbout(session, 'c none: a gap')).toContain('cannot be a name')
    expect(complaintAbout(named, '2026-02-30')).toContain('no day')
    expect(said(more(named, 'entry fixed stuffed with wool'))).toMatchObject({
      conditions: { 'none-here': { gives: 'entry', fixed: 'stuffed with wool' } },
    })
  })
})

describe('an answer that cannot be', () => {
  it('is told what it may be, and the question stands', () => {
    const start = begun(oakPlan())
    expect(complaintAbout(start, 'half past six')).toContain('no time of day')
    expect(complaintAbout(start, '25:10')).toContain('no time of day')
    expect(complaintAbout(start, '')).toContain('06:10')
    expect(complaintAbout(more(start, '06:10'), 'rutine')).toContain('did you mean routine')
    expect(complaintAbout(more(start, '06:10'), 's house-mouse droppings')).toContain('First the purpose')
    const area = answering(oakPlan(), ...head)
    expect(complaintAbout(area, 'no')).toContain('why')
    expect(complaintAbout(area, 'perhaps')).toContain('could not be entered')
    expect(complaintAbout(area, 'go kitchin')).toContain('did you mean kitchen')
  })

  it('holds no character that a record may not hold', () => {
    const arrowUp = `${String.fromCharCode(27)}[A`
    expect(complaintAbout(answering(oakPlan(), ...head), arrowUp)).toContain('cannot be seen')
  })

  it('of a condition says how it is now', () => {
    const at = answering(oakPlan(), ...head, '', '')
    expect(asks(at)).toBe('condition kitchen sink-drip')
    expect(complaintAbout(at, 'fixed')).toContain('fixed how')
    expect(complaintAbout(at, 'maybe')).toContain('still, fixed or closed')
    expect(said(more(at, 'st'))).toMatchObject({ conditions: { 'sink-drip': { still: 'still there' } } })
    expect(said(more(at, ''))).not.toHaveProperty('conditions')
  })

  it('of a condition that was put right says whether it holds', () => {
    const plan = oakPlan(undefined, {
      'sites/oak/repairs/2026-03-20-lind.yaml': 'by: lind\nmends: [sink-drip]\ndone: new trap\n',
    })
    const at = answering(plan, ...head, '', '')
    expect(said(more(at, 'holds dry'))).toMatchObject({ conditions: { 'sink-drip': { holds: 'dry' } } })
    expect(said(more(at, 'back'))).toMatchObject({ conditions: { 'sink-drip': { still: 'back again' } } })
  })
})

describe('work done on the visit, at any question', () => {
  const inKitchen = () => answering(oakPlan(), ...head, '')

  it('is a device set, with what is said of how it stands', () => {
    expect(
      said(more(inKitchen(), 'set K9 sticky-t for german-cockroach, house-mouse secured out-of-reach')),
    ).toMatchObject({
      set: {
        K9: {
          kind: 'sticky-trap',
          area: 'kitchen',
          for: ['german-cockroach', 'house-mouse'],
          secured: 'yes',
          'within-reach': 'no',
        },
      },
    })
    expect(complaintAbout(inKitchen(), 'set K1 sticky-trap')).toContain('stands in the records already')
    expect(complaintAbout(inKitchen(), 'set K9 stiky-trap')).toContain('did you mean sticky-trap')
    expect(complaintAbout(inKitchen(), 'set K9 sticky-trap near the sink')).toContain('not understood')
    expect(complaintAbout(inKitchen(), 'set K9 snap-trap for')).toContain('which pests')
    expect(complaintAbout(inKitchen(), 'set no snap-trap')).toContain('cannot be the name')
  })

  it('is a device taken up, and a tactic carried out', () => {
    const session = more(
      inKitchen(),
      'up k1 room closed',
      'did vac the cable channel',
      'did vac the floor @store',
    )
    expect(said(session)).toMatchObject({
      'taken-up': { K1: 'room closed' },
      actions: {
        'kitchen-vacuuming': { did: 'the cable channel', tactic: 'vacuuming', area: 'kitchen' },
        'store-vacuuming': { did: 'the floor', tactic: 'vacuuming', area: 'store' },
      },
    })
    expect(asks(more(inKitchen(), 'up K1'))).toBe('taken-up K1')
    expect(complaintAbout(inKitchen(), 'up K8 gone')).toContain('did you mean')
    expect(complaintAbout(inKitchen(), 'did something')).toContain('Tactics: cleaning')
  })
})
