/** Traps of one interval length over a period, with what was found when they were looked at. */
export interface TrapSpell {
  /** Usable traps × nights; stolen, damaged and unreachable traps are already left out. */
  trapNights: number
  /** Nights from setting or checking a trap to the next check. */
  nightsPerInterval: number
  /** Captures of the animal the index is for. */
  captures: number
  /** Captures of anything else. */
  otherCaptures: number
  /** Traps found sprung with nothing in them. */
  sprungEmpty: number
}

/**
 * Which sprung traps cost effort: none (the raw index), all of them (Nelson & Clark), or all but the captures
 * counted (the published field protocol).
 */
export type SprungTrapRule = 'none' | 'all-sprung' | 'all-but-captures'

export interface TrapIndex {
  trapNights: number
  lostTrapNights: number
  effectiveTrapNights: number
  /** Captures per 100 effective trap-nights. May exceed 100: it is not a percentage. Null without effort. */
  per100: number | null
}

/**
 * Captures per 100 trap-nights, corrected for sprung traps.
 *
 * A trap that has gone off catches nothing more until it is reset, on average for half the interval: index =
 * 100·A / (TU − I·S/2), with TU trap-nights, I nights per interval, S sprung traps and A captures. Nelson L,
 * Clark FW (1973) Correction for sprung traps in catch/effort calculations of trapping results, J. Mammal.
 * 54:295–298, take all sprung traps as S, captures included ('all-sprung'). A published field protocol for
 * rats (Bio-protocol, exchange detail 1401385) leaves the captures out of S ('all-but-captures'). 'none' is
 * the raw index, 100·A / TU.
 *
 * Spells of different interval lengths are added up before dividing. The index is null when no effective
 * trap-nights are left; the whole answer is null when a figure is negative or not a number.
 */
export function trapIndex(spells: readonly TrapSpell[], rule: SprungTrapRule): TrapIndex | null {
  let trapNights = 0
  let lostTrapNights = 0
  let captures = 0
  for (const spell of spells) {
    const figures = [
      spell.trapNights,
      spell.nightsPerInterval,
      spell.captures,
      spell.otherCaptures,
      spell.sprungEmpty,
    ]
    if (!figures.every((figure) => Number.isFinite(figure) && figure >= 0)) return null
    trapNights += spell.trapNights
    captures += spell.captures
    lostTrapNights += (spell.nightsPerInterval * sprungTraps(spell, rule)) / 2
  }
  const effectiveTrapNights = trapNights - lostTrapNights
  const per100 = effectiveTrapNights > 0 ? (100 * captures) / effectiveTrapNights : null
  return { trapNights, lostTrapNights, effectiveTrapNights, per100 }
}

function sprungTraps(spell: TrapSpell, rule: SprungTrapRule): number {
  if (rule === 'none') return 0
  const withoutCaptures = spell.otherCaptures + spell.sprungEmpty
  return rule === 'all-sprung' ? withoutCaptures + spell.captures : withoutCaptures
}
