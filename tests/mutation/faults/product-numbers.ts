import { isoOf } from '../../../src/measure/calendar.js'
import { addGel } from '../added-applications.js'
import type { Draft, KeyPath } from '../draft.js'
import { copyOf, dataOf, put, take, textAt } from '../draft.js'
import type { FaultKind } from '../fault.js'
import { reportedAt } from '../fault.js'
import { sitesOf } from '../site-records.js'
import type { PesticideUse } from '../used-products.js'
import { firstAtEachSite, pesticideUses, productFile, usesAlone } from '../used-products.js'
import { productPaperFaults } from './product-papers.js'

const inProducts = /^products\/[^/]+\/product\.yaml$/
const inUses = /^sites\/[^/]+\/(?:applications|visits)\//
const ownRulebook = 'rulebooks/tarn-hollow.yaml'
const policy = { source: 'Pest management policy, section 3', kind: 'standard', confidence: 'read' }

/** Under which number a product is registered, where, until when, and for what; then its papers. */
export const productNumberFaults: readonly FaultKind[] = [
  {
    name: 'the number of the place of making stands as the registration',
    expect: 'registration-number-is-none',
    at: inProducts,
    make: inRecord(['registration'], '99999-OR-1'),
  },
  {
    name: 'a file symbol stands as the registration',
    expect: 'registration-number-is-none',
    at: inProducts,
    make: inRecord(['registration'], '99999-RE'),
  },
  {
    name: 'a registration ends in the letter O for a zero',
    expect: 'registration-number-is-none',
    at: inProducts,
    make: inRecord(['registration'], '99999-1O'),
  },
  {
    name: 'only the company of a registration is entered',
    expect: 'registration-number-is-none',
    at: inProducts,
    make: inRecord(['registration'], '99999'),
  },
  {
    name: 'the registration of a pesticide is not entered',
    expect: 'pesticide-without-registration',
    at: inUses,
    make: ofProduct((draft, file) => take(draft, file, ['registration'])),
  },
  {
    name: 'the special local need under which a product was used is not entered',
    expect: 'pesticide-without-registration',
    at: inUses,
    make(draft, random) {
      const { application, product } = addGel(draft, random.pick(sitesOf(draft)) ?? '')
      take(draft, product, ['registration'])
      // It stands for the registration in the state as well, which is therefore left.
      put(draft, product, ['special-local-need'], 'OR-240001')
      const before = copyOf(draft)
      take(draft, product, ['special-local-need'])
      return { ...reportedAt(application, 'product'), before }
    },
  },
  {
    name: 'a minimum-risk product has a registration number',
    expect: 'minimum-risk-with-registration',
    at: inProducts,
    make: registeredAs('minimum-risk'),
  },
  {
    name: 'a device has a registration number',
    expect: 'minimum-risk-with-registration',
    at: inProducts,
    make: registeredAs('device'),
  },
  {
    name: 'the registration in the state ended the day before the last use',
    expect: 'not-registered-in-state',
    at: inUses,
    make: onLastUse((draft, file, day) => {
      put(draft, file, ['states'], { OR: [{ from: '2000-01-01', until: isoOf(day) }] })
    }),
  },
  {
    name: 'a product is registered in the state next door only',
    expect: 'not-registered-in-state',
    at: inUses,
    make: ofProduct((draft, file) => put(draft, file, ['states'], { WA: [{ from: '2000-01-01' }] })),
  },
  {
    name: 'the states in which a product is registered are not entered',
    expect: 'not-registered-in-state',
    at: inUses,
    make: ofProduct((draft, file) => take(draft, file, ['states'])),
  },
  {
    name: 'a product is registered in the state again only after a use',
    expect: 'not-registered-in-state',
    at: inUses,
    ended: true,
    make(draft, random) {
      const { application, day, product } = addGel(draft, random.pick(sitesOf(draft)) ?? '')
      const again = (from: number) => ({
        OR: [{ from: '2000-01-01', until: isoOf(day - 1) }, { from: isoOf(from) }],
      })
      put(draft, product, ['states'], again(day))
      const before = copyOf(draft)
      put(draft, product, ['states'], again(day + 1))
      return { ...reportedAt(application, 'product'), before }
    },
  },
  {
    name: 'a special local need is one of another state',
    expect: 'special-local-need-elsewhere',
    at: inUses,
    make: withLocalNeed((draft, file) => put(draft, file, ['special-local-need'], 'WA-240001')),
  },
  {
    name: 'a special local need is used in a district that does not name its state',
    expect: 'special-local-need-elsewhere',
    at: inUses,
    make: withLocalNeed((draft) => take(draft, 'district.yaml', ['state'])),
  },
  {
    name: 'a registration was cancelled on the day of the last use',
    expect: 'product-cancelled',
    at: inUses,
    make: onLastUse((draft, file, day) => put(draft, file, ['cancelled'], { on: isoOf(day + 1) })),
  },
  {
    name: 'stocks of a cancelled product could be used up until the day before the last use',
    expect: 'product-cancelled',
    at: inUses,
    make: onLastUse((draft, file, day) =>
      put(draft, file, ['cancelled'], { on: '2024-03-01', 'use-until': isoOf(day) }),
    ),
  },
  {
    name: 'a product is registered for trials only',
    expect: 'use-prohibited',
    at: inUses,
    make: ofProduct(
      (draft, file) => put(draft, file, ['registered-as'], 'experimental'),
      (draft, file) => put(draft, file, ['registered-as'], 'conditional'),
    ),
  },
  {
    name: 'the policy rules out what was used, from that day on',
    expect: 'use-prohibited',
    at: inUses,
    make(draft, random) {
      const { application, day } = addGel(draft, random.pick(sitesOf(draft)) ?? '')
      ruleOutAbamectin(draft, day + 1)
      const before = copyOf(draft)
      ruleOutAbamectin(draft, day)
      return { ...reportedAt(application, 'product'), before }
    },
  },
  ...productPaperFaults,
]

