import { describe, expect, it } from 'vitest'
import { checkOf } from '../check/checking.js'

const wording = (lines: string, more = '') => `
=== wordings/aviso.yaml
language: es
for: [parents]
${more}
lines: {${lines}}
`

const told = (overlay: string) =>
  checkOf(overlay).standing.map(({ rule, level, at, args }) => [rule, level, at.path.join('.'), args])

describe('words of the district', () => {
  it('each unknown blank is told once, with the one that may be meant', () => {
    expect(told(wording('trade-name: "{trade-name} {tradename} {tradename} {x}"'))).toEqual([
      [
        'wording-blank-unknown',
        'error',
        'lines.trade-name',
        { blank: 'tradename', meant: 'trade-name', known: ['trade-name', 'school', 'district'] },
      ],
      [
        'wording-blank-unknown',
        'error',
        'lines.trade-name',
        { blank: 'x', meant: '', known: ['trade-name', 'school', 'district'] },
      ],
    ])
  })

  it('a blank of another matter would tell what is not asked', () => {
    expect(told(wording('date: "{date}, {time}"')).map(([rule, , path]) => [rule, path])).toEqual([
      ['wording-blank-unknown', 'lines.date'],
    ])
  })

  it('a part that is about no matter holds only the names of school and district', () => {
    expect(told(wording('date: "{date}"', 'closing: "{school}, {district}"'))).toEqual([])
    expect(
      told(wording('date: "{date}"', 'closing: "{schol}"')).map(([, , path, args]) => [path, args]),
    ).toEqual([['closing', { blank: 'schol', meant: 'school', known: ['school', 'district'] }]])
  })

  it('a misspelt blank is not told as a missing one too', () => {
    expect(told(wording('date: "{dat}"')).map(([rule]) => rule)).toEqual(['wording-blank-unknown'])
  })

  it('a line leaves out its matter, unless it holds words that a law sets', () => {
    expect(told(wording('date: "Hoy en {school}"'))).toEqual([
      ['wording-without-its-blank', 'error', 'lines.date', { content: 'date' }],
    ])
    expect(
      told(wording('warning-words: Cuidado, sensitive-persons-statement: Consulte a su médico')),
    ).toEqual([])
  })

  it('two for one text are told at the later name; in another language, or for another text, they are not', () => {
    const other = (language: string, text: string) =>
      `${wording('date: "{date}"')}\n=== wordings/zettel.yaml\nlanguage: ${language}\nfor: [${text}]\nlines: {date: "{date}"}\n`
    expect(told(other('es', 'parents'))).toEqual([
      ['wording-given-twice', 'warning', 'for.0', { text: 'parents', language: 'es' }],
    ])
    expect(told(other('de', 'parents'))).toEqual([])
    expect(told(other('es', 'staff'))).toEqual([])
  })

  it('a matter that no rulebook can ask for is an unknown key', () => {
    expect(told(wording('tradename: "{tradename}"')).map(([rule, , path]) => [rule, path])).toEqual([
      ['unknown-key', 'lines.tradename'],
    ])
  })
})
