import { getOrMake } from '../ledger/get-or-make.js'
import { areasAtOneRate } from '../measure/areas-at-one-rate.js'
import type { BeforeAfter, NoChangeReason } from '../measure/before-after.js'
import { beforeAfter } from '../measure/before-after.js'
import type { ChangeReason, ChangeWord } from '../measure/change-verdict.js'
import { changeVerdict } from '../measure/change-verdict.js'
import type { CatchReading, CatchTotal, Clumping } from '../measure/effective-counts.js'
import { clumpingAbout, totalOf } from '../measure/effective-counts.js'
import { benjaminiHochberg } from '../measure/false-discovery.js'
import type { RatioOfRatios } from '../measure/ratio-of-ratios.js'
import { ratioOfRatios } from '../measure/ratio-of-ratios.js'
import type { Day } from '../types.js'
import { clumpingFor } from './clumping.js'
import type { Occasion } from './effect-compare.js'

export type Basis = 'untreated' | 'before'
export type WhyNotJudged = NoChangeReason | 'no-shared-device' | 'too-few-animals'
export type EffectReason = ChangeReason<WhyNotJudged>

type Estimated<T> = Extract<T, { estimable: true }>

/** What became of one catch after one day on which something was done. */
export interface JudgedOccasion {
  readonly occasion: Occasion
  readonly before: CatchTotal
  readonly after: CatchTotal
  readonly plain: Estimated<BeforeAfter> | null
  readonly against: Estimated<RatioOfRatios> | null
  readonly untreatedBefore: CatchTotal
  readonly untreatedAfter: CatchTotal
  /** What the answer rests on: the change against untreated areas where it can be worked out, else the plain one. */
  readonly basis: Basis | null
  /** Whether it is one of the tests over which the false discovery rate is held. */
  readonly isTested: boolean
  readonly word: ChangeWord
  readonly reason: EffectReason
  readonly adjustedP: number | null
}

/**
 * With fewer animals on both sides no change is surely one: all of five on one side, effort being equal, has
 * p = 2 · (1/2)^5 = 0.0625. A sum says nothing of the direction, so leaving these untested keeps the false discovery rate.
 */
export const fewestAnimals = 6

/** From so many degrees of freedom on, the readings of one occasion tell enough of how catches clump. */
const enoughOfItsOwn = 10

/** Judges all occasions of the ledger together: the false discovery rate is held over them. */
export function judgeOccasions(occasions: readonly Occasion[]): JudgedOccasion[] {
  const pooled = pooledClumping(occasions)
  const changes = occasions.map((occasion) => changeAt(occasion, pooled.get(occasion.catches.pest) ?? null))
  const adjusted = benjaminiHochberg(
    changes.map(({ plain, against, whyNot }) => (whyNot === null ? ((against ?? plain)?.p ?? null) : null)),
  )
  return changes.map(({ whyNot, ...change }, at) => {
    const answer = change.against ?? change.plain
    const adjustedP = adjusted[at] ?? null
    return {
      ...change,
      basis: change.against ? 'untreated' : change.plain ? 'before' : null,
      isTested: whyNot === null,
      adjustedP,
      ...(whyNot === null && answer
        ? changeVerdict<WhyNotJudged>(answer, adjustedP)
        : { word: 'cannot tell' as const, reason: whyNot ?? 'none-caught' }),
    }
  })
}

type Change = Pick<
  JudgedOccasion,
  'occasion' | 'before' | 'after' | 'plain' | 'against' | 'untreatedBefore' | 'untreatedAfter'
> & { readonly whyNot: WhyNotJudged | null }

function changeAt(occasion: Occasion, pooled: Clumping | null): Change {
  const { before, after, untreated } = occasion
  const told = {
    occasion,
    before: totalOf(before),
    after: totalOf(after),
    untreatedBefore: totalOf(untreated.flatMap((area) => area.before)),
    untreatedAfter: totalOf(untreated.flatMap((area) => area.after)),
  }
  const not = (whyNot: WhyNotJudged, plain: Estimated<BeforeAfter> | null = null): Change => ({
    ...told,
    plain,
    against: null,
    whyNot,
  })
  if (occasion.noSharedDevice) return not('no-shared-device')
  const { clumping } = clumpingFor([before, after], pooled, enoughOfItsOwn)
  const plain = beforeAfter(before, after, clumping ? { clumping } : {})
  if (!plain.estimable) return not(plain.reason)
  if (plain.before.count + plain.after.count < fewestAnimals) return not('too-few-animals', plain)
  const alike = areasAtOneRate(untreated)
  const against =
    untreated.length === 0
      ? null
      : ratioOfRatios(
          {
            'treated before': before,
            'treated after': after,
            'untreated before': alike.before,
            'untreated after': alike.after,
          },
          clumping ? { clumping } : {},
        )
  return { ...told, plain, against: against?.estimable ? against : null, whyNot: null }
}

/**
 * How catches of each pest clump, pooled over its occasions. Occasions of one area that overlap hold the same readings,
 * which must not count twice.
 */
export function pooledClumping(occasions: readonly Occasion[]): ReadonlyMap<string, Clumping | null> {
  const groups = new Map<string, (readonly CatchReading[])[]>()
  const usedUntil = new Map<Occasion['catches'], Day>()
  for (const { catches, before, after, windows } of occasions) {
    if (windows.before.from < (usedUntil.get(catches) ?? Number.NEGATIVE_INFINITY)) continue
    usedUntil.set(catches, windows.after.to)
    getOrMake(groups, catches.pest, () => []).push(before, after)
  }
  return new Map([...groups].map(([pest, sides]) => [pest, clumpingAbout(sides)]))
}
