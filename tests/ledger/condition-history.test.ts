import { describe, expect, it } from 'vitest'
import type { ConditionHistory } from '../../src/ledger/condition-history.js'
import type { SiteView } from '../../src/ledger/site-view.js'
import { isoOf } from '../../src/measure/calendar.js'
import { day, oakView } from './small-site.js'

const newDrip =
  'conditions: {drip: {new: drip under the sink, area: kitchen, kind: moisture, gives: water, owner: maintenance, by: 2026-03-20}}'
const conditions = (text: string) => `conditions: {${text}}`
const repairOf = (...names: string[]) => `by: berg\nmends: [${names.join(', ')}]\ndone: new trap fitted\n`

function dripOf(view: SiteView): ConditionHistory {
  const [drip, ...others] = view.conditions
  if (!drip || others.length > 0) throw new Error(`one condition is asked for, not ${view.conditions.length}`)
  return drip
}

/** What happened to a condition, as kinds with their dates. */
function storyOf(condition: ConditionHistory | undefined): string[] {
  return condition?.events.map((event) => `${event.kind} ${isoOf(event.day).slice(5)}`) ?? []
}

describe('a condition', () => {
  it('is open from the visit that found it, with what was said then', () => {
    const drip = dripOf(oakView({ '2026-03-05': newDrip }))
    expect(drip).toMatchObject({
      id: '2026-03-05-okafor/drip',
      name: 'drip',
      area: 'kitchen',
      kind: 'moisture',
      gives: 'water',
      owner: 'maintenance',
      due: day('2026-03-20'),
      says: 'drip under the sink',
      open: true,
      reopened: 0,
    })
    expect(drip.closed).toBeUndefined()
    expect(drip.events[0]?.at).toEqual({
      file: 'sites/oak/visits/2026-03-05-okafor.yaml',
      path: ['conditions', 'drip'],
    })
  })

  it('stays open while it is still there, and takes a new owner or day from whoever names one', () => {
    const drip = dripOf(
      oakView({
        '2026-03-05': newDrip,
        '2026-03-12': conditions('drip: {still: dripping}'),
        '2026-03-19': conditions('drip: {still: dripping, owner: district, by: 2026-04-01}'),
      }),
    )
    expect(drip).toMatchObject({ open: true, owner: 'district', due: day('2026-04-01'), reopened: 0 })
    expect(storyOf(drip)).toEqual(['new 03-05', 'still 03-12', 'still 03-19'])
    // What each entry said by itself: the second said nothing of owner or day.
    expect(drip.events.map(({ owner, due }) => [owner, due && isoOf(due)])).toEqual([
      ['maintenance', '2026-03-20'],
      [undefined, undefined],
      ['district', '2026-04-01'],
    ])
  })

  it('fixed on the spot, on the visit that found it', () => {
    const drip = dripOf(
      oakView({ '2026-03-05': conditions('drip: {new: loose nut, area: kitchen, fixed: tightened}') }),
    )
    expect(storyOf(drip)).toEqual(['new 03-05', 'fixed 03-05'])
    expect(drip).toMatchObject({ open: false, closed: { day: day('2026-03-05'), how: 'fixed' } })
  })

  it('closed by a later visit; a second look at it is a recheck', () => {
    const drip = dripOf(
      oakView({
        '2026-03-05': newDrip,
        '2026-03-12': conditions('drip: {closed: new trap}'),
        '2026-03-26': conditions('drip: {holds: dry}'),
      }),
    )
    expect(drip).toMatchObject({
      open: false,
      closed: { day: day('2026-03-12'), how: 'closed' },
      recheckedOn: day('2026-03-26'),
      reopened: 0,
    })
  })

  it('mended by a repair is closed on the day of the repair; an inspector who finds it closed has looked again', () => {
    const drip = dripOf(
      oakView(
        { '2026-03-05': newDrip, '2026-03-26': conditions('drip: {closed: found dry}') },
        { 'sites/oak/repairs/2026-03-10-berg.yaml': repairOf('drip') },
      ),
    )
    expect(storyOf(drip)).toEqual(['new 03-05', 'repaired 03-10', 'closed 03-26'])
    expect(drip).toMatchObject({
      open: false,
      closed: { day: day('2026-03-10'), how: 'repaired' },
      recheckedOn: day('2026-03-26'),
    })
    expect(drip.events[1]?.at).toEqual({ file: 'sites/oak/repairs/2026-03-10-berg.yaml', path: ['mends', 0] })
  })

  it('that holds while it is open has not been put right', () => {
    const drip = dripOf(oakView({ '2026-03-05': newDrip, '2026-03-12': conditions('drip: {holds: dry}') }))
    expect(drip).toMatchObject({ open: true })
    expect(drip.recheckedOn).toBeUndefined()
  })

  it('that comes back is opened again, as often as it was put right before', () => {
    const view = oakView(
      {
        '2026-03-05': newDrip,
        '2026-03-12': conditions('drip: {still: back}'),
        '2026-03-14': conditions('drip: {fixed: tightened}'),
        '2026-03-19': conditions('drip: {holds: dry}'),
        '2026-03-26': conditions('drip: {still: back again}'),
      },
      { 'sites/oak/repairs/2026-03-10-berg.yaml': repairOf('drip') },
    )
    const drip = dripOf(view)
    // Repaired on the 10th and back on the 12th; fixed on the 14th and back on the 26th: twice.
    expect(drip).toMatchObject({ open: true, reopened: 2 })
    expect(drip.closed).toBeUndefined()
    expect(drip.recheckedOn).toBeUndefined()
  })
})

