import type { Source } from '../../files/source.js'
import { isoOf } from '../../measure/calendar.js'
import type { Report } from '../../types.js'
import type { ReportOptions } from '../options.js'
import { counted } from '../outcomes.js'
import { cutCautions } from '../period.js'
import { channels } from './channels.js'
import { contractKept } from './contract-kept.js'
import { duties } from './duties.js'
import { education } from './education.js'
import type { YearFacts } from './facts.js'
import { districtFacts, yearFacts } from './facts.js'
import { fixed } from './fixed.js'
import { floorPlan } from './floor-plan.js'
import { lastDecisions } from './last-review.js'
import { monitors } from './monitors.js'
import { overlooked } from './overlooked.js'
import type { Part } from './private.js'
import { leftOutWords, parts } from './private.js'
import type { Answer, Improvement, Review } from './review.js'
import type { ReviewYear } from './review-year.js'
import { reviewYear } from './review-year.js'
import { sanitation } from './sanitation.js'
import { blankOf, thisReview } from './this-review.js'
import { treatments } from './treatments.js'
import { pesticideUse } from './use.js'
import { reportsOfYear } from './year-reports.js'

export interface ReviewOptions extends Pick<ReportOptions, 'asOf' | 'asOfIsToday' | 'site'> {
  /** A school year (`2025-2026`) or a calendar year (`2026`). */
  readonly year: string
  readonly withParts: ReadonlySet<Part>
  /** What ties the page to the records: a commit, or that there is none. */
  readonly revision: string
}

/** More than this is no short list. */
const mostPoints = 10

/** In the order in which a meeting takes them. */
const questions: readonly ((facts: YearFacts) => Answer)[] = [
  lastDecisions,
  overlooked,
  treatments,
  sanitation,
  fixed,
  monitors,
  channels,
  education,
  pesticideUse,
  duties,
  contractKept,
]

/**
 * The packet for the yearly meeting: its questions, each answered from the records of one year by the report that tells
 * it, what can be better drawn from the answers, and lines for what is decided. Refused is a year that is none, or that
 * has not begun by the as-of day.
 */
export function makeReview(source: Source, options: ReviewOptions): Review | { readonly refused: string } {
  const district = districtFacts(source, options)
  if (!district)
    return {
      refused:
        'district.yaml is missing or cannot be used, so there is nothing to review. `doorsweep check` says what to mend.',
    }
  const year = reviewYear(district.view, options.year)
  if ('refused' in year) return year
  if (year.from > options.asOf)
    return {
      refused: `${year.name} begins on ${isoOf(year.from)}, after the as-of day; nothing is known of it. Name a later day with --as-of.`,
    }
  const { asOf, asOfIsToday, site } = options
  const asked: ReportOptions = {
    asOf,
    asOfIsToday,
    from: year.from,
    to: year.to,
    ...(site === undefined ? {} : { site }),
  }
  const facts = yearFacts(district, {
    reports: reportsOfYear(source, asked, options.revision),
    year,
    options: asked,
    withParts: options.withParts,
  })
  const none = withoutData(facts)
  const plan = none === undefined ? floorPlan(source, facts) : undefined
  const answers =
    none === undefined
      ? [...questions.map((answer) => answer(facts)), ...(plan ? [plan.answer] : []), ...thisReview(facts)]
      : []
  const points = pointsOf(answers)
  const reports = Object.values(facts.reports)
  return {
    title: titleOf(facts),
    headline: none ?? headlineOf(points),
    asOf: isoOf(asOf),
    year: year.name,
    period: { from: isoOf(year.from), to: isoOf(year.to) },
    facts: [
      { label: 'district', value: facts.view.district.data.name },
      ...(site === undefined ? [] : [{ label: 'only site', value: siteName(facts, site) }]),
      { label: 'records', value: `as of ${isoOf(asOf)}, ${options.revision}` },
    ],
    improve: points.slice(0, mostPoints),
    morePoints: Math.max(0, points.length - mostPoints),
    answers,
    blank: blankOf(facts),
    ...(plan?.map === undefined ? {} : { map: plan.map }),
    leftOut: parts
      .filter((part) => !options.withParts.has(part))
      .map((part) => ({ part, says: leftOutWords[part] })),
    cautions: cautionsOf(facts, year),
    notExamined: notExaminedOf(reports).map((line) => facts.shown(line)),
    incomplete: reports.some(({ incomplete }) => incomplete),
  }
}