type Spoil = (draft: Draft, file: string) => void

/** A fault of a pesticide that was used, told on its first use at each site. */
function ofProduct(spoil: Spoil, prepare?: Spoil): FaultKind['make'] {
  return (draft, random) => {
    const product = random.pick(pesticideUses(draft))?.product
    if (product === undefined) return null
    const uses = pesticideUses(draft).filter((use) => use.product === product)
    prepare?.(draft, productFile(product))
    const before = copyOf(draft)
    spoil(draft, productFile(product))
    return { where: firstAtEachSite(uses).map(({ atProduct }) => atProduct), ...(prepare ? { before } : {}) }
  }
}

/** A product was in order through a last day: first that is the day of its last use, and then the day before. */
function onLastUse(inOrderThrough: (draft: Draft, file: string, day: number) => void): FaultKind['make'] {
  return (draft, random) => {
    const uses = pesticideUses(draft)
    const last = random.pick(uses.filter((use) => isLastAndAlone(uses, use)))
    if (!last) return null
    inOrderThrough(draft, productFile(last.product), last.day)
    const before = copyOf(draft)
    inOrderThrough(draft, productFile(last.product), last.day - 1)
    return { where: [last.atProduct], before }
  }
}

/** Of several stations filled on one day it would not be clear which is told. */
function isLastAndAlone(uses: readonly PesticideUse[], use: PesticideUse): boolean {
  const ofProduct = uses.filter(({ product }) => product === use.product)
  return ofProduct.at(-1) === use && usesAlone(ofProduct).includes(use)
}

/** Another text where the record of a used pesticide has one. */
function inRecord(path: KeyPath, text: string): FaultKind['make'] {
  return (draft, random) => {
    const product = random.pick(pesticideUses(draft))?.product
    if (product === undefined) return null
    put(draft, productFile(product), path, text)
    return reportedAt(productFile(product), ...path)
  }
}

/** What was used is of a kind that is not registered, and had no number before. */
function registeredAs(kind: string): FaultKind['make'] {
  return (draft, random) => {
    const product = random.pick(pesticideUses(draft))?.product
    if (product === undefined) return null
    const file = productFile(product)
    const registration = textAt(dataOf(draft, file), 'registration') ?? ''
    put(draft, file, ['kind'], kind)
    take(draft, file, ['registration'])
    const before = copyOf(draft)
    put(draft, file, ['registration'], registration)
    return { ...reportedAt(file, 'registration'), before }
  }
}

function withLocalNeed(spoil: Spoil): FaultKind['make'] {
  return ofProduct(spoil, (draft, file) => put(draft, file, ['special-local-need'], 'OR-240001'))
}

/** A prohibition of the ingredient that only the added gel has. */
function ruleOutAbamectin(draft: Draft, from: number): void {
  const basis = { from: isoOf(from), ...policy }
  put(draft, ownRulebook, ['uses', 'abamectin'], [{ ...basis, any: [{ active: ['abamectin'] }] }])
  const duty = { ...basis, what: 'use of abamectin', 'holds-for': ['abamectin'] }
  put(draft, ownRulebook, ['prohibitions', 'abamectin'], [duty])
}
