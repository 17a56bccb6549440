import { dayOfUndated } from '../../ledger/undated.js'
import { blanksFor, unknownBlanks } from '../../records/wording.js'
import { districtRule, ledgerFormat } from '../rule.js'
import { wordingParts, wordingWith } from './wording-parts.js'

type UnknownBlankArgs = {
  readonly blank: string
  readonly meant: string
  /** What may stand in braces there. */
  readonly known: readonly string[]
}

export const wordingBlankUnknown = districtRule<UnknownBlankArgs>({
  id: 'wording-blank-unknown',
  title: "the district's words for a notice or a sign have a blank that nothing fills",
  level: 'error',
  judgedOn: 'whenever the ledger is read',
  why: 'A blank that nothing fills would go out to parents in braces, and one of another matter would tell what is not asked; so the line is not used.',
  remedy:
    'Name in braces what the line is about, and beside it only {school} and {district}: `trade-name: "Producto: {trade-name}"`.',
  source: ledgerFormat,
  actor: 'coordinator',
  gap: false,
  says: ({ blank, meant, known }) =>
    meant === ''
      ? `Nothing fills {${blank}} here; what can stand here is ${known.map((name) => `{${name}}`).join(', ')}.`
      : `Nothing fills {${blank}} here; did you mean {${meant}}?`,
  *check(view) {
    for (const { file, data } of view.wordings.values())
      for (const { path, text, content } of wordingParts(data))
        for (const { blank, meant } of unknownBlanks(text, content))
          yield {
            args: { blank, meant: meant ?? '', known: blanksFor(content) },
            at: { file, path },
            from: dayOfUndated(view),
            identity: [blank],
          }
  },
  failing: wordingWith('trade-name: "Producto: {tradename}" # expect: wording-blank-unknown'),
  passing: wordingWith('trade-name: "Producto: {trade-name}, {school}"'),
})
