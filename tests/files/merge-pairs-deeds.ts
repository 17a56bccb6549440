import { readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { expect } from 'vitest'
import { run } from '../cli/run-doorsweep.js'
import { additionsToReferences, applications, eventsInPlainText } from './merge-pairs-plain.js'

/** Files by path. */
export type Files = ReadonlyMap<string, string>

/** One thing that someone does to a ledger on an ordinary day, as the files it adds or changes. */
export interface Deed {
  readonly who: string
  readonly what: string
  /** It adds to a record that is kept up, such as a person's. */
  readonly keepsUp?: true
  readonly change: (files: Files) => Files
}

const today = '2026-03-20'
const technicians = ['okafor', 'moreno']
const custodians = ['lind', 'reyes']
const schools = { oak: ['kitchen', 'room-1'], elm: ['hall', 'store'] } as const
type School = keyof typeof schools

/** Everyone's ordinary work, by person. What the program has a writer for is written by it, in the folder of the base. */
export async function deedsOf(folder: string, base: Files): Promise<ReadonlyMap<string, readonly Deed[]>> {
  const deeds = [
    ...(await visits(folder, base)),
    ...(await logged(folder, base)),
    ...(await trapsOfCustodians(folder, base)),
    ...(await begunRecords(folder, base)),
    ...applications(),
    ...eventsInPlainText(),
    ...additionsToReferences().map((deed): Deed => ({ ...deed, keepsUp: true })),
  ]
  const people = new Map<string, Deed[]>()
  for (const deed of deeds) people.set(deed.who, [...(people.get(deed.who) ?? []), deed])
  return people
}

/** Runs a command on the base, and takes what it wrote away again. */
async function writtenBy(folder: string, base: Files, args: readonly string[]): Promise<Files> {
  const said = await run(folder, args, { DOORSWEEP_TODAY: today })
  const files = new Map<string, string>()
  for (const path of readdirSync(folder, { recursive: true, encoding: 'utf8' }).sort()) {
    if (!path.endsWith('.yaml') || base.has(path)) continue
    files.set(path, readFileSync(join(folder, path), 'utf8'))
    rmSync(join(folder, path))
  }
  expect([args, said.code, said.err, files.size]).toEqual([args, 0, expect.any(String), 1])
  return files
}

/** Each technician at each school, each reading the traps of one's own areas: two who share a school share out the areas. */
async function visits(folder: string, base: Files): Promise<Deed[]> {
  const traps: Record<string, Record<School, [area: string, read: string, other: string]>> = {
    okafor: { oak: ['kitchen', 'K1', 'K2'], elm: ['hall', 'H1', 'H2'] },
    moreno: { oak: ['room-1', 'R1', 'R2'], elm: ['store', 'T1', 'T2'] },
  }
  const deeds: Deed[] = []
  for (const who of technicians)
    for (const school of Object.keys(schools) as School[]) {
      const [area, trap, other] = traps[who]?.[school] ?? ['', '', '']
      const kinds: [string, string][] = [
        ['a routine visit', `purpose: routine\nreadings:\n  none: [${trap}, ${other}]\n`],
        [
          'a visit that caught something',
          `purpose: trap-check\nreadings:\n  none: [${other}]\n  ${trap}: {odorous-house-ant: 2, renewed: yes}\n`,
        ],
        [
          'a visit that found a condition and set a trap',
          `purpose: callback\nset:\n  N-${trap}: {kind: sticky-trap, area: ${area}, within-reach: no}\nconditions:\n  wet-${area}: {new: wet floor under the shelf, area: ${area}, kind: moisture, gives: water, owner: custodial, by: 2026-04-10}\n`,
        ],
      ]
      for (const [what, body] of kinds) {
        const file = join(dirname(folder), `${who}.yaml`)
        writeFileSync(
          file,
          `by: ${who}\ntime: ${school === 'oak' ? '06:10 to 06:50' : '08:10 to 08:50'}\nsite-manager: lind\ncomplaint-log: read\ninspected: [${area}]\n${body}`,
        )
        const files = await writtenBy(folder, base, ['visit', school, '--file', file])
        deeds.push({ who, what: `${what} at ${school}`, change: () => files })
      }
    }
  return deeds
}

async function logged(folder: string, base: Files): Promise<Deed[]> {
  const deeds: Deed[] = []
  const log = async (who: string, what: string, ...args: string[]) => {
    const files = await writtenBy(folder, base, ['log', ...args, '--by', who])
    deeds.push({ who, what, change: () => files })
  }
  for (const who of [...custodians, 'marsh'])
    for (const school of Object.keys(schools) as School[])
      for (const area of schools[school])
        await log(
          who,
          `a complaint at ${school}`,
          'complaint',
          `ants in the ${area}`,
          '--site',
          school,
          '--area',
          area,
          '--pest',
          'odorous-house-ant',
          '--word',
          area,
        )
  await log('lind', 'a repair', 'repair', 'new trap nut', '--site', 'oak', '--mends', 'sink-drip')
  await log('reyes', 'a repair', 'repair', 'door sweep fitted', '--site', 'oak', '--mends', 'door-gap')
  for (const [who, school, area] of [
    ['lind', 'elm', 'hall'],
    ['reyes', 'oak', 'room-1'],
    ['moreno', 'elm', 'store'],
  ] as const)
    await log(
      who,
      `a sighting at ${school}`,
      'sighting',
      '--site',
      school,
      '--area',
      area,
      '--pest',
      'odorous-house-ant',
      '--evidence',
      'live',
      '--word',
      'seen',
    )
  return deeds
}

/** Counts that custodians noted, taken over from a spreadsheet. */
async function trapsOfCustodians(folder: string, base: Files): Promise<Deed[]> {
  const desk = dirname(folder)
  const deeds: Deed[] = []
  for (const [who, school, trap] of [
    ['lind', 'oak', 'K2'],
    ['reyes', 'elm', 'H2'],
  ] as const) {
    writeFileSync(join(desk, 'counts.csv'), `Date,Trap,Count\n03/19/2026,${trap},0\n`)
    writeFileSync(
      join(desk, 'counts.map.yaml'),
      `date: {column: Date, format: MM/DD/YYYY}\nsite: {always: ${school}}\nby: {always: ${who}}\ndevice: Trap\npest: {always: german-cockroach}\ncount: Count\n`,
    )
    const args = [
      'import',
      'counts',
      join(desk, 'counts.csv'),
      '--map',
      join(desk, 'counts.map.yaml'),
      '--ledger',
      folder,
      '--write',
    ]
    const files = await writtenBy(folder, base, args)
    deeds.push({ who, what: `readings of custodians' traps at ${school}`, change: () => files })
  }
  return deeds
}

/** Records begun with `new` and filled in: the lines it wrote stay as comments. */
async function begunRecords(folder: string, base: Files): Promise<Deed[]> {
  const filled: [who: string, args: string[], body: string][] = []
  for (const who of ['marsh', 'reyes']) {
    const name = who === 'marsh' ? 'a' : 'b'
    filled.push(
      [who, ['person', `new-${name}`], `name: New Person ${name}\nroles: [custodian]\n`],
      [who, ['product', `soap-${name}`], 'name: Invented Soap\nkind: other-material\n'],
      [who, ['firm', `firm-${name}`], 'name: Another Invented Firm\n'],
      [
        who,
        ['plan', name === 'a' ? 'norway-rat' : 'pharaoh-ant'],
        'spans:\n  - from: 2026-03-20\n    act-on-one: [everywhere]\n    tactics:\n      close: {do: close the gap}\n',
      ],
      [
        who,
        ['exception', `exception-${name}`],
        `rule: area-not-inspected-lately\nsite: elm\nabout: store\nby: ${who}\nwhy: locked for the works\nfrom: 2026-03-20\nuntil: 2026-05-20\n`,
      ],
      [
        who,
        ['wording', `es-${name}`],
        'language: es\nfor: [parents]\nlines:\n  trade-name: "Producto: {trade-name}"\n',
      ],
      [
        who,
        ['education', '--by', who],
        `by: ${who}\nkind: talk\ntopic: why food stays out of classrooms\naudience: teachers\n`,
      ],
      [who, ['filing', '--by', who], `by: ${who}\nwhat: plan-published\nyear: 2025-2026\nto: the public\n`],
      [
        who,
        ['storage', '--site', 'oak', '--by', who],
        `by: ${who}\nplaces:\n  cupboard: {area: kitchen, locked: yes, items: {}}\n`,
      ],
      [
        who,
        ['incident', '--site', 'elm', '--by', who],
        `by: ${who}\nkind: other\nwhat: a lid of a station lay open\ndid: closed it\n`,
      ],
      [
        who,
        ['specimen', '--site', 'oak', '--by', who],
        `by: ${who}\nkept: vial 14 in the office\narea: kitchen\n`,
      ],
    )
  }
  filled.push([
    'marsh',
    ['review', '2026', '--by', 'marsh'],
    'held: 2026-03-20\nby: marsh\npresent: [lind, okafor]\ndecisions:\n  sweeps: {what: door sweeps on all doors}\n',
  ])
  const deeds: Deed[] = []
  for (const [who, args, body] of filled) {
    const [[path, skeleton] = ['', '']] = await writtenBy(folder, base, ['new', ...args])
    const comments = skeleton.split('\n').filter((line) => line.startsWith('# '))
    const files = new Map([
      [path, `${comments.slice(0, 3).join('\n')}\n${body}${comments.slice(3).join('\n')}\n`],
    ])
    deeds.push({ who, what: `a new ${args[0]}`, change: () => files })
  }
  return deeds
}
