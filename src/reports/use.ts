import type { Source } from '../files/source.js'
import { readLedger } from '../ledger/read-ledger.js'
import { dayIn } from '../ledger/spans.js'
import type { Treatment } from '../ledger/treatments.js'
import { isoOf } from '../measure/calendar.js'
import type { Report } from '../types.js'
import { notExaminedOf } from './not-examined.js'
import type { ReportOptions } from './options.js'
import type { Period } from './period.js'
import { cutCautions, periodOf } from './period.js'
import { pestName } from './pest-name.js'
import type { SiteFacts, Use } from './use-collect.js'
import { factsOf, usesOf } from './use-collect.js'
import type { Covered } from './use-over-time.js'
import { comparisonTable, coveredBy, overTimeTable } from './use-over-time.js'
import { perAreaTable, siteTable } from './use-per-area.js'
import { periodBefore } from './use-periods.js'
import { usePlot } from './use-plot.js'
import { stateFormTable } from './use-state-form.js'
import {
  hazardTable,
  ingredientTable,
  methodTable,
  pestUseTable,
  productTable,
  strongestHazard,
} from './use-tables.js'

/**
 * Which pesticides were put to use in a period (the twelve months to the as-of day if not said), how much, on what and
 * how; held against the period before; and the rows that a yearly form of a state asks for.
 */
export function useReport(source: Source, options: ReportOptions): Report {
  const period = periodOf(options)
  const before = periodBefore(period)
  const sites: SiteFacts[] = []
  const uses: Use[] = []
  const usesBefore: Use[] = []
  const unknown: Treatment[] = []
  const read = readLedger(source, options, (view) => {
    if (options.site !== undefined && options.site !== view.id) return
    sites.push(factsOf(view, period))
    const found = usesOf(view, period, options.pest)
    uses.push(...found.uses)
    unknown.push(...found.ofUnknownProducts)
    usesBefore.push(...usesOf(view, before, options.pest).uses)
  })
  const byDay = [...uses].sort((a, b) => a.day - b.day)
  const begins = sites.map((site) => site.begins)
  const covered = coveredBy(begins, period)
  const coveredBefore = coveredBy(begins, before)
  const wasExamined = sites.length > 0
  // What cannot be read at another site does not touch what is said of the one asked for.
  const isPartial =
    unknown.length > 0 ||
    read.notChecked.some(({ what }) => options.site === undefined || !what.startsWith('sites/'))
  const schoolYears = read.district?.district.data.calendar.map(({ from }) => dayIn(from)) ?? []
  const empty = wasExamined ? 'None recorded in this period.' : 'Not examined.'
  const plot = usePlot(byDay, period, schoolYears, begins)
  const tables = [
    productTable(byDay),
    ingredientTable(byDay),
    pestUseTable(byDay),
    methodTable(byDay),
    hazardTable(byDay),
    siteTable(sites, byDay),
    perAreaTable(sites, byDay),
    overTimeTable(byDay, period, schoolYears, begins, empty),
    comparisonTable(
      wasExamined
        ? [
            { name: 'this period', period, covered, uses: byDay },
            { name: 'before', period: before, covered: coveredBefore, uses: usesBefore },
          ]
        : [],
    ),
    stateFormTable(read.district, sites, byDay),
  ]
  return {
    report: 'use',
    title: 'Which pesticides were used?',
    headline: wasExamined
      ? headlineOf(byDay, covered, scopeOf(options), beforeInWords(usesBefore, coveredBefore), isPartial)
      : options.site === undefined
        ? 'No site could be examined.'
        : 'This site could not be examined.',
    asOf: isoOf(options.asOf),
    period: { from: isoOf(period.from), to: isoOf(period.to) },
    facts: [
      ...(options.site === undefined ? [] : [{ label: 'only site', value: options.site }]),
      ...(options.pest === undefined ? [] : [{ label: 'only against', value: options.pest }]),
    ],
    tables: wasExamined ? tables : tables.map((table) => ({ ...table, empty: 'Not examined.' })),
    ...(plot ? { plots: [plot] } : {}),
    cautions: cautionsOf(byDay, { sites, period, before, coveredBefore }).concat(cutCautions(options)),
    notExamined: [...notExaminedOf(read), ...unknownLines(unknown)],
    incomplete: read.notChecked.length > 0 || unknown.length > 0,
  }
}

const timesOf = (count: number) => (count === 1 ? 'once' : count === 2 ? 'twice' : `${count} times`)

/** `applied 3 times and bait put into devices twice`, without the half that did not happen. */
function doneIn(uses: readonly Use[]): string {
  const applied = uses.filter(({ how }) => how === 'application').length
  const baited = uses.length - applied
  return [
    ...(applied === 0 ? [] : [`applied ${timesOf(applied)}`]),
    ...(baited === 0 ? [] : [`put into devices as bait ${timesOf(baited)}`]),
  ].join(' and ')
}

