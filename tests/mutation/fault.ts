import type { Draft, KeyPath } from './draft.js'

/** Where a problem is expected: at a key path, at a line, or anywhere in the file. */
export interface Where {
  readonly file: string
  readonly path?: KeyPath
  /** At the key itself, where the value stands on another line. */
  readonly onKey?: boolean
  readonly line?: number
}

/** A fault that was put into a ledger. */
export interface Fault {
  /** Every place at which the expected rule is to speak; it is to speak nowhere else. */
  readonly where: readonly Where[]
  /** The ledger before the fault, when something coherent was added first; it must be clean. */
  readonly before?: Draft
}

/** One way in which a ledger goes wrong. */
export interface FaultKind {
  readonly name: string
  /** Rule that must report it. */
  readonly expect: string
  /** Files it can be reported at. */
  readonly at: RegExp
  /** Other rules that may speak too, each with the reason. */
  readonly also?: Readonly<Record<string, string>>
  /** False alarms that the program gives today: they count as such in the table, but do not fail the test. */
  readonly tolerated?: Readonly<Record<string, string>>
  /** A later record made it good: it is told with its end, and nothing stands on the last day. */
  readonly ended?: true
  /** The fault leaves a part of the ledger that cannot be judged, and that must be said. */
  readonly unchecked?: true
  /** Puts one fault into the draft, or says with null that this ledger has no place for it. */
  readonly make: (draft: Draft, random: Random) => Fault | null
}

export interface Random {
  /** A whole number from 0 to below `limit`. */
  below(limit: number): number
  /** One of a list; undefined if it is empty. */
  pick<T>(list: readonly T[]): T | undefined
  /** The list in another order. */
  shuffled<T>(list: readonly T[]): T[]
}

/** Mulberry32 (Tommy Ettinger 2017), from memory: good enough to choose among records. */
export function seededRandom(seed: number): Random {
  let state = seed >>> 0
  const next = () => {
    state = (state + 0x6d2b79f5) >>> 0
    let t = Math.imul(state ^ (state >>> 15), 1 | state)
    t ^= t + Math.imul(t ^ (t >>> 7), 61 | t)
    return ((t ^ (t >>> 14)) >>> 0) / 4_294_967_296
  }
  const below = (limit: number) => Math.floor(next() * limit)
  return {
    below,
    pick: (list) => list[below(list.length)],
    shuffled(list) {
      const left = [...list]
      return list.flatMap(() => left.splice(below(left.length), 1))
    },
  }
}

/** The one place, as what `make` gives back. */
export function reportedAt(file: string, ...path: KeyPath): Fault {
  return { where: [{ file, path }] }
}

/** At the key itself. */
export function reportedAtKey(file: string, ...path: KeyPath): Fault {
  return { where: [{ file, path, onKey: true }] }
}

export function reportedAtLine(file: string, line: number): Fault {
  return { where: [{ file, line }] }
}
