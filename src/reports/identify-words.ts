import { isoOf } from '../measure/calendar.js'
import { identificationTable, wordFeatures } from '../records/identification.js'
import type { Day, Report } from '../types.js'

/** The words by which an animal and its traces are told, for whoever has one before them. */
export function identifyWordsReport(asOf: Day): Report {
  const { words } = identificationTable()
  return {
    report: 'identify-words',
    title: 'What to say of an animal or its traces',
    headline:
      'Say what you see, as much as you are sure of, such as --wings two --body humped --length "3 mm"; leave out the rest.',
    asOf: isoOf(asOf),
    facts: [],
    tables: [
      {
        id: 'words',
        title: 'Words',
        columns: [
          { id: 'option', title: 'option' },
          { id: 'word', title: 'word' },
          { id: 'means', title: 'means' },
        ],
        rows: wordFeatures.flatMap((feature) =>
          Object.entries(words[feature].are).map(([word, means], n) => ({
            cells: { option: n === 0 ? `--${feature}` : null, word, means },
            records: [],
          })),
        ),
        empty: 'There are no words.',
      },
    ],
    cautions: [
      'Lengths: --length for insects and the like; --length-with-tail or --length-without-tail for mice and rats; --droppings and --egg-case.',
    ],
    notExamined: [],
    incomplete: false,
  }
}
