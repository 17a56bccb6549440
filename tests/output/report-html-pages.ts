import { run } from '../cli/run-doorsweep.js'
import type { ReadElement } from './read-xml.js'
import { readXml } from './read-xml.js'

export const exampleLedger = new URL('../../examples/district', import.meta.url).pathname

const on = (day: string) => ['--as-of', day]
const ofOne = ['--site', 'ottermere', '--pest', 'german-cockroach', ...on('2026-06-30')]

/** Every report of the program, some of them also with pictures or with the work shown. */
export const everyPage: readonly (readonly [string, readonly string[]])[] = [
  ...(
    [
      'gaps',
      'trend',
      'onset',
      'effect',
      'hotspots',
      'coverage',
      'conditions',
      'complaints',
      'contract',
      'thresholds',
      'use',
      'compliance',
    ] as const
  ).map((name) => [name, ['report', name, ...on('2026-06-30')]] as const),
  ['service', ['report', 'service', 'ottermere/2025-12-02-okafor', ...on('2026-06-30')]],
  ['application', ['report', 'application', 'ottermere/2026-01-10-okafor', ...on('2026-06-30')]],
  ['due', ['due', ...on('2026-06-30')]],
  ['history', ['history', ...on('2026-06-30')]],
  ['labels', ['labels', 'ottermere', ...on('2026-06-30')]],
  ['trend of one pest at one site', ['report', 'trend', ...ofOne]],
  ['onset of one pest at one site', ['report', 'onset', ...ofOne]],
  ['effect on one pest at one site', ['report', 'effect', ...ofOne]],
  ['use over years', ['report', 'use', '--from', '2022-01-01', ...on('2026-06-30')]],
  ['conditions of autumn', ['report', 'conditions', ...on('2025-10-31')]],
  ['thresholds crossed', ['report', 'thresholds', ...on('2026-01-15')]],
  ['trend with the work shown', ['report', 'trend', '--show-work', ...ofOne]],
]

/** One report in one format, as the program writes it. */
export async function pageOf(args: readonly string[], format: 'html' | 'json'): Promise<string> {
  const { code, out, err } = await run(exampleLedger, [...args, '--format', format])
  if (out === '') throw new Error(`${args.join(' ')}: ${code} ${err}`)
  return out
}

const named: Readonly<Record<string, string>> = { 34: 'quot', 38: 'amp', 39: 'apos', 60: 'lt', 62: 'gt' }

/** The body of a page, read as strictly as XML is; places where a word may break are left out. */
export function bodyOf(page: string): ReadElement {
  const body = page.slice(page.indexOf('<body>'), page.indexOf('</body>') + '</body>'.length)
  const xml = body.replaceAll('<wbr/>', '').replace(/&#(\d+);/g, (_, code: string) => `&${named[code]};`)
  return readXml(`<?xml version="1.0" encoding="UTF-8"?>\n${xml}`)
}

export function everyElement(element: ReadElement): ReadElement[] {
  return [element, ...element.children.flatMap(everyElement)]
}

export function elementsNamed(element: ReadElement, name: string): ReadElement[] {
  return everyElement(element).filter((one) => one.name === name)
}

/** All text of an element, that of its children last. */
export function textOf(element: ReadElement): string {
  return everyElement(element)
    .map(({ text }) => text)
    .join('')
}
