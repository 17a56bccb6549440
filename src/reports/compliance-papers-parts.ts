import type { DistrictView } from '../ledger/district-view.js'
import { labelOn } from '../ledger/labels.js'
import type { Loaded } from '../ledger/loaded.js'
import type { DatedSpan } from '../ledger/spans.js'
import { dayIn, holdsOn } from '../ledger/spans.js'
import { isPesticideKind } from '../ledger/treatments.js'
import { isoOf } from '../measure/calendar.js'
import { isUnregisteredWithNumber } from '../rules/products/minimum-risk-with-registration.js'
import { registrationsIn } from '../rules/products/not-registered-in-state.js'
import { askedUnder } from '../rules/products/papers-at-hand.js'
import { lacksRegistration } from '../rules/products/pesticide-without-registration.js'
import { labelParameter, labelsAsked } from '../rules/products/product-without-label.js'
import { sheetParameter, sheetsAsked } from '../rules/products/product-without-sds.js'
import { otherNumber } from '../rules/products/registration-number-is-none.js'
import { firstDayTooOld } from '../rules/products/sds-old.js'
import { headingsMissing } from '../rules/products/sheet-headings.js'
import type { SheetInForce } from '../rules/products/sheets-in-force.js'
import { sheetsInForce } from '../rules/products/sheets-in-force.js'
import { isForAnotherState } from '../rules/products/special-local-need-elsewhere.js'
import type { Day } from '../types.js'
import type { StateAsked } from './compliance-papers-collect.js'
import type { Outcome } from './outcomes.js'
import { counted, daysInWords, listInWords, worstOf } from './outcomes.js'
import type { Paper } from './product-papers.js'
import { labelOf, sheetOf } from './product-papers.js'

/** A product over a period, its uses at all sites taken together. */
export interface ProductInPeriod {
  readonly product: Loaded<'product'>
  readonly district: DistrictView
  readonly from: Day
  readonly to: Day
  /** Days of use. */
  readonly days: readonly Day[]
  /** Days on which its papers are looked at: those of use, or the last of the period for what is only kept. */
  readonly judgedOn: readonly Day[]
  readonly cancelledDays: readonly Day[]
  readonly states: readonly StateAsked[]
}

/** One thing that a label, a sheet or a registration is asked for. */
export interface Part {
  readonly id: string
  readonly outcome: Outcome
  /** '' where there is nothing to tell. */
  readonly says: string
  /** What asked for it. */
  readonly clauses?: readonly string[]
}

export function labelParts(about: ProductInPeriod): Part[] {
  const { product, district, judgedOn } = about
  const { labels, kind } = product.data
  const papers = judgedOn.flatMap((day) => papersOn(labels, day, labelOf(district, product, day)))
  const inData = judgedOn.filter((day) => (labels ?? []).some((label) => holdsOn(label, day)))
  const lacking = inData.filter((day) => labelOn(product, day) === undefined)
  return [
    inForcePart(
      about,
      'label',
      labels ?? [],
      labelParameter,
      (day) => labelsAsked(product) !== undefined || labelOf(district, product, day).wrong !== undefined,
    ),
    filePart(papers),
    !isPesticideKind(kind) || inData.length === 0
      ? { id: 'in-data', outcome: 'not applicable', says: '' }
      : lacking.length > 0
        ? {
            id: 'in-data',
            outcome: 'cannot be checked',
            says: 'what the label says is not entered (`says`), so no use was held against it',
          }
        : { id: 'in-data', outcome: 'shown', says: 'its facts are in data' },
  ]
}

export function sheetParts(about: ProductInPeriod): Part[] {
  const { product, district, judgedOn, from, to } = about
  const sheets = product.data.sds ?? []
  const papers = judgedOn.flatMap((day) => papersOn(sheets, day, sheetOf(district, product, day)))
  const inPeriod = sheetsInForce(sheets).filter(
    (sheet) =>
      sheet.from <= to && (sheet.until === undefined || sheet.until > Math.max(from, district.recordsBegin)),
  )
  return [
    inForcePart(
      about,
      'sheet',
      sheets,
      sheetParameter,
      (day) => sheetsAsked(product) !== undefined || sheetOf(district, product, day).wrong !== undefined,
    ),
    filePart(papers),
    agePart(about, inPeriod),
    headingsPart(inPeriod),
  ]
}

