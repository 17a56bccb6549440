import { dayOfUndated } from '../../ledger/undated.js'
import type { Place } from '../../types.js'
import { districtRule, ledgerFormat } from '../rule.js'

const secondWording = (language: string) => `
=== wordings/aviso.yaml
language: es
for: [parents, staff]
lines: {date: "Fecha: {date}"}
=== wordings/cartel.yaml
language: ${language}
for:
  - sign
  - parents # expect: wording-given-twice
lines: {date: "Día: {date}"}
`

export const wordingGivenTwice = districtRule<{ text: string; language: string }>({
  id: 'wording-given-twice',
  title: 'the district has two wordings for one text in one language',
  level: 'warning',
  judgedOn: 'whenever the ledger is read',
  why: 'Which of the two goes out to parents would hang on the names of the files.',
  remedy: 'Keep one of them, or take what both are for out of `for` in one.',
  source: ledgerFormat,
  actor: 'coordinator',
  gap: false,
  says: ({ text, language }) =>
    `There is another wording in ${language} for ${text === 'sign' ? 'the sign' : `the notice to ${text}`}.`,
  *check(view) {
    const first = new Map<string, Place>()
    const inOrder = [...view.wordings.values()].sort((a, b) => (a.file < b.file ? -1 : 1))
    for (const { file, data } of inOrder)
      for (const [n, text] of data.for.entries()) {
        const at = { file, path: ['for', n] }
        const other = first.get(`${data.language} ${text}`)
        if (!other) first.set(`${data.language} ${text}`, at)
        else
          yield {
            args: { text, language: data.language },
            at,
            related: [{ place: other, says: 'the other one' }],
            from: dayOfUndated(view),
          }
      }
  },
  failing: secondWording('es'),
  passing: secondWording('fr').replace(' # expect: wording-given-twice', ''),
})
