import type { ThingDone } from '../ledger/things-done.js'
import { actsOnPests } from './effect-compare.js'
import type { EffectReason } from './effect-judge.js'
import type { PooledTactic } from './effect-pooled.js'
import type { EffectRow } from './effect-tables.js'
import { reasonInWords } from './effect-words.js'
import { pestName } from './pest-name.js'

/** What is known of one thing done, over all areas and pests it could touch. */
export interface DoneAndJudged {
  readonly thing: ThingDone
  readonly rows: readonly EffectRow[]
}

/** One plain sentence: what is sure of a tactic first, then of how many things done anything can be told. */
export function headlineOf(
  done: readonly DoneAndJudged[],
  pools: readonly PooledTactic[],
  isIncomplete: boolean,
): string {
  const sure = surest(pools)
  const first = sure && pooledWords(sure)
  const then =
    done.length === 0 ? `${nothingDone}${isIncomplete ? ' in what could be read' : ''}` : countWords(done)
  return first === undefined ? capital(then) : `${first}; ${then}`
}

/** What nothing else was done beside comes first, then what is surest. */
function surest(pools: readonly PooledTactic[]): PooledTactic | undefined {
  const changed = pools.filter(({ word }) => word === 'fell' || word === 'rose')
  const rank = (pool: PooledTactic) => (pool.taken === 'alone' ? 0 : 1)
  return changed.sort(
    (a, b) =>
      rank(a) - rank(b) || (a.adjustedP ?? 1) - (b.adjustedP ?? 1) || b.effect.events - a.effect.events,
  )[0]
}

function pooledWords({ tactic, pest, taken, effect, word }: PooledTactic): string | undefined {
  if (!effect.estimable) return undefined
  const beside = taken === 'alone' ? ', nothing else being done,' : ', and whatever else was done beside it,'
  const { ratio, lower, upper } = effect
  const limits = `${lower.toFixed(2)} ${upper === null ? 'or more' : `to ${upper.toFixed(2)}`}`
  const factor =
    ratio === null ? `to ${limits} times what it was` : `to ${ratio.toFixed(2)} times what it was (${limits})`
  return `After ${tacticWords[tactic] ?? tactic}${beside} the catch of ${pestName(pest)} ${word} ${factor}, over ${effect.events} cases in this ledger`
}

const tacticWords: Partial<Record<ThingDone['tactic'], string>> = {
  exclusion: 'exclusion (gaps closed)',
  repair: 'repairs',
  pesticide: 'pesticide other than bait',
  'hand-removal': 'removal by hand',
  'habitat-change': 'a change of habitat',
}

const nothingDone = 'no treatment, repair or other action is on record in this period'

function countWords(done: readonly DoneAndJudged[]): string {
  const judged = done.filter(isJudged)
  if (judged.length === 0)
    return done.length === 1
      ? `the one treatment, repair or other action cannot be judged, since ${commonestWhy(done)}`
      : `none of ${done.length} treatments, repairs and other actions can be judged, mostly since ${commonestWhy(done)}`
  const has = (word: string) => judged.filter(({ rows }) => rows.some((row) => row.judged.word === word))
  const [fell, rose] = [has('fell'), has('rose')]
  const alike = has('about the same').filter((one) => !fell.includes(one) && !rose.includes(one))
  const told = new Set([...fell, ...rose, ...alike])
  const untold = judged.length - told.size
  return `of ${judged.length} ${judged.length === 1 ? 'treatment, repair or other action' : 'treatments, repairs and other actions'} that can be judged, ${fell.length} ${were(fell.length)} followed by a surely lower catch, ${rose.length} by a higher one${alike.length > 0 ? ` and ${alike.length} by about the same` : ''}; ${untold === 0 ? 'none is left open' : `for ${untold === judged.length ? 'all of them' : `the other ${untold}`} it cannot be told`}`
}

/** Whether the catch of any pest after it is among what was tested. */
export function isJudged({ rows }: DoneAndJudged): boolean {
  return rows.some(({ judged }) => judged.isTested)
}

/** Why the most of them cannot be judged; the first in order of what comes closest to an answer. */
function commonestWhy(done: readonly DoneAndJudged[]): string {
  const counts = new Map<string, number>()
  for (const one of done) counts.set(whyNotJudged(one), (counts.get(whyNotJudged(one)) ?? 0) + 1)
  return [...counts].sort(([, a], [, b]) => b - a)[0]?.[0] ?? noTrap
}

const noTrap = 'no trap that counts the pest stands there'

/** From what comes closest to an answer to what is farthest from it. */
const closeness: readonly EffectReason[] = [
  'too-few-readings',
  'too-few-animals',
  'none-caught',
  'no-shared-device',
  'no-readings-after',
  'no-readings-before',
]

/** Why nothing can be told of a thing done: of all its areas and pests, the reason that comes closest to an answer. */
export function whyNotJudged({ thing, rows }: DoneAndJudged): string {
  if (!actsOnPests(thing))
    return 'teaching, handing on and closing off act on people, and no change on one day is looked for'
  if (thing.areas.length === 0) return 'no record says in which area'
  const [first] = rows.map(({ judged }) => judged.reason).sort((a, b) => rankOf(a) - rankOf(b))
  return first === undefined ? noTrap : reasonInWords[first]
}

function rankOf(reason: EffectReason): number {
  const at = closeness.indexOf(reason)
  return at === -1 ? closeness.length : at
}

const were = (count: number) => (count === 1 ? 'was' : 'were')

const capital = (sentence: string) => `${sentence.charAt(0).toUpperCase()}${sentence.slice(1)}`