/** A label or sheet that was in force on the day, with what the disk has of it. */
function papersOn(spans: readonly DatedSpan[] | undefined, day: Day, paper: Paper): Paper[] {
  return (spans ?? []).some((span) => holdsOn(span, day)) ? [paper] : []
}

function inForcePart(
  { district, judgedOn, days }: ProductInPeriod,
  what: string,
  spans: readonly DatedSpan[],
  parameter: string,
  /** Whether a product of this kind is asked for one. */
  isAskedOfKind: (day: Day) => boolean,
): Part {
  const without = judgedOn.filter((day) => !spans.some((span) => holdsOn(span, day)))
  const sourcesOn = (day: Day) => (isAskedOfKind(day) ? askedUnder(district, parameter, day) : [])
  const missing = without.filter((day) => sourcesOn(day).length > 0)
  const clauses = [...new Set(judgedOn.flatMap((day) => sourcesOn(day).map(({ text }) => text)))]
  const on = days.length > 0 ? '' : ' (kept, not used)'
  if (missing.length > 0)
    return {
      id: 'in-force',
      outcome: 'not shown',
      says: `no ${what} in force on ${daysInWords(missing)}${on}`,
      clauses,
    }
  if (without.length < judgedOn.length)
    return {
      id: 'in-force',
      outcome: 'shown',
      says:
        days.length > 0
          ? `in force on ${counted(judgedOn.length - without.length, 'day')} of use`
          : `in force on ${isoOf(judgedOn[0] ?? 0)}${on}`,
      clauses,
    }
  return { id: 'in-force', outcome: 'not applicable', says: 'none recorded, and none is asked for' }
}

/** Whether the files are there, and those that were recorded. */
function filePart(papers: readonly Paper[]): Part {
  if (papers.length === 0) return { id: 'file', outcome: 'not applicable', says: '' }
  const names = (some: readonly Paper[]) =>
    listInWords([...new Set(some.map(({ file }) => file ?? ''))], 'files')
  const absent = papers.filter(({ present }) => present === 'no')
  const changed = papers.filter(({ intact }) => intact === 'no')
  const unread = papers.filter(({ present }) => present === 'could not be read')
  const unproven = papers.filter(({ intact }) => intact === 'not stated')
  if (absent.length + changed.length > 0)
    return {
      id: 'file',
      outcome: 'not shown',
      says: [
        ...(absent.length > 0 ? [`not in the ledger: ${names(absent)}`] : []),
        ...(changed.length > 0 ? [`not the file that was recorded: ${names(changed)}`] : []),
      ].join('; '),
    }
  if (unread.length > 0)
    return { id: 'file', outcome: 'cannot be checked', says: `could not be read: ${names(unread)}` }
  return {
    id: 'file',
    outcome: 'shown',
    says: `${unproven.length > 0 ? 'there, no SHA-256 recorded' : 'there and unchanged'}: ${names(papers)}`,
  }
}

function agePart({ district, from, to }: ProductInPeriod, sheets: readonly SheetInForce[]): Part {
  const parts = sheets.map((force): Part => {
    const { sheet } = force
    const first = Math.max(force.from, from, district.recordsBegin)
    const last = Math.min(to, (force.until ?? Number.POSITIVE_INFINITY) - 1)
    const asked = district.parameters('sds.age', last)
    const clauses = (asked?.sources ?? []).map(({ text }) => text)
    if (!asked) return { id: 'age', outcome: 'not applicable', says: 'no rulebook asks how old a sheet is' }
    if (sheet.revised === undefined)
      return { id: 'age', outcome: 'cannot be checked', says: 'its age: `revised` is absent', clauses }
    const old = firstDayTooOld(district, dayIn(sheet.revised), { from: first, until: last + 1 })
    return old
      ? {
          id: 'age',
          outcome: 'not shown',
          says: `revised ${sheet.revised}, more than ${old.asked.value} old on ${isoOf(old.day)}`,
          clauses,
        }
      : { id: 'age', outcome: 'shown', says: `revised ${sheet.revised}, within ${asked.value}`, clauses }
  })
  return together('age', parts)
}

