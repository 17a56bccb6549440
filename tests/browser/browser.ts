import { existsSync } from 'node:fs'
import { join } from 'node:path'
import { pathToFileURL } from 'node:url'
import type { BrowserContext, Page } from 'playwright-core'
import { chromium } from 'playwright-core'
import { pdfBounds, readPdf } from '../../src/files/pdf-text.js'
import { newFolder, writeFiles } from '../cli/run-doorsweep.js'

/** Where Debian puts it. */
const executablePath = '/usr/bin/chromium'

export const hasBrowser = existsSync(executablePath)
if (!hasBrowser)
  process.stderr.write(
    `tests/browser is skipped: there is no browser at ${executablePath} (apt install chromium)\n`,
  )

const flags = [
  '--headless',
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
]

/** A browser with nothing of an earlier one, and without a network. */
export async function newBrowser(): Promise<BrowserContext> {
  const browser = await chromium.launchPersistentContext(newFolder(), { executablePath, args: flags })
  await browser.setOffline(true)
  return browser
}

export interface OpenPage {
  readonly page: Page
  /** Errors and warnings of the console, and of scripts. */
  readonly complaints: readonly string[]
  /** Addresses asked for, beside the page's own. */
  readonly fetched: readonly string[]
}

/** Opens a page from a file, as one would by a double click. */
export async function openPage(browser: BrowserContext, html: string): Promise<OpenPage> {
  const folder = newFolder()
  writeFiles(folder, new Map([['page.html', html]]))
  const address = pathToFileURL(join(folder, 'page.html')).href
  const page = await browser.newPage()
  const complaints: string[] = []
  const fetched: string[] = []
  page.on('console', (message) => complaints.push(`${message.type()}: ${message.text()}`))
  page.on('pageerror', (error) => complaints.push(String(error)))
  page.on('request', (request) => {
    if (request.url() !== address) fetched.push(request.url())
  })
  await page.goto(address)
  return { page, complaints, fetched }
}

/** Sizes of paper in mm: ISO 216; Letter is 8.5 by 11 inches. */
export const papers = { Letter: [215.9, 279.4], A4: [210, 297] } as const
export type Paper = keyof typeof papers

/** CSS Values and Units: a CSS inch is 96 px, and 25.4 mm. */
export const pixelsPerMm = 96 / 25.4

/** Points of a PDF are 1/72 inch. */
const mmPerPoint = 25.4 / 72

export interface Printed {
  readonly pages: number
  /** Without blanks, which depend on where lines end. */
  readonly text: string
  /** Text of each page, likewise. */
  readonly textOf: readonly string[]
  /** Where text begins and ends across the paper at most, in mm. */
  readonly left: number
  readonly right: number
}

export async function print(page: Page, paper: Paper): Promise<Printed> {
  const read = await readPdf(await page.pdf({ format: paper }), { ...pdfBounds, pages: 1000 })
  if ('refused' in read) throw new Error(read.detail)
  const pieces = read.pages.map((one) => ('pieces' in one ? one.pieces : []))
  const textOf = pieces.map((one) => withoutBlanks(one.map(({ text }) => text).join('')))
  // A blank between two cells may be told as reaching anywhere.
  const inked = pieces.flat().filter(({ text }) => text.trim() !== '')
  return {
    pages: read.pageCount,
    text: textOf.join(''),
    textOf,
    left: Math.min(...inked.map(({ x }) => x)) * mmPerPoint,
    right: Math.max(...inked.map(({ x, width }) => x + width)) * mmPerPoint,
  }
}

export function withoutBlanks(text: string): string {
  return text.replace(/\s+/g, '')
}
