import { isoOf } from '../../../src/measure/calendar.js'
import { addEvent, idOf } from '../added.js'
import { addFiling, addReport, annualNotice, redated } from '../added-filings.js'
import { gelOn } from '../added-uses.js'
import type { DataMap, Draft } from '../draft.js'
import { copyOf, dataOf, listAt, put, take } from '../draft.js'
import type { FaultKind } from '../fault.js'
import { reportedAt } from '../fault.js'
import { coordinatorOf, eventsOf, sitesOf } from '../site-records.js'
import type { PesticideUse } from '../used-products.js'
import { firstAtEachSite, pesticideUses } from '../used-products.js'

const inFilings = /^filings\//
const inUses = /^sites\/[^/]+\/(?:applications|visits)\//

/** Products that were used and are not on the list of the year. */
export const annualListFaults: readonly FaultKind[] = [
  {
    name: 'the list of the annual notice leaves out a product',
    expect: 'product-not-on-annual-list',
    at: inUses,
    make(draft, random) {
      const uses = usesOfSchoolYear(draft).filter(({ file }) => !isTold(draft, file))
      const product = random.pick(uses)?.product
      if (product === undefined) return null
      unlisted(draft, product)
      const ofProduct = uses.filter((use) => use.product === product)
      return { where: firstAtEachSite(ofProduct).map(({ atProduct }) => atProduct) }
    },
  },
  {
    name: 'a gel that was used late in the year is on no list',
    expect: 'product-not-on-annual-list',
    at: inUses,
    make(draft, random) {
      const { added } = gelOn(draft, random)
      const before = copyOf(draft)
      unlisted(draft, 'added-gel')
      return { ...reportedAt(added.application, 'product'), before }
    },
  },
  {
    name: 'what is on no list is told to parents before it is used, and not to staff',
    expect: 'product-not-on-annual-list',
    at: inUses,
    make: afterNotice((draft, notice) => {
      put(draft, notice, ['sent', 'to'], 'all parents')
    }),
  },
  {
    name: 'what is on no list is told to all at the minute it begins',
    expect: 'product-not-on-annual-list',
    at: inUses,
    make: afterNotice((draft, notice) => {
      put(draft, notice, ['sent', 'at'], '20:00')
    }),
  },
  {
    name: 'the amended list goes out the day after the use',
    expect: 'product-not-on-annual-list',
    at: inUses,
    make(draft, random) {
      const { added } = gelOn(draft, random)
      const { what = '', year = '' } = dataOf(draft, annualNotice(draft)) as DataMap
      unlisted(draft, 'added-gel')
      const list = { what, year, to: 'everyone', products: ['added-gel'] }
      const amended = addFiling(draft, isoOf(added.day), list)
      const before = copyOf(draft)
      redated(draft, amended, isoOf(added.day + 1))
      return { ...reportedAt(added.application, 'product'), before }
    },
  },
  {
    name: 'a report for the state leaves out a product',
    expect: 'product-not-on-annual-list',
    at: inFilings,
    make(draft, random) {
      const product = random.pick(usesOfSchoolYear(draft))?.product
      if (product === undefined) return null
      const report = addReport(draft)
      const before = copyOf(draft)
      take(draft, report, ['products', listAt(dataOf(draft, report), 'products').indexOf(product)])
      return { ...reportedAt(report, 'products'), before }
    },
  },
  {
    name: 'the product of an application is corrected to one that the report does not name',
    expect: 'product-not-on-annual-list',
    at: inFilings,
    make(draft, random) {
      const { added } = gelOn(draft, random)
      const report = addReport(draft)
      take(draft, report, ['products', listAt(dataOf(draft, report), 'products').indexOf('added-gel')])
      put(draft, added.application, ['product'], 'gel-a')
      const before = copyOf(draft)
      put(draft, added.application, ['product'], 'added-gel')
      return { ...reportedAt(report, 'products'), before }
    },
  },
]

/** Uses in the school year that the annual notice is for. */
function usesOfSchoolYear(draft: Draft): PesticideUse[] {
  return pesticideUses(draft).filter(({ day }) => isoOf(day) >= '2025-09-02')
}

/** Whether a notice was sent of an application. */
function isTold(draft: Draft, file: string): boolean {
  return sitesOf(draft)
    .flatMap((site) => eventsOf(draft, site, 'notices'))
    .some(({ data }) => data.application === idOf(file) && data.sent !== undefined)
}

/** Takes a product off every list. */
function unlisted(draft: Draft, product: string): void {
  for (const file of [...draft.files.keys()]) {
    const at = file.startsWith('filings/') ? listAt(dataOf(draft, file), 'products').indexOf(product) : -1
    if (at >= 0) take(draft, file, ['products', at])
  }
}

/** Gel that is on no list, applied from 20:00; everyone is told of it a minute before. */
function afterNotice(change: (draft: Draft, notice: string) => void): FaultKind['make'] {
  return (draft, random) => {
    const { site, added } = gelOn(draft, random)
    unlisted(draft, 'added-gel')
    const told = { to: 'everyone', at: '19:59', how: 'email' }
    const fields = { application: idOf(added.application), sent: told }
    const notice = addEvent(draft, site, 'notices', added.day, coordinatorOf(draft), fields)
    const before = copyOf(draft)
    change(draft, notice)
    return { ...reportedAt(added.application, 'product'), before }
  }
}
