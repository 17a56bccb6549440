import { spawnSync } from 'node:child_process'
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { beforeAll, describe, expect, it } from 'vitest'
import { fingerprintOf } from '../../src/check/fingerprint.js'
import { runCheck, standsOn } from '../../src/check/run-check.js'
import { memorySource } from '../../src/files/memory.js'
import type { Random } from '../../src/measure/seeded-random.js'
import { chance, pick, seededRandom, wholeBetween } from '../../src/measure/seeded-random.js'
import { ledgerWith } from '../../src/rules/base-ledger.js'
import { git, newFolder, writeFiles } from '../cli/run-doorsweep.js'
import { day } from '../ledger/small-site.js'
import { mergeBase } from './merge-pairs-base.js'
import type { Deed, Files } from './merge-pairs-deeds.js'
import { deedsOf } from './merge-pairs-deeds.js'

const base = ledgerWith(mergeBase)
const desk = newFolder()
let deeds: ReadonlyMap<string, readonly Deed[]> = new Map()

beforeAll(async () => {
  const folder = join(desk, 'ledger')
  mkdirSync(folder)
  writeFiles(folder, base)
  deeds = await deedsOf(folder, base)
}, 60_000)

interface Branch {
  readonly who: string
  readonly did: readonly string[]
  /** Every file it adds or changes. */
  readonly files: Files
}

/**
 * A day's work of one person: one to three deeds. Half of them are drawn from what is added to records that are kept up,
 * since only there two people can touch the same file. No event is told twice under one name.
 */
function branchOf(who: string, random: Random): Branch {
  const all = deeds.get(who) ?? []
  const additions = all.filter(({ keepsUp }) => keepsUp)
  const files = new Map<string, string>()
  const did: string[] = []
  const wanted = wholeBetween(random, 1, 3)
  for (let tried = 0; tried < 12 && did.length < wanted; tried++) {
    const deed = pick(random, additions.length > 0 && chance(random, 0.5) ? additions : all)
    if (did.includes(deed.what)) continue
    const changed = deed.change(new Map([...base, ...files]))
    if ([...changed.keys()].some((path) => files.has(path) && !base.has(path))) continue
    for (const [path, text] of changed) files.set(path, text)
    did.push(deed.what)
  }
  return { who, did, files }
}

/** What git makes of one file that both branches have. Where it finds a conflict its marks are in the text. */
function mergedFile(
  ours: string,
  theirs: string,
  before: string | undefined,
): { text: string; isWhole: boolean } {
  if (ours === theirs) return { text: ours, isWhole: true }
  const names = ['ours', 'base', 'theirs'].map((name) => join(desk, name))
  for (const [at, text] of [ours, before ?? '', theirs].entries()) writeFileSync(names[at] ?? '', text)
  const ran = spawnSync('git', ['merge-file', '-p', ...names], { cwd: desk, encoding: 'utf8' })
  // It ends with the number of conflicts, and with 255 when it could not do its work.
  expect(ran.status).toBeLessThan(128)
  return { text: ran.stdout, isWhole: ran.status === 0 }
}

/** Both branches together, and the files about which they are in conflict. Git merges file by file. */
function merged(
  one: Branch,
  other: Branch,
): { files: Map<string, string>; conflicts: string[]; shared: string[] } {
  const files = new Map([...base, ...one.files, ...other.files])
  const conflicts: string[] = []
  const shared = [...one.files.keys()].filter((path) => other.files.has(path))
  for (const path of shared) {
    const { text, isWhole } = mergedFile(
      one.files.get(path) ?? '',
      other.files.get(path) ?? '',
      base.get(path),
    )
    files.set(path, text)
    if (!isWhole) conflicts.push(path)
  }
  // A file where the other has a folder would be a conflict of names.
  const paths = [...files.keys()]
  for (const path of [...one.files.keys(), ...other.files.keys()])
    if (paths.some((name) => name.startsWith(`${path}/`))) conflicts.push(path)
  return { files, conflicts, shared }
}

function twoBranches(random: Random): [Branch, Branch] {
  const people = [...deeds.keys()]
  const first = pick(random, people)
  const second = pick(
    random,
    people.filter((who) => who !== first),
  )
  return [branchOf(first, random), branchOf(second, random)]
}

const asOf = day('2026-03-20')

function checked(files: Files) {
  const { problems, notChecked } = runCheck(memorySource(files), { asOf, asOfIsToday: true })
  return { standing: problems.filter((problem) => standsOn(problem, asOf)), notChecked }
}

/** Problems of the merged ledger that neither branch has. */
function broughtByMerge(files: Files, branches: readonly Branch[]): string[] {
  const { standing, notChecked } = checked(files)
  if (standing.length === 0 && notChecked.length === 0) return []
  const known = new Set(
    branches.flatMap((branch) => checked(new Map([...base, ...branch.files])).standing.map(fingerprintOf)),
  )
  return [
    ...notChecked.map(({ what }) => `not checked: ${what}`),
    ...standing
      .filter((problem) => !known.has(fingerprintOf(problem)))
      .map(({ rule, at }) => `${at.file} ${at.path.join('.')}: ${rule}`),
  ]
}

