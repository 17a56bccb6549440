import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { catchSeriesOf } from '../../../src/ledger/catch-series.js'
import { readLedger } from '../../../src/ledger/read-ledger.js'
import { isoOf } from '../../../src/measure/calendar.js'
import { normalCriticalValue } from '../../../src/measure/special-functions.js'
import { reportJson } from '../../../src/output/report-json.js'
import { complaintsReport } from '../../../src/reports/complaints.js'
import { conditionsReport } from '../../../src/reports/conditions.js'
import { gapsReport } from '../../../src/reports/gaps.js'
import { pestName } from '../../../src/reports/pest-name.js'
import { trendReport } from '../../../src/reports/trend.js'
import { useReport } from '../../../src/reports/use.js'
import type { Report } from '../../../src/types.js'
import { newFolder } from '../../cli/run-doorsweep.js'
import { asOf, demoSource, exported } from './demo-export.js'
import type { Answer, Duck } from './duck.js'
import { duckOver, hasDuck, queryText } from './duck.js'

const districts = 50

type Tables = Record<string, Answer[]>

interface Told {
  readonly use: Tables
  readonly conditions: Tables
  readonly complaints: Tables
  readonly trend: Tables
  readonly gaps: Tables
  /** German cockroaches caught and trap-nights by month, the rank's ground. */
  readonly months: readonly (readonly [number, number])[]
}

/** Tables as any reader of the JSON of a report has them: numbers to twelve digits. */
function tablesOf(report: Report): Tables {
  const { tables } = JSON.parse(reportJson(report)) as { tables: { id: string; rows: Answer[] }[] }
  return Object.fromEntries(tables.map(({ id, rows }) => [id, rows]))
}

const twelve = (value: number) => Number(value.toPrecision(12))
const sum = (rows: readonly Answer[], column: string) =>
  rows.reduce((all, row) => all + Number(row[column] ?? 0), 0)
/** Adds up decimals with twelve places as whole numbers, so that no noise of adding doubles comes in. */
const exactSum = (rows: readonly Answer[], column: string): number | null => {
  const told = rows.flatMap((row) => (row[column] === null ? [] : [String(row[column])]))
  if (told.length === 0) return null
  const places = told.map((text) =>
    BigInt(`${text.split('.')[0]}${(text.split('.')[1] ?? '').padEnd(12, '0')}`),
  )
  return twelve(Number(places.reduce((all, one) => all + one, 0n)) / 1e12)
}

