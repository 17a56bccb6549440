import { describe, expect, it } from 'vitest'
import { noLog, notUsable } from './overlays.js'
import { ledgerFolder, newFolder, run } from './run-doorsweep.js'

const nowhere = newFolder()
const layout = (...args: string[]) => run(nowhere, ['layout', ...args], { DOORSWEEP_TODAY: '2026-03-20' })

describe('layout', () => {
  it('of a wall, a room and an opening needs no ledger', async () => {
    expect((await layout('wall', '60 ft', '--pest', 'house-mouse')).out).toContain('5 devices')
    expect((await layout('wall', '60ft', '--pest', 'house-mouse')).out).toContain('5 devices')
    expect((await layout('room', '30 ft', '24 ft', '--pest', 'house-mouse')).out).toContain('8 devices')
    expect((await layout('seal', '--opening', '0.5 in')).out).toContain('lets in: house mouse')
    const csv = await layout('wall', '30 ft', '--pest', 'house-mouse', '--format', 'csv')
    expect(csv.out).toBe('device,at (ft),records\n1,0,\n2,15,\n3,30,\n')
  })

  it('of the runs of a site reads the ledger, and is 2 where the site cannot be read', async () => {
    const good = await run(ledgerFolder(noLog), ['layout', 'runs', 'oak', '--as-of', '2026-03-20'])
    expect([good.code, good.err]).toEqual([0, ''])
    const bad = await run(ledgerFolder(notUsable), ['layout', 'runs', 'oak', '--as-of', '2026-03-20'])
    expect([bad.code, bad.out.includes('cannot be read')]).toEqual([2, true])
  })

  it.each([
    [['wall', '60', '--pest', 'house-mouse'], 'length 60: write a length with its unit'],
    [['wall', '0 ft', '--pest', 'house-mouse'], 'length 0 ft: write a length with its unit'],
    [['wall', '60 oz', '--pest', 'house-mouse'], 'length 60 oz: write a length with its unit'],
    [['wall', '900000 ft', '--pest', 'house-mouse'], 'more than a thousand devices; is the unit right?'],
    [['wall', '60 ft'], '--pest'],
    [['wall', '60 ft', '--pest', 'house-mous'], 'did you mean house-mouse?'],
    [['wall', '60 ft', '--pest', 'bat'], 'No distance between devices is known against bat'],
    [
      ['wall', '60 ft', '--pest', 'house-mouse', '--kind', 'light-trap'],
      'against house-mouse it is snap-trap',
    ],
    [['wall', '60 ft', '--pest', 'house-mouse', '--at-most', 'close'], '--at-most close: write a length'],
    [['seal', '--opening', 'half an inch'], '--opening half an inch: write a length'],
    [['seal', '--pest', 'mouse-house'], 'There is no pest mouse-house'],
    [['runs', 'oak'], 'There is no ledger at'],
  ])('%j is called wrongly', async (args, says) => {
    const ran = await layout(...args)
    expect([ran.code, ran.out]).toEqual([2, ''])
    expect(ran.err).toContain(says)
  })
})
