import type { DataMap, Draft } from '../draft.js'
import { copyOf, put, write } from '../draft.js'
import type { Fault, FaultKind } from '../fault.js'
import { reportedAt } from '../fault.js'

const inWordings = /^wordings\//
const file = 'wordings/aviso.yaml'

const aviso: DataMap = {
  language: 'es',
  for: ['parents', 'staff'],
  heading: 'Aviso sobre el uso de un plaguicida',
  opening: 'Este es un aviso sobre el uso de un plaguicida en {school}, {district}.',
  lines: {
    'trade-name': 'Producto: {trade-name}',
    date: 'Fecha: {date}',
    'sensitive-persons-statement': 'Consulte a su médico antes de entrar en el área.',
  },
}

/** Adds words of the district, and then changes one text of them. */
function worded(draft: Draft, path: readonly string[], text: string): Fault {
  write(draft, file, aviso)
  const before = copyOf(draft)
  put(draft, file, path, text)
  return { ...reportedAt(file, ...path), before }
}

/** What a district writes down of its own words for notices and signs. */
export const wordingFaults: readonly FaultKind[] = [
  {
    name: 'a blank in the words for a notice is misspelt',
    expect: 'wording-blank-unknown',
    at: inWordings,
    make: (draft) => worded(draft, ['lines', 'trade-name'], 'Producto: {trade-nam}'),
  },
  {
    name: 'the first words of a notice have a blank for the product',
    expect: 'wording-blank-unknown',
    at: inWordings,
    make: (draft) => worded(draft, ['opening'], 'En {school} se usa {trade-name}.'),
  },
  {
    name: 'a line of the words for a notice leaves out the day it is for',
    expect: 'wording-without-its-blank',
    at: inWordings,
    make: (draft) => worded(draft, ['lines', 'date'], 'Fecha: mañana en {school}'),
  },
  {
    name: 'a second record of words is for parents in the same language',
    expect: 'wording-given-twice',
    at: inWordings,
    make(draft) {
      write(draft, file, aviso)
      const other = 'wordings/cartel.yaml'
      write(draft, other, { language: 'es', for: ['sign'], lines: { date: 'Fecha: {date}' } })
      const before = copyOf(draft)
      put(draft, other, ['for'], ['sign', 'parents'])
      return { ...reportedAt(other, 'for', 1), before }
    },
  },
]
