import { describe, expect, it } from 'vitest'
import { questionOf } from '../../../src/writing/visit/questions.js'
import { begun, resumed, undone } from '../../../src/writing/visit/session.js'
import { answering, asks, complaintAbout, more, oakPlan, said, setUp } from './oak-plan.js'

/** Answers up to the first area, the kitchen. */
const head = ['06:10', '', '', ''] as const
const taken = {
  '2026-03-02': setUp,
  '2026-03-12':
    'plants:\n  Fern-1: {area: room-1, removed: fungus gnats, sprayed: contractor yard}\n  ivy: {area: room-1, removed: scale}\n',
}

describe('a plant', () => {
  it('taken away is told with where it belongs and what became of it', () => {
    const session = answering(
      oakPlan(),
      ...head,
      'plant fern-12 removed fungus gnats, sprayed contractor yard',
    )
    expect(said(session).plants).toEqual({
      'fern-12': { area: 'kitchen', removed: 'fungus gnats', sprayed: 'contractor yard' },
    })
    const asked = answering(oakPlan(), ...head, 'plant @store', 'fig', 'removed soil dry, leaves brown')
    expect(said(asked).plants).toEqual({ fig: { area: 'store', removed: 'soil dry, leaves brown' } })
    expect(asks(asked)).toBe('area kitchen')
    expect(undone(asked)).toEqual(answering(oakPlan(), ...head, 'plant @store', 'fig'))
    expect(resumed(asked.plan, asked.answers)).toEqual({ session: asked, unfit: [] })
  })

  it('brought back after it was treated is asked whether someone saw it dry; Enter says nothing', () => {
    const plan = oakPlan(taken)
    expect(questionOf(begun(plan), true).above.join('\n')).toContain('Plants away: Fern-1, ivy')
    const at = answering(plan, ...head, '-')
    expect(questionOf(at, true).above.join('\n')).toContain('plant away since 2026-03-12: Fern-1')
    const back = more(at, 'plant fern-1 returned window sill')
    expect(asks(back)).toBe('plant-dry Fern-1')
    expect(said(more(back, 'okaf')).plants).toEqual({
      'Fern-1': { area: 'room-1', returned: 'window sill', dry: 'okafor' },
    })
    expect(said(more(back, '')).plants).toEqual({ 'Fern-1': { area: 'room-1', returned: 'window sill' } })
    // Never treated: nothing to be dry of.
    expect(asks(more(at, 'plant ivy returned shelf'))).toBe('area room-1')
    expect(asks(more(at, 'plant fern-1 dry okafor, returned shelf'))).toBe('area room-1')
  })

  it('that no record shows as taken away is said to be so, and stays as told', () => {
    const session = answering(oakPlan(taken), ...head, 'plant fren-1 returned window sill')
    expect(session.state.understood.join('\n')).toContain(
      'No record shows that fren-1 was taken away; away: Fern-1 or ivy',
    )
    expect(said(session).plants).toEqual({ 'fren-1': { area: 'kitchen', returned: 'window sill' } })
    expect(said(more(session, 'plant fren-1 -'))).not.toHaveProperty('plants')
  })

  it('is asked again where what is typed says nothing', () => {
    const at = answering(oakPlan(), ...head)
    expect(complaintAbout(at, 'plant no removed gnats')).toContain('cannot be the name of a plant')
    expect(complaintAbout(at, 'plant fern watered')).toContain('removed WHY')
    expect(complaintAbout(at, 'plant fern removed')).toContain('why was it taken away')
    expect(complaintAbout(at, 'plant fern product blok')).toContain('There is no product')
    expect(complaintAbout(at, 'plant fern -')).toContain('Nothing is told of fern')
    const asked = more(at, 'plant fern')
    expect(complaintAbout(asked, '')).toContain('removed WHY')
    expect(said(more(asked, '-'))).not.toHaveProperty('plants')
    expect(asks(more(at, 'plant', ''))).toBe('area kitchen')
  })
})

