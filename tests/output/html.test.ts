import { describe, expect, it } from 'vitest'
import { cssString, escapeHtml, htmlPage } from '../../src/output/html.js'

describe('text of records in a page', () => {
  it.each([
    ['<b>&amp;</b>', '&#60;b&#62;&#38;amp;&#60;/b&#62;'],
    [`"x" onload='y'`, '&#34;x&#34; onload=&#39;y&#39;'],
    ['one\r\n  line', 'one line'],
    ['bell\u0007, turn\u202e, mark\ufeff', 'bell\\u0007, turn\\u202e, mark\\ufeff'],
    ['Müller 調理室 1/2', 'Müller 調理室 1/2'],
  ])('%j stays text', (text, html) => {
    expect(escapeHtml(text)).toBe(html)
  })

  it.each([
    // CSS Syntax, section 4.3.7: a reversed solidus, the number in base 16, and a blank that ends it.
    ['Oak 12', '"Oak 12"'],
    ['a"b', '"a\\22 b"'],
    ['\\', '"\\5c "'],
    ['</style>', '"\\3c \\2f style\\3e "'],
    ['é', '"\\e9 "'],
    ['\u{1f400}', '"\\1f400 "'],
    ['\n', '"\\5c u000a"'],
  ])('%j stays a string of a style sheet', (text, css) => {
    expect(cssString(text)).toBe(css)
  })

  it('a page tells the browser to run and fetch nothing', () => {
    const page = htmlPage({ title: '</title><script>', css: 'p {}', body: '<p>x</p>' })
    expect(page).toContain(`content="default-src 'none'; style-src 'unsafe-inline'"`)
    expect(page).toContain('<title>&#60;/title&#62;&#60;script&#62;</title>')
    expect(page).not.toContain('<script')
  })
})
