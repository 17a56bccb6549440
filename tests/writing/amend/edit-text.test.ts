import { describe, expect, it } from 'vitest'
import { amendedText } from '../../../src/writing/amend/amended.js'
import type { Edit } from '../../../src/writing/amend/edits.js'

const correction = { on: '2026-03-09', by: 'okafor', why: 'left later: see paper', keys: ['time'] }
const stated = "{on: 2026-03-09, by: okafor, why: 'left later: see paper', keys: [time]}".replaceAll("'", '"')

const set = (path: string, value: unknown): Edit => ({ does: 'set', path: path.split('.'), value })
const remove = (path: string): Edit => ({ does: 'remove', path: path.split('.') })
const amended = (text: string, ...edits: Edit[]) => amendedText(Buffer.from(text), edits, correction)

const visit = `# at the dock first
purpose: routine
by:   okafor        # with the new key
time: "06:10 to 06:50"

readings:           # in walking order
  none: [K1, K2]    # looked at, nothing there
  K3: {german-cockroach: {nymphs: 4, adults: 1}, renewed: yes}   # under the sink
  K7:
    unusable: missing
    renewed: yes
notes: >
  Two lines that
  are folded.
inspected:
  - kitchen   # all of it
  - dock
`
const withEntry = (text: string) => `${text}corrections:\n  - ${stated}\n`

describe('a corrected record keeps its layout and its comments', () => {
  it.each<[string, Edit, string, string]>([
    ['a value', set('time', '06:10 to 06:55'), 'time: "06:10 to 06:50"', 'time: 06:10 to 06:55'],
    ['a value before a comment', set('by', 'vale'), 'by:   okafor ', 'by:   vale '],
    ['a value within braces', set('readings.K3.german-cockroach.nymphs', 5), 'nymphs: 4', 'nymphs: 5'],
    [
      'a text that needs quotes',
      set('readings.K3.note', 'a, b'),
      'renewed: yes}',
      'renewed: yes, note: "a, b"}',
    ],
    [
      'a new key of a block',
      set('readings.K7.product', 'bait-a'),
      '    renewed: yes\n',
      '    renewed: yes\n    product: bait-a\n',
    ],
    [
      'a new entry',
      set('readings.K9.sprung', 'empty'),
      '    renewed: yes\n',
      '    renewed: yes\n  K9: {sprung: empty}\n',
    ],
    [
      'a block for a value',
      set('readings.K7', 3),
      '  K7:\n    unusable: missing\n    renewed: yes\n',
      '  K7: 3\n',
    ],
    ['a list within brackets', set('readings.none', ['K1']), '[K1, K2]', '[K1]'],
    [
      'a list of lines',
      set('inspected', ['kitchen']),
      'inspected:\n  - kitchen   # all of it\n  - dock\n',
      'inspected: [kitchen]\n',
    ],
    ['an item of a list', set('inspected.0', 'cellar'), '  - kitchen   #', '  - cellar   #'],
    [
      'folded text',
      set('notes', 'One line.'),
      'notes: >\n  Two lines that\n  are folded.\n',
      'notes: One line.\n',
    ],
    [
      'one of several within braces',
      remove('readings.K3.german-cockroach'),
      'german-cockroach: {nymphs: 4, adults: 1}, ',
      '',
    ],
    ['the last within braces', remove('readings.K3.renewed'), ', renewed: yes}', '}'],
    ['a line', remove('time'), 'time: "06:10 to 06:50"\n', ''],
    ['lines', remove('readings.K7'), '  K7:\n    unusable: missing\n    renewed: yes\n', ''],
    ['an item', remove('inspected.1'), '  - dock\n', ''],
  ])('%s', (_, edit, before, after) => {
    expect(visit).toContain(before)
    const path = edit.path.map((step) => (/^\d+$/.test(String(step)) ? Number(step) : step))
    expect(amended(visit, { ...edit, path })).toBe(withEntry(visit.replace(before, after)))
  })

  it('several changes at once, and the next correction below the last one', () => {
    const once = amended(visit, set('time', '06:10 to 06:55'), remove('notes')) ?? ''
    expect(amended(once, set('time', '06:10 to 07:00'))).toBe(
      `${once.replace('06:55', '07:00')}  - ${stated}\n`,
    )
  })

  it.each([
    ['an empty map', 'by: okafor\nfound: {}\n', 'by: okafor\nfound: {a: {pest: ant}}\n'],
    ['a key with nothing after it', 'found:\nby: okafor\n', 'found: {a: {pest: ant}}\nby: okafor\n'],
    ['no such key', 'by: okafor\n', 'by: okafor\nfound: {a: {pest: ant}}\n'],
    ['a file without its last line end', 'by: okafor', 'by: okafor\nfound: {a: {pest: ant}}\n'],
  ])('an entry where there is %s', (_, before, after) => {
    expect(amended(before, set('found.a', { pest: 'ant' }))).toBe(withEntry(after))
  })

  it('the only entry of a map leaves an empty one', () => {
    expect(amended('by: okafor\nfound:\n  a: {pest: ant}\n', remove('found.a'))).toBe(
      withEntry('by: okafor\nfound: {}\n'),
    )
    expect(amended('by: okafor\nfound: {a: {pest: ant}}\n', remove('found.a'))).toBe(
      withEntry('by: okafor\nfound: {}\n'),
    )
  })

  it('line ends of Windows, a byte order mark, a record in braces, and corrections in brackets', () => {
    const windows = visit.replaceAll('\n', '\r\n')
    expect(amended(windows, set('time', '06:10 to 06:55'))).toBe(
      withEntry(visit.replace('"06:10 to 06:50"', '06:10 to 06:55')).replaceAll('\n', '\r\n'),
    )
    expect(amended('\ufeffby: okafor\n', set('by', 'vale'))).toBe(`\ufeff${withEntry('by: vale\n')}`)
    expect(amended('{by: okafor, time: 06:10 to 06:50}\n', set('by', 'vale'))).toBe(
      `{by: vale, time: 06:10 to 06:50, corrections: [${stated}]}\n`,
    )
    expect(amended(`by: okafor\ncorrections: [${stated}]\n`, set('by', 'vale'))).toBe(
      `by: vale\ncorrections: [${stated}, ${stated}]\n`,
    )
  })

  it('a place that only a rewriting can reach is rewritten, with its comments', () => {
    const text = 'by: okafor # who\nset:\n  - a: 1 # one\n    b: 2\n'
    const path: Edit = { does: 'remove', path: ['set', 0, 'a'] }
    const made = amended(text, path) ?? ''
    expect(made).toContain('by: okafor # who')
    expect(made).toContain('b: 2')
    expect(made).not.toContain('a: 1')
  })

  it('what cannot be read is not touched', () => {
    expect(amended('by: [', set('by', 'vale'))).toBeNull()
    expect(amended('by: okafor\nby: vale\n', set('by', 'lind'))).toBeNull()
  })
})
