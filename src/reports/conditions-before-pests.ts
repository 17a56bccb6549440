import { compareText } from '../ledger/compare-text.js'
import { isoOf } from '../measure/calendar.js'
import { benjaminiHochberg } from '../measure/false-discovery.js'
import { exactRate } from '../measure/poisson-rate.js'
import type { RateRatio } from '../measure/rate-ratio.js'
import { rateRatio } from '../measure/rate-ratio.js'
import type { Row, Table } from '../types.js'
import type { ComeAndDays, Feeds, OnsetStrata, PestOnset } from './conditions-onsets.js'
import { allFeeds, anyCondition, daysBefore } from './conditions-onsets.js'
import { needWords } from './conditions-words.js'
import type { MeasuredColumn } from './measured.js'
import { measuredCells, measuredColumns } from './measured.js'
import { pestName } from './pest-name.js'

/** In fewer onsets no difference could be made out, and each test more makes it harder to be sure of the others. */
export const fewestOnsets = 10

const significance = 0.05

interface Compared extends ComeAndDays {
  readonly feeds: Feeds
  /** Onsets to expect with and without such a condition if it made no difference among like areas and pests. */
  readonly expectedWith: number
  readonly expectedWithout: number
  readonly like: RateRatio | null
  readonly crude: RateRatio | null
  readonly adjustedP: number | null
}

/**
 * Whether pests came more often where a condition had been open, by what it feeds. Within each kind of area and each
 * pest, the onsets are dealt out over the area-days with and without such a condition; the sums are what to expect
 * if it made no difference. Onsets over expected onsets, with against without, is a ratio in which kitchens are held
 * against kitchens. The total being given, the number with a condition is a sum of independent chances with that mean,
 * whose spread is at most the binomial's (Hoeffding W 1956, Ann. Math. Statist. 27:713-721, from memory), so the exact
 * interval and p of `rateRatio` with expected onsets for exposure are, if anything, too careful about a difference.
 *
 * Without regard to kind of area and pest the ratio would mostly tell that kitchens have more of both. Measured on a
 * generated ledger of 20 sites and 3 years (writing/demo), with the conditions of each site exchanged for those of
 * another so that nothing connects them with its pests: of 190 comparisons 11 came out below p = 0.05 in this way, and
 * 116 without that regard.
 */
export function comparedOnsets(strata: OnsetStrata): Compared[] {
  const compared = allFeeds.map((feeds) => {
    const total = { daysWith: 0, onsetsWith: 0, days: 0, onsets: 0 }
    let expectedWith = 0
    let expectedWithout = 0
    // In order of their names, so that sums come out the same to the last digit.
    for (const [, counts] of [...strata].sort(([a], [b]) => compareText(a, b))) {
      const one = counts.get(feeds)
      if (!one || one.days === 0) continue
      total.daysWith += one.daysWith
      total.onsetsWith += one.onsetsWith
      total.days += one.days
      total.onsets += one.onsets
      expectedWith += (one.onsets * one.daysWith) / one.days
      expectedWithout += (one.onsets * (one.days - one.daysWith)) / one.days
    }
    const without = total.onsets - total.onsetsWith
    return {
      feeds,
      ...total,
      expectedWith,
      expectedWithout,
      like: rateRatio(total.onsetsWith, expectedWith, without, expectedWithout),
      crude: rateRatio(total.onsetsWith, total.daysWith, without, total.days - total.daysWith),
    }
  })
  const adjusted = benjaminiHochberg(
    compared.map(({ like, onsets }) => (like && onsets >= fewestOnsets ? like.pCentral : null)),
  )
  return compared.map((one, at) => ({ ...one, adjustedP: adjusted[at] ?? null }))
}

export type CameBefore = 'more often' | 'less often' | 'cannot tell'

export function cameBefore({ like, adjustedP }: Compared): CameBefore {
  if (!like || adjustedP === null || adjustedP > significance) return 'cannot tell'
  if (like.lower > 1) return 'more often'
  return like.upper < 1 ? 'less often' : 'cannot tell'
}

function whyOf(one: Compared): string {
  const verdict = cameBefore(one)
  if (one.days === 0)
    return 'no area was looked at long enough for a pest to be noticed to come after a quiet time'
  if (one.daysWith === 0) return 'no such condition was open on a day that counts'
  if (one.daysWith === one.days) return 'such a condition was open on every day that counts'
  if (one.onsets === 0) return 'no pest came after a quiet time'
  if (!one.like) return 'among like areas there is none with and none without such a condition to compare'
  if (one.adjustedP === null) return `fewer than ${fewestOnsets} onsets in all`
  if (verdict !== 'cannot tell')
    return `the whole interval is ${verdict === 'more often' ? 'above' : 'below'} no difference`
  return one.like.lower > 1 || one.like.upper < 1
    ? 'not sure enough among so many comparisons'
    : 'the interval is too wide to tell'
}

const rateOf = (id: string, title: string): MeasuredColumn => ({
  id,
  title,
  unit: 'per 1,000 area-days',
  decimals: 2,
})
const likeColumn = { id: 'times', title: 'times as often', unit: 'times', decimals: 1 }
const withColumn = rateOf('rate-with', 'onsets with one open')
const withoutColumn = rateOf('rate-without', 'onsets without')
const crudeColumn = { id: 'crude', title: 'without regard to kind of area', unit: 'times', decimals: 1 }
const work = { for: 'work' } as const

