import type { BrowserContext, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { memorySource } from '../../src/files/memory.js'
import type { Source } from '../../src/files/source.js'
import { workTree } from '../../src/files/work-tree.js'
import { pageMargins } from '../../src/output/clipboard-css.js'
import { clipboardHtml } from '../../src/output/clipboard-html.js'
import type { Clipboard } from '../../src/reports/clipboard.js'
import { readClipboard } from '../../src/reports/clipboard.js'
import { day, oakFiles } from '../ledger/small-site.js'
import type { Paper, Printed } from './browser.js'
import { hasBrowser, newBrowser, openPage, papers, pixelsPerMm, print, withoutBlanks } from './browser.js'

const example = () => workTree(new URL('../../examples/district', import.meta.url).pathname)

function clipboardIn(source: Source, site: string, asOf: string): Clipboard {
  const { clipboard } = readClipboard(source, { asOf: day(asOf), asOfIsToday: false }, site)
  if (!clipboard) throw new Error(`${site} cannot be read`)
  return clipboard
}

const areas = 8
const devicesEach = 12
const longText = 'the gap under the door is as wide as a thumb and daylight shows along all of it, '.repeat(8)
const longWord = 'Unterverteilungsschrankschlüsselring'.repeat(6)

/** Eight rooms, one with 60 traps, and texts as long as someone may write them. */
function largeSite(): Source {
  const rooms = Array.from({ length: areas }, (_, at) => `room-${at + 1}`)
  const kinds = [
    'sticky-trap',
    'snap-trap',
    'bait-station',
    'light-trap',
    'termite-station',
    'tracking-patch',
  ]
  const set = rooms.flatMap((room, at) =>
    Array.from({ length: at === 0 ? 60 : devicesEach }, (_, n) => {
      const kind = at === 0 ? 'sticky-trap' : kinds[n % kinds.length]
      return `  D${at + 1}-${n + 1}: {kind: ${kind}, area: ${room}, marked-as: "#${n + 1}", for: [house-mouse]}`
    }),
  )
  const conditions = rooms.map(
    (room) => `  gap-in-${room}: {new: "${longText}${room}", area: ${room}, owner: maintenance}`,
  )
  const site = `
name: Oak School ${'and the Annex behind the Playing Field '.repeat(6)}
site-manager: [{from: 2026-01-01, who: lind}]
complaint-log: front office
contract: []
areas:
${rooms.map((room) => `  ${room}: {kind: kitchen, name: "Room ${room} ${longWord}", keys: "${longWord}", let-in-by: custodian}`).join('\n')}
`
  return memorySource(
    oakFiles(
      { '2026-03-01': `set:\n${set.join('\n')}\nconditions:\n${conditions.join('\n')}` },
      {
        'sites/oak/site.yaml': site,
        'sites/oak/complaints/2026-03-02-marsh.yaml': `by: marsh\nfrom: staff\narea: room-2\npest: bat\nsays: "${longText}"\n`,
      },
    ),
  )
}

const sites: readonly (readonly [string, () => Clipboard, (pages: number) => boolean])[] = [
  // Twelve and eleven areas, a page each at most, the first page, and at most two areas that take a second one.
  [
    'a site of the example',
    () => clipboardIn(example(), 'ottermere', '2026-06-30'),
    (pages) => pages > 6 && pages <= 15,
  ],
  [
    'another, as it stood in winter',
    () => clipboardIn(example(), 'quarry-road', '2026-01-31'),
    (pages) => pages > 6 && pages <= 15,
  ],
  // Two sheets for the site; 60 traps at some 18 mm are 5. A room with 12 traps has 6 tables of some 60 mm and 200 mm of
  // all else, together 560 of the 250 mm that a sheet takes: 3 sheets, and one more as no short table is torn apart.
  [
    'a large site',
    () => clipboardIn(largeSite(), 'oak', '2026-03-31'),
    (pages) => pages > 2 * areas && pages <= 2 + 5 + 4 * areas,
  ],
]

/** Milliseconds; a browser starts in one or two seconds, and much later on a machine that is busy with other tests. */
const startingTakes = 60_000

describe.skipIf(!hasBrowser)('the clipboard in a browser', () => {
  let browser: BrowserContext
  beforeAll(async () => {
    browser = await newBrowser()
  }, startingTakes)
  afterAll(async () => {
    await browser.close()
  })

  describe.each(sites)('%s', (_, make, isSensible) => {
    let clipboard: Clipboard
    let page: Page
    let complaints: readonly string[]
    let fetched: readonly string[]
    beforeAll(async () => {
      clipboard = make()
      ;({ page, complaints, fetched } = await openPage(browser, clipboardHtml(clipboard)))
      await page.emulateMedia({ media: 'print' })
    }, startingTakes)

    it.each<Paper>(['Letter', 'A4'])('prints whole on %s', async (paper) => {
      const printed = await print(page, paper)
      expect(missingFrom(printed, clipboard)).toEqual([])
      // Half a millimetre for the slant of a letter and for rounding.
      expect(printed.left).toBeGreaterThan(pageMargins.sides - 0.5)
      expect(printed.right).toBeLessThan(papers[paper][0] - pageMargins.sides + 0.5)
      expect(isSensible(printed.pages), `${printed.pages} pages`).toBe(true)
      printed.textOf.forEach((text, at) => {
        expect(text).toContain(`page${at + 1}of${printed.pages}`)
      })
    })

    it.each<Paper>(['Letter', 'A4'])('has nothing wider than the text of %s', async (paper) => {
      await page.setViewportSize({ width: contentWidth(paper), height: 1000 })
      expect(await page.evaluate(widerThanItsPlace)).toEqual([])
      expect(await page.evaluate('document.documentElement.scrollWidth')).toBe(contentWidth(paper))
    })

    it('has boxes for a gloved hand, and letters for an outstretched arm', async () => {
      await page.setViewportSize({ width: contentWidth('A4'), height: 1000 })
      const { boxes, letters } = (await page.evaluate(sizes)) as { boxes: number[][]; letters: number[] }
      // At the very least by, day, from, to, five purposes, and two lines of three.
      expect(boxes.length).toBeGreaterThan(15)
      for (const [wide = 0, high = 0] of boxes) {
        expect(wide / pixelsPerMm).toBeGreaterThanOrEqual(9)
        expect(high / pixelsPerMm).toBeGreaterThanOrEqual(9)
      }
      // 11 pt; a point is 1/72 inch. The quotient of the browser's pixels may be off in its last digits.
      expect((Math.min(...letters) * 72) / 96).toBeGreaterThan(10.99)
    })

    it('asks for nothing and complains of nothing', () => {
      expect({ complaints, fetched }).toEqual({ complaints: [], fetched: [] })
    })
  })

  it('repeats the head of a table that goes on, and does not tear an area that fits a page', async () => {
    const clipboard = clipboardIn(largeSite(), 'oak', '2026-03-31')
    const { page } = await openPage(
      browser,
      clipboardHtml({ ...clipboard, areas: clipboard.areas.slice(0, 1) }),
    )
    const long = await print(page, 'A4')
    const withTraps = long.textOf.filter((text) => /#\d+/.test(text))
    expect(withTraps.length).toBeGreaterThan(2)
    for (const text of withTraps) expect(text).toContain('deviceinRoomroom-1')
    const small = clipboardIn(example(), 'ottermere', '2026-06-30')
    const { page: smaller } = await openPage(browser, clipboardHtml(small))
    const printed = await print(smaller, 'Letter')
    for (const { name } of small.areas) {
      // The name heads its block, and the last table of the block names it again.
      const last = withoutBlanks(`Found now in ${name}, outside devices`)
      const on = printed.textOf.findIndex((text) => text.includes(last))
      expect(printed.textOf[on]).toContain(withoutBlanks(`${name}${kindOf(small, name)}`))
    }
  })

  it('shows markup of records as text', async () => {
    const evil = '<img src=x onerror="document.title=1"></style><script>document.title=2</script>'
    const clipboard = clipboardIn(example(), 'ottermere', '2026-06-30')
    const { page, complaints, fetched } = await openPage(
      browser,
      clipboardHtml({ ...clipboard, name: evil, complaintLog: evil }),
    )
    expect(await page.evaluate('document.querySelectorAll("img, script").length')).toBe(0)
    expect(await page.evaluate('document.querySelector("h1").textContent')).toBe(evil)
    expect({ complaints, fetched }).toEqual({ complaints: [], fetched: [] })
    expect((await print(page, 'Letter')).text).toContain(withoutBlanks(evil))
  })
})

function kindOf(clipboard: Clipboard, name: string): string {
  return (
    clipboard.areas
      .find((area) => area.name === name)
      ?.kind?.split('-')
      .join(' ') ?? ''
  )
}

/** What is told of devices, conditions and complaints and is not in the print. */
function missingFrom({ text }: Printed, { areas, complaints, cautions }: Clipboard): string[] {
  const told = [
    ...areas.flatMap(({ name, keys, devices, conditions, lookAt }) => [
      name,
      keys ?? '',
      ...lookAt,
      ...devices.flatMap((group) => group.devices.flatMap(({ id, last }) => [id, last])),
      ...conditions.flatMap(({ name: condition, says }) => [condition, says]),
    ]),
    ...complaints.flatMap(({ id, says }) => [id, says]),
    ...cautions.map(({ says }) => says),
  ]
  return told.filter((one) => !text.includes(withoutBlanks(one)))
}

/** Width of the text on a sheet, in whole CSS pixels. */
function contentWidth(paper: Paper): number {
  return Math.floor((papers[paper][0] - 2 * pageMargins.sides) * pixelsPerMm)
}

/** Run in the page: elements whose content is wider than they are, or that reach beyond the page. */
const widerThanItsPlace = `[...document.body.querySelectorAll('*')]
  .filter((element) =>
    (element.clientWidth > 0 && element.scrollWidth > element.clientWidth + 1) ||
    element.getBoundingClientRect().right > document.documentElement.clientWidth + 1)
  .map((element) => element.outerHTML.slice(0, 100))`

/** Run in the page: width and height of every place to write in, and the sizes of all letters, in CSS pixels. */
const sizes = `({
  boxes: [...document.querySelectorAll('.box, .write')].map((element) => {
    const { width, height } = element.getBoundingClientRect()
    return [width, height]
  }),
  letters: [...document.body.querySelectorAll('*')]
    .filter((element) => element.textContent.trim() !== '')
    .map((element) => Number.parseFloat(getComputedStyle(element).fontSize)),
})`
