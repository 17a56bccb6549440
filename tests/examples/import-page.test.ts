import { execFileSync } from 'node:child_process'
import { cpSync, readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { workTree } from '../../src/files/work-tree.js'
import { readLedger } from '../../src/ledger/read-ledger.js'
import { dayOf, isoOf } from '../../src/measure/calendar.js'
import { readMapping } from '../../src/writing/import/read-mapping.js'
import { newFolder, run } from '../cli/run-doorsweep.js'

const examples = new URL('../../examples/', import.meta.url).pathname
const page = readFileSync(join(examples, 'import/README.md'), 'utf8')

interface Step {
  readonly command: string
  /** What the page says that it prints. */
  readonly prints: string
}

/** Every command of the page, in order, with what stands below it. */
const steps: readonly Step[] = [...page.matchAll(/```console\n([\s\S]*?)```/g)].flatMap(([, block = '']) =>
  block
    .split(/^\$ /m)
    .slice(1)
    .map((step) => ({
      command: step.slice(0, step.indexOf('\n')),
      prints: step.slice(step.indexOf('\n') + 1),
    })),
)

/** Runs the page in a folder of its own that has the examples in it. */
async function walked() {
  const folder = newFolder()
  cpSync(examples, join(folder, 'examples'), { recursive: true })
  const env: Record<string, string> = {}
  const ran: { readonly command: string; readonly code: number; readonly printed: string }[] = []
  for (const { command } of steps) {
    const [word = '', ...args] = command.split(' ')
    if (word === 'export') {
      const [name = '', value = ''] = args[0]?.split('=') ?? []
      env[name] = value
      ran.push({ command, code: 0, printed: '' })
    } else if (word === 'cp') {
      execFileSync('cp', args, { cwd: folder })
      ran.push({ command, code: 0, printed: '' })
    } else {
      const { code, out, err } = await run(folder, args, env)
      ran.push({ command, code, printed: out + err })
    }
  }
  return { folder, ran }
}

describe('examples/import', () => {
  it('its page says what its commands print, and none of them fails but the one that is to be refused', async () => {
    const { ran, folder } = await walked()
    expect(ran.map(({ command }) => command.split(' ')[0])).toEqual([
      'export',
      ...['doorsweep', 'doorsweep'],
      'cp',
      ...['doorsweep', 'doorsweep', 'doorsweep', 'doorsweep'],
    ])
    for (const [at, { command, printed, code }] of ran.entries()) {
      expect(printed, command).toBe(steps[at]?.prints)
      expect(code, command).toBe(command.includes('refused') ? 1 : 0)
    }
    // The example itself stays as it was.
    const visits = (ledger: string) => readdirSync(join(folder, ledger, 'sites/ottermere/visits'))
    expect(visits('my-ledger').length).toBe(visits('examples/district').length + 1)
  })

  it('the ledger then holds what the files say', async () => {
    const { folder } = await walked()
    const flies: [string, number][] = []
    let complaints = 0
    const openings: unknown[] = []
    const options = { asOf: dayOf('2026-06-30') ?? 0, asOfIsToday: false }
    readLedger(workTree(join(folder, 'my-ledger')), options, (view) => {
      if (view.id !== 'ottermere') return
      for (const { id, checks } of view.devices)
        for (const { moment, caught } of checks)
          if (id === 'F1' && moment.day >= (dayOf('2026-05-05') ?? 0))
            flies.push([isoOf(moment.day), caught.get('house-fly') ?? 0])
      complaints = view.complaints.filter(({ day }) => isoOf(day) === '2026-06-02').length
      openings.push(...view.repairs.flatMap(({ data }) => (data.openings ? [data.openings] : [])))
    })
    // The card was renewed on 5 May; of the thirteen that were on it on 9 June, six were there on 20 May.
    expect(flies).toEqual([
      ['2026-05-05', 10],
      ['2026-05-20', 6],
      ['2026-06-09', 7],
    ])
    expect(complaints).toBe(2)
    expect(openings).toEqual(
      expect.arrayContaining([{ kitchen: 'window, hand-sized' }, { dock: 'under the door, 3/8 in' }]),
    )
  })

  it('every file in it stands on the page, and every mapping can be read', () => {
    const files = readdirSync(join(examples, 'import')).filter((file) => file !== 'README.md')
    for (const file of files) expect(page).toContain(`\`${file}\``)
    for (const kind of ['counts', 'complaints', 'repairs'] as const) {
      const bytes = readFileSync(join(examples, 'import', `${kind}.map.yaml`))
      expect(readMapping(kind, `${kind}.map.yaml`, bytes)).toHaveProperty('mapping')
    }
  })
})