function titleOf({ view, year, options, ...facts }: YearFacts): string {
  const where =
    options.site === undefined
      ? view.district.data.name
      : siteName({ ...facts, view, year, options }, options.site)
  return `Review of the ${year.kind} year ${year.name}, ${where}`
}

function siteName({ sites }: YearFacts, id: string): string {
  return sites.find((site) => site.id === id)?.data.name ?? id
}

/** What to say of a year that lies before the records, of the district or of the site asked for. */
function withoutData({ view, sites, year, options }: YearFacts): string | undefined {
  const from = sites.find(({ id }) => id === options.site)?.data.from
  const begins = [isoOf(view.recordsBegin), ...(from === undefined ? [] : [from])].sort().at(-1) ?? ''
  return isoOf(Math.min(year.to, options.asOf)) < begins
    ? `The records begin on ${begins}, after the ${year.kind} year ${year.name}, so nothing can be said of it.`
    : undefined
}

/** What is asked by law or was promised first, then in the order of the questions. */
function pointsOf(answers: readonly Answer[]): Improvement[] {
  return answers
    .flatMap(({ id, question, points }) => points.map((point) => ({ ...point, from: { id, question } })))
    .sort((a, b) => a.rank - b.rank)
}

function headlineOf(points: readonly Improvement[]): string {
  const [first] = points
  if (!first)
    return 'By these records nothing stands out that could be better; what nobody wrote down is not in them.'
  return `${counted(points.length, 'point', 'points')} for next year, first of all: ${first.says}.`
}

function cautionsOf(facts: YearFacts, year: ReviewYear): Review['cautions'] {
  const { reports, options, view } = facts
  const begins =
    view.recordsBegin > year.from
      ? [
          `The records begin on ${isoOf(view.recordsBegin)}, after the start of the year; what happened earlier is not in them.`,
        ]
      : []
  const general = [
    ...cutCautions(options),
    ...begins,
    'The page states what the records show and do not show. It accuses no one and permits nothing: the label, local code and a licensed applicator decide on any treatment.',
  ]
  const said = new Set(general)
  return [
    { about: 'this page', says: general },
    ...Object.values(reports).map(({ title, cautions }) => ({
      about: title,
      says: cautions
        .filter((caution) => !said.has(caution) && !ofOtherTables.some((start) => caution.startsWith(start)))
        .map((caution) => facts.shown(caution)),
    })),
  ]
}

const datedLater = /dated after the as-of day (?:was|were) not looked at\.$/
const notCovered = 'not covered by the rulebook '

/** What no report looked at, each once. What rulebooks do not cover is counted: a list for the auditor, not for a meeting. */
function notExaminedOf(reports: readonly Report[]): string[] {
  const all = [...new Set(reports.flatMap(({ notExamined }) => notExamined))]
  // Of one site there are fewer than of all: the first report read them all.
  const later = all.find((line) => datedLater.test(line))
  const lines = all.filter((line) => line === later || !datedLater.test(line))
  const left = lines.filter((line) => line.startsWith(notCovered)).length
  return [
    ...lines.filter((line) => !line.startsWith(notCovered)),
    ...(left === 0
      ? []
      : [
          `${counted(left, 'matter')} that the rulebooks in force say they do not cover: \`doorsweep report compliance\` lists them.`,
        ]),
  ]
}

/** How cautions begin that are about tables of the reports which this page does not show. */
export const ofOtherTables: readonly string[] = [
  'For the coordinator: ',
  'Per 1,000 ft2 ',
  'What a state asks for',
  'Rows `beside the duties`',
  'Bait of one product put into devices',
  'Follow the label: ',
  'A registration is shown',
  'No rulebook of the program holds a duty of its own on storage',
  'Only what the ledger holds now',
  'Where a duty counts from a later day',
  'An exception never excuses law',
  'The record of an exception',
]
