import { describe, expect, it } from 'vitest'
import type { Painter } from '../../src/output/painter.js'
import { plainPainter } from '../../src/output/painter.js'
import { problemsText } from '../../src/output/problems-text.js'
import { ruleById } from '../../src/rules/all.js'
import { pageOf } from './problems-page.js'

const textOf = (overlay: string, hidden = 0) => problemsText(pageOf(overlay, hidden), plainPainter)
const callback = (body: string, date = '2026-03-10') =>
  `=== sites/oak/visits/${date}-okafor.yaml\npurpose: callback\nby: okafor\n${body}\n`
const file = 'sites/oak/visits/2026-03-10-okafor.yaml'
const rule = (id: string) => {
  const found = ruleById(id)
  if (!found) throw new Error(`there is no rule ${id}`)
  return found
}

describe('a problem', () => {
  it('is its place first, then the line with carets under the spot, why, and what to do', () => {
    const { why, remedy } = rule('dangling-reference')
    expect(
      textOf(callback('inspected: [kitchn]')),
    ).toBe(`${file}:3:13: error: There is no area \`kitchn\`; did you mean \`kitchen\`? [dangling-reference]
  3 | inspected: [kitchn]
    |             ^^^^^^
  why: ${why}
  do:  ${remedy}

12 records of 1 site read as of 2026-03-20: 1 error.
For the reason behind a rule: doorsweep explain dangling-reference
`)
  })

  it('has its carets under what is seen: wide letters take two columns', () => {
    const lines = textOf(callback('found: {a: {other: 蟻と蜂, area: kitchn, evidence: live}}')).split('\n')
    // 19 columns before the three letters; they are 3 units long and 6 columns wide; then `, area: ` is 8.
    expect(lines[0]).toContain(`${file}:3:31: error`)
    expect(lines[2]).toBe(`    | ${' '.repeat(19 + 6 + 8)}^^^^^^`)
  })

  it('points at nothing shown where the file is empty, and says so all the same', () => {
    const text = textOf('=== people/reyes.yaml\n')
    expect(text).toMatch(/^people\/reyes\.yaml/)
    expect(text).not.toContain('|')
    expect(text).toContain('not checked: person reyes')
  })

  it('is told in full three times for one rule, and in one line after that', () => {
    const text = textOf(callback('inspected: [kitchn, kitchem, kitche, kitcheen, itchen]'))
    const lines = text.split('\n')
    expect(lines.filter((line) => line.startsWith(file))).toHaveLength(5)
    expect(lines.filter((line) => line.startsWith('  why:'))).toHaveLength(3)
    expect(lines.filter((line) => line.includes('^'))).toHaveLength(3)
    // The two in one line stand together, right before the summary.
    expect(lines.slice(-5, -3).every((line) => line.startsWith(file))).toBe(true)
    expect(lines.at(-3)).toBe('12 records of 1 site read as of 2026-03-20: 5 errors.')
  })

  it('counts the times for each rule by itself', () => {
    const text = textOf(
      callback('inspected: [kitchn, kitchem, kitche, kitcheen]\nreadings: {K1: {german-cockroch: 1}}'),
    )
    const whys = text.split('\n').filter((line) => line.startsWith('  why:'))
    expect(whys).toHaveLength(4)
    expect(whys).toContain(`  why: ${rule('unknown-pest').why}`)
  })
})

describe('what is no problem', () => {
  const exception = (why: string) => `
=== exceptions/log-away.yaml
rule: complaint-log-not-read
by: marsh
why: ${why}
from: 2026-03-01
until: 2026-04-10
`
  const noLog = `
=== sites/oak/visits/2026-03-05-okafor.yaml
purpose: routine
by: okafor
time: 06:10 to 06:50
site-manager: lind
inspected: [kitchen, room-1]
set:
  K1: {kind: sticky-trap, area: kitchen, within-reach: no}
`

  it('is told in one sentence', () => {
    expect(textOf('')).toBe('11 records of 1 site read as of 2026-03-20: no problems.\n')
  })

  it('is excepted: shown with its reason and its end, and not counted', () => {
    expect(textOf(noLog + exception('the log is being bound anew'))).toBe(
      `sites/oak/visits/2026-03-05-okafor.yaml:1:10: excepted until 2026-04-10: This routine visit does not say that the complaint log was read. [complaint-log-not-read] — the log is being bound anew (exceptions/log-away.yaml)
12 records of 1 site read as of 2026-03-20: no problems, 1 excepted.
`,
    )
  })

  it('is not a thing that was not checked: that is said', () => {
    const text = textOf(callback('inspected: kitchen'))
    expect(text).toMatch(
      /^not checked: sites\/oak: sites\/oak\/visits\/2026-03-10-okafor\.yaml cannot be used/m,
    )
    expect(text).toContain(': 1 error, 1 thing not checked.')
  })

  it('and what is not shown is counted', () => {
    expect(textOf('', 3)).toBe('11 records of 1 site read as of 2026-03-20: no problems; 3 more not shown.\n')
    expect(textOf(callback('inspected: [kitchen]', '2026-03-21'))).toBe(
      '11 records of 1 site read as of 2026-03-20; 1 later record not looked at: no problems.\n',
    )
  })

  it('is not a control character in a record: it is made visible', () => {
    const escaped = textOf(noLog + exception('"\\e[2Jhidden\\u202E"'))
    expect(escaped).toContain('— \\u001b[2Jhidden\\u202e (exceptions')
    const raw = textOf(callback('notes: "\u001b[31mred"'))
    expect(raw).toContain('  3 | notes: "\\u001b[31mred"')
    expect(escaped + raw).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u202e]/)
  })
})

describe('colour', () => {
  it('is not there without a painter', () => {
    expect(textOf(callback('inspected: [kitchn]'))).not.toContain('\u001b')
  })

  it('adds nothing that the words do not say', () => {
    const marks: Painter = {
      strong: (text) => `<${text}>`,
      faint: (text) => `<${text}>`,
      error: (text) => `<${text}>`,
      warning: (text) => `<${text}>`,
      note: (text) => `<${text}>`,
    }
    const page = pageOf(callback('inspected: [kitchn]'))
    const painted = problemsText(page, marks)
    expect(painted).toContain('<error>')
    expect(painted.replace(/[<>]/g, '')).toBe(problemsText(page, plainPainter))
  })
})
