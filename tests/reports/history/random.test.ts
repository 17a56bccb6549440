import fc from 'fast-check'
import { expect, it } from 'vitest'
import type { Written } from './git-scenario.js'
import { lind, scenario } from './git-scenario.js'

const path = (n: number) => `sites/oak/complaints/2026-03-${15 + (n % 12)}-lind-w${n}.yaml`
const text = (n: number) => `by: lind\nfrom: staff\narea: kitchen\nsays: complaint ${n}\n`

/** What a random history has done, told without looking at any commit. */
interface Made {
  readonly commits: readonly Written[]
  readonly deleted: readonly string[]
  readonly lost: readonly string[]
}

interface Line {
  readonly name: string
  readonly has: ReadonlySet<number>
  /** Records that were deleted or lost somewhere in its history: they are never added again. */
  readonly without: ReadonlySet<number>
}

/** Adds, deletes and merges on several lines of history; now and then a merge leaves out a record that it should have. */
function made(choices: readonly (readonly [number, number, number])[]): Made {
  const lines: Line[] = [{ name: 'first', has: new Set(), without: new Set() }]
  const commits: Written[] = []
  const deleted: string[] = []
  const lost: string[] = []
  for (const [n, [what, which, other]] of choices.entries()) {
    const line = lines[which % lines.length] ?? (lines[0] as Line)
    const another = lines[other % lines.length] ?? line
    const as = `c${n}`
    const base = { as, on: '2026-03-28', by: lind, follows: line.name }
    const oldest = [...line.has][0]
    if (what < 3 && another !== line) {
      const without = new Set([...line.without, ...another.without])
      const all = [...new Set([...line.has, ...another.has])].filter((one) => !without.has(one))
      const dropped = what === 0 ? all.at(-1) : undefined
      if (dropped !== undefined) lost.push(path(dropped))
      const has = new Set(all.filter((one) => one !== dropped))
      const files = [
        ...[...has].filter((one) => !line.has.has(one)).map((one) => [path(one), text(one)]),
        ...[...line.has].filter((one) => !has.has(one)).map((one) => [path(one), null]),
      ]
      commits.push({ ...base, merges: [another.name], files: Object.fromEntries(files) })
      lines.push({ name: as, has, without: dropped === undefined ? without : new Set([...without, dropped]) })
    } else if (what < 5 && oldest !== undefined) {
      commits.push({ ...base, files: { [path(oldest)]: null } })
      deleted.push(path(oldest))
      lines.push({
        name: as,
        has: new Set([...line.has].filter((one) => one !== oldest)),
        without: new Set([...line.without, oldest]),
      })
    } else {
      commits.push({ ...base, files: { [path(n)]: text(n) } })
      lines.push({ name: as, has: new Set([...line.has, n]), without: line.without })
    }
  }
  // The last commit is what the ledger stands at: everything else has to be in its history to be told.
  const [last, ...rest] = lines.reverse()
  if (last && rest.length > 0) {
    const without = new Set(lines.flatMap((one) => [...one.without]))
    const has = [...new Set(lines.flatMap((one) => [...one.has]))].filter((one) => !without.has(one))
    const files = [
      ...has.filter((one) => !last.has.has(one)).map((one) => [path(one), text(one)]),
      ...[...last.has].filter((one) => without.has(one)).map((one) => [path(one), null]),
    ]
    commits.push({
      on: '2026-03-28',
      by: lind,
      follows: last.name,
      merges: rest.map(({ name }) => name),
      files: Object.fromEntries(files),
    })
  }
  return { commits, deleted, lost }
}

it('finds every record that was deleted or lost in a merge, and no other, in histories of many lines', async () => {
  const one = fc.tuple(fc.nat(9), fc.nat(1000), fc.nat(1000))
  await fc.assert(
    fc.asyncProperty(fc.array(one, { minLength: 10, maxLength: 30 }), async (choices) => {
      const { commits, deleted, lost } = made(choices)
      const told = await scenario(commits).history()
      const records = (table: string) =>
        [...new Set(told.cells(table, 'record').map(([record]) => record))].sort()
      expect(records('gone')).toEqual([...new Set(deleted)].sort())
      expect(records('merges')).toEqual([...new Set(lost)].sort())
      expect([told.rows('changed'), told.rows('authors'), told.rows('late')]).toEqual([[], [], []])
    }),
    { numRuns: 12, seed: 20260330 },
  )
})
