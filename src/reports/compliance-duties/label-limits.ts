import type { LabelInForce } from '../../ledger/labels.js'
import { measuresOf } from '../../ledger/product-measures.js'
import type { SiteView } from '../../ledger/site-view.js'
import type { Treatment } from '../../ledger/treatments.js'
import { isoOf } from '../../measure/calendar.js'
import { parseQuantity } from '../../measure/quantities.js'
import { heldAgainstRate, shown as quantityText, sumAs } from '../../measure/rates.js'
import { durationText } from '../../measure/reentry.js'
import { type LabelRate, ratesFor, usedOn, wholeAmount, wholeSize } from '../../rules/label-use/amounts.js'
import { resistanceOf, withinReachIn } from '../../rules/label-use/bait-within-reach.js'
import { type TooSoon, tooSoon } from '../../rules/label-use/label-interval-too-short.js'
import { above } from '../../rules/label-use/label-rate-exceeded.js'
import {
  type LabelledYear,
  limitedYears,
  overApplied,
  usedOverLimit,
} from '../../rules/label-use/label-yearly-limit-exceeded.js'
import { labelledTreatments } from '../../rules/label-use/labelled-treatments.js'
import { extentsOf, spotsOver } from '../../rules/label-use/spot-too-large.js'
import { waitOfLabel } from '../../rules/reentry/required-waits.js'
import type { Held } from './held.js'
import { held, noPlaceInAReading, notApplicable, notChecked, notShown, shown, together } from './held.js'
import { appliedOf, partOfDry, partOfWait } from './reentry.js'

export interface HeldLimit extends Held {
  readonly name: string
  readonly duty: string
}

/** The limits that the register tells of a label, each held against the use. */
export function limitsOfLabel(view: SiteView, treatment: Treatment, label: LabelInForce): HeldLimit[] {
  const { says } = label
  const found: HeldLimit[] = []
  const add = (name: string, duty: string, one: Held) => found.push({ name, duty, ...one })
  if (says.rates) add('rate', 'no more than the rate on the label', ofRates(treatment, label))
  if (says.interval !== undefined)
    add('interval', `not again within ${says.interval}`, ofInterval(view, treatment, says.interval))
  const often = says['applications-a-year']
  if (often !== undefined)
    add('applications-a-year', `at most ${often} applications in twelve months`, ofCount(view, treatment))
  const most = says['amount-a-year']
  if (most !== undefined)
    add('amount-a-year', `at most ${most} in twelve months`, ofAmount(view, treatment, most))
  const spot = says['spot-at-most']
  if (spot !== undefined && treatment.method === 'spot')
    add('spot', `a spot of ${spot} at most`, ofSpots(treatment, spot))
  if (says['out-of-reach'] === 'yes')
    add('out-of-reach', 'out of reach of children, or in a tamper-resistant station', ofReach(treatment))
  const wait = waitOfLabel(says)
  if (wait !== undefined && wait > 0)
    add('keep-out', `people stay out ${durationText(wait)}, by the label`, ofWait(view, treatment, wait))
  if (says['keep-out-until-dry'] === 'yes')
    add('until-dry', 'people stay out until it is dry or settled, by the label', ofDry(view, treatment))
  if (says['with-people-present'] === 'no')
    add('people', 'nobody else in the area, by the label', ofPresence(treatment))
  return found
}

