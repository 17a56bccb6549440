import type { TrialCluster } from '../measure/clustered-share.js'
import { clusteredShare } from '../measure/clustered-share.js'
import type { FollowedTime } from '../measure/kaplan-meier.js'
import { medianOf } from '../measure/order-statistics.js'
import type { Cell, Column } from '../types.js'
import type { ComplaintFact } from './contract-complaints.js'
import type { DueOutcome, Settled } from './contract-outcomes.js'
import { countOf, dueOutcomes } from './contract-outcomes.js'
import type { ContractSpan } from './contract-spans.js'
import { measuredCells } from './measured.js'
import { shareCells, shareColumns, shareMethod, timeMethod, timeToCells, timeToColumns } from './time-to.js'

const count = { decimals: 0 } as const
const countForWork = { decimals: 0, for: 'work' } as const

const idOf = (outcome: DueOutcome) => outcome.replaceAll(' ', '-')

/** How many, by outcome. What is shown to people: the first three, and of the others those of which there is any. */
export function outcomeColumns(facts: readonly Settled[]): Column[] {
  return dueOutcomes.map((outcome, at) => ({
    id: idOf(outcome),
    title: outcome,
    ...(at > 2 && countOf(facts, outcome) === 0 ? countForWork : count),
  }))
}

export function outcomeCells(facts: readonly Settled[]): Record<string, Cell> {
  return Object.fromEntries(dueOutcomes.map((outcome) => [idOf(outcome), countOf(facts, outcome)]))
}

export const daysLateColumns: readonly Column[] = [
  { id: 'days-late-shown', title: 'days late (worst)', for: 'people' },
  { id: 'days-late-median', title: 'days late, median', unit: 'days', decimals: 1, for: 'work' },
  { id: 'days-late-worst', title: 'days late, worst', unit: 'days', ...countForWork },
]

/** Of those that were done late. */
export function daysLateCells(facts: readonly Settled[]): Record<string, Cell> {
  const days = facts.flatMap(({ outcome, daysLate }) => (outcome === 'late' ? daysLate : []))
  const median = medianOf(Float64Array.from(days))
  const worst = days.length === 0 ? null : days.reduce((most, one) => Math.max(most, one), 0)
  return {
    'days-late-shown': median === null ? null : days.length === 1 ? `${worst}` : `${median} (${worst})`,
    'days-late-median': median,
    'days-late-worst': worst,
  }
}

const share = 'share-in-time'

export const shareOfColumns: readonly Column[] = [
  ...shareColumns(share, '% in time', 'people too'),
  { id: 'share-method', title: 'method of the share', for: 'work' },
]

/** The share in time of those of which it can be told. */
export function shareOfCells(inTime: number, all: number): Record<string, Cell> {
  return {
    ...shareCells(share, inTime, all),
    'share-method': all === 0 ? 'cannot tell: the time of none of them is up' : shareMethod,
  }
}

/** The share in time of things that were due together in clusters. */
export function clusteredShareCells(clusters: readonly TrialCluster[]): Record<string, Cell> {
  const found = clusteredShare(clusters)
  if (!found) return shareOfCells(0, 0)
  const percent = (part: number) => part * 100
  const { proportion, lower, upper, designEffect } = found
  const measured = { value: percent(proportion ?? 0), low: percent(lower), high: percent(upper) }
  const [value, low, high] = [measured.value, measured.low, measured.high].map((part) => part.toFixed(0))
  return {
    ...shareCells(share, found.successes, found.trials),
    ...measuredCells({ id: share, decimals: 0 }, measured),
    [`${share}-shown`]: `${value} % (${low} to ${high})`,
    'share-method':
      designEffect === null
        ? `${shareMethod}; how checks due together go together is not known`
        : `${shareMethod}, counts divided by the design effect ${designEffect.toFixed(1)} of ${found.clusters} days on which checks were due (Rao & Scott 1992)`,
  }
}

const answer = 'days-to-answer'

export const answerColumns: readonly Column[] = [
  ...timeToColumns(answer, 'half in'),
  { id: 'followed', title: 'complaints followed', ...countForWork },
  { id: 'answer-method', title: 'method of the days', for: 'work' },
]

/** Times of those whose answer, or wait for one, can be followed. */
export function followedTimes(complaints: readonly ComplaintFact[]): FollowedTime[] {
  return complaints.flatMap(({ followed }) => followed ?? [])
}

export function answerCells(complaints: readonly ComplaintFact[]): Record<string, Cell> {
  const followed = followedTimes(complaints)
  return { ...timeToCells(answer, followed), followed: followed.length, 'answer-method': timeMethod }
}

/** `since` is shown to people only where a site has several entries. */
export function spanColumns(spans: readonly ContractSpan[]): Column[] {
  const isOneEach = new Set(spans.map(({ site }) => site)).size === spans.length
  return [
    { id: 'site', title: 'site' },
    { id: 'contract-since', title: 'contract since', ...(isOneEach ? { for: 'work' } : {}) },
    { id: 'contractor', title: 'contractor', for: 'work' },
  ]
}
