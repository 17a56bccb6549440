import { dayOfUndated } from '../../ledger/undated.js'
import { districtRule } from '../rule.js'
import { baitA } from './example-ledgers.js'
import { headingsMissing } from './sheet-headings.js'
import { answeredDays, sheetsInForce } from './sheets-in-force.js'

export const sdsSectionsMissing = districtRule<{ product: string; missing: readonly string[] }>({
  id: 'sds-sections-missing',
  title: 'a safety data sheet lacks some of the sixteen headings',
  level: 'warning',
  judgedOn: 'the days on which the sheet is in force',
  why: 'Whoever treats a splash looks under a number; a sheet of another form, or a page that was not copied, costs that minute.',
  remedy:
    'Ask the maker for the whole sheet in sixteen sections and enter the numbers found on it: `sections: [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16]`.',
  source: {
    kind: 'law',
    text: '29 CFR 1910.1200, Appendix D, Table D.1: sixteen numbered headings; that 12 to 15 stand there although OSHA does not enforce what is in them, from memory',
  },
  actor: 'coordinator',
  gap: true,
  says: ({ product, missing }) =>
    `The safety data sheet of ${product} is recorded without ${missing.length === 1 ? 'the heading' : `${missing.length} of the sixteen headings:`} ${missing.join('; ')}.`,
  *check(view) {
    const begins = dayOfUndated(view)
    for (const { id, file, data } of view.products.values()) {
      for (const { sheet, position, from, until } of sheetsInForce(data.sds ?? [])) {
        const missing = sheet.sections ? headingsMissing(sheet.sections) : []
        const days = answeredDays({ from, until }, begins)
        if (missing.length === 0 || !days) continue
        yield {
          args: { product: data.name, missing },
          at: { file, path: ['sds', position, 'sections'] },
          ...days,
          identity: [id, sheet.from],
        }
      }
    }
  },
  failing: baitA({
    sds: `
  - from: 2026-01-05
    file: sds.txt
    sections: [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 13, 14, 15, 16] # expect: sds-sections-missing`,
  }),
  passing: baitA({
    sds: `
  - from: 2026-01-05
    file: sds.txt
    sections: [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16]`,
  }),
})
