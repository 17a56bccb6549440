import { compareText } from '../ledger/compare-text.js'
import { isoOf } from '../measure/calendar.js'
import { upperBoundWhenNoneCaught } from '../measure/poisson-rate.js'
import type { Watch } from './coverage-collect.js'
import { pestName } from './pest-name.js'

/** What the tables of one pest in one area share. */
export const placeColumns = [
  { id: 'site', title: 'site' },
  { id: 'area', title: 'area' },
  { id: 'pest', title: 'pest' },
] as const

export const placeCells = ({ site, area, pest }: Watch) => ({
  site,
  area: area === '' ? '(area not told)' : area,
  pest: pestName(pest),
})

export function compareWatches(a: Watch, b: Watch): number {
  return compareText(a.site, b.site) || compareText(a.area, b.area) || compareText(a.pest, b.pest)
}

/** `2026-03-02 complaint, 2026-03-09 sighting`; null where nothing was seen. */
export function seenOnWords({ seen }: Watch): string | null {
  const said = [...seen].sort((a, b) => a.day - b.day || compareText(a.how, b.how))
  return said.length === 0 ? null : said.map(({ day, how }) => `${isoOf(day)} ${how}`).join(', ')
}

export const boundMethod =
  'one-sided 95 % upper limit when none was caught (Hanley & Lippman-Hand 1983), not widened for clumping'

/** The largest rate that none caught leaves believable, per trap-week; null without effort. */
export function boundPerWeek(trapNights: number): number | null {
  const bound = upperBoundWhenNoneCaught(trapNights)
  const perWeek = bound === null ? null : bound * 7
  return perWeek !== null && Number.isFinite(perWeek) ? perWeek : null
}

/** The same for people: two digits, or two that say something. */
export function boundWords(trapNights: number): string {
  const bound = boundPerWeek(trapNights)
  if (bound === null) return 'cannot tell'
  return bound >= 0.01 ? bound.toFixed(2) : 'under 0.01'
}

export const nightsWords = (trapNights: number) => (trapNights > 0 ? `none in ${trapNights}` : 'no effort')

/** Why no bound can be told, or what it rests on. */
export function effortWords({ devices, traps, fit, catch: { trapNights, read } }: Watch): string {
  if (trapNights > 0) return 'none was caught in the effort of all usable readings of the period'
  if (read) return 'cannot tell: no reading of the period had usable effort of a device that counts'
  if (devices > 0 && fit > 0 && traps === 0) return 'cannot tell: what stands there counts no animals'
  return 'cannot tell: no device was read there in the period'
}
