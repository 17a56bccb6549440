import { describe, expect, it } from 'vitest'
import { clipboardHtml } from '../../src/output/clipboard-html.js'
import { clipboardJson } from '../../src/output/clipboard-json.js'
import { everywhere, smallClipboard } from './small-clipboard.js'

/** Tags in order, without what they hold, so that a text that became one shows. */
const tagsOf = (html: string) => html.match(/<[^>]*>/g) ?? []
const count = (html: string, part: string) => html.split(part).length - 1
const tableWith = (html: string, caption: string) =>
  html.match(/<table.*?<\/table>/gs)?.find((table) => table.includes(caption)) ?? ''

describe('the clipboard as a page', () => {
  const html = clipboardHtml(smallClipboard)

  it('has a heading for the site, one for the cautions, and one for every area in order', () => {
    expect(html.match(/<h[12]>.*?<\/h[12]>/g)).toEqual([
      '<h1>Oak School</h1>',
      '<h2>Before you start</h2>',
      '<h2>Main kitchen</h2>',
      '<h2>No area recorded</h2>',
    ])
    expect(count(html, '<section class="area">')).toBe(2)
    expect(html).toContain('Not the whole site: 2 other areas are not on this page: Gym, Store.')
    expect(html).toContain('<span class="key">Key:</span> ring 3; let in by cook')
    expect(html).toContain('bats: see &#34;Before you start&#34;')
  })

  it('gives every device a row of its own with a place for each thing asked', () => {
    const table = tableWith(html, 'Sticky trap, for German cockroach')
    // None, count, and two choices, for two devices.
    expect(count(table, '<td class="write">')).toBe(8)
    expect(count(table, '<th scope="row">')).toBe(2)
    expect(table).toContain('<th scope="colgroup" colspan="2">bait gone</th>')
    expect(table).toContain('<th scope="col">some</th><th scope="col">all</th>')
    expect(table).toContain('marked #17')
    const widths = [...table.matchAll(/<col style="width:([0-9.]+)%">/g)].map((match) => Number(match[1]))
    // Two columns that tell, four to write in; together the whole width, but for rounding to hundredths.
    expect(widths.length).toBe(6)
    expect(Math.abs(widths.reduce((sum, width) => sum + width, 0) - 100)).toBeLessThan(0.05)
  })

  it('asks of an open condition whether it is still there, fixed or closed, and of a repaired one whether it holds', () => {
    const open = tableWith(html, 'Open conditions')
    expect(open.match(/<th scope="col">(.*?)<\/th>/g)).toEqual([
      '<th scope="col">still there</th>',
      '<th scope="col">fixed now</th>',
      '<th scope="col">closed: found put right</th>',
      '<th scope="col">how it is now</th>',
    ])
    expect(open).toContain(
      'drip: <span>drip under sink (found 2026-03-01, for maintenance, to be mended by 2026-03-20)',
    )
    expect(open).not.toContain('crack')
    const repaired = tableWith(html, 'Put right: look again')
    expect(repaired).toContain('<th scope="col">holds</th><th scope="col">back again</th>')
    expect(repaired).toContain('crack in tiles (found 2026-03-01, repaired 2026-03-10)')
  })

  it('lets no text of a record become markup, an attribute, a style or a control character', () => {
    const plain = clipboardHtml(everywhere('plain'))
    const evil = clipboardHtml(
      everywhere('</style></td><script>x</script><b a="\'>&lt;\u0007\u202e*/} body{display:none}'),
    )
    expect(tagsOf(evil)).toEqual(tagsOf(plain))
    // One </style> is the page's own.
    expect(count(evil, '</style>')).toBe(1)
    expect(evil).not.toContain('body{display:none}"')
    expect(evil).toContain('\\u0007')
    expect(/[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u202a-\u202e]/.test(evil)).toBe(false)
    const style = evil.slice(evil.indexOf('<style>'), evil.indexOf('</style>'))
    // All braces of the style sheet are its own: as many as with a plain name.
    expect(count(style, '{')).toBe(count(plain.slice(0, plain.indexOf('</style>')), '{'))
  })

  it('has no script, no address to fetch from, and no colour but black and white', () => {
    expect(html).not.toMatch(/<script|<link|<img|src=|href=|url\(|@import|https?:/)
    expect([...new Set(html.match(/#[0-9a-f]{3,6}\b/g))].sort()).toEqual(['#000', '#fff'])
  })
})

describe('the clipboard as JSON', () => {
  it('has keys as records write them, and null for what is not known', () => {
    const data = JSON.parse(clipboardJson(smallClipboard))
    expect(data).toMatchObject({
      'format-version': 1,
      site: 'oak',
      'as-of': '2026-03-31',
      'site-manager': 'Tor Lind',
      'complaint-log': 'front office',
      'left-out': ['Gym', 'Store'],
    })
    expect(data.areas[0]).toMatchObject({ 'let-in-by': 'cook', 'look-at': ['floor drains'] })
    expect(data.areas[1]).toMatchObject({ keys: null, kind: null, devices: [] })
    expect(data.areas[0].devices[0].devices[1]).toMatchObject({
      'marked-as': '#17',
      'picked-up': '2026-03-08',
    })
  })
})
