import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { isAncestor, partedAt } from '../../../src/reports/history/commit-graph.js'

/** Commits in order of a walk, each with some of those before it as parents. */
const graphs = fc
  .array(fc.array(fc.nat(1000), { maxLength: 3 }), { minLength: 1, maxLength: 14 })
  .map((all) =>
    all.map((parents, at) => ({
      at,
      cameFrom: at === 0 ? [] : [...new Set(parents.map((one) => one % at))],
    })),
  )

/** Everything in the history of a commit, and itself: by the definition, without any order of search. */
function historyOf(graph: readonly { readonly cameFrom: readonly number[] }[], at: number): Set<number> {
  return new Set([at, ...(graph[at]?.cameFrom ?? []).flatMap((parent) => [...historyOf(graph, parent)])])
}

describe('the graph of commits', () => {
  it('knows what is in the history of what', () => {
    fc.assert(
      fc.property(graphs, fc.nat(1000), fc.nat(1000), (graph, a, b) => {
        const [one, other] = [a % graph.length, b % graph.length]
        expect(isAncestor(graph, one, other)).toBe(historyOf(graph, other).has(one))
      }),
    )
  })

  it('knows where two lines parted: what both have and nothing that both have descends from', () => {
    fc.assert(
      fc.property(graphs, fc.nat(1000), fc.nat(1000), (graph, a, b) => {
        const [one, other] = [a % graph.length, b % graph.length]
        const inOther = historyOf(graph, other)
        const both = [...historyOf(graph, one)].filter((at) => inOther.has(at))
        const best = both.filter(
          (at) => !both.some((later) => later !== at && historyOf(graph, later).has(at)),
        )
        expect([...partedAt(graph, one, other)].sort()).toEqual(best.sort())
      }),
    )
  })

  it('looks no further back than it must', () => {
    const long = Array.from({ length: 100_000 }, (_, at) => ({ at, cameFrom: at === 0 ? [] : [at - 1] }))
    let looked = 0
    const counted = new Proxy(long, {
      get: (target, key) => {
        if (/^\d+$/.test(String(key))) looked++
        return Reflect.get(target, key)
      },
    })
    expect(partedAt(counted, 99_999, 99_990)).toEqual([99_990])
    expect(looked).toBeLessThan(20)
  })
})