/** One site that is asked for has too few onsets to compare, so this is told of all sites together only. */
export function comparedTable(
  strata: OnsetStrata,
  onsets: readonly PestOnset[],
  site: string | undefined,
): Table {
  const compared = comparedOnsets(strata)
  const records = [...new Set(onsets.flatMap(filesBehind))].sort(compareText)
  return {
    id: 'before-pests',
    title: `Pests that came after a quiet time: more often where a condition was open in the ${daysBefore} days before?`,
    columns: [
      { id: 'gives', title: 'a condition that gives' },
      { id: 'verdict', title: 'pests came' },
      { id: 'times-shown', title: 'times as often (95 %)', for: 'people' },
      ...measuredColumns(likeColumn).slice(1),
      { id: 'with-shown', title: 'onsets in area-days with one open', for: 'people' },
      { id: 'without-shown', title: 'and without', for: 'people' },
      { id: 'onsets-with', title: 'onsets with one open', decimals: 0, ...work },
      { id: 'days-with', title: 'with one open', unit: 'area-days', decimals: 0, ...work },
      ...measuredColumns(withColumn).slice(1),
      { id: 'onsets-without', title: 'onsets without', decimals: 0, ...work },
      { id: 'days-without', title: 'without', unit: 'area-days', decimals: 0, ...work },
      ...measuredColumns(withoutColumn).slice(1),
      { id: 'expected-with', title: 'onsets to expect with one open', decimals: 2, ...work },
      { id: 'expected-without', title: 'onsets to expect without', decimals: 2, ...work },
      ...measuredColumns(crudeColumn).slice(1),
      { id: 'p-adjusted', title: 'adjusted p', decimals: 4, ...work },
      { id: 'why', title: 'because', ...work },
      { id: 'method', title: 'method', ...work },
    ],
    rows: site === undefined ? compared.map((one) => comparedRow(one, records)) : [],
    ...(site === undefined ? {} : work),
    empty: 'Told of all sites together only; leave out --site to see it.',
  }
}

function comparedRow(one: Compared, records: readonly string[]): Row {
  const { onsetsWith, daysWith, onsets, days, like, crude } = one
  const onsetsWithout = onsets - onsetsWith
  const daysWithout = days - daysWith
  return {
    cells: {
      gives: one.feeds === anyCondition ? 'anything' : needWords[one.feeds],
      verdict: cameBefore(one),
      ...measuredCells(likeColumn, limitsOf(like)),
      'with-shown': `${onsetsWith} in ${daysWith}`,
      'without-shown': `${onsetsWithout} in ${daysWithout}`,
      'onsets-with': onsetsWith,
      'days-with': daysWith,
      ...measuredCells(withColumn, perThousand(onsetsWith, daysWith)),
      'onsets-without': onsetsWithout,
      'days-without': daysWithout,
      ...measuredCells(withoutColumn, perThousand(onsetsWithout, daysWithout)),
      'expected-with': one.expectedWith,
      'expected-without': one.expectedWithout,
      ...measuredCells(crudeColumn, limitsOf(crude)),
      'p-adjusted': one.adjustedP,
      why: whyOf(one),
      method:
        'exact conditional interval (Przyborowski & Wilenski 1940), onsets over those expected within each kind of area and pest; rates by exact Poisson limits; adjusted p of Benjamini & Hochberg (1995)',
    },
    records,
  }
}

function filesBehind({ files, before }: PestOnset): string[] {
  return [...files, ...before.flatMap((spell) => spell.files)]
}

/** Without an onset on either side nothing is known of the ratio. */
function limitsOf(ratio: RateRatio | null) {
  return ratio?.ratio == null ? null : { value: ratio.ratio, low: ratio.lower, high: ratio.upper }
}

function perThousand(onsets: number, days: number) {
  const rate = exactRate(onsets, days)
  return rate && { value: rate.rate * 1000, low: rate.lower * 1000, high: rate.upper * 1000 }
}

/** Each pest that came to an area after a quiet time, with what had been open there; the latest first. */
export function onsetTable(onsets: readonly PestOnset[]): Table {
  return {
    id: 'onsets',
    title: 'Pests that came after a quiet time, those with a condition open there before first',
    columns: [
      { id: 'site', title: 'site' },
      { id: 'area', title: 'area' },
      { id: 'pest', title: 'pest' },
      { id: 'day', title: 'found' },
      { id: 'quiet-days', title: 'quiet', unit: 'days', decimals: 0 },
      { id: 'before', title: 'open before' },
      { id: 'gives', title: 'what it gives', ...work },
      { id: 'conditions', title: 'conditions', ...work },
    ],
    shownToPeople: 10,
    rows: [...onsets]
      .sort(
        (a, b) =>
          Number(b.before.length > 0) - Number(a.before.length > 0) ||
          b.day - a.day ||
          compareText(a.site, b.site) ||
          compareText(a.area, b.area) ||
          compareText(a.pest, b.pest),
      )
      .map(onsetRow),
    empty: 'No pest came to an area after a quiet time in this period.',
  }
}

function onsetRow(onset: PestOnset): Row {
  const { site, area, pest, day, quietSince, before } = onset
  const each = (words: readonly string[]) => [...new Set(words)].join('; ')
  return {
    cells: {
      site,
      area,
      pest: pestName(pest),
      day: isoOf(day),
      'quiet-days': day - quietSince,
      before: before.length === 0 ? 'none' : each(before.map(({ what }) => what)),
      gives: each(before.flatMap(({ gives }) => (gives === undefined ? [] : [needWords[gives]]))),
      conditions: each(before.map(({ condition }) => condition)),
    },
    records: [...new Set(filesBehind(onset))].sort(compareText),
  }
}
