import * as fc from 'fast-check'

/**
 * Texts that look like YAML, biased towards the corners in which two parsers can differ. Three kinds: a soup of
 * tokens, documents with structure, and documents with structure in which a few tokens were put out of place.
 */

const marks = [
  ':',
  ': ',
  ' :',
  '-',
  '- ',
  ' - ',
  '?',
  '? ',
  ',',
  ', ',
  ' ,',
  '[',
  ']',
  '{',
  '}',
  '[]',
  '{}',
  '"',
  "'",
  "''",
  '#',
  ' #',
  '# ',
  '&a',
  '*a',
  '!t',
  '|',
  '>',
  '%',
  '@',
  '`',
  '~',
  '<<',
  '---',
  '...',
  '--- ',
  '=',
  '\\',
  '\\n',
  '--',
  '::',
  ':-',
  '-:',
  "o'clock",
  '3"',
]
const blanks = [' ', '  ', '\n', '\n\n', '\n ', '\n  ', ' \n', '\t', '\r\n', '\n    ', '\u00a0', '\u2028']
const words = [
  'a',
  'b',
  'kitchen',
  'K1',
  'left word',
  'sink-drip',
  'x:y',
  'a#b',
  'http://x.y/z',
  'é',
  '漢字',
  '🪤',
]
const odd = [
  'true',
  'False',
  'yes',
  'no',
  'null',
  'Null',
  'NULL',
  '~',
  '0',
  '-0',
  '+1',
  '1',
  '-1',
  '12',
  '1.5',
  '1.',
  '.5',
  '-.5',
  '1.50',
  '007',
  '0o7',
  '0b11',
  '0x1F',
  '1e3',
  '1E-3',
  '1.0e+5',
  '1_000',
  '12345678901234567890',
  '123456789012345',
  '0.1234567890123456789',
  '.inf',
  '-.INF',
  '.nan',
  '2026-03-12',
  '2026-3-2',
  '06:10',
  '1:30',
  '190:20:30',
  '06:10 to 06:50',
  '1 block',
  '5 %',
  '1-2',
  '99999-1',
  '__proto__',
  'constructor',
  'toString',
  '=',
  '0.0',
  '-0.0',
  '00',
  '0.',
  '1..2',
  '1,2',
  '1 2',
]

const word = fc.constantFrom(...words)
const oddWord = fc.constantFrom(...odd)
const mark = fc.constantFrom(...marks)
const blank = fc.constantFrom(...blanks)

const soup = fc
  .array(
    fc.oneof(
      { weight: 3, arbitrary: word },
      { weight: 3, arbitrary: oddWord },
      { weight: 4, arbitrary: mark },
      { weight: 3, arbitrary: blank },
    ),
    { maxLength: 14 },
  )
  .map((tokens) => tokens.join(''))

const plainChunk = fc
  .array(
    fc.oneof(
      word,
      oddWord,
      fc.constantFrom(' ', '-', ':', '#', "'", '"', ',', '!', '&', '.', '(', ')', '/', '=', '<'),
    ),
    { minLength: 1, maxLength: 4 },
  )
  .map((parts) => parts.join(''))

const gap = fc.constantFrom('', ' ', ' ', ' ', '  ')
const comma = fc.constantFrom(', ', ', ', ',', ' , ', ', ,')
const comment = fc.constantFrom<readonly string[]>(['# a comment'], [''], ['  # deeper'], ['#'])

interface Block {
  readonly lines: readonly string[]
  /** It can stand on the line of its key. */
  readonly inline: boolean
}
const indented = (lines: readonly string[], by: number) =>
  lines.map((line) => (line === '' ? line : `${' '.repeat(by)}${line}`))