describe('a photo', () => {
  const at = () => answering(oakPlan(), ...head)

  it('is named by its file, and by what it shows', () => {
    const session = more(
      at(),
      'photo 2026-04-07-okafor-1.jpg gap behind the dish machine',
      'photo sites/oak/visits/IMG 0012.jpeg',
      'scan of the page',
      'photo "a b" roof',
      'photo',
      'c.png drip',
    )
    expect(said(session).files).toEqual({
      'photo-1': { file: '2026-04-07-okafor-1.jpg', shows: 'gap behind the dish machine' },
      'photo-2': { file: 'IMG 0012.jpeg', shows: 'scan of the page' },
      'photo-3': { file: 'a b', shows: 'roof' },
      'photo-4': { file: 'c.png', shows: 'drip' },
    })
    const fewer = more(session, 'photo IMG 0012.jpeg -', 'photo d.png roof', 'photo c.png a drip')
    expect(said(fewer).files).toMatchObject({
      'photo-2': { file: 'd.png' },
      'photo-4': { file: 'c.png', shows: 'a drip' },
    })
    expect(undone(fewer).state.draft.files['photo-4']).toEqual({ file: 'c.png', shows: 'drip' })
    expect(resumed(fewer.plan, fewer.answers)).toEqual({ session: fewer, unfit: [] })
  })

  it('lies beside the record and nowhere else', () => {
    expect(complaintAbout(at(), 'photo /home/me/a.jpg roof')).toContain('in sites/oak/visits')
    expect(complaintAbout(at(), 'photo ../a.jpg roof')).toContain('Copy it there')
    expect(complaintAbout(at(), 'photo a.jpg -')).toContain('is not named')
    expect(complaintAbout(more(at(), 'photo a.jpg'), '')).toContain('What does a.jpg show')
    expect(said(more(at(), 'photo a.jpg', '-'))).not.toHaveProperty('files')
    expect(said(more(at(), 'photo', ''))).not.toHaveProperty('files')
  })
})

describe('people', () => {
  it('who supervised or took part are told at any question', () => {
    const session = answering(oakPlan(), ...head, 'supervised-by mar', 'with lind and marsh')
    expect(said(session)).toMatchObject({ 'supervised-by': 'marsh', with: ['lind', 'marsh'] })
    const neither = more(session, 'supervised-by -', 'with -')
    expect(said(neither)).not.toHaveProperty('supervised-by')
    expect(said(neither)).not.toHaveProperty('with')
    expect(complaintAbout(session, 'supervised-by okafor')).toContain('nobody supervises oneself')
    expect(complaintAbout(session, 'supervised-by lin d')).toContain('There is no person')
    expect(complaintAbout(session, 'supervised-by')).toContain('supervised-by vale')
    expect(complaintAbout(session, 'with okafor')).toContain('who else')
  })

  it('are asked for by no question, and once by a hint where bait was put in', () => {
    const plan = oakPlan({ '2026-03-02': 'set: {B1: {kind: bait-station, area: kitchen}}\n' })
    const session = answering(plan, '06:10', 'trap-check', 'B1 some added 1 block')
    expect(session.state.understood.at(-1)).toContain('supervised-by and who')
    expect(more(session, 'B1 some added 2 block').state.understood).toHaveLength(1)
    const supervised = answering(plan, '06:10', 'trap-check', 'supervised-by marsh', 'B1 some added 1 block')
    expect(supervised.state.understood).toHaveLength(1)
  })
})

describe('a past visit', () => {
  const typed = (given = {}) =>
    oakPlan(undefined, {}, { isToday: false, by: 'okafor', asksWhoTypes: true, ...given })

  it('is asked who types it, and when the page was filled in where that is someone else', () => {
    const session = begun(typed())
    expect(asks(session)).toBe('entered-by')
    const clerk = more(session, 'lind')
    expect(asks(clerk)).toBe('on-paper')
    expect(said(more(clerk, '', '06:10 to 06:50', 'routine'))).toMatchObject({
      by: 'okafor',
      'entered-by': 'lind',
      'on-paper': '2026-04-07',
    })
    expect(said(more(clerk, '2026-04-08'))).toMatchObject({ 'on-paper': '2026-04-08' })
    expect(said(more(clerk, '-'))).not.toHaveProperty('on-paper')
    expect(complaintAbout(clerk, '2026-04-06')).toContain('not filled in before it')
    expect(complaintAbout(clerk, '2026-02-30')).toContain('no day')
    expect(complaintAbout(session, 'nobody')).toContain('There is no person')
    expect(asks(more(begun(typed({ onPaper: '2026-04-07' })), 'lind'))).toBe('times')
  })

  it('that its maker types says so once, by leaving it out', () => {
    for (const text of ['', 'okafor', '-']) {
      const own = more(begun(typed()), text)
      expect(asks(own)).toBe('times')
      expect(said(own)).not.toHaveProperty('entered-by')
    }
    const plan = oakPlan(undefined, {}, { isToday: false, enteredBy: 'okafor' })
    expect(said(more(begun(plan), 'okafor'))).not.toHaveProperty('entered-by')
    expect(said(more(begun(plan), 'marsh'))).toMatchObject({ by: 'marsh', 'entered-by': 'okafor' })
  })
})
