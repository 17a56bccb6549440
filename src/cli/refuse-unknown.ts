import { nearest } from '../records/nearest.js'
import { UsageError } from './usage-error.js'

/** A name that is not among those known is a mistake; the nearest is suggested, never assumed. */
export function refuseUnknown(what: string, name: string, known: readonly string[]): void {
  if (known.includes(name)) return
  const meant = nearest(name, known)
  throw new UsageError(`There is no ${what} ${name}${meant === undefined ? '.' : `; did you mean ${meant}?`}`)
}
