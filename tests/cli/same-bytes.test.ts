import { spawn } from 'node:child_process'
import { describe, expect, it } from 'vitest'
import { noLog, noSuchArea, notUsable } from './overlays.js'
import { ledgerFolder } from './run-doorsweep.js'

/** The program as it is installed: the built one, in a process of its own. */
const program = new URL('../../bin/doorsweep.js', import.meta.url).pathname
const example = new URL('../../examples/district/', import.meta.url).pathname

interface Ended {
  readonly code: number | null
  readonly out: string
  readonly err: string
}

async function spawned(
  cwd: string,
  args: readonly string[],
  env: Readonly<Record<string, string>> = {},
): Promise<Ended> {
  const child = spawn(process.execPath, [program, ...args], {
    cwd,
    env: { PATH: process.env.PATH ?? '', ...env },
    stdio: ['ignore', 'pipe', 'pipe'],
  })
  const out: Buffer[] = []
  const err: Buffer[] = []
  child.stdout.on('data', (data: Buffer) => out.push(data))
  child.stderr.on('data', (data: Buffer) => err.push(data))
  const code = await new Promise<number | null>((ended) => child.on('close', ended))
  return { code, out: Buffer.concat(out).toString('latin1'), err: Buffer.concat(err).toString() }
}

const elsewhere = [
  { TZ: 'Pacific/Auckland' },
  { TZ: 'America/St_Johns', LANG: 'C' },
  { TZ: 'UTC', LANG: 'de_DE.UTF-8', LC_ALL: 'de_DE.UTF-8' },
]

const commands: readonly (readonly [readonly string[]])[] = [
  [['check']],
  [['check', '--format', 'json']],
  [['report', 'gaps', '--from', '2025-07-01', '--show-work']],
  [['report', 'trend', '--format', 'csv']],
  [['report', 'use', '--format', 'json']],
  [['report', 'thresholds', '--format', 'json']],
  [['report', 'compliance', '--from', '2025-07-01', '--format', 'json']],
  [['report', 'service', 'ottermere/2025-12-02-okafor', '--format', 'markdown']],
  [['report', 'application', 'ottermere/2026-01-10-okafor', '--format', 'markdown']],
  [['labels', 'ottermere', '--format', 'json']],
  [['mix', '--product', 'plant-soap', '--rate', '1 fl oz', '--per', '1000 ft2', '--area', '500 ft2']],
  [
    [
      ...['precheck', '--site', 'tamsin-hill', '--by', 'okafor', '--on', '2026-07-10'],
      ...['--time', '10:00 to 10:15', '--product', 'wasp-foam', '--pest', 'yellowjacket'],
      ...['--area', 'grounds', '--method', 'spot', '--amount', '6 fl oz', '--format', 'json'],
    ],
  ],
]

describe('the same bytes, whatever the machine and the folder', () => {
  // Each run differs from the first in everything at once: where it began, the zone, the language.
  it.each(commands)('%j', async (args) => {
    const whole = [...args, '--as-of', '2026-06-30']
    const [zoneA, zoneB, zoneC] = elsewhere
    const [here, ...others] = await Promise.all([
      spawned(example, whole),
      spawned(`${example}sites/ottermere`, whole, zoneA),
      spawned('/', [...whole, '--ledger', example], zoneB),
      spawned(example, whole, zoneC),
    ])
    if (!here) throw new Error('the program did not run')
    expect(here.err).toBe('')
    expect(here.out.length).toBeGreaterThan(200)
    expect(others).toEqual([here, here, here])
  })

  it('today is a day of the district, not of the machine', { retry: 2 }, async () => {
    // Somewhere it is already tomorrow: at any hour these two zones, 25 hours apart, have different dates.
    const ledger = (zone: string) =>
      ledgerFolder(`=== district.yaml
format: 1
name: Example District
time-zone: ${zone}
records-begin: 2026-03-01
coordinator: [{from: 2026-03-01, who: marsh}]
rulebooks: []
calendar: []
`)
    const todayIn = async (zone: string, env: Record<string, string>) => {
      const ran = await spawned(ledger(zone), ['check', '--format', 'json'], env)
      return JSON.parse(ran.out)['as-of']
    }
    const dates = await Promise.all(
      ['Pacific/Kiritimati', 'Pacific/Pago_Pago'].map((zone) =>
        Promise.all(elsewhere.slice(0, 2).map((env) => todayIn(zone, env))),
      ),
    )
    expect(dates.map((list) => new Set(list).size)).toEqual([1, 1])
    expect(dates[0]?.[0]).not.toBe(dates[1]?.[0])
  })
})

describe('the program in a process of its own', () => {
  it.each([
    ['', 0],
    [noLog, 1],
    [noSuchArea + notUsable, 2],
  ])('ends with the exit code of the command', async (overlay, code) => {
    const ran = await spawned(ledgerFolder(overlay), ['check', '--as-of', '2026-03-20'])
    expect([ran.code, ran.err]).toEqual([code, ''])
  })

  it('takes wrong usage for wrong usage', async () => {
    const ran = await spawned(ledgerFolder(), ['chek'])
    expect([ran.code, ran.out]).toEqual([2, ''])
  })

  it('ends quietly when its reader goes away', async () => {
    const child = spawn(process.execPath, [program, 'check', '--as-of', '2026-06-30', '--format', 'json'], {
      cwd: example,
      stdio: ['ignore', 'pipe', 'pipe'],
    })
    const err: string[] = []
    child.stderr.on('data', (data) => err.push(String(data)))
    child.stdout.destroy()
    const code = await new Promise((ended) => child.on('close', ended))
    expect(err.join('')).toBe('')
    // There are problems in the example; nobody reading of them does not change that.
    expect(code).toBe(1)
  })
})
