import { dayOfUndated } from '../../ledger/undated.js'
import { isLesserWord, requiredSignalWord } from '../../measure/toxicity.js'
import { districtRule } from '../rule.js'
import { baitA } from './example-ledgers.js'

type WordArgs = { readonly word: string; readonly required: string; readonly categories: string }

export const signalWordBelowToxicity = districtRule<WordArgs>({
  id: 'signal-word-below-toxicity',
  title: 'a signal word is lower than the toxicity categories ask for',
  level: 'warning',
  judgedOn: 'whenever the ledger is read',
  why: 'The signal word is what people read first; one that is too low was copied wrongly, or the categories are those of another product.',
  remedy:
    'Look at the front of the label and write the word it prints: `signal-word: warning`. If it is as written here, look the categories up again; they are those of the product as sold.',
  source: {
    kind: 'law',
    text: '40 CFR 156.64: the signal word follows the worst category of the five routes in the table of 40 CFR 156.62',
  },
  actor: 'coordinator',
  gap: false,
  says: ({ word, required, categories }) =>
    `The signal word is entered as ${shown(word)}; the categories entered (${categories}) ask for at least ${shown(required)}, by 40 CFR 156.64 with the table of 156.62.`,
  *check(view) {
    for (const { id, file, data } of view.products.values()) {
      const word = data['signal-word']
      const required = requiredSignalWord(data.toxicity ?? {})
      // A minimum-risk product is exempt from this part of the law, and others are no pesticides.
      const isRegistered = data.kind === 'pesticide' || data.kind === 'antimicrobial'
      if (!isRegistered || word === undefined || required === null || !isLesserWord(word, required)) continue
      const categories = Object.entries(data.toxicity ?? {}).map(
        ([route, category]) => `${route} ${category}`,
      )
      yield {
        args: { word, required, categories: categories.join(', ') },
        at: { file, path: ['signal-word'] },
        from: dayOfUndated(view),
        identity: [id],
      }
    }
  },
  failing: baitA({
    'signal-word': 'caution # expect: signal-word-below-toxicity',
    toxicity: '{oral: III, eye: II}',
  }),
  passing: baitA({ 'signal-word': 'warning', toxicity: '{oral: III, eye: II}' }),
})

function shown(word: string): string {
  if (word === 'danger-poison') return 'danger with the word poison'
  return word === 'none' ? 'none' : `"${word}"`
}
