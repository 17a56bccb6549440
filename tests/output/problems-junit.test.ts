import { describe, expect, it } from 'vitest'
import type { FailOn } from '../../src/output/problems.js'
import { problemsJunit } from '../../src/output/problems-junit.js'
import { noLog, noPlacement, noSuchArea, notUsable, otherSite } from '../cli/overlays.js'
import { examplePage } from './example-page.js'
import { hostilePage } from './hostile-page.js'
import { logExcepted, pageOf } from './problems-page.js'
import type { ReadElement } from './read-xml.js'
import { readXml } from './read-xml.js'

const rootOf = (overlay: string, options = {}) => readXml(problemsJunit(pageOf(overlay), options))
const casesOf = (element: ReadElement): ReadElement[] =>
  element.name === 'testcase' ? [element] : element.children.flatMap(casesOf)
const outcomeOf = ({ children }: ReadElement) => children.map(({ name }) => name).join() || 'nothing'

describe('the reader of XML used here', () => {
  const wrapped = (inside: string) => `<?xml version="1.0" encoding="UTF-8"?>\n${inside}`

  it.each([
    ['text outside', '<a/>b'],
    ['two roots', '<a/><b/>'],
    ['an end that fits no start', '<a></b>'],
    ['no end', '<a><b/>'],
    ['a bare ampersand', '<a>b & c</a>'],
    ['an entity that is none', '<a>&nbsp;</a>'],
    ['a bare quote', '<a b="c"d"/>'],
    ['a bare angle', '<a b="<"/>'],
    ['an attribute twice', '<a b="1" b="2"/>'],
    ['the end of a character section', '<a>]]></a>'],
    ['a control character', '<a>\u0007</a>'],
    ['half a character pair', '<a>\ud800</a>'],
    ['what is no character', '<a>\uffff</a>'],
  ])('refuses %s', (_, inside) => {
    expect(() => readXml(wrapped(inside))).toThrow()
  })

  it('reads attributes, text and what is inside', () => {
    expect(readXml(wrapped('<a b="&quot;&amp;">c&lt;<d/>\n</a>\n'))).toEqual({
      name: 'a',
      attributes: { b: '"&' },
      children: [{ name: 'd', attributes: {}, children: [], text: '' }],
      text: 'c<\n',
    })
  })
})

