import { describe, expect, it } from 'vitest'
import { reportHtml, reportSection } from '../../src/output/report-html.js'
import { cellText, heading } from '../../src/output/report-text.js'
import type { Column, Report } from '../../src/types.js'
import { run } from '../cli/run-doorsweep.js'
import type { ReadElement } from './read-xml.js'
import {
  bodyOf,
  elementsNamed,
  everyElement,
  everyPage,
  exampleLedger,
  pageOf,
  textOf,
} from './report-html-pages.js'
import { smallReport } from './small-report.js'

/** Milliseconds: some reports take seconds on a busy machine. */
const takes = 60_000

interface JsonReport {
  readonly title: string
  readonly headline: string
  readonly facts: readonly { readonly label: string; readonly value: string }[]
  readonly tables: readonly {
    readonly id: string
    readonly title: string
    readonly columns: readonly { readonly id: string; readonly title: string; readonly unit: string | null }[]
    readonly rows: readonly Readonly<Record<string, unknown>>[]
  }[]
  readonly plots?: readonly { readonly title: string }[]
  readonly cautions: readonly string[]
  readonly 'not-examined': readonly string[]
}

const withoutTicks = (text: string) => text.replaceAll('`', '')
/** Heads and texts of the cells of each table. */
const tablesOf = (body: ReadElement) =>
  elementsNamed(body, 'table').map((table) => ({
    caption: textOf(elementsNamed(table, 'caption')[0] as ReadElement),
    heads: elementsNamed(elementsNamed(table, 'thead')[0] as ReadElement, 'th').map(textOf),
    rows: elementsNamed(elementsNamed(table, 'tbody')[0] as ReadElement, 'tr').map(({ children }) =>
      children.map(textOf),
    ),
  }))

describe.each(everyPage)('%s', (_, args) => {
  it(
    'is a well-formed page with every table and picture named, whose numbers are those for machines',
    async () => {
      const [html, json] = [await pageOf(args, 'html'), JSON.parse(await pageOf(args, 'json')) as JsonReport]
      const body = bodyOf(html)
      expect(html).toMatch(/^<!doctype html>\n<html lang="en">/)
      expect(idsTwice(body)).toEqual([])
      expect(idsMeantButNotThere(body, html)).toEqual([])
      expect(unnamed(body)).toEqual([])
      expect(textOf(elementsNamed(body, 'h1')[0] as ReadElement)).toBe(json.title)
      expect(elementsNamed(body, 'h1')).toHaveLength(1)
      const words = withoutTicks(everyElement(body).map(textOf).join('\n'))
      for (const said of [json.headline, ...json.cautions, ...json['not-examined']])
        expect(words).toContain(withoutTicks(said.split('`')[0] ?? ''))
      for (const { label, value } of json.facts) {
        expect(words).toContain(label)
        expect(words).toContain(withoutTicks(value.split('`')[0] ?? '').trim())
      }
      expect(elementsNamed(body, 'svg').filter(({ attributes }) => attributes.role === 'img').length).toBe(
        json.plots?.length ?? 0,
      )
      expect(numbersCompared(body, json).filter(({ isSame }) => !isSame)).toEqual([])
    },
    takes,
  )
})

/** The numbers of each table on the page that machines get too: whether rounded they are what stands there. */
function numbersCompared(
  body: ReadElement,
  json: JsonReport,
): { readonly what: string; readonly isSame: boolean }[] {
  const shown = tablesOf(body)
  return json.tables.flatMap((table) => {
    const page = shown.find(({ caption }) => caption === table.title)
    if (!page) return []
    return table.columns.flatMap(({ id, title, unit }) => {
      const at = page.heads.indexOf(unit === null ? title : `${title} (${unit})`)
      if (at === -1) return []
      return page.rows.flatMap((cells, row) => {
        const [cell, value] = [cells[at] ?? '', table.rows[row]?.[id]]
        if (typeof value !== 'number') return []
        // A column for people may have the same title, and more to tell: `3 of 7`.
        const [number = cell, decimals = ''] = /^-?\d+(?:\.(\d+))?/.exec(cell) ?? []
        const isSame = Number(number) === Number(value.toFixed(decimals.length))
        return [{ what: `${table.id} ${row} ${id}: ${cell}, not ${value}`, isSame }]
      })
    })
  })
}

