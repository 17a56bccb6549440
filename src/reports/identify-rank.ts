import type { MeasuredFeature, WordFeature } from '../records/identification.js'
import { identificationTable } from '../records/identification.js'
import type { Candidate, Seen } from './identify-compare.js'
import { compare } from './identify-compare.js'

/** What was seen names one pest, leaves several, or fits none that is in the table. */
export type Answer =
  | { readonly kind: 'one'; readonly pest: string }
  | { readonly kind: 'several'; readonly pests: readonly string[] }
  | { readonly kind: 'size-alone'; readonly pests: readonly string[] }
  | { readonly kind: 'none' }

/** Where and when say little: animals stray, and a length fits many. */
const weak: ReadonlySet<MeasuredFeature | WordFeature> = new Set([
  'length',
  'length-with-tail',
  'length-without-tail',
  'droppings',
  'egg-case',
  'where',
  'when',
])

/**
 * Every form that something seen fits, best first: what speaks against it counts before what fits, a look or a trace
 * before a length, place or time of day, and then the alphabet.
 */
export function ranked(seen: Seen): Candidate[] {
  return Object.entries(identificationTable().forms)
    .map(([id, form]) => compare(id, form, seen))
    .filter(({ fits }) => fits.length > 0)
    .sort((a, b) => order(a, b) || (a.id < b.id ? -1 : 1))
}

function order(a: Candidate, b: Candidate): number {
  return a.against.length - b.against.length || looksOf(b) - looksOf(a) || b.fits.length - a.fits.length
}

const looksOf = ({ fits }: Candidate) => fits.filter(({ feature }) => !weak.has(feature)).length

/**
 * One pest only where nothing seen speaks against it, at least two things fit, one of them a look or a trace, and every
 * other pest fits less well. A length never decides: pests that differ by it alone stay together.
 */
export function answerOf(candidates: readonly Candidate[]): Answer {
  const fitting = candidates.filter(({ against }) => against.length === 0)
  const best = fitting[0]
  if (!best) return { kind: 'none' }
  if (fitting.every((candidate) => candidate.fits.every(({ feature }) => weak.has(feature))))
    return { kind: 'size-alone', pests: pestsOf(fitting) }
  const level = fitting.filter((candidate) => looksOf(candidate) === looksOf(best))
  const pests = pestsOf(level)
  const [only] = pests
  if (
    only !== undefined &&
    pests.length === 1 &&
    best.fits.length >= 2 &&
    isAheadWithoutSize(best, candidates)
  )
    return { kind: 'one', pest: only }
  return { kind: 'several', pests: pests.length === 1 ? pestsOf(fitting) : pests }
}

/** Whether no other pest would fit as well if its length were left out. */
function isAheadWithoutSize(best: Candidate, candidates: readonly Candidate[]): boolean {
  return candidates
    .filter(({ form }) => form.pest !== best.form.pest)
    .every(
      (other) => other.against.some(({ feature }) => !weak.has(feature)) || looksOf(other) < looksOf(best),
    )
}

/** Those nothing speaks against; where there are none, those the least speaks against. */
export function stillPossible(candidates: readonly Candidate[]): Candidate[] {
  const least = Math.min(...candidates.map(({ against }) => against.length))
  return candidates.filter(({ against }) => against.length === least)
}

export const pestsOf = (candidates: readonly Candidate[]) => [
  ...new Set(candidates.map(({ form }) => form.pest)),
]

export interface NextLook {
  readonly feature: WordFeature
  /** What is asked, as words. */
  readonly asks: string
  /** What each answer would speak for: the word and the pests whose rows have it. */
  readonly answers: readonly { readonly word: string; readonly pests: readonly string[] }[]
}

/** Features not looked at yet that would tell candidates apart: those known of most, and that split them best, first. */
export function nextLooks(candidates: readonly Candidate[], seen: Seen): NextLook[] {
  const { words } = identificationTable()
  const rows = candidates.map(({ form }) => form)
  const pests = pestsOf(candidates)
  const looks: { readonly look: NextLook; readonly most: number; readonly told: number }[] = []
  for (const feature of Object.keys(words) as WordFeature[]) {
    if (seen.words[feature] !== undefined || weak.has(feature)) continue
    const byWord = new Map<string, Set<string>>()
    const told = new Set<string>()
    for (const row of rows)
      for (const word of row.says.flatMap((statement) => statement[feature] ?? [])) {
        byWord.set(word, (byWord.get(word) ?? new Set()).add(row.pest))
        told.add(row.pest)
      }
    const answers = [...byWord].map(([word, of]) => ({ word, pests: [...of] }))
    // An answer that leaves every pest tells none apart.
    if (told.size < 2 || answers.every((answer) => answer.pests.length === pests.length)) continue
    const most = Math.max(...answers.map((answer) => answer.pests.length))
    looks.push({ look: { feature, asks: words[feature].asks, answers }, most, told: told.size })
  }
  return looks.sort((a, b) => b.told - a.told || a.most - b.most).map(({ look }) => look)
}