describe('what one day holds', () => {
  it('is found first, then repaired, then found put right, whatever the files are called', () => {
    const view = oakView(
      {
        '2026-03-05': newDrip,
        '2026-03-10-adams': conditions('drip: {closed: dry after the repair}'),
        '2026-03-10-zola': conditions('drip: {still: dripping}'),
      },
      { 'sites/oak/repairs/2026-03-10-berg.yaml': repairOf('drip') },
    )
    const drip = dripOf(view)
    expect(storyOf(drip)).toEqual(['new 03-05', 'still 03-10', 'repaired 03-10', 'closed 03-10'])
    expect(drip).toMatchObject({ open: false, closed: { how: 'repaired' }, reopened: 0 })
    expect(drip.recheckedOn).toBe(day('2026-03-10'))
  })

  it('can be a condition that is found and repaired on it', () => {
    const view = oakView(
      { '2026-03-05': newDrip },
      { 'sites/oak/repairs/2026-03-05-berg.yaml': repairOf('drip') },
    )
    expect(storyOf(dripOf(view))).toEqual(['new 03-05', 'repaired 03-05'])
    expect(view.conditionMentions).toEqual([])
  })
})

describe('a name', () => {
  const two = {
    '2026-03-05': conditions('drip: {new: under the sink, area: kitchen}'),
    '2026-03-08': conditions('drip: {new: at the window, area: room-1}'),
  }

  it('that fits two open conditions is ambiguous, and changes neither', () => {
    const view = oakView({ ...two, '2026-03-12': conditions('drip: {closed: dry}') })
    expect(view.conditions.map(({ id, open }) => [id, open])).toEqual([
      ['2026-03-05-okafor/drip', true],
      ['2026-03-08-okafor/drip', true],
    ])
    expect(view.conditionMentions).toEqual([
      {
        name: 'drip',
        at: { file: 'sites/oak/visits/2026-03-12-okafor.yaml', path: ['conditions', 'drip'] },
        fault: 'ambiguous',
        candidates: ['2026-03-05-okafor/drip', '2026-03-08-okafor/drip'],
      },
    ])
  })

  it('in full fits one of them, also in a repair', () => {
    const view = oakView(
      { ...two, '2026-03-12': conditions('2026-03-08-okafor/drip: {closed: dry}') },
      { 'sites/oak/repairs/2026-03-13-berg.yaml': repairOf('2026-03-05-okafor/drip') },
    )
    expect(view.conditions.map(storyOf)).toEqual([
      ['new 03-05', 'repaired 03-13'],
      ['new 03-08', 'closed 03-12'],
    ])
    expect(view.conditionMentions).toEqual([])
  })

  it('in short means the open one of two, where only one is open', () => {
    const view = oakView({
      ...two,
      '2026-03-12': conditions('2026-03-05-okafor/drip: {closed: dry}'),
      '2026-03-15': conditions('drip: {still: wet}'),
    })
    expect(view.conditions.map(storyOf)).toEqual([
      ['new 03-05', 'closed 03-12'],
      ['new 03-08', 'still 03-15'],
    ])
  })

  it('in short means the one found last, where all are closed', () => {
    const view = oakView({
      ...two,
      '2026-03-12': conditions(
        '2026-03-05-okafor/drip: {closed: dry}, 2026-03-08-okafor/drip: {closed: dry}',
      ),
      '2026-03-15': conditions('drip: {still: wet again}'),
    })
    expect(view.conditions.map(({ open, reopened }) => [open, reopened])).toEqual([
      [false, 0],
      [true, 1],
    ])
  })

  it('used for something new once the first is closed begins another condition', () => {
    const view = oakView({
      '2026-03-05': newDrip,
      '2026-03-08': conditions('drip: {closed: dry}'),
      '2026-03-12': conditions('drip: {new: at the window, area: room-1}'),
    })
    expect(view.conditions.map(({ id, open, reopened }) => [id, open, reopened])).toEqual([
      ['2026-03-05-okafor/drip', false, 0],
      ['2026-03-12-okafor/drip', true, 0],
    ])
  })

  it('of nothing that was found before leads nowhere', () => {
    const view = oakView(
      {
        '2026-03-01': conditions('drip: {still: dripping}'),
        '2026-03-05': newDrip,
      },
      { 'sites/oak/repairs/2026-03-06-berg.yaml': repairOf('drop') },
    )
    expect(view.conditionMentions.map(({ name, fault, candidates }) => [name, fault, candidates])).toEqual([
      // On the 1st there was none yet.
      ['drip', 'unknown', []],
      ['drop', 'unknown', ['drip']],
    ])
    expect(storyOf(dripOf(view))).toEqual(['new 03-05'])
  })
})
