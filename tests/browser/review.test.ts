import axe from 'axe-core'
import type { BrowserContext, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { memorySource } from '../../src/files/memory.js'
import { pageMargins } from '../../src/output/report-html-css.js'
import { reviewHtml } from '../../src/output/review-html.js'
import type { Review } from '../../src/reports/review/review.js'
import { oakFiles } from '../ledger/small-site.js'
import { example, reviewIn } from '../reports/review/reviews.js'
import type { Paper } from './browser.js'
import { hasBrowser, newBrowser, openPage, papers, pixelsPerMm, print, withoutBlanks } from './browser.js'

const longWord = 'Unterverteilungsschrankschlüsselring'.repeat(6)
const evil = '<img src=x onerror="document.title=1"></style><script>document.title=2</script>'

/** Names and texts as long, and as bad, as someone may write them. */
function roughReview(): Review {
  const rooms = Array.from({ length: 20 }, (_, at) => `room-${at + 1}`)
  const site = `
name: ${JSON.stringify(`Oak ${evil}`)}
site-manager: [{from: 2026-01-01, who: lind}]
complaint-log: front office
contract: []
areas:
${rooms.map((room) => `  ${room}: {kind: kitchen, name: "${room} ${longWord}"}`).join('\n')}
`
  const conditions = rooms.map(
    (room) => `  gap-in-${room}: {new: ${JSON.stringify(`${longWord} ${evil}`)}, area: ${room}, gives: food}`,
  )
  return reviewIn(
    memorySource(
      oakFiles(
        { '2026-03-01': `conditions:\n${conditions.join('\n')}` },
        {
          'sites/oak/site.yaml': site,
          'reviews/2025.yaml': `held: 2025-12-01\nby: marsh\npresent: [${longWord}]\ndecisions:\n  a: {what: ${longWord}}\n`,
        },
      ),
    ),
    { year: '2026', asOf: '2026-12-31', site: 'oak' },
  )
}

const reviews: readonly (readonly [string, () => Review])[] = [
  ['of the example', () => reviewIn(example(), { asOf: '2026-06-30' })],
  [
    'of one site, with all that can be shown',
    () => reviewIn(example(), { site: 'ottermere', with: ['complaints', 'floor-plan', 'names'] }),
  ],
  ['of a year before the records', () => reviewIn(example(), { year: '2019' })],
  ['with long and hostile texts', roughReview],
]

/** Milliseconds; a browser starts in one or two seconds, and much later on a machine that is busy with other tests. */
const startingTakes = 120_000

describe.skipIf(!hasBrowser)('the review in a browser', () => {
  let browser: BrowserContext
  beforeAll(async () => {
    browser = await newBrowser()
  }, startingTakes)
  afterAll(async () => {
    await browser.close()
  })

  describe.each(reviews)('%s', (_, make) => {
    let review: Review
    let page: Page
    let complaints: readonly string[]
    let fetched: readonly string[]
    beforeAll(async () => {
      review = make()
      ;({ page, complaints, fetched } = await openPage(browser, reviewHtml(review)))
    }, startingTakes)

    it.each([360, 1280])('cuts nothing off at %i pixels', async (width) => {
      await page.emulateMedia({ media: 'screen' })
      await page.setViewportSize({ width, height: 900 })
      expect(await page.evaluate('document.documentElement.scrollWidth')).toBe(width)
      expect(await page.evaluate(widerThanItsPlace)).toEqual([])
    })

    it.each<Paper>(['A4', 'Letter'])(
      'prints whole on %s',
      async (paper) => {
        await page.emulateMedia({ media: 'print' })
        const width = contentWidth(paper)
        await page.setViewportSize({ width, height: 1000 })
        expect(await page.evaluate('document.documentElement.scrollWidth')).toBe(width)
        expect(await page.evaluate(widerThanThePaper)).toEqual([])
        const printed = await print(page, paper)
        expect(printed.left).toBeGreaterThan(pageMargins.sides - 0.5)
        expect(missingFrom(printed.text, review)).toEqual([])
        printed.textOf.forEach((text, at) => {
          expect(text).toContain(`page${at + 1}of${printed.pages}`)
          expect(text).toContain(withoutBlanks(`as of ${review.asOf}`))
        })
      },
      startingTakes,
    )

    it(
      'can be followed by ear: headings in order, no fault that axe finds',
      async () => {
        await page.emulateMedia({ media: 'screen' })
        await page.setViewportSize({ width: 1280, height: 900 })
        const levels = (await page.evaluate(headings)) as number[]
        expect(levels[0]).toBe(1)
        expect(levels.filter((level) => level === 1)).toHaveLength(1)
        levels.forEach((level, at) => {
          expect(level - (levels[at - 1] ?? 0)).toBeLessThanOrEqual(1)
        })
        await page.evaluate(axe.source)
        const found = (await page.evaluate(
          `axe.run({
            runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'best-practice'],
            // A table's section and the box that it scrolls in bear the name of the table, both.
            rules: { 'landmark-unique': { enabled: false } },
          })
          .then(({ violations }) => violations.map(({ id, nodes }) => id + ': ' + nodes.map(({ html }) => html.slice(0, 120)).slice(0, 3).join(' ')))`,
        )) as string[]
        expect(found).toEqual([])
      },
      startingTakes,
    )

    it('leads to every answer, by the keyboard too', async () => {
      expect(await page.evaluate(deadLinks)).toEqual([])
      await page.keyboard.press('Tab')
      expect(await page.evaluate('document.activeElement.className')).toBe('skip')
      expect(
        await page.evaluate('new Set([...document.querySelectorAll("[id]")].map(({ id }) => id)).size'),
      ).toBe(await page.evaluate('document.querySelectorAll("[id]").length'))
      expect(await page.evaluate('document.documentElement.lang')).toBe('en')
      expect(await page.evaluate(tablesWithoutNames)).toEqual([])
    })

    it('asks for nothing and complains of nothing', () => {
      expect({ complaints, fetched }).toEqual({ complaints: [], fetched: [] })
    })
  })

  it('shows markup of records as text', async () => {
    const { page } = await openPage(browser, reviewHtml(roughReview()))
    expect(await page.evaluate('document.querySelectorAll("img, script").length')).toBe(0)
    expect(await page.evaluate('document.querySelector("h1").textContent')).toContain(evil)
    expect(await page.title()).toContain('Review of')
  })

  it('begins the answers, and the lines to write on, on a page of their own', async () => {
    const review = reviewIn(example(), { asOf: '2026-06-15' })
    const { page } = await openPage(browser, reviewHtml(review))
    const { textOf } = await print(page, 'A4')
    expect(textOf[0]).toContain('Whatcanimprovenextyear?')
    expect(textOf[0]).not.toContain('Decisionsof2025')
    const blank = textOf.find((text) => text.includes('Whatwasdecided') && text.includes('Whotookpart'))
    expect(blank).toBeDefined()
    expect(blank).not.toContain('Whatthecontractssay')
  })
})

/** Width of the text on a sheet, in whole CSS pixels. */
function contentWidth(paper: Paper): number {
  return Math.floor((papers[paper][0] - 2 * pageMargins.sides) * pixelsPerMm)
}

/** Questions, answers and cells of what people are shown that are not in the print. */
function missingFrom(text: string, review: Review): string[] {
  const told = [
    review.headline,
    ...review.improve.map(({ says }) => says.slice(1)),
    ...review.answers.flatMap(({ question, answer, tables, commands }) => [
      question,
      answer,
      ...commands,
      ...tables
        .filter((table) => table.for !== 'work')
        .flatMap(({ title, columns, rows, shownToPeople = rows.length }) => [
          title,
          ...rows
            .slice(0, shownToPeople)
            .flatMap(({ cells }) =>
              columns.filter((column) => column.for !== 'work').map(({ id }) => cells[id]),
            )
            .filter((cell) => typeof cell === 'string'),
        ]),
    ]),
    ...review.blank.asks.map(({ says }) => says),
    ...review.notExamined,
  ]
  return told.map((one) => withoutBlanks(one).replaceAll('`', '')).filter((one) => !text.includes(one))
}

/** Run in the page: what reaches beyond the page and does not stand in a box that can be scrolled. */
const widerThanItsPlace = `[...document.body.querySelectorAll('*')]
  .filter((element) => !element.closest('.scroll, .unseen, .skip'))
  .filter((element) => element.getBoundingClientRect().right > document.documentElement.clientWidth + 1)
  .map((element) => element.outerHTML.slice(0, 100))`

/** Run in the page as it is printed, where nothing can be scrolled. */
const widerThanThePaper = `[...document.body.querySelectorAll('*')]
  .filter((element) => !element.closest('.unseen'))
  .filter((element) => element.getBoundingClientRect().right > document.documentElement.clientWidth + 1)
  .map((element) => element.outerHTML.slice(0, 100))`

const headings = `[...document.querySelectorAll('h1, h2, h3, h4, h5, h6')].map(({ tagName }) => Number(tagName[1]))`

const deadLinks = `[...document.querySelectorAll('a[href^="#"]')]
  .map((link) => link.getAttribute('href').slice(1))
  .filter((id) => document.getElementById(id) === null)`

const tablesWithoutNames = `[...document.querySelectorAll('table')]
  .filter((table) => !table.caption || [...table.querySelectorAll('th')].some((head) => !head.scope))
  .map((table) => table.outerHTML.slice(0, 100))`
