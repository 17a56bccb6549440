import { isCertifiedOn } from '../../ledger/licences.js'
import type { SiteView } from '../../ledger/site-view.js'
import type { Treatment } from '../../ledger/treatments.js'
import { dutiesFor } from '../../ledger/use-classes.js'
import type { RecordOf } from '../../records/kinds.js'
import type { recordElements } from '../../records/use-words.js'
import { concentrates } from '../../records/use-words.js'
import type { Applied } from '../reentry/applications.js'
import { isOutdoors } from './outdoor-applications.js'

export type RecordElement = (typeof recordElements)[number]

/** What an element is called in a sentence. */
export const elementWords: Readonly<Record<RecordElement, string>> = {
  registration: 'the registration number',
  amount: 'the amount in all',
  'amount-in-each-area': 'the amount in each area',
  'size-of-area': 'the size of what was treated',
  'start-and-end': 'when it began and ended',
  'certified-applicator':
    'a certified applicator, with a number in force on that day, who applied or supervised',
  'customer-address': 'the address of whom it was applied for',
  'spot-description': 'a description of the place in each area',
  dilution: 'how the concentrate was diluted',
  lot: 'the lot number',
  equipment: 'the equipment',
  weather: 'the weather',
  pupils: 'where pupils were',
  reason: 'why it was needed',
}

type Tests = {
  readonly [E in RecordElement]?: (view: SiteView) => boolean
}

/** The elements asked for that a record does not show. One that other rules tell is left to them. */
export function missingElements(
  view: SiteView,
  treatment: Treatment,
  asked: readonly RecordElement[],
): readonly RecordElement[] {
  const tests = treatment.application ? ofApplication(treatment as Applied) : ofBaitInDevice(treatment)
  return asked.filter((element) => tests[element]?.(view) === false)
}

/**
 * What any treatment shows. The number of a pesticide that has none in the register is told by
 * `pesticide-without-registration`, at whatever use, and minimum-risk products have none: nothing is left of that here.
 */
function ofAny(treatment: Treatment): Tests {
  const { areas, amount, record } = treatment
  const inEach = areas.every((area) => area.amount !== undefined)
  return {
    amount: () => amount !== undefined || inEach,
    'amount-in-each-area': () => inEach || (areas.length === 1 && amount !== undefined),
    'start-and-end': () => record.data.time !== undefined,
    'certified-applicator': (view) => showsCertified(view, treatment),
    'customer-address': ({ site, district }) =>
      (site.data.address ?? district.district.data.address) !== undefined,
  }
}

function ofApplication(applied: Applied): Tests {
  const { application: facts } = applied
  const areas = Object.values(facts.areas)
  const size = facts['treated-extent'] ?? facts['treated-length'] ?? facts['treated-space']
  const outdoors = applied.areas.some(isOutdoors)
  return {
    ...ofAny(applied),
    'size-of-area': () => size !== undefined || areas.every(({ extent }) => extent !== undefined),
    'spot-description': () => areas.every(({ where }) => isDescription(where)),
    dilution: () => facts.dilution !== undefined || !isConcentrate(applied),
    lot: () => facts.lot !== undefined,
    equipment: () => facts.equipment !== undefined,
    weather: () => !outdoors || isToldWeather(facts.weather),
    pupils: () => facts.pupils !== undefined,
    reason: () => facts.reason !== undefined || facts.emergency !== undefined,
  }
}

/**
 * Bait in a device is told by a reading, which has a place for less; what has none, such as the size of an area, is
 * not asked. The lot has one in a reading, and none where the device is set.
 */
function ofBaitInDevice(treatment: Treatment): Tests {
  const { device, record } = treatment
  const readings = (record.data as RecordOf<'visit'>).readings
  const reading = device && treatment.at().path[0] === 'readings' ? readings?.[device.id] : undefined
  const lot = reading && !Array.isArray(reading) ? { lot: () => reading.lot !== undefined } : {}
  return { ...ofAny(treatment), ...lot }
}

/** Elements that a reading of a device has no place for, so that nothing can be said of them. */
export function elementsWithoutPlace(
  treatment: Treatment,
  asked: readonly RecordElement[],
): readonly RecordElement[] {
  if (treatment.application) return []
  const tests = ofBaitInDevice(treatment)
  return asked.filter((element) => element !== 'registration' && tests[element] === undefined)
}

/**
 * Whether who applied or supervised was certified on the day. Where a licence is asked for too, the rules about
 * licences say what is wrong with it; and someone who is not in the ledger is told as that.
 */
function showsCertified(view: SiteView, treatment: Treatment): boolean {
  if (dutiesFor(view, 'licences', treatment).some(({ says }) => says.of === 'applicator')) return true
  return mayBeCertified(view, treatment)
}

/** Whether one of them was certified on the day, or is not in the ledger. */
export function mayBeCertified(view: SiteView, treatment: Treatment): boolean {
  const { by, 'supervised-by': supervisor } = treatment.record.data
  return [by, supervisor].some((id) => {
    const person = id === undefined ? undefined : view.district.people.get(id)
    return id !== undefined && (!person || isCertifiedOn(person, treatment.day))
  })
}

/** The federal form wants a concise description of the place beside the words `spot application`: those alone are none. */
function isDescription(where: string | undefined): boolean {
  return where !== undefined && !/^\W*spots?(?:\s+(?:application|treatment)s?)?\W*$/i.test(where)
}

export function isToldWeather(weather: RecordOf<'application'>['weather']): boolean {
  return weather !== undefined && Object.values(weather).some((fact) => fact !== undefined)
}

function isConcentrate({ formulation }: Treatment): boolean {
  return formulation !== undefined && concentrates.has(formulation)
}
