import type { ArgValue, Problem } from '../types.js'
import { levels } from '../types.js'

/**
 * Some rules tell one cause once, with how often it holds or what it holds for. These arguments then grow when it holds
 * once more, while rule and place stay: numbers that count, and lists that name.
 */
export const growingArgs: ReadonlySet<string> = new Set([
  'areas',
  'count',
  'devices',
  'lacking',
  'lacks',
  'missing',
  'more',
  'pests',
  'times',
])

/** Whether a problem says no more than another of the same rule and place: neither graver, nor of more things. */
export function isNoWorse(problem: Problem, than: Problem): boolean {
  return (
    gravity(problem) <= gravity(than) &&
    Object.entries(problem.args).every(
      ([name, value]) => !growingArgs.has(name) || isWithin(value, than.args[name]),
    )
  )
}

/** Higher for an error than for a note. */
export function gravity({ level }: Problem): number {
  return levels.length - levels.indexOf(level)
}

function isWithin(value: ArgValue, other: ArgValue | undefined): boolean {
  if (typeof value === 'number') return value <= (typeof other === 'number' ? other : 0)
  if (typeof value !== 'object') return true
  return value.every((each) => typeof other === 'object' && other.includes(each))
}
