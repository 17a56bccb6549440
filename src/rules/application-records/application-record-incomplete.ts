import { citationsOf } from '../../ledger/licences.js'
import type { Duty } from '../../ledger/rulebooks-in-force.js'
import type { SiteView } from '../../ledger/site-view.js'
import type { Treatment } from '../../ledger/treatments.js'
import { isPesticide } from '../../ledger/treatments.js'
import { dutiesFor } from '../../ledger/use-classes.js'
import { levelOfDuty } from '../adopted.js'
import { baitApplication } from '../example-applications.js'
import { underOwnRulebook } from '../reentry/example-ledgers.js'
import { siteRule } from '../rule.js'
import { isDayExtentUnder } from './day-extent.js'
import type { RecordElement } from './record-elements.js'
import { elementWords, missingElements } from './record-elements.js'

const own = underOwnRulebook(`
records:
  application:
    - {from: 2026-03-01, elements: [amount, start-and-end, lot], source: "Invented Pest Act, section 5", kind: law, confidence: read}
`)

export const applicationRecordIncomplete = siteRule<{
  missing: readonly string[]
  devices: readonly string[]
}>({
  id: 'application-record-incomplete',
  title: 'the record of an application does not hold all that is asked of it',
  level: 'error',
  judgedOn: 'the day of the application',
  why: 'When someone falls ill, or something did not work, the record is all that is left of what was put where, and how much of it.',
  remedy:
    'Ask whoever applied it, and add what is missing: `amount`, `treated-extent: 3 ft2`, `time: 15:40 to 16:05`, `lot`, `equipment`, `pupils`, `reason`, `dilution`, `weather`, and in each area `amount` and `where`. What nobody knows any more stays out; say so in the notes.',
  source: { kind: 'program', text: 'the section `records` of the rulebooks in force' },
  actor: 'technician',
  gap: true,
  says: ({ missing, devices }) =>
    `The record of this ${devices.length === 0 ? 'application' : `bait (${devices.join(', ')})`} does not show ${missing.join('; ')}.`,
  *check(view) {
    for (const { treatment, missing, duties, devices } of incompleteRecords(view)) {
      const sources = citationsOf(duties)
      yield {
        args: { missing: missing.map((element) => elementWords[element]), devices },
        at: treatment.application ? treatment.at('status') : treatment.at('product'),
        from: treatment.day,
        sources,
        level: levelOfDuty(sources),
      }
    }
  },
  failing: `${own}${baitApplication('2026-03-12', 'status: done # expect: application-record-incomplete', 'time:', 'lot:')}`,
  passing: `${own}${baitApplication('2026-03-12')}`,
})

interface Incomplete {
  readonly treatment: Treatment
  readonly missing: readonly RecordElement[]
  readonly duties: readonly Duty<'records'>[]
  /** Where it is bait in devices: those whose readings show too little. */
  readonly devices: readonly string[]
}

/** One entry for each application; bait of one product put into devices on one visit is told together. */
function incompleteRecords(view: SiteView): Iterable<Incomplete> {
  const found = new Map<string, Incomplete>()
  let isAddressTold = false
  for (const treatment of view.treatments) {
    if (treatment.day < view.begins || !isPesticide(treatment)) continue
    let { missing, duties } = brokenBy(view, treatment)
    // One line in the record of the site or the district gives every application its address: it is said once.
    const lacksAddress = missing.includes('customer-address')
    if (lacksAddress && isAddressTold)
      ({ missing, duties } = brokenBy(view, treatment, new Set(['customer-address'])))
    isAddressTold ||= lacksAddress
    if (missing.length === 0) continue
    const { file } = treatment.record
    const key = treatment.application ? file : `${file} ${treatment.productId}`
    const same = found.get(key)
    found.set(key, {
      treatment: same?.treatment ?? treatment,
      missing: [...new Set([...(same?.missing ?? []), ...missing])],
      duties: [...(same?.duties ?? []), ...duties],
      devices: [...(same?.devices ?? []), ...(treatment.device ? [treatment.device.id] : [])],
    })
  }
  return found.values()
}

function brokenBy(
  view: SiteView,
  treatment: Treatment,
  without: ReadonlySet<RecordElement> = new Set(),
): Pick<Incomplete, 'missing' | 'duties'> {
  const missing = new Set<RecordElement>()
  const duties: Duty<'records'>[] = []
  for (const duty of dutiesFor(view, 'records', treatment)) {
    const lacking = lackingUnder(view, treatment, duty).filter((element) => !without.has(element))
    if (lacking.length > 0) duties.push(duty)
    for (const element of lacking) missing.add(element)
  }
  return { missing: [...missing], duties }
}

/** What a duty asks for and the record does not show; where the short form will do, either form is enough. */
export function lackingUnder(
  view: SiteView,
  treatment: Treatment,
  duty: Duty<'records'>,
): readonly RecordElement[] {
  const { elements = [], 'short-form-under': limit, 'short-form': short = [] } = duty.says
  const full = missingElements(view, treatment, elements)
  if (full.length === 0 || limit === undefined) return full
  const isSameDuty = (other: Treatment) =>
    isPesticide(other) &&
    dutiesFor(view, 'records', other).some(
      ({ rulebook, name }) => rulebook === duty.rulebook && name === duty.name,
    )
  return isDayExtentUnder(view, treatment, limit, isSameDuty) ? missingElements(view, treatment, short) : full
}