describe('two people on two branches', () => {
  it('start from a ledger without a problem, and each deed alone leaves it readable', () => {
    expect(checked(base)).toEqual({ standing: [], notChecked: [] })
    const rough = [...deeds.values()].flat().flatMap((deed) => {
      const { standing, notChecked } = checked(new Map([...base, ...deed.change(base)]))
      const bad = [
        ...standing
          .filter(({ level }) => level === 'error')
          .map(({ rule, at }) => `${rule} ${at.file} ${at.path.join('.')}`),
        ...notChecked.map(({ what, why }) => `${what} ${why}`),
      ]
      return bad.map((what) => `${deed.who}, ${deed.what}: ${what}`)
    })
    expect(rough).toEqual([])
    expect([...deeds.values()].flat().length).toBeGreaterThan(60)
  })

  it('merge a thousand days of ordinary work without a conflict, and nothing is wrong that neither had', () => {
    const random = seededRandom(20260320)
    const conflicts: string[] = []
    const brought: string[] = []
    let sharing = 0
    for (let pair = 0; pair < 1000; pair++) {
      const branches = twoBranches(random)
      const result = merged(...branches)
      const told = branches.map(({ who, did }) => `${who}: ${did.join(', ')}`).join(' | ')
      if (result.shared.length > 0) sharing++
      for (const path of result.conflicts) conflicts.push(`${path} (${told})`)
      for (const problem of broughtByMerge(result.files, branches)) brought.push(`${problem} (${told})`)
    }
    expect({ conflicts, brought }).toEqual({ conflicts: [], brought: [] })
    // Among them are enough that changed the same record for that to say something.
    expect(sharing).toBeGreaterThan(100)
  })

  it('give what git itself makes of whole branches', () => {
    const random = seededRandom(7)
    const root = newFolder()
    writeFiles(root, base)
    git(root, 'init', '--quiet')
    git(root, 'add', '--all')
    git(root, 'commit', '--quiet', '--message', 'base')
    let compared = 0
    for (let pair = 0; pair < 200 && compared < 4; pair++) {
      const branches = twoBranches(random)
      const result = merged(...branches)
      if (result.shared.length === 0) continue
      for (const [at, { files }] of branches.entries()) {
        git(root, 'checkout', '--quiet', '-B', `branch-${at}`, 'main')
        writeFiles(root, files)
        git(root, 'add', '--all')
        git(root, 'commit', '--quiet', '--message', 'a day')
      }
      git(root, 'merge', '--quiet', '--message', 'both', 'branch-0')
      for (const [path, text] of result.files)
        expect([path, readFileSync(join(root, path), 'utf8')]).toEqual([path, text])
      compared++
    }
    expect(compared).toBe(4)
  })
})

/** Pairs that are left out above, since git cannot join them: it must say so, and so must the check until someone has. */
describe('two people who write at one spot', () => {
  const okafor = 'people/okafor.yaml'
  const kitchens = '  kitchens-2026: {on: 2026-01-14, topic: Inspecting school kitchens, hours: 2}\n'
  const insert = (path: string, line: string, added: string): Files =>
    new Map([[path, (base.get(path) ?? '').replace(line, line + added)]])
  const oneLine = (base.get('products/bait-a/product.yaml') ?? '').replace(
    / {2}- \{from: 2026-01-05, file: sds.txt\}\nnotes: .*\n/,
    '  [{from: 2026-01-05, file: sds.txt}]\nnotes: kept at the district office\n',
  )

  it.each<[string, string, Files, Files, string?]>([
    [
      'trainings of one person',
      okafor,
      insert(okafor, kitchens, '  rodents-2026: {on: 2026-03-18, topic: Keeping rodents out}\n'),
      insert(okafor, kitchens, '  labels-2026: {on: 2026-03-17, topic: Reading labels}\n'),
    ],
    [
      'areas of one school',
      'sites/oak/site.yaml',
      insert('sites/oak/site.yaml', 'areas:\n', '  dock: {kind: loading-dock}\n'),
      insert('sites/oak/site.yaml', 'areas:\n', '  office: {kind: office}\n'),
    ],
    [
      'lists of dated spans that stand on one line each, on lines that touch',
      'products/bait-a/product.yaml',
      new Map([
        [
          'products/bait-a/product.yaml',
          oneLine.replace('file: sds.txt}]', 'file: sds.txt}, {from: 2026-03-18, file: sds-2.txt}]'),
        ],
      ]),
      new Map([
        [
          'products/bait-a/product.yaml',
          oneLine.replace('notes: kept', 'notes: one box at Oak School; kept'),
        ],
      ]),
      oneLine,
    ],
    [
      'events of one person, kind and day',
      'sites/oak/complaints/2026-03-20-lind.yaml',
      new Map([['sites/oak/complaints/2026-03-20-lind.yaml', 'by: lind\nsays: ants\n']]),
      new Map([['sites/oak/complaints/2026-03-20-lind.yaml', 'by: lind\nsays: mice\n']]),
    ],
  ])('%s: a conflict, never a loss', (_, path, one, other, before = base.get(path)) => {
    const conflicted = mergedFile(one.get(path) ?? '', other.get(path) ?? '', before)
    expect(conflicted.isWhole).toBe(false)
    const left = checked(new Map([...base, [path, conflicted.text]]))
    expect(left.standing.map(({ rule, at }) => `${at.file}: ${rule}`)).toContain(`${path}: not-plain-yaml`)
    expect(left.notChecked).not.toEqual([])
  })
})
