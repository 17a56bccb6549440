import { CORE_SCHEMA, load } from 'js-yaml'
import { describe, expect, it } from 'vitest'
import { z } from 'zod'
import { about, date, openObject, reference, roleOf } from '../../src/records/fields.js'
import type { RecordKind } from '../../src/records/kinds.js'
import { recordKinds } from '../../src/records/kinds.js'
import { schemaAt } from '../../src/records/schema-at.js'
import { meaningfulIn } from '../../src/records/schema-walk.js'

/** Everything with a meaning, as `path [key]: meaning value`. */
function meant(kind: RecordKind, text: string): string[] {
  return meaningfulIn(recordKinds[kind].schema, load(text, { schema: CORE_SCHEMA })).map(
    ({ role, value, path, onKey }) =>
      `${path.join('.')}${onKey ? ' key' : ''}: ${role.role === 'reference' ? role.to : role.role} ${value}`,
  )
}

describe('references, dates and files are found by the schema alone', () => {
  it('in a visit', () => {
    expect(
      meant(
        'visit',
        `
purpose: routine
by: okafor
time: 06:10 to 06:50
site-manager: lind
answers: {2026-03-10-reyes: traps set}
inspected: [kitchen]
no-entry: {boiler-room: no key}
set: {K9: {kind: sticky-trap, area: kitchen, for: [german-cockroach]}}
readings:
  none: [K1]
  K3: {german-cockroach: {nymphs: 4}, house-mouse: 1, product: bait-a, lamp: 2026-01-05}
conditions: {sink-drip: {new: drip, area: kitchen, by: 2026-03-26}}
files: {page: {file: page.jpg, shows: the page}}
`,
      ),
    ).toEqual([
      'by: person okafor',
      'time: hours 06:10 to 06:50',
      'answers.2026-03-10-reyes key: complaint 2026-03-10-reyes',
      'inspected.0: area kitchen',
      'no-entry.boiler-room key: area boiler-room',
      'set.K9.area: area kitchen',
      'set.K9.for.0: pest german-cockroach',
      'readings.none.0: device K1',
      'readings.K3 key: device K3',
      'readings.K3.german-cockroach key: pest german-cockroach',
      'readings.K3.house-mouse key: pest house-mouse',
      'readings.K3.product: product bait-a',
      'readings.K3.lamp: date 2026-01-05',
      'conditions.sink-drip key: condition sink-drip',
      'conditions.sink-drip.area: area kitchen',
      'conditions.sink-drip.by: date 2026-03-26',
      'files.page.file: file page.jpg',
    ])
  })

  it('in dated spans, in lists of maps', () => {
    expect(
      meant(
        'district',
        'coordinator: [{from: 2026-03-01, who: marsh}]\ncalendar: [{from: 2025-09-02, until: 2026-06-12, closed: {winter: 2025-12-22 to 2026-01-02}}]\n',
      ),
    ).toEqual([
      'coordinator.0.from: date 2026-03-01',
      'coordinator.0.who: person marsh',
      'calendar.0.from: date 2025-09-02',
      'calendar.0.until: date 2026-06-12',
      'calendar.0.closed.winter: dates 2025-12-22 to 2026-01-02',
    ])
  })

  it('and nothing is made of values of another type', () => {
    expect(
      meant('visit', 'by: 3\ninspected: kitchen\nreadings: [K1]\nset: null\nconditions: {a: text}\n'),
    ).toEqual(['conditions.a key: condition a'])
  })
})

describe('roles', () => {
  it('stay with a schema that is described anew, and are seen through optional and unions', () => {
    const described = about(reference('device', 'Device'), 'Another device')
    expect(roleOf(described)).toEqual({ role: 'reference', to: 'device' })
    const schema = z.strictObject({ a: described.optional(), b: z.union([z.int(), date('A day')]) })
    expect(meaningfulIn(schema, { a: 'K1', b: '2026-03-12' }).map(({ path }) => path)).toEqual([['a'], ['b']])
    expect(meaningfulIn(schema, { b: 3 })).toEqual([])
  })

  it('a key that is a field is never taken for what open keys name', () => {
    const schema = openObject({ none: z.string().optional() }, reference('device', 'Device'), z.int(), 'x')
    expect(meaningfulIn(schema, { none: 'x', K1: 1 }).map(({ value }) => value)).toEqual(['K1'])
  })
})

it('schemaAt finds the schema that governs a path, and nothing where the path leaves it', () => {
  const described = (path: (string | number)[]) =>
    schemaAt(recordKinds.visit.schema, path)?.meta()?.description
  expect(described(['purpose'])).toMatch(/^Why the visit was made/)
  expect(described(['readings', 'K1', 'german-cockroach', 'nymphs'])).toBe('How many nymphs')
  expect(described(['readings', 'K1', 'renewed'])).toMatch(/^New board/)
  expect(described(['set', 'K1', 'for', 0])).toBe('Pest')
  expect(described(['colour'])).toBeUndefined()
  expect(described(['constructor'])).toBeUndefined()
  expect(described(['purpose', 'x'])).toBeUndefined()
})
