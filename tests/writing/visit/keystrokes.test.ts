import { expect, it } from 'vitest'
import type { GivenOfVisit } from '../../../src/writing/visit/plan.js'
import { areaIn } from '../../../src/writing/visit/plan-places.js'
import type { Session } from '../../../src/writing/visit/session.js'
import { begun, nextQuestion } from '../../../src/writing/visit/session.js'
import { more, oakPlan, said } from './oak-plan.js'

/** Keys pressed for a line: its letters, and Enter. */
const keysOf = (line: string) => line.length + 1
/** Those of them that are counts. */
const countKeysOf = (line: string) => (/^k\d+ (\d+)$/.exec(line)?.[1] ?? '').length

const areas = ['kitchen', 'serving', 'store', 'dining', 'room-1', 'room-2', 'office', 'custodial']
const site = `
name: Oak School
site-manager: [{from: 2026-01-01, who: lind}]
complaint-log: front office
contract: [{from: 2026-01-01, contractor: Invented Pest Services, routine-visits: monthly}]
areas:
${areas.map((area) => `  ${area}: {kind: kitchen}`).join('\n')}
`
// 30 boards in 8 areas: four in each of the first six, three in the others (6 × 4 + 2 × 3 = 30).
const boards = areas.flatMap((area, at) => Array.from({ length: at < 6 ? 4 : 3 }, () => area))
const set = `set:\n${boards
  .map((area, at) => `  K${at + 1}: {kind: sticky-trap, area: ${area}, for: [german-cockroach]}`)
  .join('\n')}\n`

const plan = (given?: GivenOfVisit) =>
  oakPlan(
    { '2026-03-02': set },
    {
      'sites/oak/site.yaml': site,
      'sites/oak/complaints/2026-04-05-lind.yaml':
        'by: lind\nfrom: staff\nsays: ants\nwithdrawn: from the garden\n',
    },
    given,
  )

/** Everything typed until the record is written: nearly always Enter, and two catches. */
function typedThrough(start: Session): { keys: number; counts: number; session: Session } {
  let session = start
  let keys = 0
  let counts = 0
  for (let asked = 0; nextQuestion(session).is !== 'confirm'; asked++) {
    if (asked > 100) throw new Error('it asks without end')
    for (const line of linesFor(session)) {
      keys += keysOf(line)
      counts += countKeysOf(line)
      session = more(session, timeFor(session) ?? line)
    }
  }
  // Enter writes it.
  return { keys: keys + 1, counts, session }
}

function linesFor({ plan, state }: Session): string[] {
  const step = nextQuestion({ plan, state, answers: [] })
  if (step.is === 'times') return ['610 650']
  if (step.is !== 'devices') return ['']
  const ids = (areaIn(plan, step.area)?.devices ?? []).map(({ id }) => id)
  const caught = Object.entries({ K3: 2, K7: 12 }).filter(
    ([id]) => ids.includes(id) && state.draft.readings[id] === undefined,
  )
  return [...caught.map(([id, many]) => `${id.toLowerCase()} ${many}`), '']
}

/** The clock answers for Enter at a time. */
function timeFor(session: Session): string | undefined {
  const step = nextQuestion(session)
  return step.is === 'start' ? '06:10' : step.is === 'end' ? '06:50' : undefined
}

function expectWhole(session: Session): void {
  const { readings, inspected } = said(session) as {
    readings: Record<string, unknown> & { none: string[] }
    inspected: string[]
  }
  expect(inspected).toEqual(areas)
  expect(readings.none).toHaveLength(28)
  expect(readings).toMatchObject({ K3: { 'german-cockroach': 2 }, K7: { 'german-cockroach': 12 } })
}

it('a routine visit of 30 devices with two catches takes at most 40 keys beyond the counts', () => {
  const { keys, counts, session } = typedThrough(begun(plan()))
  // Start, purpose, manager, log, end, writing: 6. Eight areas and their devices: 16. `k3 2` and `k7 12` and their
  // Enters: 5 + 6 = 11, of which 3 are counts. In all 33, and 30 beyond the counts.
  expect([keys, counts]).toEqual([33, 3])
  expect(keys - counts).toBeLessThanOrEqual(40)
  expectWhole(session)
})

it('the same from a paper page takes no more, whoever types it', () => {
  const paper = { isToday: false, by: 'okafor' } as const
  // Both times in one line, `610 650` and Enter, in place of two Enters: 33 + 8 - 2.
  const clerk = typedThrough(begun(plan({ ...paper, enteredBy: 'lind', onPaper: '2026-04-07' })))
  expect([clerk.keys, clerk.counts]).toEqual([39, 3])
  expectWhole(clerk.session)
  // Enter at who types it.
  const own = typedThrough(begun(plan({ ...paper, asksWhoTypes: true })))
  expect([own.keys, own.counts]).toEqual([40, 3])
  expect(said(own.session)).not.toHaveProperty('entered-by')
})

it('work done on a device costs its words and one Enter, and nothing where it was not done', () => {
  const start = more(begun(plan()), '06:10', '', '', '', '')
  for (const [line, steps] of [
    ['k3 picked up', 0],
    ['k3 moved store secured', 0],
    ['k3 moved store', 1],
    ['k3 moved', 2],
    ['k3 taken-up bent', 0],
    ['set', 4],
  ] as const) {
    const told = more(start, line)
    // Every question that follows has an Enter of its own, but for the kind of a new device.
    const after = Array.from({ length: steps }, (_none, at) => (line === 'set' && at === 0 ? 'snap' : ''))
    const done = more(told, ...after)
    expect([line, nextQuestion(done)]).toEqual([line, nextQuestion(start)])
    expect(typedThrough(done).keys).toBe(typedThrough(start).keys)
  }
})