describe.skipIf(!hasDuck)('queries over fifty districts say what the reports of each say', () => {
  const told = new Map<string, Told>()
  let duck: Duck
  const ask = (name: string) => duck.ask(queryText(name))
  const each = (check: (district: string, reports: Told) => void) => {
    expect(told.size).toBe(districts)
    for (const [district, reports] of told) check(district, reports)
  }

  beforeAll(async () => {
    const folder = join(newFolder(), 'state')
    const options = { asOf, asOfIsToday: false }
    for (let seed = 1; seed <= districts; seed++) {
      const source = demoSource(seed)
      const district = `district-${seed}`
      const done = await exported(source, folder, { district })
      expect(done).toMatchObject({ district })
      const byMonth = new Map<string, [number, number]>()
      readLedger(source, options, (view) => {
        for (const { pest, observations } of catchSeriesOf(view, 0, asOf))
          for (const { day, count, trapNights } of pest === 'german-cockroach' ? observations : []) {
            const key = `${view.id} ${isoOf(day).slice(0, 7)}`
            const [caught, nights] = byMonth.get(key) ?? [0, 0]
            byMonth.set(key, [caught + count, nights + trapNights])
          }
      })
      told.set(district, {
        use: tablesOf(useReport(source, options)),
        conditions: tablesOf(conditionsReport(source, options)),
        complaints: tablesOf(complaintsReport(source, options)),
        trend: tablesOf(trendReport(source, options)),
        gaps: tablesOf(gapsReport(source, { ...options, to: asOf })),
        months: [...byMonth.values()],
      })
    }
    duck = await duckOver(folder, 'parquet')
  }, 120_000)

  afterAll(() => duck?.close())

  it('has every district once', async () => {
    const rows = await duck.ask(
      'SELECT district, sites_examined, sites_left_out FROM districts ORDER BY district',
    )
    expect(rows.map(({ district }) => district)).toEqual([...told.keys()].sort())
    expect(rows.every((row) => Number(row.sites_examined) + Number(row.sites_left_out) === 1)).toBe(true)
  })

  it('of pesticides by product', async () => {
    const rows = await ask('pesticide-use')
    let compared = 0
    each((district, { use }) => {
      const products = use.products ?? []
      const here = rows.filter((row) => row.district === district && row.is_pesticide === true)
      expect(new Set(here.map(({ product }) => product)).size).toBe(products.length)
      for (const row of products) {
        compared++
        const of = here.filter(({ product }) => product === row.folder)
        const weight = exactSum(of, 'weight_g')
        const asWeight = exactSum(of, 'volume_as_weight_g')
        // A volume is told as weight where something else of the product is weighed, and then not as volume.
        const isOne = weight !== null && asWeight !== null
        expect({
          product: row.product,
          applied: sum(of, 'applied'),
          bait: sum(of, 'bait_put_out'),
          without: sum(of, 'without_amount'),
          weight: isOne ? twelve(weight + asWeight) : weight,
          volume: isOne ? null : exactSum(of, 'volume_ml'),
        }).toEqual({
          product: of[0]?.name,
          applied: row.applications,
          bait: row.baits,
          without: row['without-amount'],
          weight: row.weight,
          volume: row.volume,
        })
      }
    })
    expect(compared).toBeGreaterThan(districts)
  })

  it('of active ingredients', async () => {
    const rows = await ask('active-ingredients')
    const names = await duck.ask('SELECT DISTINCT ingredient, name FROM ingredients')
    let compared = 0
    each((district, { use }) => {
      for (const row of use['active-ingredients'] ?? []) {
        const id = names.find(({ name }) => name === row.ingredient)?.ingredient
        if (id === undefined) continue
        compared++
        const of = rows.filter((one) => one.district === district && one.ingredient === id)
        expect([
          district,
          id,
          exactSum(of, 'active_g'),
          sum(of, 'uses'),
          sum(of, 'uses_not_wholly_told'),
        ]).toEqual([district, id, row.weight, row.uses, row['not-told']])
      }
    })
    expect(compared).toBeGreaterThan(districts)
  })

  it('of catches per trap-night, by pest and kind of area', async () => {
    const rows = await ask('catch-per-trap-night')
    const kinds = new Map(
      (await duck.ask('SELECT district, site, area, kind FROM areas')).map((row) => [
        `${row.district} ${row.site} ${row.area}`,
        String(row.kind),
      ]),
    )
    const reported = new Map<string, { caught: number; nights: number; sites: Set<string> }>()
    each((district, { trend }) => {
      for (const row of [...(trend.trend ?? []), ...(trend['none-caught'] ?? [])]) {
        const kind = kinds.get(`${district} ${row.site} ${row.area}`) ?? 'not known'
        const key = `${row.pest} ${kind}`
        const sums = reported.get(key) ?? { caught: 0, nights: 0, sites: new Set() }
        sums.caught += Number(row.caught ?? 0)
        sums.nights += Number(row['trap-nights'])
        sums.sites.add(`${district} ${row.site}`)
        reported.set(key, sums)
      }
    })
    expect(rows.length).toBe(reported.size)
    expect(sum(rows, 'caught')).toBeGreaterThan(1000)
    for (const row of rows) {
      const sums = reported.get(`${pestName(String(row.pest))} ${row.area_kind}`)
      expect([row.pest, row.area_kind, row.caught, row.trap_nights, row.sites]).toEqual([
        row.pest,
        row.area_kind,
        sums?.caught,
        sums?.nights,
        sums?.sites.size,
      ])
      const rate = Number(row.per_trap_night)
      expect(Math.abs(rate - (sums?.caught ?? 0) / (sums?.nights ?? 1))).toBeLessThan(1e-9)
      if (row.low !== null) expect(Number(row.low) < rate && rate < Number(row.high)).toBe(true)
    }
  })

  it('of conditions open for more than 30 days', async () => {
    const rows = await ask('conditions-open-long')
    let found = 0
    each((district, { conditions }) => {
      const open = (conditions.open ?? []).filter((row) => Number(row['open-days']) > 30)
      const of = rows.filter((row) => row.district === district)
      found += open.length
      expect(sum(of, 'open_conditions')).toBe(open.length)
      for (const row of of) {
        const same = open.filter((one) => one.kind === row.kind && one.owner === row.owner)
        expect([district, same.length, Math.max(...same.map((one) => Number(one['open-days'])))]).toEqual([
          district,
          row.open_conditions,
          row.longest_days,
        ])
        expect(same.filter((one) => Number(one['overdue-days']) > 0).length).toBe(row.overdue)
      }
    })
    expect(found).toBeGreaterThan(10)
  })

  it('of the times in which complaints are answered', async () => {
    const rows = await ask('complaint-answer-times')
    let found = 0
    each((district, { complaints }) => {
      const [row] = complaints.answered ?? []
      const of = rows.find((one) => one.district === district)
      expect(of === undefined).toBe(row === undefined)
      if (!row || !of) return
      found++
      expect([of.received, of.answered, of.withdrawn, of.waiting, of.overdue, of.judged]).toEqual([
        row.received,
        row.answered,
        row.withdrawn,
        row.open,
        row.overdue,
        row['in-time-of'],
      ])
      expect([district, of.half_within_days]).toEqual([district, row.days])
      for (const [mine, theirs] of [
        [of.in_time_share, row['in-time']],
        [of.in_time_low, row['in-time-low']],
        [of.in_time_high, row['in-time-high']],
      ]) {
        expect(mine === null).toBe(theirs === null)
        expect(Math.abs(Number(mine) * 100 - Number(theirs))).toBeLessThan(1e-9 * 100)
      }
    })
    expect(found).toBeGreaterThan(10)
  })

  it('of routine visits that are not on record', async () => {
    const rows = await ask('visits-missed')
    let found = 0
    each((district, { gaps }) => {
      const missed = (gaps.gaps ?? []).filter(({ rule }) => rule === 'visit-overdue')
      const of = rows.find((row) => row.district === district)
      found += missed.length
      expect([district, of?.missed, of?.still_missing]).toEqual([
        district,
        missed.length,
        missed.filter(({ ended }) => ended === null).length,
      ])
    })
    expect(found).toBeGreaterThan(10)
  })

  it('of sites without an application', async () => {
    const rows = await ask('sites-without-application')
    let without = 0
    each((district, { use }) => {
      const sites = use.sites ?? []
      const none = sites.filter((row) => row.applications === 0 && row.baits === 0).length
      const of = rows.find((row) => row.district === district)
      without += none
      expect([district, of?.sites ?? 0, of?.sites_without ?? 0]).toEqual([district, sites.length, none])
      if (of) expect(Math.abs(Number(of.share_without) - none / sites.length)).toBeLessThan(1e-9)
    })
    expect(without).toBeLessThan(districts)
  })

  it('of ranks, and leaves open what cannot be told apart', async () => {
    const rows = await ask('rank-of-districts')
    // What a board that was set and read on one day holds is of another month here and there; there is none in these.
    const z = normalCriticalValue(1 - 0.05 / rows.length)
    expect(rows.length).toBeGreaterThan(40)
    for (const row of rows) {
      const months = told.get(String(row.district))?.months ?? []
      const caught = months.reduce((all, [count]) => all + count, 0)
      const nights = months.reduce((all, [, of]) => all + of, 0)
      expect([row.district, row.caught, row.trap_nights]).toEqual([row.district, caught, nights])
      expect(Math.abs(Number(row.per_trap_night) - caught / nights)).toBeLessThan(1e-9)
      if (caught === 0 || months.length < 6) {
        expect(row.low).toBe(0)
        continue
      }
      const squares = months.reduce((all, [count, of]) => all + (count - (caught / nights) * of) ** 2, 0)
      const error = Math.sqrt((months.length / (months.length - 1)) * squares) / caught
      const [low, high] = [(caught / nights) * Math.exp(-z * error), (caught / nights) * Math.exp(z * error)]
      // The quantile of the query is good to 0.00045.
      expect(Math.abs(Number(row.low) / low - 1)).toBeLessThan(0.001 * Math.max(1, error))
      expect(Math.abs(Number(row.high) / high - 1)).toBeLessThan(0.001 * Math.max(1, error))
    }
    for (const row of rows) {
      const below = rows.filter((other) => other.high !== null && Number(other.high) < Number(row.low)).length
      const above = rows.filter((other) => row.high !== null && Number(other.low) > Number(row.high)).length
      expect([row.best_rank, row.worst_rank]).toEqual([1 + below, rows.length - above])
    }
    // A school a year is not enough to tell districts apart, and none is said to be best or worst.
    expect(rows.filter((row) => row.best_rank === row.worst_rank)).toEqual([])
  })

  it('of ranks, and tells apart what the catches do', async () => {
    // Twelve months of 100 trap-nights; low and high take turns, 2 or 4 of a hundred in one, 40 or 80 in the others. The
    // last caught nothing in one night, which rules out nothing.
    await duck.ask(`CREATE OR REPLACE VIEW catches AS
      SELECT d.district, 'a' AS site, 'a' AS area, 'german-cockroach' AS pest, true AS in_rates,
        DATE '2025-01-15' + INTERVAL (n) MONTH AS day, d.size * (1 + n % 2) AS caught, 100 AS trap_nights
      FROM (VALUES ('low', 2), ('high', 40), ('high-too', 40)) d(district, size), range(12) r(n)
      UNION ALL SELECT 'unseen', 'a', 'a', 'german-cockroach', true, DATE '2025-01-15', 0, 1
      UNION ALL SELECT 'low', 'a', 'a', 'house-mouse', true, DATE '2025-01-15', 999, 1
      UNION ALL SELECT 'low', 'a', 'a', 'german-cockroach', false, DATE '2025-01-15', 999, NULL`)
    const ranks = (await ask('rank-of-districts')).map((row) => [
      row.district,
      row.caught,
      row.trap_nights,
      row.best_rank,
      row.worst_rank,
    ])
    expect(ranks).toEqual([
      ['unseen', 0, 1, 1, 4],
      // Nothing is surely below it, and two surely above.
      ['low', 36, 1200, 1, 2],
      ['high', 720, 1200, 2, 4],
      ['high-too', 720, 1200, 2, 4],
    ])
  })
})