describe('a check as JUnit XML', () => {
  it('has one passing case when nothing is wrong, so that it never looks as if nothing ran', () => {
    const root = rootOf('')
    expect(root.attributes).toEqual({ name: 'doorsweep check', tests: '1', failures: '0', errors: '0' })
    expect(root.children.map(({ attributes }) => attributes.name)).toEqual(['district'])
    expect(casesOf(root).map(outcomeOf)).toEqual(['nothing'])
  })

  it('has a suite for the district and one a site, also one that was asked for and has no problem', () => {
    const root = rootOf(noLog + otherSite('elm', 'inspected: [kitchn]'), { sites: ['oak', 'ash'] })
    expect(root.children.map(({ attributes }) => attributes)).toEqual([
      { name: 'district', tests: '1', failures: '0', errors: '0', skipped: '0' },
      { name: 'site ash', tests: '1', failures: '0', errors: '0', skipped: '0' },
      { name: 'site elm', tests: '1', failures: '1', errors: '0', skipped: '0' },
      { name: 'site oak', tests: '1', failures: '1', errors: '0', skipped: '0' },
    ])
    expect(root.attributes).toMatchObject({ tests: '4', failures: '2', errors: '0' })
  })

  it('has of a problem its rule, its place, and what a person is told', () => {
    const [, oak] = rootOf(noSuchArea, { prefix: 'records' }).children
    const [only] = casesOf(oak as ReadElement)
    expect(only?.attributes).toEqual({
      name: 'sites/oak/visits/2026-03-10-okafor.yaml: inspected.0',
      classname: 'dangling-reference',
      file: 'records/sites/oak/visits/2026-03-10-okafor.yaml',
      line: '3',
    })
    const [failure] = only?.children ?? []
    expect(failure?.name).toBe('failure')
    expect(failure?.attributes).toEqual({
      message: 'There is no area `kitchn`; did you mean `kitchen`?',
      type: 'error',
    })
    const lines = failure?.text.split('\n') ?? []
    expect(lines[0]).toBe(
      'records/sites/oak/visits/2026-03-10-okafor.yaml:3:13: error: There is no area `kitchn`; did you mean `kitchen`? [dangling-reference]',
    )
    expect(lines.slice(1).map((line) => line.split(':')[0])).toEqual(['why', 'do'])
  })

  // An error, a warning and a note, one of each, by the overlays.
  it.each<[FailOn, string[]]>([
    ['error', ['failure', 'system-out', 'system-out']],
    ['warning', ['failure', 'failure', 'system-out']],
    ['note', ['failure', 'failure', 'failure']],
    ['never', ['system-out', 'system-out', 'system-out']],
  ])('is red where the check fails on: %s', (failOn, outcomes) => {
    const page = pageOf(noSuchArea + noLog + noPlacement)
    expect(page.problems.map(({ problem }) => problem.level).sort()).toEqual(['error', 'note', 'warning'])
    const root = readXml(problemsJunit(page, { failOn }))
    expect(
      casesOf(root)
        .map(outcomeOf)
        .filter((outcome) => outcome !== 'nothing')
        .sort(),
    ).toEqual(outcomes)
    const failures = outcomes.filter((outcome) => outcome === 'failure').length
    expect(root.attributes.failures).toBe(String(failures))
  })

  it('fails on a warning where nothing is said, as the check does', () => {
    expect(rootOf(noLog).attributes.failures).toBe('1')
    expect(rootOf(noPlacement).attributes.failures).toBe('0')
  })

  it('skips what is excepted, with the reason and its end', () => {
    const root = rootOf(logExcepted)
    const [, oak] = root.children
    expect(oak?.attributes).toMatchObject({ tests: '1', failures: '0', skipped: '1' })
    const [skipped] = casesOf(oak as ReadElement)[0]?.children ?? []
    expect(skipped?.name).toBe('skipped')
    expect(skipped?.attributes.message).toBe(
      'excepted until 2026-04-10: the log is being bound anew (exceptions/log-away.yaml)',
    )
  })

  it('has what could not be checked as an error of its site', () => {
    const root = rootOf(notUsable, { failOn: 'never' })
    expect(root.attributes).toMatchObject({ failures: '0', errors: '1' })
    const oak = root.children.find(({ attributes }) => attributes.name === 'site oak')
    const error = casesOf(oak as ReadElement).find((entry) => outcomeOf(entry) === 'error')
    expect(error?.attributes).toMatchObject({ name: 'sites/oak', classname: 'not-checked' })
    expect(error?.children[0]?.attributes.message).toMatch(/^not checked: .*cannot be used/)
  })

  it('keeps the name of a case when lines are put in above and when a day passes', () => {
    const namesOf = (root: ReadElement) =>
      casesOf(root).map(({ attributes }) => `${attributes.classname} ${attributes.name}`)
    const moved = rootOf(noSuchArea.replace('inspected', '# a remark\n\ninspected'))
    expect(casesOf(moved)[1]?.attributes.line).toBe('5')
    expect(namesOf(moved)).toEqual(namesOf(rootOf(noSuchArea)))
  })

  it('gives two equal problems two names', () => {
    const page = pageOf(noSuchArea)
    const twice = readXml(problemsJunit({ ...page, problems: [...page.problems, ...page.problems] }))
    const [, oak] = twice.children
    const names = casesOf(oak as ReadElement).map(({ attributes }) => attributes.name)
    expect(names).toEqual([
      'sites/oak/visits/2026-03-10-okafor.yaml: inspected.0',
      'sites/oak/visits/2026-03-10-okafor.yaml: inspected.0 (2)',
    ])
  })

  it('says what it was compared with, and that doubt is no failure', () => {
    const page = {
      ...pageOf(''),
      compared: {
        with: 'the merge base of main & HEAD',
        commits: [],
        known: 4,
        notCompared: [{ what: 'sites/oak', why: 'it had no site.yaml' }],
      },
    }
    const root = readXml(problemsJunit(page))
    const [district, oak] = root.children
    expect(district?.children[0]?.children.map(({ attributes }) => attributes)).toEqual([
      { name: 'as-of', value: '2026-03-20' },
      { name: 'compared-with', value: 'the merge base of main & HEAD' },
    ])
    expect(casesOf(oak as ReadElement).map(outcomeOf)).toEqual(['system-out'])
    expect(root.attributes).toMatchObject({ failures: '0', errors: '0' })
  })

  it('of the example district has the sixteen problems and the exception that its page names', () => {
    const page = examplePage()
    const root = readXml(problemsJunit(page, { failOn: 'note' }))
    const outcomes = casesOf(root).map(outcomeOf)
    expect(outcomes.filter((outcome) => outcome === 'failure')).toHaveLength(16)
    expect(outcomes.filter((outcome) => outcome === 'skipped')).toHaveLength(1)
    expect(root.attributes.failures).toBe('16')
  })
})

describe('hostile text in JUnit XML', () => {
  const text = problemsJunit(hostilePage(), { prefix: 'a "b" <c> & d' })

  it('leaves a document that can be read, and the same text in it', () => {
    const root = readXml(text)
    const told = JSON.stringify(root)
    for (const part of ['<b>&amp; ]]> <![CDATA[ <!-- --> <?x?>', '\u{1f469}\u{1f52c}', '\u{1d11e}'])
      expect(told.replaceAll('\\\\u200d', '')).toContain(part)
    // Each of the two things that were not checked, the two problems and what is excepted.
    expect(casesOf(root).map(outcomeOf).sort()).toEqual(['error', 'error', 'failure', 'failure', 'skipped'])
  })

  it('has no control character but line ends, and no direction mark', () => {
    expect(text).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u2028\u202e\ufeff]/)
    expect(text).toContain('\\u0007')
  })
})
