import { describe, expect, it } from 'vitest'
import { noLog, notUsable } from './overlays.js'
import { ledgerFolder, run } from './run-doorsweep.js'

const folder = ledgerFolder(noLog)
const due = (...args: string[]) => run(folder, ['due', '--as-of', '2026-03-20', ...args])

describe('due', () => {
  it.each(['text', 'markdown', 'json', 'csv'])('is written as %s', async (format) => {
    const ran = await due('--days', '60', '--format', format)
    expect([ran.code, ran.err]).toEqual([0, ''])
    // A sticky trap read in March is due again by the end of April, with five days of grace.
    expect(ran.out).toContain('2026-05-05')
    expect(ran.out).toContain('read K1 (sticky trap)')
  })

  it('shows a person lines in walking order, and a machine each thing with its rule', async () => {
    expect((await due('--days', '60')).out).toContain('In walking order')
    const json = JSON.parse((await due('--days', '60', '--format', 'json')).out)
    expect(json.tables.map(({ id }: { id: string }) => id)).toEqual(['due'])
    expect(json.tables[0].rows.map(({ rule }: { rule: string }) => rule)).toContain('device-overdue')
  })

  it('is 2 where a site could not be read', async () => {
    const ran = await run(ledgerFolder(notUsable), ['due', '--as-of', '2026-03-20'])
    expect([ran.code, ran.out.includes('not examined: sites/oak')]).toEqual([2, true])
  })

  it.each([
    [['--days', 'soon'], '--days soon: a whole number of days'],
    [['--days', '-3'], '--days'],
    [['--days', '1.5'], '--days 1.5: a whole number of days'],
    [['--site', 'oaks'], 'did you mean oak?'],
    [['--pest', 'ant'], '--pest'],
  ])('%j is called wrongly', async (args, says) => {
    const ran = await due(...args)
    expect([ran.code, ran.out]).toEqual([2, ''])
    expect(ran.err).toContain(says)
  })
})