/** Documents in which one scalar, key, colon or line end out of about `oneIn` is near a corner. */
function documents(oneIn: number): fc.Arbitrary<string> {
  const mostly = <T>(usual: fc.Arbitrary<T>, rare: fc.Arbitrary<T>) =>
    fc.oneof({ weight: oneIn, arbitrary: usual }, { weight: 1, arbitrary: rare })
  const usualScalar = fc.constantFrom(
    'a',
    'b',
    'kitchen',
    'K1',
    'left word',
    'sink-drip',
    '3',
    '12',
    '4.5 g',
    '06:10 to 06:50',
    '2026-03-12',
    'yes',
    'no',
    '"a: b"',
    "'007'",
    '漢字',
    '99999-1',
    '5 %',
  )
  const oddScalar = fc.oneof(
    word,
    oddWord,
    plainChunk,
    plainChunk.map((text) => `"${text.replaceAll('"', '')}"`),
    plainChunk.map((text) => `'${text.replaceAll("'", '')}'`),
    fc.constant(''),
  )
  const scalar = mostly(usualScalar, oddScalar)
  const key = mostly(
    fc.constantFrom('a', 'b', 'c', 'K1', 'purpose', 'no-entry', 'left word', '3', '2026-03-12-okafor'),
    scalar,
  )
  const colon = mostly(fc.constantFrom(': ', ': ', ':  '), fc.constantFrom(':', ' : '))
  const tail = mostly(fc.constant(''), fc.constantFrom(' ', '   ', ' # why', ' #', '# x', ' # it\'s "so" ['))

  const { flow } = fc.letrec<{ flow: string; list: string; map: string }>((tie) => ({
    flow: fc.oneof(
      { maxDepth: 2 },
      { weight: 4, arbitrary: scalar },
      { weight: 1, arbitrary: tie('list') },
      { weight: 1, arbitrary: tie('map') },
    ),
    list: fc
      .tuple(fc.array(tie('flow'), { maxLength: 3 }), mostly(fc.constant(', '), comma), gap)
      .map(([items, between, space]) => `[${space}${items.join(between)}${space}]`),
    map: fc
      .tuple(
        fc.uniqueArray(fc.tuple(key, colon, tie('flow')), { maxLength: 3, selector: ([name]) => name }),
        mostly(fc.constant(', '), comma),
        gap,
      )
      .map(
        ([pairs, between, space]) => `{${space}${pairs.map((pair) => pair.join('')).join(between)}${space}}`,
      ),
  }))

  const inline = fc
    .tuple(flow, tail)
    .map(([value, end]): Block => ({ lines: [`${value}${end}`], inline: true }))
  const folded = fc.tuple(scalar, scalar, fc.constantFrom(0, 1, 2)).map(
    ([one, two, between]): Block => ({
      lines: [one, ...Array<string>(between).fill(''), two],
      inline: true,
    }),
  )
  const before = mostly(fc.constant<readonly string[]>([]), comment)
  const step = mostly(fc.constantFrom(2, 4), fc.constantFrom(0, 1))

  const { block, map } = fc.letrec<{ block: Block; map: Block; list: Block }>((tie) => ({
    block: fc.oneof(
      { maxDepth: 2 },
      { weight: 6, arbitrary: mostly(inline, folded) },
      { weight: 2, arbitrary: tie('map') },
      { weight: 2, arbitrary: tie('list') },
    ),
    map: fc
      .uniqueArray(
        fc.tuple(key, colon, tie('block'), step, mostly(fc.constant(true), fc.constant(false)), before),
        {
          minLength: 1,
          maxLength: 3,
          selector: ([name]) => name,
        },
      )
      .map((entries) => ({
        inline: false,
        lines: entries.flatMap(([name, between, value, by, beside, comments]) =>
          value.inline && beside
            ? [...comments, `${name}${between}${value.lines[0]}`, ...indented(value.lines.slice(1), by)]
            : [...comments, `${name}${between.trimEnd()}`, ...indented(value.lines, by)],
        ),
      })),
    list: fc.array(fc.tuple(tie('block'), before), { minLength: 1, maxLength: 3 }).map((items) => ({
      inline: false,
      lines: items.flatMap(([value, comments]) => [
        ...comments,
        `- ${value.lines[0] ?? ''}`,
        ...indented(value.lines.slice(1), 2),
      ]),
    })),
  }))
  return fc
    .tuple(mostly(map, block), fc.constantFrom('\n', '', '\n\n', '\n \n'))
    .map(([{ lines }, end]) => lines.join('\n') + end)
}

const structured = fc.oneof(documents(40), documents(12), documents(3))

const disturbed = fc
  .tuple(
    structured,
    fc.array(fc.tuple(fc.nat(), fc.oneof(mark, blank, oddWord, word)), { minLength: 1, maxLength: 2 }),
  )
  .map(([text, changes]) =>
    changes.reduce((changed, [at, token]) => {
      const spot = at % (changed.length + 1)
      return changed.slice(0, spot) + token + changed.slice(spot)
    }, text),
  )

export const yamlText: fc.Arbitrary<string> = fc.oneof(
  { weight: 1, arbitrary: soup },
  { weight: 4, arbitrary: structured },
  { weight: 4, arbitrary: disturbed },
)