function ofRates(treatment: Treatment, label: LabelInForce): Held {
  const rates = ratesFor(label.says, treatment)
  if (rates.length === 0) return notApplicable(`no rate in the register is for ${treatment.method}`)
  const measures = treatment.product && measuresOf(treatment.product)
  return together(
    rates.map((rate) => {
      const parts = usedOn(treatment, rate.says.per)
      const limit = `${rate.says['at-most']} per ${rate.says.per}`
      const over = above(parts, rate, measures)
      if (over.length > 0)
        return notShown(
          over
            .map(
              ({ used, onWhat, area }) =>
                `${quantityText(used, rate.most)} per ${rate.says.per}, ${onWhat}${area === undefined ? '' : ` (\`${area}\`)`}; the label says at most ${limit}`,
            )
            .join('; '),
        )
      if (parts.length === 0)
        return notChecked(
          `the amount, or on what it was used, is not recorded; the label says at most ${limit}`,
          ...absentFor(treatment, rate.says.per),
        )
      const told = parts.filter(({ amounts, on }) => heldAgainstRate(amounts, on, rate, measures) !== null)
      if (told.length === 0)
        return notChecked(
          `what is recorded and ${limit} do not measure the same`,
          `density of ${treatment.productId}`,
        )
      const isWhole =
        told.some(({ area }) => area === undefined) ||
        treatment.areas.every(({ id }) => told.some(({ area }) => area === id))
      return isWhole
        ? shown(`within ${limit}`)
        : notChecked(
            `within ${limit} in ${told.map(({ area }) => `\`${area}\``).join(', ')}; not recorded for every area`,
            ...absentFor(treatment, rate.says.per),
          )
    }),
  )
}

function absentFor(treatment: Treatment, per: LabelRate['says']['per']): string[] {
  const size =
    per === 'placement' || per === 'station'
      ? 'placements'
      : ({ length: 'treated-length', volume: 'treated-space' }[String(parseQuantity(per)?.dimension)] ??
        'extent')
  return [
    ...(wholeAmount(treatment) === undefined ? ['amount'] : []),
    ...(wholeSize(treatment, per) === undefined ? [size] : []),
  ]
}

const sooner = new WeakMap<SiteView, ReadonlyMap<Treatment, TooSoon>>()

function ofInterval(view: SiteView, treatment: Treatment, interval: string): Held {
  if (!treatment.application) return notApplicable('bait put into a device again is no new application')
  let found = sooner.get(view)
  if (!found) {
    const all = tooSoon(view.treatments, [...labelledTreatments(view)])
    found = new Map([...all].map((one) => [one.use.treatment, one]))
    sooner.set(view, found)
  }
  const before = found.get(treatment)?.before
  return before
    ? notShown(`applied there on ${isoOf(before.day)} already; the label asks for ${interval} between`)
    : shown(`no other application there within ${interval} before is recorded`)
}

const years = new WeakMap<SiteView, ReadonlyMap<Treatment, LabelledYear>>()

function yearTo(view: SiteView, treatment: Treatment): LabelledYear | undefined {
  let found = years.get(view)
  if (!found) {
    found = new Map([...limitedYears(view)].flat().map((year) => [year.treatment, year]))
    years.set(view, found)
  }
  return found.get(treatment)
}

function ofCount(view: SiteView, treatment: Treatment): Held {
  const year = yearTo(view, treatment)
  if (!treatment.application) return notApplicable('bait put into a device again is no new application')
  if (!year) return notChecked('its twelve months could not be counted')
  const { areas, inAll } = overApplied(year)
  if (areas.length > 0)
    return notShown(
      areas
        .map((area) => `${year.daysIn.get(area)} applications in \`${area}\` in the twelve months to it`)
        .join('; '),
    )
  const most = Math.max(...year.daysIn.values())
  return inAll
    ? notChecked(
        `${year.days} applications at the site in the twelve months to it, ${most} in any one area`,
        'whether the label means each place or the site',
      )
    : shown(`number ${most} in the twelve months to it`)
}

function ofAmount(view: SiteView, treatment: Treatment, most: string): Held {
  const year = yearTo(view, treatment)
  const limit = parseQuantity(most)
  if (!year || !limit) return notChecked('its twelve months could not be counted')
  const over = usedOverLimit(year)
  if (over !== undefined) return notShown(`${over} in the twelve months to it`)
  const { leftOut } = sumAs(year.sums, limit, treatment.product && measuresOf(treatment.product))
  if (leftOut)
    return notChecked(
      'amounts that do not measure the same could not be added',
      `density of ${treatment.productId}`,
    )
  if (!wholeAmount(treatment)) return notChecked('its amount is not recorded', 'amount')
  return shown('within it, as far as amounts are recorded')
}

function ofSpots(treatment: Treatment, most: string): Held {
  const limit = parseQuantity(most)
  const extents = extentsOf(treatment)
  if (!limit) return notChecked(`\`${most}\` cannot be read`)
  if (extents.length === 0) return notChecked('how much was treated is not recorded', 'extent', 'placements')
  const over = spotsOver(treatment, limit)
  if (over.length === 0)
    return shown(
      extents
        .map(({ text, spots }) => `${text}${spots === undefined ? '' : ` in ${spots} spots`}`)
        .join('; '),
    )
  return together(
    over.map(({ text, spots }) =>
      spots === undefined
        ? notChecked(`${text} treated, and the number of spots is not recorded`, 'placements')
        : notShown(`${text} in ${spots} ${spots === 1 ? 'spot' : 'spots'}`),
    ),
  )
}

function ofReach(treatment: Treatment): Held {
  const { device, areas, application } = treatment
  const unknown = areas.filter(({ withinReach }) => withinReach === undefined)
  if (device) {
    const [area] = areas
    const resists = resistanceOf(device)
    if (area?.withinReach === 'yes' && resists !== 'yes')
      return resists === 'not recorded'
        ? notChecked(
            'within reach, and whether the station resists children is not recorded',
            'tamper-resistant',
          )
        : notShown(`within reach, and ${resists === 'no' ? 'not tamper-resistant' : 'no station'}`)
    if (resists === 'yes') return shown('in a tamper-resistant station')
    return unknown.length > 0
      ? notChecked('whether it is within reach is not recorded', 'within-reach')
      : shown('out of reach')
  }
  if (!application) return notChecked('nothing tells')
  const wrong = withinReachIn(treatment)
  if (wrong.length > 0)
    return together(
      wrong.map(({ area, resists }) =>
        resists === 'not recorded'
          ? notChecked(
              `within reach in \`${area}\`, in a station not recorded as tamper-resistant`,
              'tamper-resistant',
            )
          : notShown(
              `within reach in \`${area}\`${resists === 'no' ? ', in a station that is not tamper-resistant' : ''}`,
            ),
      ),
    )
  return unknown.length > 0
    ? notChecked(
        `whether it lay within reach in ${unknown.map(({ id }) => `\`${id}\``).join(', ')} is not recorded`,
        'within-reach',
      )
    : shown('out of reach, or in a station that resists children')
}

function ofWait(view: SiteView, treatment: Treatment, minutes: number): Held {
  const applied = appliedOf(treatment)
  return applied ? held(partOfWait(view, applied, minutes)) : noPlaceInAReading('reopened')
}

function ofDry(view: SiteView, treatment: Treatment): Held {
  const applied = appliedOf(treatment)
  return applied
    ? held(partOfDry(view, applied))
    : notApplicable('bait in a device lies where it was put; nothing dries or settles')
}

function ofPresence(treatment: Treatment): Held {
  const pupils = treatment.application?.pupils
  if (!treatment.application) return noPlaceInAReading('pupils')
  if (pupils === undefined) return notChecked('where pupils were is not recorded', 'pupils')
  return pupils === 'in the area' ? notShown('pupils are recorded in the area') : shown(`pupils: ${pupils}`)
}
