import { existsSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { ledgerFolder, newFolder, run } from './run-doorsweep.js'

/** The base ledger: Oak School with a kitchen, and okafor and lind among its people; nothing wrong on this day. */
const today = { DOORSWEEP_TODAY: '2026-03-20' }
const fresh = () => {
  const folder = ledgerFolder(`
=== sites/oak/visits/2026-03-12-okafor.yaml
purpose: follow-up
by: okafor
time: 15:00 to 15:20
conditions:
  sink-drip: {new: drip under the sink, area: kitchen, kind: moisture, gives: water, owner: maintenance, by: 2026-03-26}
`)
  return {
    log: (kind: string, ...args: string[]) => run(folder, ['log', kind, '--site', 'oak', ...args], today),
    check: () => run(folder, ['check', '--as-of', '2026-03-20'], today),
    text: (path: string) => readFileSync(join(folder, path), 'utf8'),
    has: (path: string) => existsSync(join(folder, path)),
  }
}

describe('log', () => {
  it('notes a complaint in one line', async () => {
    const { log, check, text } = fresh()
    const ran = await log(
      'complaint',
      'droppings: black, in the drawer',
      '--by',
      'lind',
      '--area',
      'kitchen',
      '--pest',
      'house-mouse',
      '--at',
      '09:10',
      '--from',
      'parent',
    )
    expect([ran.code, ran.out]).toEqual([0, 'sites/oak/complaints/2026-03-20-lind.yaml\n'])
    expect(text('sites/oak/complaints/2026-03-20-lind.yaml')).toBe(
      'by: lind\nfrom: parent\nat: "09:10"\narea: kitchen\npest: house-mouse\nsays: "droppings: black, in the drawer"\n'.replace(
        '"09:10"',
        '09:10',
      ),
    )
    expect((await check()).code).toBe(0)
  })

  it('notes a repair, which mends the condition', async () => {
    const { log, check, text } = fresh()
    const ran = await log(
      'repair',
      'new trap nut',
      '--by',
      'lind',
      '--mends',
      'sink-drip',
      '--owner',
      'maintenance',
      '--cost',
      '84 USD',
    )
    expect([ran.code, ran.out]).toEqual([0, 'sites/oak/repairs/2026-03-20-lind.yaml\n'])
    expect(text('sites/oak/repairs/2026-03-20-lind.yaml')).toBe(
      'by: lind\nmends: [sink-drip]\nowner: maintenance\ncost: 84 USD\ndone: new trap nut\n',
    )
    expect((await check()).code).toBe(0)
  })

  it('notes a sighting as a visit of whoever saw it, with a name later records can use', async () => {
    const { log, text } = fresh()
    const ran = await log(
      'sighting',
      '--by',
      'lind',
      '--area',
      'kitchen',
      '--pest',
      'house-mouse',
      '--evidence',
      'droppings',
      '--age',
      'fresh',
      '--count',
      '3',
      '--cleaned',
      'yes',
    )
    expect([ran.code, ran.out]).toEqual([0, 'sites/oak/visits/2026-03-20-lind.yaml\n'])
    expect(text('sites/oak/visits/2026-03-20-lind.yaml')).toBe(
      'purpose: follow-up\nby: lind\nfound:\n  kitchen-house-mouse: {pest: house-mouse, area: kitchen, evidence: droppings, age: fresh, count: 3, cleaned: yes}\n',
    )
  })

  it('says who typed it, when, and from which paper', async () => {
    const { log, text } = fresh()
    await log(
      'complaint',
      'ants',
      '--by',
      'lind',
      '--entered-by',
      'okafor',
      '--on-paper',
      '2026-03-18',
      '--on',
      '2026-03-18',
    )
    expect(text('sites/oak/complaints/2026-03-18-lind.yaml')).toContain(
      'by: lind\nentered-by: okafor\non-paper: 2026-03-18\n',
    )
  })

  it('writes nothing over a record that is there, and says how to tell two apart', async () => {
    const { log, text } = fresh()
    await log('complaint', 'first', '--by', 'lind')
    const again = await log('complaint', 'second', '--by', 'lind')
    expect([again.code, again.out]).toEqual([2, ''])
    expect(again.err).toContain('is there already. Add --word')
    expect(text('sites/oak/complaints/2026-03-20-lind.yaml')).toContain('first')
    expect((await log('complaint', 'second', '--by', 'lind', '--word', 'two')).code).toBe(0)
  })

  it('can print instead of writing', async () => {
    const { log, has } = fresh()
    const ran = await log('complaint', 'ants', '--by', 'lind', '--print')
    expect([ran.code, ran.out]).toEqual([0, 'by: lind\nfrom: staff\nsays: ants\n'])
    expect(has('sites/oak/complaints/2026-03-20-lind.yaml')).toBe(false)
  })

  it.each([
    [['complaint', 'x', '--by', 'lind', '--area', 'kitchn'], 'did you mean `kitchen`?'],
    [['complaint', 'x', '--by', 'lind', '--pest', 'house-mose'], 'did you mean `house-mouse`?'],
    [['complaint', 'x', '--by', 'nobody'], 'There is no person `nobody`'],
    [['complaint', 'x', '--by', 'lind', '--at', 'noon'], '`noon`'],
    [['complaint', 'x', '--by', 'lind', '--on', '2026-03-21'], '2026-03-21'],
    [['complaint', 'x', '--by', 'lind', '--on', '2026-02-31'], '--on 2026-02-31'],
    [['complaint', 'x', '--by', 'Lind!'], 'cannot be the name of a record'],
    [['complaint', 'x', '--by', '../lind'], 'cannot be the name of a record'],
    [['repair', 'x', '--by', 'lind', '--mends', 'sink-drop'], 'There is no condition `sink-drop`'],
    [['repair', 'x', '--by', 'lind', '--cost', 'a lot'], '`a lot`'],
    [
      ['sighting', '--by', 'lind', '--area', 'kitchen', '--evidence', 'live', '--count', 'many'],
      '--count many',
    ],
    [['sighting', '--by', 'lind', '--area', 'kitchen', '--evidence', 'footprints'], 'footprints'],
    [['sighting', '--by', 'lind', '--evidence', 'live'], '--area'],
    [['complaint', '--by', 'lind'], 'says'],
    [['complaint', 'x'], '--by'],
  ])('%j writes nothing, and says why', async (args, says) => {
    const { log, has } = fresh()
    const [kind = '', ...rest] = args
    const ran = await log(kind, ...rest)
    expect([ran.code, ran.out]).toEqual([2, ''])
    expect(ran.err).toContain(says)
    expect(has('sites/oak/complaints')).toBe(false)
    expect(has('sites/oak/repairs')).toBe(false)
  })

  it('of a site there is not, or of no ledger, is a mistake', async () => {
    const { log } = fresh()
    expect((await log('complaint', 'x', '--by', 'lind', '--site', 'oaks')).err).toContain('did you mean oak?')
    const nowhere = await run(newFolder(), ['log', 'complaint', 'x', '--site', 'oak', '--by', 'lind'])
    expect([nowhere.code, nowhere.err.includes('There is no ledger')]).toEqual([2, true])
  })
})