function idsTwice(body: ReadElement): string[] {
  const ids = everyElement(body).flatMap(({ attributes }) => attributes.id ?? [])
  return ids.filter((id, at) => ids.indexOf(id) !== at)
}

/** Ids that labels, links and fills point at. */
function idsMeantButNotThere(body: ReadElement, html: string): string[] {
  const ids = new Set(everyElement(body).flatMap(({ attributes }) => attributes.id ?? []))
  const meant = [
    ...everyElement(body).flatMap(({ attributes }) => [
      ...(attributes['aria-labelledby']?.split(' ') ?? []),
      ...(attributes.href === undefined ? [] : [attributes.href.replace(/^#/, '')]),
    ]),
    ...[...html.matchAll(/url\(#([^)]+)\)/g)].map(([, id = '']) => id),
  ]
  return meant.filter((id) => !ids.has(id))
}

/** Tables without a caption or with a head that says not of what, and pictures without a title and a description. */
function unnamed(body: ReadElement): string[] {
  return [
    ...elementsNamed(body, 'table')
      .filter((table) => textOf(elementsNamed(table, 'caption')[0] ?? table) === '')
      .map(() => 'a table'),
    ...elementsNamed(body, 'th')
      .filter(({ attributes }) => !['col', 'row'].includes(attributes.scope ?? ''))
      .map((head) => `a head: ${textOf(head)}`),
    ...elementsNamed(body, 'svg')
      .filter(
        (svg) =>
          svg.attributes['aria-hidden'] !== 'true' &&
          ['title', 'desc'].some((name) => textOf(elementsNamed(svg, name)[0] ?? svg).trim() === ''),
      )
      .map(() => 'a picture'),
  ]
}

const hostile = [
  `<img src=x onerror="alert(1)">`,
  `</style></svg></script><script>alert(1)</script>`,
  `" onmouseover='x' &amp; \`code\``,
  '\u{1f400}\u{1f3eb} mouse at school',
  'מטבח ראשי \u202e gnp.exe',
  'المطبخ الرئيسي',
  'a'.repeat(300),
  'bell\u0007',
]

describe.each(hostile)('the text %j', (text) => {
  const column: Column = { id: 'a', title: text, unit: text, decimals: 1 }
  const report: Report = {
    ...smallReport,
    title: text,
    headline: text,
    facts: [{ label: text, value: text }],
    tables: [
      {
        id: 't',
        title: text,
        columns: [{ id: 'b', title: text }, column],
        rows: [{ cells: { b: text, a: 1.25 }, records: [text] }],
        empty: text,
      },
      { id: 'u', title: text, columns: [column], rows: [], empty: text },
    ],
    plots: [
      {
        id: text,
        title: text,
        unit: text,
        from: '2026-01-01',
        to: '2026-06-30',
        points: [{ day: '2026-02-01', value: 1, low: 0, high: null }],
        line: { value: 2, says: text },
        marks: [{ day: '2026-03-01', says: text, kind: 'repair' }],
      },
      {
        kind: 'bars',
        id: text,
        title: text,
        unit: text,
        from: '2026-01-01',
        to: '2026-06-30',
        points: [],
        marks: [],
        bars: { by: text, parts: [text], rows: [{ name: text, values: [3] }] },
      },
    ],
    cautions: [text],
    notExamined: [text],
    paste: { title: text, text: `${text}\n  second: line` },
  }
  const page = reportHtml(report, { showWork: true })
  const tags = new Set(everyElement(bodyOf(page)).map(({ name }) => name))

  it('stays text', () => {
    for (const name of ['img', 'script', 'style', 'iframe', 'b']) expect(tags).not.toContain(name)
    const attributes = everyElement(bodyOf(page)).flatMap((one) => Object.keys(one.attributes))
    expect(attributes.filter((name) => name.startsWith('on') || name === 'src')).toEqual([])
    expect(page).not.toMatch(/[\u0007\u202e]/)
    expect(page.match(/<\/style>/g)).toHaveLength(1)
  })

  it('is told in full everywhere', () => {
    const shown = withoutTicks(cellText(text, column))
    for (const [name, least] of [
      ['h1', 1],
      ['h2', 4],
      ['dd', 1],
      ['th', 2],
      ['figcaption', 2],
      ['title', 2],
      ['li', 4],
    ] as const)
      expect(
        elementsNamed(bodyOf(page), name).filter((one) =>
          withoutTicks(textOf(one)).includes(shown.split('code')[0] ?? ''),
        ).length,
      ).toBeGreaterThanOrEqual(least)
    expect(page).toContain('\n  second: line</pre>')
  })
})

it('many numbers are so compared', async () => {
  const [, args] = everyPage.find(([name]) => name === 'use') ?? ['', []]
  const json = JSON.parse(await pageOf(args, 'json')) as JsonReport
  // Twelve months with two counts each, and more.
  expect(numbersCompared(bodyOf(await pageOf(args, 'html')), json).length).toBeGreaterThan(24)
})

describe('a page', () => {
  it('tells how many rows it does not show, and how to get them', () => {
    const [table] = smallReport.tables
    if (!table) throw new Error('no table')
    const report = { ...smallReport, tables: [{ ...table, shownToPeople: 1 }] }
    const short = reportHtml(report, { showWork: false })
    expect(tablesOf(bodyOf(short))[0]?.rows).toHaveLength(1)
    expect(short).toContain(
      '<p class="more">3 more rows: --show-work, --format json or csv shows them all.</p>',
    )
    const whole = reportHtml(report, { showWork: true })
    expect(tablesOf(bodyOf(whole))[0]?.rows).toHaveLength(4)
    expect(whole).not.toContain('class="more"')
  })

  it('shows the numbers behind a row, and its records, only where asked for', () => {
    const [few] = tablesOf(bodyOf(reportHtml(smallReport, { showWork: false })))
    expect(few?.heads).toEqual(['area', 'rate (95 %)', 'rate (per trap-week)', 'note'])
    // 7 in 12 is 0.58; what is no number is a dash.
    expect(few?.rows.map((row) => row[2])).toEqual(['0.58', '–', '–', '0.00'])
    const [all] = tablesOf(bodyOf(reportHtml(smallReport, { showWork: true })))
    expect(all?.heads).toEqual((smallReport.tables[0]?.columns ?? []).map(heading).concat('records'))
    expect(all?.rows[0]?.at(-1)).toContain('sites/oak/visits/2026-03-12-okafor.yaml')
  })

  it('says of a table without rows what that means, and of a part that could not be examined that it could not', () => {
    const page = reportHtml(smallReport, { showWork: false })
    expect(page).toContain('<p class="empty">There is none.</p>')
    expect(page).toContain('Part of what was asked for could not be examined')
    const silent = reportHtml({ ...smallReport, notExamined: [] }, { showWork: false })
    expect(idsMeantButNotThere(bodyOf(silent), silent)).toEqual([])
    expect(silent).toContain('the report does not say which')
  })

  it('of a report without anything is a page still', () => {
    const page = reportHtml(
      {
        report: 'x',
        title: 'x',
        headline: 'Nothing.',
        asOf: '2026-01-01',
        facts: [],
        tables: [],
        cautions: [],
        notExamined: [],
        incomplete: false,
      },
      { showWork: false },
    )
    expect(elementsNamed(bodyOf(page), 'h1').map(textOf)).toEqual(['x'])
    expect(elementsNamed(bodyOf(page), 'ul')).toEqual([])
  })
})

describe('sections of several reports', () => {
  it('stand in one page: ids begin with their own, headings with the level asked for', () => {
    const sections = ['use', 'Use 2!'].map((id) =>
      reportSection(smallReport, { id, level: 2, showWork: false }),
    )
    const body = bodyOf(`<body>${sections.join('')}</body>`)
    expect(idsTwice(body)).toEqual([])
    expect(elementsNamed(body, 'h1')).toEqual([])
    expect(elementsNamed(body, 'h2').map(textOf)).toEqual([smallReport.title, smallReport.title])
    expect(elementsNamed(body, 'h3').length).toBeGreaterThan(2)
    for (const { attributes } of everyElement(body))
      if (attributes.id !== undefined) expect(attributes.id).toMatch(/^use(-2-)?-?/)
  })
})

it('a format that there is not is refused, with those that there are', async () => {
  const { code, err } = await run(exampleLedger, ['report', 'use', '--format', 'htm'])
  expect(code).toBe(2)
  expect(err).toContain('html')
})
