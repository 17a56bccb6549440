import { describe, expect, it } from 'vitest'
import { notUsable } from './overlays.js'
import { git, ledgerFolder, newFolder, run } from './run-doorsweep.js'

const asOf = ['--as-of', '2026-03-20']
const clipboard = (overlay: string, ...args: string[]) =>
  run(ledgerFolder(overlay), ['clipboard', ...args, ...asOf])

describe('clipboard', () => {
  it('writes text, a page and JSON of one site', async () => {
    const text = await clipboard('', 'oak')
    expect([text.code, text.err]).toEqual([0, ''])
    expect(text.out).toContain('The ledger as it stood on 2026-03-20.')
    const page = await clipboard('', 'oak', '--format', 'html')
    expect([page.code, page.err, page.out.startsWith('<!doctype html>\n')]).toEqual([0, '', true])
    const json = await clipboard('', 'oak', '--format', 'json')
    expect(JSON.parse(json.out)).toMatchObject({ site: 'oak', 'as-of': '2026-03-20', 'left-out': [] })
  })

  it('writes only the areas asked for, and says so', async () => {
    const part = await clipboard('', 'oak', '--area', 'kitchen', '--format', 'json')
    const data = JSON.parse(part.out)
    expect([part.code, data.areas.map(({ id }: { id: string }) => id)]).toEqual([0, ['kitchen']])
    expect(data['left-out'].length).toBeGreaterThan(0)
    const two = await clipboard('', 'oak', '--area', 'room-1', 'kitchen', '--format', 'json')
    expect(JSON.parse(two.out).areas.map(({ id }: { id: string }) => id)).toEqual(['kitchen', 'room-1'])
  })

  it.each([
    [['oakk'], 'There is no site oakk; did you mean oak?'],
    [['oak', '--area', 'kitchn'], 'oak has no area kitchn on 2026-03-20; did you mean kitchen?'],
    [['oak', '--area', 'zzzzzzzzzz'], 'oak has no area zzzzzzzzzz on 2026-03-20; it has: kitchen'],
    [['oak', '--format', 'csv'], "argument 'csv' is invalid"],
    [[], "missing required argument 'site'"],
  ])('%j is called wrongly', async (args, says) => {
    const ran = await clipboard('', ...args)
    expect([ran.code, ran.out]).toEqual([2, ''])
    expect(ran.err).toContain(says)
  })

  it.each(['text', 'html', 'json'])(
    'writes no half page of a site that cannot be read (%s)',
    async (format) => {
      const ran = await clipboard(notUsable, 'oak', '--format', format)
      expect([ran.code, ran.out]).toEqual([2, ''])
      expect(ran.err).toContain('oak could not be read, so no page was written.')
      expect(ran.err).toContain('sites/oak/visits/2026-03-11-okafor.yaml cannot be used')
    },
  )

  it('writes the page when a record of the district cannot be used, names it there, and is 2', async () => {
    const ran = await clipboard('\n=== people/lind.yaml\nname: [Tor]\n', 'oak')
    expect([ran.code, ran.err]).toEqual([2, ''])
    expect(ran.out).toContain('! person lind: the record cannot be used.')
  })

  it('reads a revision', async () => {
    const folder = ledgerFolder()
    git(folder, 'init')
    git(folder, 'add', '.')
    git(folder, 'commit', '-m', 'first')
    const ran = await run(folder, ['clipboard', 'oak', '--rev', 'HEAD', ...asOf])
    expect([ran.code, ran.err]).toEqual([0, ''])
    expect(ran.out).toBe((await run(folder, ['clipboard', 'oak', ...asOf])).out)
    const none = await run(folder, ['clipboard', 'oak', '--rev', 'nothing'])
    expect([none.code, none.out]).toEqual([2, ''])
  })

  it('needs a ledger', async () => {
    const ran = await run(newFolder(), ['clipboard', 'oak'])
    expect([ran.code, ran.out]).toEqual([2, ''])
    expect(ran.err).toContain('There is no ledger at')
  })
})
