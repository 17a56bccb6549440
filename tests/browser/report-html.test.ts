import axe from 'axe-core'
import type { BrowserContext, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { reportHtml } from '../../src/output/report-html.js'
import { pageMargins } from '../../src/output/report-html-css.js'
import type { Report } from '../../src/types.js'
import { everyPage, pageOf } from '../output/report-html-pages.js'
import { smallReport } from '../output/small-report.js'
import type { Paper } from './browser.js'
import { hasBrowser, newBrowser, openPage, papers, pixelsPerMm, print, withoutBlanks } from './browser.js'

/** Milliseconds; a browser starts in one or two seconds, and much later on a machine that is busy with other tests. */
const takes = 90_000

const longWord = 'Unterverteilungsschrankschlüsselring'.repeat(6)
const columns = Array.from({ length: 24 }, (_, at) => ({
  id: `c${at}`,
  title: `what stands in column ${at}`,
  unit: 'per trap-week',
}))

/** Long words everywhere, and a table far wider than any paper. */
const wide: Report = {
  ...smallReport,
  title: `Catch in ${longWord}`,
  headline: longWord,
  facts: [{ label: longWord, value: longWord }],
  tables: [
    {
      id: 'wide',
      title: longWord,
      columns,
      rows: Array.from({ length: 3 }, (_, row) => ({
        cells: Object.fromEntries(columns.map(({ id }, at) => [id, at === 3 ? longWord : `r${row}x${at}y`])),
        records: [],
      })),
      empty: '',
    },
    ...smallReport.tables,
  ],
  plots: [
    {
      kind: 'bars',
      id: 'b',
      title: longWord,
      unit: 'uses',
      from: '2026-01-01',
      to: '2026-06-30',
      points: [],
      marks: [],
      bars: {
        by: 'owner',
        parts: [longWord, 'b'],
        rows: [
          { name: longWord, values: [3, 4] },
          { name: 'unknown', values: [null, null] },
        ],
      },
    },
    {
      id: 'l',
      title: 'rate',
      unit: 'per trap-week',
      from: '2026-01-01',
      to: '2026-06-30',
      points: [
        { day: '2026-01-01', value: 1, low: 0, high: null },
        { day: '2026-03-01', value: null },
        { day: '2026-06-30', value: 1234.5, low: 1000, high: 2000 },
      ],
      line: { value: 800, says: longWord },
      marks: Array.from({ length: 30 }, (_, at) => ({
        day: '2026-06-30',
        says: `${at} ${longWord}`,
        kind: 'repair' as const,
      })),
    },
  ],
  cautions: [longWord],
  notExamined: [longWord],
  paste: { title: 'Paste', text: `key: ${longWord}` },
}

const pages: readonly (readonly [string, () => Promise<string>])[] = [
  ...everyPage.map(([name, args]) => [name, () => pageOf(args, 'html')] as const),
  ['a report of long words and a very wide table', async () => reportHtml(wide, { showWork: true })],
]

describe.skipIf(!hasBrowser)('reports in a browser', () => {
  let browser: BrowserContext
  beforeAll(async () => {
    browser = await newBrowser()
  }, takes)
  afterAll(async () => {
    await browser.close()
  })

  it.each(pages)(
    '%s reads on a telephone and a desk, prints whole and bars no one',
    async (_, make) => {
      const { page, complaints, fetched } = await openPage(browser, await make())
      for (const width of [360, 1280]) {
        await page.setViewportSize({ width, height: 800 })
        expect(await page.evaluate(cutOff), `at ${width}`).toEqual([])
        expect(await page.evaluate('document.documentElement.scrollWidth')).toBeLessThanOrEqual(width)
        expect(await violations(page), `at ${width}`).toEqual([])
      }
      await page.emulateMedia({ media: 'print' })
      for (const paper of Object.keys(papers) as Paper[]) {
        const width = Math.floor((papers[paper][0] - 2 * pageMargins.sides) * pixelsPerMm)
        await page.setViewportSize({ width, height: 1000 })
        expect(await page.evaluate(cutOff), `on ${paper}`).toEqual([])
        expect(await page.evaluate('document.documentElement.scrollWidth')).toBeLessThanOrEqual(width)
      }
      expect({ complaints, fetched }).toEqual({ complaints: [], fetched: [] })
      await page.close()
    },
    takes,
  )

  it.each<Paper>(['Letter', 'A4'])(
    'everything is in the print on %s, within its margins, each page with its number',
    async (paper) => {
      for (const html of [
        reportHtml(wide, { showWork: true }),
        await pageOf(everyPage[17]?.[1] ?? [], 'html'),
      ]) {
        const { page } = await openPage(browser, html)
        const cells = (await page.evaluate(everyCell)) as string[]
        const printed = await print(page, paper)
        expect(cells.length).toBeGreaterThan(10)
        expect(cells.filter((cell) => !printed.text.includes(withoutBlanks(cell)))).toEqual([])
        expect(printed.left).toBeGreaterThan(pageMargins.sides - 0.5)
        expect(printed.right).toBeLessThan(papers[paper][0] - pageMargins.sides + 0.5)
        printed.textOf.forEach((text, at) => {
          expect(text).toContain(`page${at + 1}of${printed.pages}`)
        })
        await page.close()
      }
    },
    takes,
  )

  it('a wide table scrolls in its own box, also by keyboard', async () => {
    const { page } = await openPage(browser, reportHtml(wide, { showWork: false }))
    await page.setViewportSize({ width: 360, height: 800 })
    const box = page.locator('.scroll').first()
    expect(await page.evaluate(`(${firstBox}).scrollWidth > (${firstBox}).clientWidth`)).toBe(true)
    await box.focus()
    await page.keyboard.press('ArrowRight')
    await expect.poll(() => page.evaluate(`(${firstBox}).scrollLeft`)).toBeGreaterThan(0)
    await page.close()
  })

  it('runs no markup of records', async () => {
    const evil = '<img src=x onerror="document.title=1"></style><script>document.title=2</script>'
    const { page, complaints, fetched } = await openPage(
      browser,
      reportHtml({ ...wide, title: evil, headline: evil, cautions: [evil] }, { showWork: true }),
    )
    expect(await page.evaluate('document.querySelectorAll("img, script").length')).toBe(0)
    expect(await page.locator('h1').textContent()).toBe(evil)
    expect({ complaints, fetched }).toEqual({ complaints: [], fetched: [] })
    await page.close()
  })
})

/** Rule and place of everything that axe finds wrong, by the rules of WCAG and by good practice. */
async function violations(page: Page): Promise<string[]> {
  // A page allows no script, so this comes in by the browser's own door.
  await page.evaluate(axe.source)
  return (await page.evaluate(`axe.run().then(({ violations }) =>
    violations.flatMap(({ id, nodes }) => nodes.map(({ html }) => id + ': ' + html.slice(0, 120))))`)) as string[]
}

/** Run in the page: what is wider than its place, save what scrolls, or reaches beyond the page outside of a box that scrolls. */
const cutOff = `[...document.body.querySelectorAll('*')]
  .filter((element) => {
    const scrolls = element.closest('.scroll')
    const isOnScreen = scrolls && getComputedStyle(scrolls).overflowX === 'auto'
    if (isOnScreen && element !== scrolls) return false
    const { left, right, width } = element.getBoundingClientRect()
    const isBeyond = width > 0 && (left < -1 || right > document.documentElement.clientWidth + 1)
    const isTooFull = !isOnScreen && !element.closest('svg') && element.clientWidth > 0 && element.scrollWidth > element.clientWidth + 1
    return isBeyond || isTooFull
  })
  .map((element) => element.outerHTML.slice(0, 120))`

const everyCell = `[...document.querySelectorAll('td, tbody th, h1, h2, .headline, dd, li, pre')].map((element) => element.textContent)`
const firstBox = `document.querySelector('.scroll')`
