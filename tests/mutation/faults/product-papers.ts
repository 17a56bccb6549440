import { addMonths, isoOf } from '../../../src/measure/calendar.js'
import { addGel, addSpray } from '../added-applications.js'
import type { Data, Draft } from '../draft.js'
import { copyOf, dataOf, listAt, mapAt, put, take, textAt, write } from '../draft.js'
import type { FaultKind } from '../fault.js'
import { reportedAt } from '../fault.js'
import { sitesOf } from '../site-records.js'
import { firstAtEachSite, pesticideUses, productFile } from '../used-products.js'

const inProducts = /^products\/[^/]+\/product\.yaml$/
const inUses = /^sites\/[^/]+\/(?:applications|visits)\//

/** What a safety data sheet holds and how old it is, what of a label is in data, and its signal word. */
export const productPaperFaults: readonly FaultKind[] = [
  {
    name: 'a heading of a safety data sheet is left out',
    expect: 'sds-sections-missing',
    at: inProducts,
    make(draft, random) {
      const sheet = random.pick(sheetsInUse(draft))
      if (!sheet) return null
      const { file, n } = sheet
      take(draft, file, ['sds', n, 'sections', random.below(16)])
      return reportedAt(file, 'sds', n, 'sections')
    },
  },
  {
    name: 'only the first page of a safety data sheet was copied',
    expect: 'sds-sections-missing',
    at: inProducts,
    make(draft, random) {
      const sheet = random.pick(sheetsInUse(draft))
      if (!sheet) return null
      const { file, n } = sheet
      put(draft, file, ['sds', n, 'sections'], [1, 2, 3, 4])
      return reportedAt(file, 'sds', n, 'sections')
    },
  },
  {
    name: 'a safety data sheet is older than three years by a day',
    expect: 'sds-old',
    at: inProducts,
    make(draft, random) {
      const sheet = random.pick(sheetsInUse(draft))
      if (!sheet) return null
      const { file, n } = sheet
      const oldest = addMonths(draft.lastDay, -36)
      put(draft, file, ['sds', n, 'revised'], isoOf(oldest))
      const before = copyOf(draft)
      put(draft, file, ['sds', n, 'revised'], isoOf(oldest - 1))
      return { ...reportedAt(file, 'sds', n, 'revised'), before }
    },
  },
  {
    name: 'the policy asks for safety data sheets of the last thirty days',
    expect: 'sds-old',
    at: inProducts,
    make(draft) {
      const asksFor = (value: string) =>
        put(draft, 'rulebooks/tarn-hollow.yaml', ['parameters'], {
          'sds.age': [
            { from: '2000-01-01', value, source: 'Policy, section 11', kind: 'standard', confidence: 'read' },
          ],
        })
      asksFor('5 years')
      const before = copyOf(draft)
      asksFor('30 days')
      const old = sheetsInUse(draft).filter(({ revised }) => revised < isoOf(draft.lastDay - 30))
      return { where: old.map(({ file, n }) => ({ file, path: ['sds', n, 'revised'] })), before }
    },
  },
  {
    name: 'a newer safety data sheet came after the older was three years old',
    expect: 'sds-old',
    at: inProducts,
    ended: true,
    make(draft, random) {
      const sheet = random.pick(sheetsInUse(draft))
      if (!sheet) return null
      const { file } = sheet
      const renewed = draft.lastDay - 60
      const { until: _, ...first } = mapAt(listAt(dataOf(draft, file), 'sds')[0])
      const revised = (age: number) => [
        { ...first, revised: isoOf(age) },
        { ...first, from: isoOf(renewed), revised: isoOf(renewed) },
      ]
      // Three years old on the last day on which it counts, and then on the day before.
      const oldest = addMonths(renewed - 1, -36)
      put(draft, file, ['sds'], revised(oldest))
      const before = copyOf(draft)
      put(draft, file, ['sds'], revised(oldest - 1))
      return { ...reportedAt(file, 'sds', 0, 'revised'), before }
    },
  },
  {
    name: 'what the labels of a product say is not entered',
    expect: 'label-not-in-data',
    at: inUses,
    make(draft, random) {
      const product = random.pick(pesticideUses(draft))?.product
      if (product === undefined) return null
      const file = productFile(product)
      for (const n of listAt(dataOf(draft, file), 'labels').keys()) take(draft, file, ['labels', n, 'says'])
      const uses = pesticideUses(draft).filter((use) => use.product === product)
      return { where: firstAtEachSite(uses).map(({ atProduct }) => atProduct) }
    },
  },
  {
    name: 'what the label of a spray says is not entered',
    expect: 'label-not-in-data',
    at: inUses,
    make(draft, random) {
      const { application, product } = addSpray(draft, random.pick(sitesOf(draft)) ?? '')
      const before = copyOf(draft)
      take(draft, product, ['labels', 0, 'says'])
      return { ...reportedAt(application, 'product'), before }
    },
  },
  {
    name: 'a label that was new on the day of a use is not in data',
    expect: 'label-not-in-data',
    at: inUses,
    make(draft, random) {
      const { application, day, product } = addGel(draft, random.pick(sitesOf(draft)) ?? '')
      const { until: _, ...label } = mapAt(listAt(dataOf(draft, product), 'labels')[0])
      const { says: __, ...empty } = label
      const renewed = (from: number): Data => [label, { ...empty, from: isoOf(from) }]
      put(draft, product, ['labels'], renewed(day + 1))
      const before = copyOf(draft)
      put(draft, product, ['labels'], renewed(day))
      return { ...reportedAt(application, 'product'), before }
    },
  },
  {
    name: 'a product may be fatal if swallowed and its signal word is caution',
    expect: 'signal-word-below-toxicity',
    at: inProducts,
    make: withToxicity('oral', 'III', 'II'),
  },
  {
    name: 'a product burns the eye and its signal word is caution',
    expect: 'signal-word-below-toxicity',
    at: inProducts,
    make: withToxicity('eye', 'IV', 'I'),
  },
  {
    name: 'a poison through the skin has the signal word danger alone',
    expect: 'signal-word-below-toxicity',
    at: inProducts,
    make(draft) {
      const file = productFile('added-poison')
      const names = { name: 'Invented Added Poison', kind: 'pesticide', registration: '99999-79' }
      write(draft, file, { ...names, 'signal-word': 'danger-poison', toxicity: { dermal: 'I', eye: 'I' } })
      const before = copyOf(draft)
      put(draft, file, ['signal-word'], 'danger')
      return { ...reportedAt(file, 'signal-word'), before }
    },
  },
]

interface Sheet {
  readonly file: string
  readonly n: number
  readonly revised: string
}

/** The safety data sheet of each product that holds on the last day. */
function sheetsInUse(draft: Draft): Sheet[] {
  return [...draft.files.keys()]
    .filter((file) => inProducts.test(file))
    .flatMap((file) => {
      const sheets = listAt(dataOf(draft, file), 'sds')
      const n = sheets.findLastIndex((sheet) => (textAt(sheet, 'from') ?? '') <= isoOf(draft.lastDay))
      return n < 0 ? [] : [{ file, n, revised: textAt(sheets[n], 'revised') ?? '' }]
    })
}

/** Toxicity of a used product, of which its signal word is caution: first as that word has it, then worse. */
function withToxicity(route: string, asCaution: string, worse: string): FaultKind['make'] {
  return (draft, random) => {
    const product = random.pick(pesticideUses(draft))?.product
    if (product === undefined) return null
    const file = productFile(product)
    put(draft, file, ['toxicity'], { [route]: asCaution })
    const before = copyOf(draft)
    put(draft, file, ['toxicity', route], worse)
    return { ...reportedAt(file, 'signal-word'), before }
  }
}
