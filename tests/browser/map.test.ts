import type { BrowserContext } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { workTree } from '../../src/files/work-tree.js'
import { htmlPage } from '../../src/output/html.js'
import { mapHtml } from '../../src/output/map-html.js'
import { mapSvgElement } from '../../src/output/map-svg.js'
import { readMap } from '../../src/reports/map.js'
import type { SiteMap } from '../../src/reports/map-site.js'
import { day } from '../ledger/small-site.js'
import { readingsOf, setOf } from '../reports/hotspots-grid.js'
import { oakMap, oakSite } from '../reports/map-ledgers.js'
import { hasBrowser, newBrowser, openPage } from './browser.js'

let browser: BrowserContext
beforeAll(async () => {
  if (hasBrowser) browser = await newBrowser()
})
afterAll(async () => {
  if (hasBrowser) await browser.close()
})

const example = (site: string, asOf: string, pest: string) =>
  readMap(
    workTree(new URL('../../examples/district/', import.meta.url).pathname),
    { asOf: day(asOf), asOfIsToday: false, pest },
    site,
  )

const exampleMap = (site: string, asOf: string, pest: string) => {
  const { map } = example(site, asOf, pest)
  if (!map) throw new Error(`${site} of the example cannot be read`)
  return map
}

const crowd = (many: number) =>
  oakMap(
    {
      '2026-03-01': setOf(
        Array.from(
          { length: many },
          (_, n) =>
            `T${n + 1}: {kind: sticky-trap, area: kitchen, for: [german-cockroach], at: [${1 + 2 * (n % 20)}, ${1 + Math.floor(n / 20)}]}`,
        ),
      ),
      '2026-03-31': readingsOf(many, (n) => (n * 7) % 13),
    },
    oakSite('kitchen: {kind: kitchen, outline: [[0, 0], [40, 0], [40, 30], [0, 30]]}'),
    { pest: 'german-cockroach' },
  )

interface Seen {
  readonly is: 'shape' | 'label' | 'area'
  readonly text: string
  readonly left: number
  readonly top: number
  readonly right: number
  readonly bottom: number
}

/** Shapes of devices and the texts on the plan as the browser measures them, at 1000 pixels a page width. */
async function seenOf(map: SiteMap): Promise<readonly Seen[]> {
  const html = htmlPage({
    title: 'map',
    css: 'body { margin: 0 }',
    body: mapSvgElement(map, { prefix: 'm-' }),
  })
  const { page, complaints, fetched } = await openPage(browser, html)
  expect([complaints, fetched]).toEqual([[], []])
  // Run in the page: what is drawn there is known to no one else.
  const seen = await page.evaluate(`(() => {
    const box = (is, element) => {
      const { left, top, right, bottom } = element.getBoundingClientRect()
      return { is, text: element.textContent.replace(/\\s+/g, ' ').trim(), left, top, right, bottom }
    }
    const plan = [...document.querySelectorAll('svg > text')]
    return [
      ...[...document.querySelectorAll('g > title + *')].map((shape) => box('shape', shape)),
      ...plan.filter((text) => text.querySelector('tspan')).map((text) => box('label', text)),
      ...plan.filter((text) => text.getAttribute('paint-order') && text.getAttribute('font-weight') === 'bold' && !text.querySelector('tspan')).map((text) => box('area', text)),
    ]
  })()`)
  await page.close()
  return seen as readonly Seen[]
}

/** Two things that share more than a hair, a pixel each way. */
function overlapping(seen: readonly Seen[]): string[] {
  return seen.flatMap((a, at) =>
    seen
      .slice(at + 1)
      .filter(
        (b) =>
          a.left + 1 < b.right - 1 &&
          b.left + 1 < a.right - 1 &&
          a.top + 2 < b.bottom - 2 &&
          b.top + 2 < a.bottom - 2,
      )
      .map((b) => `${a.is} ${a.text} / ${b.is} ${b.text}`),
  )
}

describe.skipIf(!hasBrowser)('a map in a browser', () => {
  it.each([
    ['Ottermere', () => exampleMap('ottermere', '2026-02-28', 'german-cockroach')],
    ['Tamsin Hill', () => exampleMap('tamsin-hill', '2025-02-20', 'house-mouse')],
    ['Quarry Road', () => exampleMap('quarry-road', '2026-06-30', 'fungus-gnat')],
    ['400 devices in one area', () => crowd(400)],
  ])('%s: no name or number lies over another, or over a shape', async (_, mapOf) => {
    const map = mapOf()
    const seen = await seenOf(map)
    expect(seen.filter(({ is }) => is === 'shape').length).toBe(map.devices.length)
    expect(seen.filter(({ is }) => is === 'label').length).toBeGreaterThan(0)
    expect(overlapping(seen)).toEqual([])
  })

  it('stands in a page with its tables, as wide as the page, and fetches nothing', async () => {
    const { map, report } = example('ottermere', '2026-02-28', 'german-cockroach')
    const html = mapHtml(map ?? crowd(1), report, { showWork: false })
    const { page, complaints, fetched } = await openPage(browser, html)
    await page.setViewportSize({ width: 600, height: 800 })
    const [picture, whole] = await Promise.all([
      page.locator('svg[role=img]').first().boundingBox(),
      page.evaluate('document.documentElement.scrollWidth'),
    ])
    expect([complaints, fetched]).toEqual([[], []])
    expect(picture?.width).toBeGreaterThan(400)
    expect(picture?.width).toBeLessThanOrEqual(600)
    expect(whole).toBe(600)
    expect(await page.locator('table').count()).toBe(
      report.tables.filter(({ rows }) => rows.length > 0).length,
    )
    await page.close()
  })
})