/** What a filter leaves, so that a filtered page is never read as one of everything. */
function scopeOf({ pest, site }: ReportOptions): string {
  return `${pest === undefined ? '' : ` against ${pestName(pest)}`}${site === undefined ? '' : ` at ${site}`}`
}

function headlineOf(
  uses: readonly Use[],
  covered: Covered,
  scope: string,
  then: string,
  isPartial: boolean,
): string {
  const end = isPartial ? '; part of what was asked could not be examined.' : '.'
  if (uses.length === 0) {
    if (covered === 'not at all') return 'The records begin after this period, so nothing can be said of it.'
    const reach = covered === 'whole' ? '' : ', which the records cover only in part'
    return `No use of a pesticide${scope} is recorded in this period${reach}; ${then}${end}`
  }
  const products = new Set(uses.map(({ product }) => product.id)).size
  const missing = uses.filter(({ isWhole }) => !isWhole).length
  const amounts = missing === 0 ? '' : `, ${missing} of ${uses.length} without amount`
  return `${products === 1 ? 'One pesticide was' : `${products} pesticides were`} ${doneIn(uses)}${scope}${amounts}; ${hazardInWords(uses)}; ${then}${end}`
}

function hazardInWords(uses: readonly Use[]): string {
  const { word, notRecorded } = strongestHazard(uses)
  if (word === undefined || (word === 'none' && notRecorded > 0)) return 'no signal word is in the register'
  if (word === 'none') return 'no signal word is printed on the label'
  const where = notRecorded === 0 ? '' : ' in the register'
  return `the strongest signal word${where} is ${word.toUpperCase()}`
}

function beforeInWords(uses: readonly Use[], covered: Covered): string {
  const what = uses.length === 0 ? 'nothing is recorded' : `pesticides were ${doneIn(uses)}`
  if (covered === 'whole') return `in the period before, ${what}`
  if (covered === 'in part') return `in the period before, which the records cover only in part, ${what}`
  return 'the period before is not in the records'
}

function cautionsOf(
  uses: readonly Use[],
  about: {
    readonly sites: readonly SiteFacts[]
    readonly period: Period
    readonly before: Period
    readonly coveredBefore: Covered
  },
): string[] {
  const several = uses.some(({ pests }) => pests.length > 1)
  const notTold = uses.some(({ isWhole }) => !isWhole)
  return [
    'Amounts are of undiluted product as recorded; what was not written down is not here. Planned and cancelled applications are not counted, and neither are lures, living agents and other materials that are not pesticides.',
    'Fewer applications are not by themselves better, nor are smaller amounts: products differ in strength and hazard, and pests left alone do harm too.',
    'Weight and volume are added only within one product, by its density; pieces count by weight where the register tells what one weighs, and else apart, each kind by itself. Amounts of different products are added as amounts, not as hazards.',
    'Active ingredient is by the strength in the register; a percentage is read as one of weight (40 CFR 156.10(g), from memory). A figure such as 3 of 5 says how many uses tell it; the table of active ingredients says why not the others.',
    'Per 1,000 ft2 both halves are of areas whose extent is recorded; a use in another area, or without an amount for the area, is left out and counted.',
    'What a state asks for, and in which form, is for the state to say: the last table is a help in filling it in. Licence numbers are those in force on the day.',
    ...(notTold
      ? [
          'A use counts as without amount where no amount of the whole is recorded, and not every area has one; what is recorded of it is added up.',
        ]
      : []),
    ...(several
      ? ['A use against several pests stands in the row of each, so those rows do not add up.']
      : []),
    ...lateLines(about.sites, about.period, 'this period', 'what was used there earlier is not in them'),
    ...(about.coveredBefore === 'in part'
      ? lateLines(about.sites, about.before, 'the period before', 'the two do not compare alike')
      : []),
  ]
}

/** Sites whose records begin after the first day of a period. */
function lateLines(sites: readonly SiteFacts[], { from }: Period, when: string, so: string): string[] {
  const late = sites.filter(({ begins }) => begins > from)
  const first = late[0]
  if (!first) return []
  if (late.length === 1)
    return [`The records of ${first.id} begin on ${isoOf(first.begins)}, after the start of ${when}; ${so}.`]
  const which = late.length <= 3 ? late.map(({ id }) => id).join(', ') : `${late.length} sites`
  return [`The records of ${which} begin after the start of ${when}; ${so}.`]
}

/** Uses of products that the register does not have: they may be of pesticides, and nobody can tell. */
function unknownLines(unknown: readonly Treatment[]): string[] {
  const counts = new Map<string, number>()
  for (const { productId } of unknown) counts.set(productId, (counts.get(productId) ?? 0) + 1)
  return [...counts]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(
      ([product, count]) =>
        `${product}: used ${timesOf(count)}; no record in the register that can be used, so it is not told whether it is a pesticide.`,
    )
}
