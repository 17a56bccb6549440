import { compareText } from '../ledger/compare-text.js'
import { getOrMake } from '../ledger/get-or-make.js'
import type { Tactic } from '../ledger/things-done.js'
import type { ChangeReason, ChangeWord } from '../measure/change-verdict.js'
import { changeVerdict } from '../measure/change-verdict.js'
import { benjaminiHochberg } from '../measure/false-discovery.js'
import type { NoPooledReason, PooledEffect } from '../measure/pooled-effect.js'
import { pooledEffect } from '../measure/pooled-effect.js'
import type { Occasion } from './effect-compare.js'
import { pooledClumping } from './effect-judge.js'

/** What became of the catch of one pest after all that was done by one tactic. */
export interface PooledTactic {
  readonly pest: string
  readonly tactic: Tactic
  /** `alone`: nothing else was done there in the windows. `all`: also where something was. */
  readonly taken: 'alone' | 'all'
  readonly occasions: readonly Occasion[]
  /** Occasions not taken, because the one reading before may be why something was done. */
  readonly onlyOneBefore: number
  readonly effect: PooledEffect
  readonly word: ChangeWord
  readonly reason: ChangeReason<NoPooledReason>
  readonly adjustedP: number | null
}

/**
 * Pools occasions by tactic and pest, those on which nothing else was done apart; p is adjusted over all of them. By
 * pest, the one with most occasions first, and by tactic, so that a repair stands beside a spray.
 */
export function poolByTactic(occasions: readonly Occasion[]): PooledTactic[] {
  const clumping = pooledClumping(occasions)
  const pools = poolsOf(occasions).map((pool) => {
    const taken = pool.occasions.filter(isPoolable)
    const known = clumping.get(pool.pest)
    return {
      ...pool,
      occasions: taken,
      onlyOneBefore: pool.occasions.filter((one) => isTold(one) && !isPoolable(one)).length,
      effect: pooledEffect(taken, known ? { clumping: known } : {}),
    }
  })
  const adjusted = benjaminiHochberg(pools.map(({ effect }) => (effect.estimable ? effect.p : null)))
  return pools.map((pool, at) => {
    const adjustedP = adjusted[at] ?? null
    return { ...pool, adjustedP, ...changeVerdict<NoPooledReason>(pool.effect, adjustedP) }
  })
}

const isTold = ({ before, after, noSharedDevice }: Occasion) =>
  before.length > 0 && after.length > 0 && !noSharedDevice

/** Pooled events must leave out the reading that led to them, or chance alone makes them look like falls. */
const isPoolable = (occasion: Occasion) => isTold(occasion) && occasion.leftOut.length > 0

const isAlone = ({ things, others }: Occasion) => things.length === 1 && others.length === 0

type Pool = Pick<PooledTactic, 'pest' | 'tactic' | 'taken' | 'occasions'>

function poolsOf(occasions: readonly Occasion[]): Pool[] {
  const byPest = new Map<string, Map<Tactic, Occasion[]>>()
  for (const occasion of occasions) {
    const byTactic = getOrMake(byPest, occasion.catches.pest, () => new Map<Tactic, Occasion[]>())
    for (const tactic of new Set(occasion.things.map((thing) => thing.tactic)))
      getOrMake(byTactic, tactic, () => []).push(occasion)
  }
  const most = (byTactic: ReadonlyMap<Tactic, readonly Occasion[]>) =>
    Math.max(...[...byTactic.values()].map(({ length }) => length))
  return [...byPest]
    .sort(([a, ofA], [b, ofB]) => most(ofB) - most(ofA) || compareText(a, b))
    .flatMap(([pest, byTactic]) =>
      [...byTactic]
        .sort(([a], [b]) => compareText(a, b))
        .flatMap(([tactic, all]): Pool[] => {
          const alone = all.filter(isAlone)
          return [
            ...(alone.length > 0 ? [{ pest, tactic, taken: 'alone' as const, occasions: alone }] : []),
            // Where nothing was ever done beside it, both would be the same.
            ...(alone.length < all.length ? [{ pest, tactic, taken: 'all' as const, occasions: all }] : []),
          ]
        }),
    )
}
