import { isoOf } from '../measure/calendar.js'
import { identificationTable } from '../records/identification.js'
import type { Day, Report, Row, Table } from '../types.js'
import type { Candidate, Seen } from './identify-compare.js'
import { lengthNames } from './identify-compare.js'
import type { Answer, NextLook } from './identify-rank.js'
import { answerOf, nextLooks, pestsOf, ranked, stillPossible } from './identify-rank.js'
import { pestCautions } from './pest-cautions.js'
import { pestName } from './pest-name.js'

/** How many that something speaks against are still shown to people. */
const shownToPeople = 6

/** How many of those still possible the next looks are to tell apart. */
const mostRivals = 12

const ofPests = (candidates: readonly Candidate[], pests: readonly string[]) =>
  candidates.filter(({ form }) => pests.includes(form.pest))

/**
 * From what was seen to the pests it can be: each with what fits, what speaks against it and by which source; what to
 * look at next; when a specimen should go to someone who knows. Nothing here is sure: it orders what is published.
 */
export function identifyReport(seen: Seen, asOf: Day): Report {
  const candidates = ranked(seen)
  const answer = answerOf(candidates)
  const pests = answer.kind === 'one' ? [answer.pest] : answer.kind === 'none' ? [] : answer.pests
  const possible = stillPossible(candidates).slice(0, mostRivals)
  return {
    report: 'identify',
    title: 'What can it be?',
    headline: headlineOf(answer, candidates),
    asOf: isoOf(asOf),
    facts: [
      { label: 'seen', value: seenWords(seen) },
      { label: 'specimen', value: specimenWords(answer, candidates) },
    ],
    tables: [
      candidateTable(candidates),
      nextTable(nextLooks(answer.kind === 'several' ? ofPests(possible, pests) : possible, seen)),
      noteTable(pests),
    ],
    cautions: [
      'This orders what is published or commonly known; it is no identification. Someone who knows the animal makes sure, with the animal in hand.',
      ...lengthCautions(seen),
      ...pestCautions(pests.length > 0 ? pests : pestsOf(possible)),
    ],
    notExamined: [],
    incomplete: false,
  }
}

function headlineOf(answer: Answer, candidates: readonly Candidate[]): string {
  switch (answer.kind) {
    case 'one': {
      const best = candidates[0]
      return `What was seen fits the ${pestName(answer.pest)} best: ${best?.fits.length ?? 0} of its marks fit and none speaks against it.`
    }
    case 'several':
      return `It cannot be told yet: what was seen fits ${namesOf(answer.pests)} alike.`
    case 'size-alone':
      return `A size, a place or an hour alone names nothing: ${answer.pests.length === 1 ? `it fits the ${pestName(answer.pests[0] ?? '')}, and much else besides` : `it fits ${namesOf(answer.pests)}`}; look at the animal itself.`
    case 'none':
      return candidates.length === 0
        ? 'Nothing in the table fits what was seen.'
        : 'No pest in the table fits everything that was seen.'
  }
}

function namesOf(pests: readonly string[]): string {
  const names = pests.slice(0, 5).map((pest) => `the ${pestName(pest)}`)
  const more = pests.length - names.length
  if (more > 0) return `${names.join(', ')} and ${more} more`
  return names.length === 1 ? (names[0] ?? '') : `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`
}

function seenWords({ measured, words }: Seen): string {
  const { words: known } = identificationTable()
  return [
    ...Object.entries(measured).map(
      ([feature, millimetres]) => `${lengthNames[feature as keyof typeof lengthNames]} ${millimetres} mm`,
    ),
    ...Object.entries(words).flatMap(([feature, list]) =>
      list.map((word) => `${feature}: ${known[feature as keyof typeof known].are[word] ?? word}`),
    ),
  ].join('; ')
}

function specimenWords(answer: Answer, candidates: readonly Candidate[]): string {
  const send = 'keep one, whole and dry or in alcohol, and ask the county extension office'
  if (answer.kind !== 'one') return `${send}, unless the next looks below tell them apart`
  const why = candidates.find(({ form }) => form.pest === answer.pest && form.specimen !== undefined)?.form
    .specimen
  return why === undefined ? 'only if something does not fit on a closer look' : `${send}: ${why}`
}

function lengthCautions({ measured }: Seen): string[] {
  return measured.length === undefined
    ? []
    : [
        'For a mouse or a rat say whether the tail is in the length (--length-with-tail, --length-without-tail); --length is of insects and the like, from head to the tip of the body.',
      ]
}

function candidateTable(candidates: readonly Candidate[]): Table {
  return {
    id: 'candidates',
    title: 'What it can be, best first',
    columns: [
      { id: 'pest', title: 'pest' },
      { id: 'form', title: 'form' },
      { id: 'fits', title: 'fits' },
      { id: 'against', title: 'against it, since it has' },
      { id: 'unsaid', title: 'nothing known of', for: 'work' },
      { id: 'pest-id', title: 'pest in records', for: 'work' },
      { id: 'sources', title: 'sources', for: 'work' },
    ],
    rows: candidates.map(
      ({ form, fits, against, unsaid }): Row => ({
        cells: {
          pest: pestName(form.pest),
          form: form.form,
          fits: fits.map(({ says }) => says).join('; '),
          against: against.map(({ says }) => says).join('; ') || null,
          unsaid: [...new Set(unsaid)].join(', ') || null,
          'pest-id': form.pest,
          sources: [...new Set([...fits, ...against].flatMap(({ sources }) => sources))].join('; '),
        },
        records: [],
      }),
    ),
    shownToPeople,
    empty: 'No pest in the table fits anything that was seen.',
  }
}

function nextTable(looks: readonly NextLook[]): Table {
  const { words } = identificationTable()
  return {
    id: 'next',
    title: 'What to look at next',
    columns: [
      { id: 'look', title: 'look' },
      { id: 'when-it-is', title: 'if it is' },
      { id: 'speaks-for', title: 'it speaks for' },
      { id: 'option', title: 'option', for: 'work' },
    ],
    rows: looks.slice(0, 3).flatMap(({ feature, asks, answers }) =>
      answers.map(
        ({ word, pests }, n): Row => ({
          cells: {
            look: n === 0 ? asks : null,
            'when-it-is': words[feature].are[word] ?? word,
            'speaks-for': pests.map(pestName).join(', '),
            option: `--${feature} ${word}`,
          },
          records: [],
        }),
      ),
    ),
    empty: 'Nothing in the table would tell them further apart.',
  }
}

function noteTable(pests: readonly string[]): Table {
  const rows = Object.values(identificationTable().forms)
    .filter(({ pest }) => pests.includes(pest))
    .flatMap(({ pest, notes }) => (notes ?? []).map((note) => ({ pest, note })))
  return {
    id: 'notes',
    title: 'Good to know',
    columns: [
      { id: 'pest', title: 'pest' },
      { id: 'note', title: 'note' },
      { id: 'source', title: 'source' },
    ],
    rows: rows.map(
      ({ pest, note }): Row => ({
        cells: { pest: pestName(pest), note: note.says, source: note.source },
        records: [],
      }),
    ),
    empty: 'Nothing more is noted.',
  }
}
