import { describe, expect, it } from 'vitest'
import { textsMarkdown, textsPlain } from '../../src/output/notice-texts.js'
import {
  blanksOf,
  districtUnder,
  lineIn,
  moments,
  noticesOn,
  ownRulebook,
  saidIn,
  sprayed,
} from './notice-ledgers.js'

const law = (facts: string) =>
  `{from: 2026-03-01, kind: law, confidence: read, source: "Invented Pest Act, section 3: told before", ${facts}}`

const duties = (says: string, lead = '72 hours') =>
  districtUnder('own', 'America/Los_Angeles') +
  ownRulebook(`
notices:
  parents: [${law(`to: parents, reach: all, lead: ${lead}, says: [${says}]`)}]
postings:
  signs: [${law(`before: 24 hours, says: [${says}]`)}]
`)

const wording = (body: string, id = 'aviso') => `
=== wordings/${id}.yaml
language: es
for: [parents]
${body.trim()}
`

const spanish = wording(`
heading: Aviso sobre un plaguicida
opening: Este es un aviso de {district} sobre {school}.
opening-in-emergency: Este es un aviso urgente de {school}.
lines:
  trade-name: "Producto: {trade-name}"
  date: "Fecha: {date}"
  time: "Hora: {time}"
  warning-words: Cuidado, área tratada
closing: Guarde este aviso.
cautions: La etiqueta es la ley.
`)

const textOf = (made: ReturnType<typeof noticesOn>, id = 'parents') =>
  made.texts.find((text) => text.id === id)

describe("the district's own words, in Spanish", () => {
  const made = noticesOn('2026-03-10', sprayed(), duties('trade-name, date, time') + spanish, {
    language: 'es',
  })

  it('take the place of ours, with days in the words of that language', () => {
    expect(textOf(made)?.language).toBe('es')
    expect([textOf(made)?.heading, ...(textOf(made)?.lines.map(({ text }) => text) ?? [])]).toEqual([
      'Aviso sobre un plaguicida',
      'Oak School, Example District',
      'Este es un aviso de Example District sobre Oak School.',
      'Producto: Invented Spray A',
      // 2026-03-10 is a Tuesday.
      'Fecha: martes, 10 de marzo de 2026',
      'Hora: 07:00–07:30',
      'Guarde este aviso.',
      'La etiqueta es la ley.',
    ])
    expect(made.blanks).toBe(0)
  })

  it('a text for which there are none is in English, and that is said', () => {
    expect(textOf(made, 'sign')?.language).toBe('en')
    expect(made.report.cautions).toContain(
      'No wording of the district in `es` is for the sign: it is in English.',
    )
  })

  it('a matter without a line falls back to ours, and that is said; a line that is not asked is left out', () => {
    const one = noticesOn('2026-03-10', sprayed(), duties('trade-name, registration') + spanish, {
      language: 'es',
    })
    expect(saidIn(one, 'parents')).toEqual(['trade-name', 'registration'])
    expect(lineIn(one, 'parents', 'registration')).toBe('EPA registration number: 99999-2')
    expect(one.report.cautions).toContain(
      'wordings/aviso.yaml has no line for registration that can be used: ours stands there, in English.',
    )
  })

  it('a line that leaves out its matter, or has an unknown blank, is not used', () => {
    const lines = 'lines: {trade-name: "Producto", date: "Fecha: {dat}"}'
    const one = noticesOn('2026-03-10', sprayed(), duties('trade-name, date') + wording(lines), {
      language: 'es',
    })
    expect(lineIn(one, 'parents', 'trade-name')).toBe('Product: Invented Spray A')
    expect(lineIn(one, 'parents', 'date')).toBe('Date: martes, 10 de marzo de 2026')
    expect(one.report.cautions).toContain(
      'wordings/aviso.yaml has no `opening` that can be used: ours stands there, in English.',
    )
  })

  it('words of a law that are not at hand can be held by the district; they are to be held against the clause', () => {
    const one = noticesOn('2026-03-10', sprayed(), duties('warning-words') + spanish, { language: 'es' })
    expect(lineIn(one, 'parents', 'warning-words')).toBe('Cuidado, área tratada')
    expect(one.report.cautions).toContain(
      "The words for warning-words are the district's own: hold them against Invented Pest Act, section 3.",
    )
    expect(blanksOf(one).map(([about, texts]) => [about, texts])).toEqual([['warning-words', 'sign']])
  })

  it('a missing fact stays a blank in it, and a fact that looks like a blank is not filled in again', () => {
    const odd = sprayed({ time: '', more: 'reason: ants' })
    const product = `
=== products/spray-b/product.yaml
name: "{date} {school}"
kind: pesticide
registration: 99999-3
`
    const one = noticesOn(
      '2026-03-10',
      odd.replace('spray-a', 'spray-b'),
      duties('trade-name, time') + spanish + product,
      { language: 'es' },
    )
    expect(lineIn(one, 'parents', 'time')).toBe('Hora: [...]')
    expect(lineIn(one, 'parents', 'trade-name')).toBe('Producto: {date} {school}')
  })

  it('an emergency has first words of its own', () => {
    const more = 'emergency: {problem: stings, why: no other door, decided-by: marsh}'
    const one = noticesOn('2026-03-10', sprayed({ more }), duties('trade-name') + spanish, { language: 'es' })
    expect(textOf(one)?.lines[1]?.text).toBe('Este es un aviso urgente de Oak School.')
  })

  it('a language that the engine has no words for keeps days as they are recorded', () => {
    const other = spanish.replace('language: es', 'language: zxx')
    const one = noticesOn('2026-03-10', sprayed(), duties('date') + other, { language: 'zxx' })
    expect(lineIn(one, 'parents', 'date')).toBe('Fecha: 2026-03-10')
  })
})

