import { describe, expect, it } from 'vitest'
import { problemsAnnotations } from '../../src/output/problems-annotations.js'
import { noLog, noPlacement, noSuchArea, notUsable } from '../cli/overlays.js'
import { examplePage } from './example-page.js'
import { hostilePage } from './hostile-page.js'
import { logExcepted, pageOf } from './problems-page.js'

interface Annotation {
  readonly level: string
  readonly values: Readonly<Record<string, string>>
  readonly message: string
}

/** Reads a line the way services do: the first `::` after the start ends the values, commas part them, then escapes are undone. */
function annotationOf(line: string): Annotation | undefined {
  const match = /^::(error|warning|notice) (.*?)::(.*)$/.exec(line)
  if (!match) return undefined
  const [, level = '', values = '', message = ''] = match
  return {
    level,
    values: Object.fromEntries(
      values.split(',').map((part) => {
        const at = part.indexOf('=')
        return [part.slice(0, at), withoutEscapes(part.slice(at + 1))]
      }),
    ),
    message: withoutEscapes(message),
  }
}

function withoutEscapes(text: string): string {
  return text
    .replaceAll('%0D', '\r')
    .replaceAll('%0A', '\n')
    .replaceAll('%3A', ':')
    .replaceAll('%2C', ',')
    .replaceAll('%25', '%')
}

const linesOf = (page: ReturnType<typeof pageOf>, options = {}) => {
  const text = problemsAnnotations(page, options)
  expect(text.endsWith('\n')).toBe(true)
  return text.slice(0, -1).split('\n')
}
const annotationsOf = (page: ReturnType<typeof pageOf>, options = {}) =>
  linesOf(page, options).flatMap((line) => annotationOf(line) ?? [])

describe('a check as annotations', () => {
  it('is one line of plain words when nothing is wrong', () => {
    expect(linesOf(pageOf(''))).toEqual([
      '11 records of 1 site read as of 2026-03-20: 0 errors, 0 warnings, 0 notes, 0 excepted, 0 things not checked.',
    ])
  })

  it('has place, rule, sentence and remedy of a problem', () => {
    const [line, summary, ...more] = linesOf(pageOf(noSuchArea))
    expect(line).toMatch(
      /^::error file=sites\/oak\/visits\/2026-03-10-okafor\.yaml,line=3,col=13,endLine=3,title=dangling-reference::There is no area `kitchn`; did you mean `kitchen`\?%0ADo: /,
    )
    expect(summary).toContain(': 1 error, 0 warnings, ')
    expect(more).toEqual([])
  })

  it('comes worst first, and a note is a notice', () => {
    const levels = annotationsOf(pageOf(noPlacement + noLog + noSuchArea)).map(({ level }) => level)
    expect(levels).toEqual(['error', 'warning', 'notice'])
  })

  it('names files from the root of the repository', () => {
    const [only] = annotationsOf(pageOf(noSuchArea), { prefix: 'our records, of 2026: all/' })
    expect(only?.values.file).toBe('our records, of 2026: all/sites/oak/visits/2026-03-10-okafor.yaml')
  })

  it('has what could not be checked as an error, first', () => {
    const page = pageOf(notUsable)
    const [first] = annotationsOf(page)
    expect(first).toMatchObject({ level: 'error', values: { title: 'not checked', file: 'sites/oak' } })
    expect(first?.message).toMatch(/^sites\/oak: .*cannot be used/)
    expect(linesOf(page).at(-1)).toContain('1 thing not checked.')
  })

  it('counts what is excepted, without a mark at the line', () => {
    expect(linesOf(pageOf(logExcepted))).toEqual([
      expect.stringContaining('0 errors, 0 warnings, 0 notes, 1 excepted, 0 things not checked.'),
    ])
  })

  it('leaves out columns of a stretch over several lines', () => {
    const page = pageOf(noSuchArea)
    const [one] = page.problems
    if (!one?.location) throw new Error('no place')
    const long = { ...one, location: { ...one.location, endLine: 5 } }
    const [only] = annotationsOf({ ...page, problems: [long] })
    expect(Object.keys(only?.values ?? {})).toEqual(['file', 'line', 'endLine', 'title'])
    expect(only?.values).toMatchObject({ line: '3', endLine: '5' })
    const [none] = annotationsOf({ ...page, problems: [{ ...one, location: null }] })
    expect(Object.keys(none?.values ?? {})).toEqual(['file', 'title'])
  })

  it('stops at ten of each level and says how many are left out', () => {
    const page = pageOf(noSuchArea + noLog)
    const [first, second] = page.problems
    if (!first || !second) throw new Error('two problems are needed')
    const many = { ...page, problems: [...Array(13).fill(first), ...Array(11).fill(second)] }
    const lines = linesOf(many)
    const levels = annotationsOf(many).map(({ level }) => level)
    expect(levels.filter((level) => level === 'error')).toHaveLength(10)
    expect(levels.filter((level) => level === 'warning')).toHaveLength(10)
    // 13 and 11 less ten each.
    expect(lines.at(-1)).toContain('4 more are not annotated here: `doorsweep check` shows everything.')
    expect(linesOf(many, { most: 12 }).at(-1)).toContain('1 more is not annotated here')
    expect(annotationsOf(many, { most: 0 })).toEqual([])
  })

  it('says of a comparison what was left out and what is in doubt', () => {
    const page = {
      ...pageOf(''),
      compared: {
        with: 'HEAD',
        commits: [],
        known: 4,
        notCompared: [{ what: 'sites/oak', why: 'it had no site.yaml' }],
      },
    }
    const [doubt, ...more] = annotationsOf(page)
    expect(more).toEqual([])
    expect(doubt).toMatchObject({ level: 'warning', values: { title: 'not compared' } })
    expect(doubt?.message).toContain('it had no site.yaml')
    expect(linesOf(page).at(-1)).toContain('4 older problems that the change did not bring are left out.')
  })

  it('of the example district has an annotation for every problem', () => {
    const page = examplePage()
    expect(annotationsOf(page)).toHaveLength(16)
  })
})

describe('hostile text in annotations', () => {
  const page = hostilePage()
  const lines = linesOf(page)

  it('starts no line and no command of its own', () => {
    // Two problems, two things not checked, and the line of plain words.
    expect(lines).toHaveLength(5)
    expect(lines.map((line) => line.startsWith('::error '))).toEqual([true, true, true, true, false])
    expect(lines[4]).not.toContain('::')
    expect(lines[4]).not.toContain('##[')
  })

  it('is the same after the service has undone the escapes', () => {
    const problem = annotationsOf(page).find(({ values }) => values.title === 'dangling-reference')
    expect(problem?.values.file).toMatch(/^sites\/o,a:k %\/visits\//)
    expect(problem?.values).toMatchObject({ line: '3', col: '13', endLine: '3' })
    expect(problem?.message).toContain('::error file=x::y %0A %25')
  })

  it('has no control character', () => {
    expect(lines.join('')).not.toMatch(/[\u0000-\u001f\u007f-\u009f\u2028\u202e\ufeff]/)
  })
})
