import type { SiteView } from '../ledger/site-view.js'
import { dayIn, inForce } from '../ledger/spans.js'
import type { Treatment } from '../ledger/treatments.js'
import { isoOf } from '../measure/calendar.js'
import { clockTimeOf, timeZone } from '../measure/zone.js'
import type { NoticeContent } from '../records/use-words.js'
import type { Day } from '../types.js'
import { areaName } from './area-name.js'
import { earliestReentry } from './precheck-moments.js'

/** How days and hours are written; everything else stands as it is in the ledger. */
export interface FactWords {
  readonly day: (day: Day) => string
  readonly hours: (start: string, end: string) => string
}

/** As records write them. */
export const asRecorded: FactWords = { day: isoOf, hours: (start, end) => `${start} to ${end}` }

/** Stands for a fact that the ledger does not have; a person sees it, and so does a search. */
export const noticeBlank = '[...]'

/** What a notice can say of one matter; undefined where only a person knows the words, or a law sets them. */
export function noticeFact(
  content: NoticeContent,
  view: SiteView,
  treatment: Treatment,
  words: FactWords = asRecorded,
): string | undefined {
  const product = treatment.product?.data
  const facts = treatment.application
  const actives = Object.entries(product?.['active-ingredients'] ?? {})
  switch (content) {
    case 'trade-name':
      return product?.name
    // The register holds ingredients by the names of the label's ingredient statement: the accepted common name where
    // there is one (40 CFR 156.10(g)(3), from memory).
    case 'common-name':
      return actives.map(([name]) => name).join(', ') || undefined
    case 'active-ingredients':
      return actives.map(([name, { strength }]) => `${name} ${strength}`).join(', ') || undefined
    case 'registration':
      return product?.registration ?? (product?.kind === 'minimum-risk' ? 'none, minimum risk' : undefined)
    case 'manufacturer':
      return product?.maker
    case 'location':
      return `${view.site.data.name}, ${treatment.areas.map(({ id }) => areaName(view, id)).join(', ')}`
    case 'date':
      return words.day(treatment.day)
    case 'time':
      return timeFact(view, treatment, words)
    case 'rain-dates':
      return facts?.['rain-dates']?.map((date) => words.day(dayIn(date))).join(', ')
    case 'reason':
      return facts?.reason
    case 'reentry-time':
      return earliestReentry(view, treatment)
    case 'coordinator-contact':
      return coordinatorContact(view, treatment)
    case 'applicator-contact':
      return applicatorContact(view, treatment)
    case 'emergency-problem':
      return facts?.emergency?.problem
    case 'emergency-reason':
      return facts?.emergency?.why
    case 'emergency-prevention':
      return facts?.emergency?.prevention
    case 'warning-words':
    case 'sensitive-persons-statement':
    case 'adverse-effects':
    case 'label-safety-instructions':
      return undefined
  }
}

/** Hours that a reader could not tell apart, or that the clocks skip, are no hours to tell. */
function timeFact(view: SiteView, treatment: Treatment, words: FactWords): string | undefined {
  const [start, end] = treatment.application?.time?.split(' to ') ?? []
  if (start === undefined || end === undefined) return undefined
  const shown = [start, end].map((time) => clockText(view, treatment.day, time))
  const [from, to] = shown
  return from === undefined || to === undefined ? undefined : words.hours(from, to)
}

/** The offset is told only on a day on which the clocks change. */
function clockText({ district }: SiteView, day: Day, time: string): string | undefined {
  const clock = clockTimeOf(time)
  const zone = timeZone(district.district.data['time-zone'])
  if (!clock || !zone) return undefined
  const offsets = zone.offsetsAt(day, clock.minutes)
  if (clock.offset === undefined) return offsets.length === 1 ? time : undefined
  if (!offsets.includes(clock.offset)) return undefined
  return offsets.length === 1 ? time.slice(0, 5) : `${time.slice(0, 5)} (UTC${time.slice(5)})`
}

export function coordinatorOn({ district }: SiteView, { day }: Treatment): string | undefined {
  return inForce(district.district.data.coordinator, day)?.who
}

function coordinatorContact(view: SiteView, treatment: Treatment): string | undefined {
  const id = coordinatorOn(view, treatment)
  const coordinator = id === undefined ? undefined : view.district.people.get(id)?.data
  return coordinator?.phone === undefined ? undefined : `${coordinator.name}, ${coordinator.phone}`
}

/** Name, address and telephone number: of the firm, or of the person where the district's own staff applies. */
function applicatorContact({ district }: SiteView, { by }: Treatment): string | undefined {
  const person = district.people.get(by)?.data
  if (!person) return undefined
  const firm = person.firm === undefined ? undefined : district.firms.get(person.firm)?.data
  if (person.firm !== undefined && !firm) return undefined
  const parts = firm
    ? [firm.name, firm.address, firm.phone]
    : [person.name, district.district.data.address, person.phone]
  return parts.map((part) => part ?? noticeBlank).join(', ')
}

/** Where the ledger would have what a blank leaves open, or who knows it. */
export function sourceOfFact(content: NoticeContent, view: SiteView, treatment: Treatment): string {
  const record = treatment.record.file
  const inProduct = (key: string) => `products/${treatment.productId}/product.yaml: ${key}`
  switch (content) {
    case 'trade-name':
      return inProduct('name')
    case 'common-name':
    case 'active-ingredients':
      return inProduct('active-ingredients')
    case 'registration':
      return inProduct('registration')
    case 'manufacturer':
      return inProduct('maker')
    case 'location':
      return `${record}: areas`
    case 'date':
    case 'reason':
    case 'rain-dates':
      return `${record}: ${content}`
    case 'time':
      return treatment.application?.time === undefined
        ? `${record}: time`
        : `${record}: time; the clocks of the district skip that hour, or show it twice: then write it with its offset, as 01:30-07:00`
    case 'coordinator-contact':
      return `people/${coordinatorOn(view, treatment) ?? '<coordinator>'}.yaml: phone`
    case 'applicator-contact': {
      const firm = view.district.people.get(treatment.by)?.data.firm
      return firm === undefined
        ? `people/${treatment.by}.yaml: phone, district.yaml: address`
        : `firms/${firm}.yaml: address, phone`
    }
    case 'reentry-time':
      return 'the label on the container; no rulebook in force and no label as entered gives a time'
    case 'emergency-problem':
    case 'emergency-reason':
    case 'emergency-prevention':
      return `${record}: emergency`
    case 'warning-words':
    case 'sensitive-persons-statement':
      return 'words set by the clause that asks for them; a wording of the district can hold them'
    case 'adverse-effects':
      return 'what label and safety data sheet say of effects on people'
    case 'label-safety-instructions':
      return 'what the label says for the safety of the public'
  }
}