describe('facts that the ledger does not have', () => {
  const everything =
    'trade-name, active-ingredients, registration, manufacturer, reentry-time, reason, coordinator-contact'

  it('a product without label facts, a reason not written down, a coordinator without a telephone', () => {
    const bare = `
=== products/spray-b/product.yaml
name: Invented Spray B
kind: pesticide
=== people/marsh.yaml
name: Ines Marsh
roles: [coordinator]
`
    const made = noticesOn(
      '2026-03-10',
      sprayed({ product: 'spray-b', more: '' }),
      duties(everything) + bare,
      { only: 'parents' },
    )
    expect(lineIn(made, 'parents', 'trade-name')).toBe('Product: Invented Spray B')
    expect(blanksOf(made)).toEqual([
      ['active-ingredients', 'parents', 'products/spray-b/product.yaml: active-ingredients'],
      ['registration', 'parents', 'products/spray-b/product.yaml: registration'],
      ['manufacturer', 'parents', 'products/spray-b/product.yaml: maker'],
      ['reason', 'parents', 'sites/oak/applications/2026-03-10-okafor.yaml: reason'],
      [
        'reentry-time',
        'parents',
        'the label on the container; no rulebook in force and no label as entered gives a time',
      ],
      ['coordinator-contact', 'parents', 'people/marsh.yaml: phone'],
    ])
    expect(made.blanks).toBe(6)
  })

  it('a product that is not in the register, or not as a pesticide, and a day before the records begin', () => {
    const made = (text: string, more = '', on = '2026-03-10') =>
      noticesOn(on, text, duties('date') + more).report
    const unknown = made(sprayed({ product: 'spray-z' }))
    expect([unknown.incomplete, unknown.headline]).toEqual([
      true,
      'It cannot be said what is asked: spray-z is not in the register of products.',
    ])
    const lure = made(
      sprayed({ product: 'lure' }),
      '\n=== products/lure/product.yaml\nname: Lure\nkind: lure\n',
    )
    expect([lure.incomplete, lure.headline.slice(0, 58)]).toEqual([
      false,
      'The register does not have this product as a pesticide; ru',
    ])
    const early = made(sprayed(), '', '2026-02-10')
    expect([early.incomplete, early.headline]).toEqual([
      true,
      'It cannot be said what is asked: the records of this site begin on 2026-03-01.',
    ])
  })
})

describe('moments counted in school days', () => {
  const latest = (on: string, lead = '3 school days') => {
    const made = noticesOn(on, sprayed(), duties('date', lead))
    return [moments(made, 'latest')[0]?.[1], made.report.incomplete]
  }

  it('leave out the weekend and the spring break', () => {
    // Tuesday 2026-03-24: back to Monday the 23rd, then over the break of 16 to 20 March to Friday the 13th and
    // Thursday the 12th.
    expect(latest('2026-03-24')).toEqual(['the end of 2026-03-12', false])
  })

  it('from a day just after the calendar they are known; beyond it they cannot be said', () => {
    // The last day, 2026-06-12, is a Friday. From Monday the 15th only Saturday and Sunday lie between.
    expect(latest('2026-06-15')).toEqual(['the end of 2026-06-10', false])
    expect(latest('2026-06-16')).toEqual(['cannot be said: the school calendar ends on 2026-06-12', true])
    expect(latest('2027-02-10')).toEqual(['cannot be said: the school calendar ends on 2026-06-12', true])
    // Hours and days do not hang on it: 72 hours before 07:00 on the 16th.
    expect(latest('2026-06-16', '72 hours')).toEqual(['2026-06-13 07:00', false])
    expect(latest('2026-06-16', '3 days')).toEqual(['the end of 2026-06-13', false])
  })
})

describe('text of a record that would break out', () => {
  const hostile = `
=== products/spray-b/product.yaml
name: "# Big\\n\\e[31m**bold** <b>x</b> [a](b) \\u202e"
kind: pesticide
registration: 99999-3
`
  const made = noticesOn(
    '2026-03-10',
    sprayed({ product: 'spray-b', more: 'reason: "- [ ] one\\n- two | three"' }),
    duties('trade-name, reason') + hostile,
  )

  it('stays on its line in plain text, and control characters become visible', () => {
    const text = textsPlain(made.texts, { bare: false })
    expect(text).toContain('Product: # Big \\u001b[31m**bold** <b>x</b> [a](b) \\u202e\n')
    expect(text).toContain('Why: - [ ] one - two | three\n')
    expect(text).not.toContain('\u001b')
  })

  it('stays text in Markdown', () => {
    const text = textsMarkdown(made.texts, { bare: false })
    expect(text).toContain(
      '- Product: \\# Big \\\\u001b\\[31m\\*\\*bold\\*\\* \\<b\\>x\\</b\\> \\[a\\](b) \\\\u202e\n',
    )
    const own = noticesOn(
      '2026-03-10',
      sprayed({ more: 'reason: "1. first"' }),
      duties('reason') + wording('lines: {reason: "{reason}"}\nheading: "- Aviso"'),
      { language: 'es', only: 'parents' },
    )
    expect(textsMarkdown(own.texts, { bare: true })).toMatch(/^### \\- Aviso\n[\s\S]*\n- 1\\. first\n/)
  })
})
