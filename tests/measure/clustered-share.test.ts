import { describe, expect, it } from 'vitest'
import { clusteredShare } from '../../src/measure/clustered-share.js'
import { wilson } from '../../src/measure/proportion.js'

const clusters = (...counts: [number, number][]) =>
  counts.map(([successes, trials]) => ({ successes, trials }))

describe('a share of trials in clusters', () => {
  it('divides the counts by the design effect and by (t/z)²', () => {
    // 18 of 20, p = 0.9. Σ(x − 4p)² = 4 · 0.4² + 1.6² = 3.2; variance = 5/4 · 3.2/20² = 0.01 over 0.09/20 = 0.0045:
    // design effect 20/9. t of 4 is 2.776445, z 1.959964, (t/z)² = 2.006706. Effective counts 4.03647 of 4.48496.
    // Wilson: centre (4.03647 + 1.92073)/(4.48496 + 3.84146) = 0.71546,
    // half width 1.959964 · √(0.403647 + 0.960365)/8.32642 = 0.27492.
    const found = clusteredShare(clusters([4, 4], [4, 4], [4, 4], [2, 4], [4, 4]))
    expect(found).toMatchObject({ successes: 18, trials: 20, clusters: 5, proportion: 0.9 })
    expect(found?.designEffect).toBeCloseTo(20 / 9, 12)
    expect(found?.lower).toBeCloseTo(0.71546 - 0.27492, 4)
    expect(found?.upper).toBeCloseTo(0.71546 + 0.27492, 4)
  })

  it('never takes clusters that are more even than chance for more than they are', () => {
    const even = clusteredShare(clusters(...Array.from({ length: 30 }, (): [number, number] => [3, 4])))
    const single = wilson(90, 120)
    expect(even?.designEffect).toBe(1)
    expect(even?.lower).toBeLessThan(single?.lower ?? 0)
    expect(even?.upper).toBeGreaterThan(single?.upper ?? 1)
  })

  it('comes to the interval of single trials where each is a cluster, as they become many', () => {
    const trials = 4000
    const singles = clusteredShare(
      clusters(...Array.from({ length: trials }, (_, at): [number, number] => [at % 4 === 0 ? 0 : 1, 1])),
    )
    // Design effect n/(n − 1) of clusters of one.
    expect(singles?.designEffect).toBeCloseTo(trials / (trials - 1), 10)
    expect(singles?.lower).toBeCloseTo(wilson(3000, trials)?.lower ?? 0, 4)
  })

  it('is that of single trials where nothing is known of how they go together, and says so', () => {
    expect(clusteredShare(clusters([3, 4]))).toMatchObject({ ...wilson(3, 4), designEffect: null })
    expect(clusteredShare(clusters([4, 4], [6, 6]))).toMatchObject({ ...wilson(10, 10), designEffect: null })
    expect(clusteredShare(clusters([0, 4], [0, 6]))).toMatchObject({ ...wilson(0, 10), designEffect: null })
  })

  it('does not mind the order of clusters, nor empty ones', () => {
    const some = clusters([1, 4], [4, 4], [0, 0], [2, 3])
    expect(clusteredShare([...some].reverse())).toEqual(clusteredShare(some))
    expect(clusteredShare(some)?.clusters).toBe(3)
  })

  it('is null without trials and for what are no counts', () => {
    expect(clusteredShare([])).toBeNull()
    expect(clusteredShare(clusters([0, 0]))).toBeNull()
    expect(clusteredShare(clusters([5, 4]))).toBeNull()
    expect(clusteredShare(clusters([1.5, 4]))).toBeNull()
    expect(clusteredShare(clusters([-1, 4]))).toBeNull()
    expect(clusteredShare(clusters([1, 4], [2, 4]), 1)).toBeNull()
    expect(clusteredShare(clusters([Number.NaN, 4]))).toBeNull()
  })

  it('stays finite for counts of a million', () => {
    const found = clusteredShare(
      clusters([1_000_000, 1_000_000], [999_999, 1_000_000], [1_000_000, 1_000_000]),
    )
    expect(found && [found.lower, found.upper].every(Number.isFinite)).toBe(true)
  })
})