function headingsPart(sheets: readonly SheetInForce[]): Part {
  const parts = sheets.map(({ sheet }): Part => {
    const id = 'sections'
    if (!sheet.sections)
      return { id, outcome: 'cannot be checked', says: 'its sixteen headings: `sections` is absent' }
    const missing = headingsMissing(sheet.sections)
    return missing.length > 0
      ? { id, outcome: 'not shown', says: `recorded without ${listInWords(missing, 'headings')}` }
      : { id, outcome: 'shown', says: 'sixteen headings' }
  })
  return together('sections', parts)
}

/** The worst of what several sheets say, in their words. */
function together(id: string, parts: readonly Part[]): Part {
  const outcome = worstOf(parts.map((part) => part.outcome))
  const worst = parts.filter((part) => part.outcome === outcome)
  return {
    id,
    outcome,
    says: [...new Set(worst.map(({ says }) => says))].join('; '),
    clauses: worst.flatMap(({ clauses }) => clauses ?? []),
  }
}

export function registrationParts({
  product,
  district,
  days,
  cancelledDays,
  states,
}: ProductInPeriod): Part[] {
  const { data } = product
  return [
    numberPart(product),
    statePart(product, states),
    data['special-local-need'] === undefined
      ? { id: 'special-local-need', outcome: 'not applicable', says: '' }
      : isForAnotherState(data, district.district.data.state ?? '')
        ? {
            id: 'special-local-need',
            outcome: 'not shown',
            says: `${data['special-local-need']} is good in ${data['special-local-need'].slice(0, 2)} only, and that is not shown to be here`,
          }
        : { id: 'special-local-need', outcome: 'shown', says: `under ${data['special-local-need']}` },
    !data.cancelled
      ? { id: 'cancellation', outcome: 'not applicable', says: '' }
      : cancelledDays.length > 0
        ? {
            id: 'cancellation',
            outcome: 'not shown',
            says: `registration ended on ${data.cancelled.on}, used after that, or after the last day for using it up, on ${daysInWords(cancelledDays)}`,
          }
        : {
            id: 'cancellation',
            outcome: days.length > 0 ? 'shown' : 'not applicable',
            says: `registration ended on ${data.cancelled.on}, no use after the last day for it`,
          },
  ]
}

function numberPart({ data }: Loaded<'product'>): Part {
  const id = 'number'
  const { registration, kind } = data
  if (otherNumber(data) !== undefined)
    return { id, outcome: 'not shown', says: `${registration ?? ''} is no registration number` }
  if (isUnregisteredWithNumber(data))
    return { id, outcome: 'not shown', says: `a ${kind} with the registration number ${registration ?? ''}` }
  if (lacksRegistration(data)) return { id, outcome: 'not shown', says: 'no registration number recorded' }
  if (registration !== undefined) return { id, outcome: 'shown', says: `EPA number ${registration}` }
  const why: Readonly<Record<string, string>> = {
    'minimum-risk': 'minimum risk, exempt from registration (40 CFR 152.25(f), from memory)',
    device: 'a device, which is not registered (40 CFR 152.500, from memory)',
    'living-agent': 'a living agent, which is not registered (40 CFR 152.20(a), from memory)',
  }
  return { id, outcome: 'not applicable', says: why[kind] ?? 'no pesticide, none is asked for' }
}

function statePart(product: Loaded<'product'>, states: readonly StateAsked[]): Part {
  const id = 'state'
  const clauses = [...new Set(states.map(({ clause }) => clause))]
  const spansOf = (state: string) => registrationsIn(state, product)
  const judged = states.filter(({ state }) => spansOf(state) !== undefined)
  if (judged.length === 0) return { id, outcome: 'not applicable', says: '' }
  const missing = judged.filter(({ day, state }) => !spansOf(state)?.some((span) => holdsOn(span, day)))
  const where = (some: readonly StateAsked[]) =>
    [...new Set(some.map(({ state }) => state || 'any state'))].join(', ')
  return missing.length > 0
    ? {
        id,
        outcome: 'not shown',
        says: `not shown registered in ${where(missing)} on ${daysInWords(missing.map(({ day }) => day))}`,
        clauses,
      }
    : { id, outcome: 'shown', says: `registered in ${where(judged)}`, clauses }
}
